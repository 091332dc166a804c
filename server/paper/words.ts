/**
 * Every word that is printed on a paper, in one place, ready to be put into another tongue; those of the stowing papers
 * are in `stowageWords.ts`, of the making list in `makingWords.ts`, names of papers and tables in `names.ts`, those on
 * drawings in `src/drawing/words.ts`. What the user wrote, the cautions of a plan, and the sentences of balance,
 * hold-down and lift come from where they are worked out.
 */
import { many } from '../words.ts';

export const FRAME_WORDS = {
  facts: (day: string, plan: string) => `${day}   plan ${plan}`,
  page: (n: number) => `page ${n} of`,
  goesOn: (what: string) => `continued: ${what}`,
  pageOf: (n: number, of: number) => `page ${n} of ${of}`,
  caution: (isWeighed: boolean) =>
    'Arithmetic, not approval: stability, structure and lifting are for licensed or competent people, her rules and local law to decide. ' +
    `Masses ${isWeighed ? 'of what was not weighed ' : ''}are reckoned from sections as stated; weigh before you trust them.`,
  outside: (voids: string, more: number) =>
    `Part of the way into ${voids}${more > 0 ? ` and ${more} more` : ''} is outside the lifting method: no published guide covers it; try with less first.`,
} as const;

export const SAW_WORDS = {
  title: 'Saw sheet',
  stopsHead: 'Stops in cutting order, longest first',
  stops: {
    stop: 'stop mm',
    stopInches: 'in inches',
    pieces: 'pieces',
    running: 'so far',
    minutes: 'time',
    sections: 'section',
    bars: 'from bars',
    found: 'found',
  },
  gang: (gang: number) => (gang === 1 ? 'Cut one bar at a time.' : `Cut ${gang} bars at a time, clamped as one.`),
  rules: (kerf: string, tolerance: string, kg: string) =>
    `Kerf ${kerf}, cut within ${tolerance}. Measure the first pieces of each stop; where the kerf or a length is off, stop and plan again. ${kg}`,
  inches: 'Inches are to the nearest 1/32, up to 0.4 mm off: set stops by the millimetres where the tape has them.',
  distanceInches: 'or, inches',
  sum: 'all',
  safety:
    'Cut ashore, work clamped, guard on; eyes, ears, lungs and hands covered. Zinc or unknown coating: draw the fume away. Vent closed tubes before they are cut. Deburr, and coat every cut end.',
  totals: (pieces: number, bars: number, cuts: number) =>
    `${many(pieces, 'piece')} from ${many(bars, 'bar')} in ${many(cuts, 'cut')}.`,
  twoPeople: (bars: string) => `Whole bars heavier than one person lifts here (two people, rollers): ${bars}.`,
  barsHead: 'Bar by bar',
  alike: (n: number, marks: string) => (n === 1 ? marks : `${n} alike: ${marks}`),
  continued: (title: string) => `${title}, continued`,
  barFacts: (section: string, length: string, lot: string, coating: string) =>
    `${section}, ${length}, lot ${lot}, ${coating}`,
  coatings: {
    zinc: 'zinc coated',
    bare: 'bare',
    paint: 'painted',
    unknown: 'coating unknown: treat as zinc and lead paint',
  },
  cares: {
    zinc: 'Zinc: saw it cold and slow, no torch, no dry grinding; draw the fume away, mask on.',
    bare: '',
    paint: 'Old paint may be lead: no dry grinding, no burning; P3 mask, catch the dust, wash before eating.',
    unknown:
      'Treat it as zinc and as lead paint: no dry grinding, no torch; draw the fume away, P3 mask, catch the dust.',
  },
  vent: 'Closed? Vent it before it is cut.',
  squaring: (length: string) => `square each end: ${length} off`,
  piece: 'piece',
  stop: 'stop',
  distance: 'cut at',
  start: 'first cut',
  distances:
    'Every distance here, of what is left over or spoiled too, runs from the squared end at the left; behind a first cut “cut at” runs from that. Cut at: to the far end of each piece; first cut: to its near end, where what lies before it is lost.',
  partFirst: (bars: string) =>
    `Before the first stop, part each of these at its first cut, as it says below, and cut its parts as bars of their own: ${bars}.`,
  uncut: (count: number, marks: string) =>
    `${count === 1 ? '1 piece needs no cut: its bar is' : `${count} pieces need no cut: their bars are`} as long as that. Strike out any older number and write the new one: ${marks}.`,
  noCut: 'NO CUT: it is as long as its piece. Strike out any older number, write the new one, and tie it as it is.',
  parting: (places: readonly string[]) =>
    `Part it first: saw it through at ${places.join(' and ')} from the squared end${places.length > 1 ? ', the farthest first' : ''}, the kerf to the left of that, where it is lost. Then cut each part at its stops, from its own left end.`,
  tight: (wider: string, tolerance: string, count: number, of: number, bars: string) =>
    `Little to spare: with a kerf ${wider} wider than that, the last piece of ${count} of ${of} bars comes out more than ${tolerance} short. Measure what is left of them before it is cut: ${bars}.`,
  marking: (jointed: boolean) =>
    `Write its number, p and figures, on every piece as it is cut. Pieces of one lot and one length may change places${jointed ? ', parts of jointed bars among them' : ''}.`,
  note: 'found',
  part: (bundle: string, part: number, parts: number) => `${bundle} part ${part}/${parts}`,
  bar: 'bar',
  left: 'left over:',
  nothingLeft: 'nothing: measure the bar before its first cut, the last piece takes what there is of it',
  spoiled: (spans: string) => `spoiled, hatched: ${spans}`,
  span: (from: string, to: string) => `${from} to ${to}`,
} as const;

export const TAG_WORDS = {
  title: 'Tags',
  head: 'Cut out on the lines, punch the eyelet, tie on. Weigh the bundle and correct the mass in ink.',
  place: (run: number, tier: number, order: number) => `run ${run}, tier ${tier}, order ${order}`,
  bars: (bars: number, length: string, section: string, inches = '') =>
    `${bars} × ${length} mm${inches === '' ? '' : ` (${inches})`}, ${section}`,
  lift: (limit: string, pounds = '') => `lift limit stated here: ${limit} kg${pounds === '' ? '' : ` (${pounds})`}`,
  /** Large beside the mass, a line each; and what it is over, under it. */
  twoPeople: ['TWO', 'PEOPLE'],
  tackle: ['TACKLE', 'OR HOIST'],
  heavyWhy: (tackle: boolean, over: string) =>
    `${tackle ? 'Hoist or tackle, not by hand' : 'Two people or a mechanical aid'}: over ${over}.`,
  jointed: (n: number) => `${n} jointed`,
  trim: 'trim part',
  byScale: 'mass off the scale',
  becket: (count: number, each: string, cord: string) =>
    `${count === 1 ? 'becket' : `${count} beckets, each`}: ${each} mm of ${cord} mm cord`,
  endFirst: 'goes in end first: end caps, and a tie round its ends',
  plan: 'plan',
  tied: 'tied',
  stowed: 'stowed',
  listTitle: 'Tag list',
  listIntro: 'Paint the mark and the mass on the bundle with a paint marker where a paper tag would not last.',
  heads: { paint: 'paint on', mass: 'mass', void: 'void', place: 'run, tier, order', bars: 'bars' },
  shortPlace: (run: number, tier: number, order: number) => `${run}, ${tier}, ${order}`,
} as const;

export const BUNDLE_WORDS = {
  title: 'Bundle sheet',
  intro:
    'Ends deburred, every bar and cut end coated and dry before it is tied. Two or three bands, not a full wrap: a full wrap holds salt water, unless it is to stay dry. Becket to the middle of the mass, end covers on, tag on.',
  rules:
    'Weigh each bundle. The mass may differ by the ± shown: the saw’s tolerance, and 5 % of lots that were reckoned or 1 % of lots that were weighed (our assumption). Outside it, find out why before it is carried.',
  pieces: (jointed: boolean) =>
    `Pieces by the numbers written on them at the saw; of one lot and one length any will do for another${jointed ? ', parts of jointed bars too' : ''}.`,
  bars: (bars: number, length: string, section: string, inches = '') =>
    `${bars} × ${length} mm${inches === '' ? '' : ` (${inches})`}, ${section}`,
  rows: (arrangement: string, columns: string, onEdge: boolean) =>
    `rows from the bottom: ${columns}${arrangement === 'nested' ? ', nested in the hollows' : ''}${onEdge ? ', on edge' : ''}`,
  bands: (bands: number, from: string) => `${bands} bands, the outer ones ${from} mm from the ends`,
  becket: (count: number, each: string, cord: string | null) =>
    `${count === 1 ? 'becket' : `${count} beckets, each`}: ${each} mm of ${cord === null ? 'cord' : `${cord} mm cord`}`,
  becketNone: 'becket: none stated',
  limit: (limit: string, pounds = '') =>
    `over ${limit} kg${pounds === '' ? '' : ` (${pounds})`} on the scale: do not carry it, take a bar out`,
  size: (along: string, across: string, up: string, inches = '') =>
    `tied size ${along} × ${across} × ${up} mm (along, across, up)${inches === '' ? '' : `: ${inches}`}`,
  row: (row: number, pieces: string) => `row ${row}: ${pieces}`,
  part: (piece: string, length: string) => `${piece} ${length}`,
  jointed: (pieces: string, end: string) => `${pieces} (jointed, from ${end})`,
  joints: (n: number) => `${n} of them jointed`,
  jointRules:
    'A jointed bar, crossed in the picture and never the outermost of its row, is two or three pieces butted end to end, in the order given. Lay all bars of a bundle from the same end, so that no two joints lie side by side, and set a band at each joint.',
  expected: (mass: string, tolerance: string) => `${mass} ± ${tolerance}`,
  expectedPounds: (mass: string, tolerance: string) => `${mass} ± ${tolerance} on a scale in pounds`,
  scaleUnit: 'Write kg or lb behind what the scale said.',
  weighed: 'weighed, kg',
  weighedEither: 'weighed, kg or lb',
  filledIn: 'What was weighed already is filled in.',
} as const;

export const TRY_WORDS = {
  title: 'Try first',
  hardest: (bundle: string, space: string) => `The hardest to get in: ${bundle}, ${space}`,
  what: (bars: number, length: string, section: string, mass: string, by: string) =>
    `${bars} × ${length}, ${section}, ${mass}${by}.`,
  size: (along: string, across: string, up: string) => `Tied: ${along} along, ${across} across, ${up} up.`,
  opening: (along: string, across: string, endFirst: boolean, percent: string) =>
    `It goes ${endFirst ? 'end first' : 'flat'} through an opening of ${along} × ${across} mm and takes up ${percent} % of it.`,
  noOpening: (length: string, limit: string) =>
    `No opening is stated. It takes up ${length} % of the free length of its void and ${limit} % of the lift limit.`,
  steps:
    'Make this bundle up, offer it through the hatch and into its place, and take it out again. Cut the templates in cardboard and try them at their places. Only then cut the rest.',
  cutsHead: 'Measure the first ten cuts',
  cutsIntro:
    'Write down what the rule and the scale say. Where lengths, kerf or mass differ from the job, correct the job and plan again before going on.',
  cutsUnits: 'Write each with its unit.',
  cutHeads: {
    piece: 'piece',
    bar: 'from bar',
    asked: 'asked',
    measured: 'measured mm',
    measuredEither: 'measured',
    kerf: 'kerf mm',
    kerfEither: 'kerf',
    mass: 'weighed kg',
    massEither: 'weighed, kg or lb',
  },
  template: 'Template:',
  station: (along: string) => `station at ${along} mm along`,
  everywhere: 'the same all along',
  upright: (words: string, side: string) => `${words}; ${side} to the left`,
  turned: (words: string, side: string) => `${words}; turned: its top to the right, ${side} up`,
  tile: (row: number, column: number, rows: number, columns: number) =>
    `row ${row} of ${rows}, column ${column} of ${columns}`,
  check: (length: string) => `must measure ${length}: print at full size`,
} as const;

export const REGISTER_WORDS = {
  title: 'Ballast register',
  intro: (day: string, unit: string) =>
    `What is planned to be stowed, ${day}. Keep it with the ship’s papers and write every change in. Masses are those of the bundles with their bands. x forward from the after end of the waterline, y to starboard, z up from the underside of the keel, ${unit}.`,
  introNow:
    'Now: what the scale said where a bundle was weighed, as planned where it was not; the centres are those of the masses now.',
  heads: {
    void: 'void',
    bundles: 'bundles',
    planned: 'planned',
    weighed: 'weighed, kg',
    weighedEither: 'weighed',
    now: 'now',
    lie: 'bars lie',
  },
  lie: { 'fore-and-aft': 'fore-and-aft', athwartships: 'athwartships' },
  places: 'm',
  placesFeet: 'ft with m below',
  total: 'total',
  totalOfPlan: 'this plan',
  lying: (space: string, what: string, aboard: boolean) =>
    `${space}, beside this plan: ${what}${aboard ? ' (in her own figures)' : ''}`,
  inAll: 'in all',
  hold: (held: string[], open: string[]) =>
    `${held.length === 0 ? '' : `Hold-down worked out: ${held.join(', ')}. `}${open.length === 0 ? '' : `NOT SECURED: ${open.join(', ')}.`}`,
  weighedPart: (mass: string, count: number, of: number, between: string) => `${mass}${between}(${count} of ${of})`,
  weighedOf: (count: number, of: number, mass: string, reckoned: string) =>
    `${count} of ${of} bundles weighed: ${mass}, planned ${reckoned}.`,
  differs: (bundle: string, weighed: string, planned: string, tolerance: string) =>
    `${bundle} ${weighed}, planned ${planned} ± ${tolerance}`,
  beyond: (list: string) => `Weighed beyond the ± of the bundle sheet, to be looked into: ${list}.`,
  over: (bundles: string, several: boolean, weighed: string, limit: string) =>
    `${bundles} ${several ? 'up to ' : ''}${weighed}, limit ${limit}`,
  overLimit: (list: string) => `Weighed over the lift limit of its void: ${list}.`,
  overloads: (list: string) =>
    `MORE THAN IT MAY CARRY, as weighed, with the planned mass of what is not weighed yet: ${list}. Take bars or a bundle out, and weigh again.`,
  after:
    'After stowing: marks read, roll timed, compass swung, heading sensor checked; the yard is told her new weight before the next lift-out.',
  weighedTotal: 'Weighed total, kg',
  weighedTotalEither: 'Weighed total, kg or lb',
  lines: [
    'Hold-down fitted, and by whom',
    'Marks read: forward, aft, port, starboard',
    'Changes since',
    'Date, name, signature',
  ],
} as const;

/** Of the record, on the register. */
export const RECORD_WORDS = {
  head: (day: string) => `By the record, last written to on ${day}`,
  others: (serials: string) =>
    `What was stowed by plan ${serials} of this job is in the record of that plan, and not here: the same mark is another bundle there.`,
  stands: (marks: string) =>
    `What was left of this plan is planned anew in a job of its own: of this plan ${marks === '' ? 'nothing goes in' : `only ${marks} stay or go in`}. What that job has, with what stands by this plan beside it, is on its own register.`,
  /** The last goes first. */
  restOf: (serials: readonly number[]) =>
    `This is a plan of what was left of ${serials.map((serial) => `plan ${serial}`).join(', that of ')}: what lies in her by ${serials.length === 1 ? 'that plan is in the record of that plan' : 'those plans is in their records'}.`,
  goesFirst: (serial: number, marks: string) => `By plan ${serial} go in before anything of this one: ${marks}.`,
  countsTwice: (serial: number, marks: string) =>
    `NO LONGER TRUE: in her by the record of plan ${serial}, and not in as this plan was made, which counts their steel and their room as its own: ${marks}.`,
  isGone: (serial: number, marks: string) =>
    `Lifted out or left ashore by the record of plan ${serial}, and counted as in by this plan: ${marks}.`,
  wasMoved: (serial: number, marks: string) =>
    `Moved by plan ${serial} since this plan's job was made, and counted where they lay before: ${marks}.`,
  sum: (count: number, of: number, mass: string, centre: string | null, effect: string | null, withMore: boolean) =>
    `In her: ${count} of ${of} bundles, ${mass}${centre === null ? '' : `, their centre at ${centre}`}.${effect === null ? '' : ` ${effect} That is with what is in${withMore ? ' and what lies beside this plan' : ''}.`}`,
  centre: (x: string, y: string, z: string) => `x ${x}, y ${y}, z ${z}`,
  after: (serial: number, mass: string, voids: string) => `Beside these by plan ${serial}: ${mass} in ${voids}.`,
  out: (marks: string, mass: string) => `LIFTED OUT AND NOT PUT BACK: ${marks}; ${mass}.`,
  ashore: (marks: string, mass: string) => `Left ashore after the trial, and not in her: ${marks}; ${mass}.`,
  away: (marks: string, mass: string) =>
    `Lifted out, or left ashore, by the record: ${marks}; ${mass}. What is told here is with them in.`,
  rests: (bundle: string, on: string) => `${bundle} on ${on}`,
  hanging: (list: string, more: number) =>
    `In over what is not in by the record, to be looked at: ${list}${more > 0 ? `, and ${more} more` : ''}.`,
  loosened: (voids: string) =>
    `What holds down ${voids} was loosened to lift out: it holds nothing until it is fitted again and looked at by a competent person.`,
  planned: 'With all of it in, as planned:',
  plannedScaled: 'With all of it in where it was planned, at what the scale said where it was weighed:',
  heads: { void: 'void', in: 'in', stowed: 'stowed', out: 'out now' },
  of: (count: number, of: number) => `${count} of ${of}`,
  days: (first: string, last: string) => `${first} to ${last}`,
  historyHead: 'What became of each void',
  history: (space: string, told: string) => `${space}: ${told}`,
  act: (day: string, bundles: string, done: string) => `${day} ${bundles} ${done}.`,
  did: {
    stowed: 'stowed',
    'lifted out': 'lifted out',
    'put back': 'put back',
    'left ashore': 'left ashore after the trial',
    moved: 'moved',
  },
  noted: (did: string, note: string) => `${did}, “${note}”`,
  moved: (note: string) => `moved ${note}`,
  lies: (note: string) => `lies otherwise than planned, “${note}”`,
  liesAsPlanned: 'lies as planned after all',
  seen: (note: string) => `seen, “${note}”`,
} as const;

export const TAKEN_WORDS = {
  head: 'Read afloat, in the order taken',
  earlierHead: (serial: number) => `Read afloat before, written with plan ${serial}`,
  heads: {
    number: 'no.',
    taken: 'taken',
    who: 'read by',
    forward: 'fwd m',
    forwardFeet: 'fwd ft, m',
    aft: 'aft m',
    aftFeet: 'aft ft, m',
    list: 'list',
    period: 'roll s',
    aboard: 'of a plan in her',
  },
  list: (degrees: string, side: number) => (side === 0 ? 'none' : `${degrees}° ${side < 0 ? 'port' : 'stbd'}`),
  aboard: (mass: string, bundles: number, plan: number) =>
    bundles === 0 ? `nothing of ${plan}` : `${mass} in ${bundles}, plan ${plan}`,
  beside: (number: number, told: string) => `No. ${number}: ${told}`,
  note: (note: string) => `Besides: “${note}”.`,
  before: (told: string) => `Corrected; it said before: ${told}`,
  against: (lines: string, from: string, slipped: boolean) =>
    `${slipped ? 'Marks that do not go together.' : 'Read otherwise than reckoned from the record.'} ${lines} ${from}`,
  struck: 'TAKEN BACK, does not count:',
} as const;

export const BALANCE_WORDS = {
  title: 'Balance sheet',
  intro:
    'What the ballast of this plan does to her, as far as small angles and stated figures can tell. Masses are those of the bundles with their bands.',
  scaled: 'Where bundles were weighed they are what the scale said.',
  noVessel:
    'Nothing is stated of the vessel: the effect on her is not known. Enter length, beam, draughts and displacement.',
  assumed: 'Assumed',
  moments: 'Moments, void by void',
  heads: {
    void: 'void',
    mass: 'mass kg',
    x: 'x m',
    y: 'y m',
    z: 'z m',
    mx: 'm·x kg·m',
    my: 'm·y kg·m',
    mz: 'm·z kg·m',
  },
  headsFeet: {
    void: 'void',
    mass: 'mass lb, kg',
    x: 'x ft, m',
    y: 'y ft, m',
    z: 'z ft, m',
    mx: 'm·x lb·ft, kg·m',
    my: 'm·y lb·ft, kg·m',
    mz: 'm·z lb·ft, kg·m',
  },
  total: 'all',
  listNow: (list: string) => `her list now, ${list}`,
  withList: 'all, with her list',
  content: (what: string, space: string) => `${what}, lying in ${space}`,
  aboard: (what: string, space: string, mass: string) =>
    `${what} in ${space} (${mass} kg) is in her own figures already and is not counted again.`,
  result: 'Result',
  results: {
    sinkage: 'deeper in the middle',
    trim: 'trim, by the head where positive',
    forward: 'forward end down',
    aft: 'after end down',
    listBefore: 'list before, to starboard where positive',
    list: 'list, to starboard where positive',
    vcg: 'her centre of gravity over the keel',
    gmBefore: 'GM before',
    gm: 'GM after',
    periodBefore: 'roll period before',
    period: 'roll period after',
    spread: 'spread of the ballast along her length',
  },
  limits: 'What is left over her limits',
  noLimits: 'No limit could be answered.',
  trial: (percent: string, most: string, whole: string) =>
    `Trial: fit the fixed part, ${percent} % of all (at most ${most} % of a void${whole === '' ? '' : `; all of ${whole}`}), and read before the rest`,
  trialHeads: { what: 'reading', forecast: 'forecast', read: 'read', differs: 'differs' },
  trialRows: {
    forward: 'forward end down, cm',
    aft: 'after end down, cm',
    list: 'list, to starboard where positive',
    period: 'one roll, s',
  },
  unknown: 'not known',
  how: { marks: 'Reading the marks', roll: 'Timing the roll', inclining: 'A weight moved across' },
  roll: 'She rolls too much?',
  rollIntro: (mass: string) =>
    `Too slow and far: too little GM. Too quick and jerky: too much, and low ballast makes it quicker still; time the roll before anything is bought. What ${mass} would do, half on either side of each void’s line:`,
  rollOf: (name: string, way: string, seconds: string) =>
    `${name}: ${way}${way === 'no change' ? '' : ` by ${seconds} s`}`,
  refusal: (why: string, remedy: string) => `${why} ${remedy}`,
} as const;
