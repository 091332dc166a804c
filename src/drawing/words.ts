/**
 * Every word that is printed on a drawing or a paper, in one place, ready to be put into another tongue. What the user
 * wrote, the cautions of a plan and the names of sections come from elsewhere.
 */

export const DRAWING_WORDS = {
  keep: (length: string) => `keep ${length}`,
  scrap: (length: string) => `scrap ${length}`,
  spoiled: 'spoiled',
  bar: (mark: string) => `Bar ${mark}`,
  barInWords: (length: string, pieces: string) => `A bar ${length} mm long, cut from its squared end: ${pieces}.`,
  nothingCut: 'nothing cut',
  bundle: (id: string) => `Bundle ${id}`,
  bundleInWords: (bars: number, rows: number, across: string, up: string) =>
    `Cross-section of ${bars} bars in ${rows} ${rows === 1 ? 'row' : 'rows'}, ${across} mm across and ${up} mm high.`,
  jointed: 'jointed',
  plan: (name: string) => `${name} from above`,
  planTier: (name: string, tier: number) => `${name}, tier ${tier} from above`,
  longSection: (name: string) => `${name}, long section`,
  crossSection: (name: string, along: string) => `${name}, section at ${along}`,
  voidInWords: (numbers: string) => `Bundles by their loading order: ${numbers || 'none'}.`,
  vessel: 'Where the voids lie, from above',
  vesselInWords: (voids: string) => `Voids along the vessel, bow to the right: ${voids}.`,
  keepOut: 'keep out',
  opening: 'opening',
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

export const FRAME_WORDS = {
  facts: (day: string, plan: string) => `${day}   plan ${plan}`,
  page: (n: number, of: number) => `page ${n} of ${of}`,
  caution:
    'Arithmetic, not approval: stability, structure and lifting are for licensed or competent people, her rules and local law to decide. ' +
    'Masses are reckoned from sections as stated; weigh before you trust them.',
} as const;

export const SAW_WORDS = {
  title: 'Saw sheet',
  stopsHead: 'Stops in cutting order, longest first',
  stops: {
    stop: 'stop mm',
    pieces: 'pieces',
    running: 'so far',
    minutes: 'time',
    sections: 'section',
    bars: 'from bars',
    found: 'found',
  },
  gang: (gang: number) => (gang === 1 ? 'Cut one bar at a time.' : `Cut ${gang} bars at a time, clamped as one.`),
  rules: (kerf: string, tolerance: string, kg: string) =>
    `Kerf ${kerf} mm, cut within ${tolerance} mm. Measure the first pieces of each stop; where the kerf or a length is off, stop and plan again. ${kg}`,
  sum: 'all',
  safety:
    'Cut ashore, work clamped, guard on; eyes, ears, lungs and hands covered. Zinc or unknown coating: draw the fume away. Vent closed tubes before they are cut. Deburr, and coat every cut end.',
  totals: (pieces: number, bars: number, cuts: number) => `${pieces} pieces from ${bars} bars in ${cuts} cuts.`,
  twoPeople: (bars: string) => `Whole bars heavier than one person lifts here (two people, rollers): ${bars}.`,
  barsHead: 'Bar by bar',
  alike: (n: number, marks: string) => (n === 1 ? marks : `${n} alike: ${marks}`),
  barFacts: (section: string, length: string, lot: string, coating: string) =>
    `${section}, ${length} mm, lot ${lot}, ${coating}`,
  coatings: {
    zinc: 'zinc coated',
    bare: 'bare',
    paint: 'painted',
    unknown: 'coating unknown: treat as zinc and lead paint',
  },
  squaring: (length: string) => `square each end: ${length} mm off`,
  piece: 'piece',
  stop: 'stop',
  distance: 'cut at',
  distances: 'Cut at: running distance from the squared end at the left to the far end of each piece.',
  note: 'found',
  bar: 'bar',
  left: 'left over:',
  nothingLeft: 'nothing',
  spoiled: (spans: string) => `spoiled, hatched: ${spans}`,
  span: (from: string, to: string) => `${from} to ${to}`,
} as const;

export const PAPER_NAMES = {
  sawSheet: { title: 'Saw sheet', about: 'The stops in cutting order, then every bar drawn to scale.' },
  tags: { title: 'Tags', about: 'One tag a bundle, to cut out and tie on.' },
  tagList: { title: 'Tag list', about: 'The tags as plain text, for a paint marker.' },
  stowage: { title: 'Stowage sheets', about: 'The loading sequence, then each void tier by tier.' },
} as const;

export const TAG_WORDS = {
  title: 'Tags',
  head: 'Cut out on the lines, punch the eyelet, tie on. Weigh the bundle and correct the mass in ink.',
  place: (run: number, tier: number, order: number) => `run ${run}, tier ${tier}, order ${order}`,
  bars: (bars: number, length: string, section: string) => `${bars} × ${length} mm, ${section}`,
  lift: (limit: string) => `lift limit stated here: ${limit} kg`,
  plan: 'plan',
  tied: 'tied',
  stowed: 'stowed',
  listTitle: 'Tag list',
  listIntro: 'Paint the mark and the mass on the bundle with a paint marker where a paper tag would not last.',
  heads: { paint: 'paint on', mass: 'mass', void: 'void', place: 'place', bars: 'bars' },
} as const;

export const STOWAGE_WORDS = {
  title: 'Stowage sheets',
  notSecured: 'NOT SECURED, DO NOT GO TO SEA',
  sequenceHead: 'Loading sequence over all voids',
  sequenceIntro:
    'Lowest first, port and starboard turn about, so that she does not list on the way. Alongside or ashore, pumps clear, nobody below the load. Read her marks at each quarter; where they are not what you expect, stop.',
  heads: {
    load: 'no.',
    bundle: 'bundle',
    void: 'void',
    place: 'place',
    mass: 'mass',
    aboard: 'aboard',
    moment: 'listing',
    order: 'order',
    runTier: 'run, tier',
    bars: 'bars',
    from: 'along / across',
    up: 'up',
  },
  place: (run: number, tier: number, order: number) => `run ${run}, tier ${tier}, order ${order}`,
  even: 'upright',
  moment: (moment: string, starboard: boolean) => `${moment} kg·m ${starboard ? 'stbd' : 'port'}`,
  quarters: [
    'A quarter is in: read the marks.',
    'Half is in: read the marks.',
    'Three quarters are in: read the marks.',
    'All is in: read the marks.',
  ],
  marks: ['forward', 'aft', 'port', 'starboard'],
  bundles: (n: number, mass: string) => `${n} ${n === 1 ? 'bundle' : 'bundles'}, ${mass}.`,
  centre: (x: string, y: string, z: string) => `Centre x ${x}, y ${y}, z ${z} m.`,
  fill: (percent: string) => `Fill ${percent} %.`,
  lies: (axis: string) => `Bars lie ${axis}.`,
  dunnage: (mm: string) => `Dunnage ${mm} mm under the ground tier, kept free for water to run.`,
  most: (mass: string) => `Never more here than ${mass}.`,
  gaps: (runs: string, across: string, ends: string) =>
    `Finger room ${runs} mm between runs, ${across} mm between neighbours; ${ends} mm clear at the ends.`,
  tierLine: (tier: number, orders: string, mass: string) =>
    `${tier === 1 ? 'Ground tier' : `Tier ${tier}`}, from above: order ${orders}, ${mass}`,
  sectionLine: (run: number, along: string) => `Section through run ${run}, at ${along} mm along`,
  orderHead: 'Order in',
  runTier: (run: number, tier: number) => `${run}, ${tier}`,
  bars: (bars: number, length: string, section: string) => `${bars} × ${length}, ${section}`,
  breaking: 'Breaking out: from the last order number back to the first.',
  packing: (run: number, least: string, most: string) =>
    `Run ${run}: packing ${least} mm high at its first end, ${most} mm at its other.`,
  frames:
    'The weight rests on frames and bearers, never on planking, bare shell, shafts, tanks or bolts. Along and across are to the corner nearest the void’s beginning and its port (or after) side; up from its bottom.',
  chocks: 'Chock side and end gaps so that nothing shifts; never wedge tight between frames: rust swells.',
} as const;
