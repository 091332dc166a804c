/** Half millimetres: what places and sizes of bundles are told in. */

/** Up to the next multiple of 0.5 mm; a hair over one is not rounded up. */
export function ceilHalf(value: number): number {
  return Math.ceil(value * 2 - 1e-9) / 2;
}

/** Down to the last multiple of 0.5 mm; a hair under one is not rounded down. */
export function floorHalf(value: number): number {
  return Math.floor(value * 2 + 1e-9) / 2;
}
