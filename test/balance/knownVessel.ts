/** A vessel of which all is stated that marks, list and roll are told by. */
export const vessel = {
  displacement: 900,
  gm: 0.4,
  vcg: 0.5,
  waterlineLength: 8,
  beam: 2.4,
  lcf: 4,
  kgPerCm: 60,
  kgmPerCm: 9,
};
