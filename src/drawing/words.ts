/** Every word that is printed on a drawing, in one place, ready to be put into another tongue. The papers' own words are in the server's `paper/words.ts`. */

export const DRAWING_WORDS = {
  keep: (length: string) => `keep ${length}`,
  scrap: (length: string) => `scrap ${length}`,
  spoiled: 'spoiled',
  bar: (mark: string) => `Bar ${mark}`,
  barInWords: (length: string, pieces: string) => `A bar ${length} long, cut from its squared end: ${pieces}.`,
  nothingCut: 'nothing cut',
  bundle: (id: string) => `Bundle ${id}`,
  bundleInWords: (bars: number, rows: number, across: string, up: string) =>
    `Cross-section of ${bars} bars in ${rows} ${rows === 1 ? 'row' : 'rows'}, ${across} across and ${up} high.`,
  jointed: 'jointed',
  plan: (name: string) => `${name} from above`,
  planTier: (name: string, tier: number) => `${name}, tier ${tier} from above`,
  longSection: (name: string) => `${name}, long section`,
  crossSection: (name: string, along: string) => `${name}, section at ${along}`,
  iso: (name: string) => `${name} as a solid, from above its near corner`,
  voidInWords: (numbers: string) => `Bundles by their loading order: ${numbers || 'none'}.`,
  holdPlan: (name: string) => `What holds ${name} down, from above`,
  holdCross: (name: string, mark: string, along: string) =>
    `What holds ${name} down, across at ${mark}, ${along} along`,
  holdAssumedAt: (name: string, mark: string) => `What holds ${name} down, across where ${mark} is taken to lie`,
  holdInWords: (placed: string, assumed: string, blocks: string, unit = ', mm along') =>
    [
      placed && `At stated places${unit}: ${placed}.`,
      assumed && `Dashed, place not stated: ${assumed}.`,
      blocks && `Blocked: ${blocks}.`,
    ]
      .filter((words) => words !== '')
      .join(' ') || 'Nothing is entered that can be drawn.',
  unsettled: 'dashed: place not stated, to be settled',
  brokenOff: 'broken off: longer than drawn',
  notDrawn: (marks: string) => `not drawn: ${marks}; the table says why`,
  anchorage: 'where it is made fast: not stated',
  betweenBolts: (length: string) => `${length} between bolts`,
  vessel: 'Where the voids lie, from above',
  vesselInWords: (voids: string) => `Voids along the vessel, bow to the right: ${voids}.`,
  keepOut: 'keep out',
  opening: 'opening',
  bearer: 'bearer',
  tier: (n: number) => `tier ${n}`,
  run: (n: number) => `run ${n}`,
  ends: {
    'fore-and-aft': { least: 'aft', most: 'forward' },
    athwartships: { least: 'port', most: 'starboard' },
  },
  sides: {
    'fore-and-aft': { least: 'port', most: 'starboard' },
    athwartships: { least: 'aft', most: 'forward' },
  },
  scale: (scale: string) => `scale 1 : ${scale}`,
  scaleBar: (length: string) => `${length} mm`,
  centreline: 'centreline',
  waterline: 'waterline',
} as const;
