/** The words of the stowing papers: loading sequence, stowage sheets, access cards; see `words.ts`. */
import type { Covered } from '../../src/balance/wayBack.ts';

/** By what a mass stands, where some of the plan's bundles were weighed. */
export const BY_WORDS = {
  head: 'by',
  scale: 'scale',
  plan: 'plan',
  allWeighed: 'Every bundle here was weighed: masses, and what follows from them, go by the scale.',
  someWeighed:
    'Masses, and what follows from them, go by the scale where a bundle was weighed (“scale”), by the plan where it was not (“plan”).',
  byScale: ' by the scale',
  asPlanned: ' as planned',
  partByScale: (count: number) => `, ${count} of them by the scale, the rest as planned`,
} as const;

export const STOWAGE_WORDS = {
  title: 'Stowage sheets',
  sequenceHead: 'Loading sequence over all voids',
  sequenceIntro: (level: string) =>
    `Every void in its own order, the fixed part of all before the rest. Of the bundles that are next in their voids one of the lowest, up to ${level} cm over the lowest: that which leaves her most upright; where it would list her too far, another. Alongside or ashore, pumps clear, nobody below the load. Read her marks at each quarter; where they are not what is told, or what you expect, stop.`,
  listNow: (list: string) => `Before the first bundle she lists ${list}: every moment and list below counts it.`,
  listEstimated: (list: string, moment: string) =>
    `Before the first bundle she lists ${list}, a moment of ${moment}: every moment below counts it. What she lists on the way is not told until her displacement and GM are stated.`,
  listLeftOut: (list: string) =>
    `She lists ${list} now, and that is NOT COUNTED below: her displacement or her GM is not known.`,
  heads: {
    load: 'no.',
    inVoid: 'in void',
    bundle: 'bundle',
    void: 'void',
    place: 'place',
    mass: 'mass',
    aboard: 'aboard',
    moment: 'kg·m to side',
    momentsAbreast: 'lb·ft · kg·m to side',
    momentsBelow: 'lb·ft to side, kg·m below',
    list: 'list',
    part: 'part',
    order: 'order',
    runTier: 'run, tier',
    bars: 'bars',
    from: 'along / across',
    up: 'up',
  },
  place: (run: number, tier: number, chocks: boolean) => `run ${run}, tier ${tier}${chocks ? ', then chocks' : ''}`,
  list: (degrees: string) => `${degrees}°`,
  listMost: (degrees: string, most: string) =>
    `Greatest list on the way ${degrees}°, the most allowed ${most}°. Where she lists more than this says, stop.`,
  even: 'upright',
  moment: (moment: string, starboard: boolean) => `${moment} ${starboard ? 'stbd' : 'port'}`,
  trial: (percent: string) =>
    `The fixed part is in, ${percent} % of all: go afloat, read the marks, time the roll. Then the rest.`,
  quarters: [
    'A quarter is in: read the marks.',
    'Half is in: read the marks.',
    'Three quarters are in: read the marks.',
    'All is in: read the marks.',
  ],
  start: 'Before the first goes in: read the marks.',
  foretold:
    'At each quarter her marks are told against those read before the first bundle goes in, her list and roll as they then are.',
  quartersOut: ['A quarter is out', 'Half is out', 'Three quarters are out', 'All of it is out'],
  marks: ['forward', 'aft', 'port', 'starboard'],
  bundles: (n: number, mass: string, by: string) => `${n} ${n === 1 ? 'bundle' : 'bundles'}, ${mass}${by}.`,
  centre: (x: string, y: string, z: string) => `Centre x ${x}, y ${y}, z ${z} m.`,
  fill: (percent: string) => `Fill ${percent} %.`,
  trim: 'trim',
  parts: (fixed: string, trim: string) =>
    `Fixed part ${fixed}; trim part ${trim}, the last in order: placed by what is read afloat.`,
  waits: (under: string) => `Lies over ${under}: all of it goes in after the trial, when what is below is in.`,
  waitsOver: (upper: string, under: string) =>
    `${upper} lies over ${under}: nothing of it goes in before the trial, nor before what is below is in.`,
  whole: (over: string) => `Lies under ${over}: all of it goes in before the trial, while it can be reached.`,
  wholeUnder: (lower: string, over: string) =>
    `${lower} lies under ${over}: all of it goes in before the trial, its trim part too, while it can be reached.`,
  moved: (marks: string) =>
    `Moved here to trim her, and not as first planned: ${marks}. Chock what was moved at both ends and sides, whatever the list of chocks says.`,
  and: ' and ',
  opening: (along: string, across: string, where: string, way: string) =>
    `Opening, drawn in heavy dashes: ${along} along × ${across} across, ${where}${way}.`,
  openingAt: (along: string, across: string) => `its middle at ${along} along, ${across} across`,
  openingAnywhere: 'over the middle because nobody said where it lies',
  endFirst: (deck: string) => `, end first under ${deck} mm of deck where a bundle does not go in flat`,
  bearer: (along: string, width: string, load: string) => `at ${along} (${width} wide) ${load}`,
  bearers: (list: string) => `Bearers, mm along, and what they carry: ${list}.`,
  ofMost: (load: string, most: string) => `${load} of ${most} at most`,
  perMetre: (most: string, runs: string) => `At most ${most} kg on a metre of length: ${runs}.`,
  runPerMetre: (run: number, load: string) => `run ${run} ${load}`,
  drain: (width: string, height: string, middle: boolean, parted: boolean) =>
    `Drain channel ${width} wide and ${height} high along ${middle ? 'the middle' : 'either side'} of the floor: nothing lies in it, ${parted ? 'and matting, battens, blocks and packing stop short of it' : 'and every batten, bearer and packing is notched over it'}.`,
  lies: (axis: string) => `Bars lie ${axis}.`,
  dunnage: (mm: string) => `Dunnage ${mm} mm under the ground tier, kept free for water to run.`,
  most: (mass: string) => `Never more here than ${mass}.`,
  gaps: (runs: string, across: string, ends: string) =>
    `Finger room ${runs} mm between runs, ${across} mm between neighbours; ${ends} mm clear at the ends.`,
  tierLine: (tier: number, orders: string, mass: string) =>
    `${tier === 1 ? 'Ground tier' : `Tier ${tier}`}, from above: order ${orders}, ${mass}`,
  tierAt: (tier: string, scale: string) => `${tier}, 1:${scale}`,
  longLine: (scale: string) => `Long section, by order, 1:${scale}`,
  longOf: (length: string, scale: string) => `Long section of ${length}, by order, 1:${scale}`,
  stationLine: (along: string, scale: string, away: string | null) =>
    `Station at ${along} along, 1:${scale}${away === null ? ', no bundles near' : away === '' ? '' : `; dashed: bundles ${away} on`}`,
  sectionLine: (run: number, along: string, scale: string) => `Run ${run}, section at ${along} along, 1:${scale}`,
  orderHead: 'Order in',
  orderOf: (space: string) => `Order in, ${space}`,
  runTier: (run: number, tier: number) => `${run}, ${tier}`,
  bars: (bars: number, length: string, section: string) => `${bars} × ${length}, ${section}`,
  lifts: (bundles: string, text: string) => `${bundles}: ${text}`,
  holdHead: 'Hold-down:',
  breaking: 'Breaking out: from the last order number back to the first.',
  runLine: (run: number, from: string, to: string, battens: readonly string[]) =>
    `Run ${run}, ${from} to ${to} along: notched battens ${battens.join('; ')}`,
  wholeBattens: (length: string, places: readonly string[]) => `${length} long, their middles at ${places.join(', ')}`,
  partedBattens: (places: readonly string[], parts: string) => `at ${places.join(', ')} in parts, ${parts}`,
  mattingCut: (cuts: readonly string[]) => ` Its matting: ${cuts.join('; ')}.`,
  runOnBearers: (run: number, from: string, to: string, heights: string) =>
    `Run ${run}, ${from} to ${to} along: matting and blocks on its bearers, ${heights}.`,
  blockAt: (height: string, along: string) => `${height} mm high at ${along}`,
  blocksParted: (blocks: string, parts: string) => `${blocks}${parts === '' ? '' : `, in parts, ${parts}`}`,
  packed: (least: string, most: string) => `packing over them ${least} mm at its first end, ${most} mm at its other`,
  chockList: (edged: boolean, leant: boolean) =>
    [
      'Chocks by void/run/tier and a letter; a wedge is so wide at its foot/at its head, mm.',
      ...(edged ? ['Edge: under 3 mm, it runs out to an edge.'] : []),
      ...(leant ? ['Against what stands there already measure the gap first: it may be a little more.'] : []),
    ].join(' '),
  chocksIn: (n: number) => (n === 1 ? 'then its chock' : 'then chocks'),
  chockHeads: { mark: 'chock', where: 'where', wide: 'wide', high: 'high', long: 'long' },
  keepOuts: (list: string) => `Keep clear: ${list}.`,
  keepOut: (what: string, along: string, across: string, mass: string) =>
    `${what}${mass === '' ? '' : `, ${mass}`}, ${along} along, ${across} across`,
  span: (from: string, to: string) => `${from} to ${to}`,
  frames:
    'The weight rests on frames and bearers, never on planking, bare shell, shafts, tanks or bolts. Along and across are to the corner nearest the void’s beginning and its port (or after) side; up from its bottom.',
  chocks: 'Chock side and end gaps so that nothing shifts; never wedge tight between frames: rust swells.',
} as const;

export const ACCESS_WORDS = {
  title: 'Access cards',
  intro: (room: string) =>
    `What comes out to work at each keep-out, framed in its drawing, with ${room} mm of room about it: top first, with all that bars the way to the opening. Alongside or ashore; what is left in the void stands loose meanwhile. Put back in the opposite order, chocks with it, then what holds it, and look at that before she goes to sea.`,
  none: 'This job has no keep-outs: nothing has to come out to get at one.',
  keepOut: 'keep-out',
  where: (along: string[], across: string[], up: string[], inches: string[] = []) =>
    `At ${along.join(' to ')} along, ${across.join(' to ')} across, ${up.join(' to ')} up (mm)${inches.some((range) => range !== '') ? `: ${inches[0]} along, ${inches[1]} across, ${inches[2]} up` : ''}.`,
  /** `chocks` are those that come out after the last bundle, or without any. */
  out: (bundles: number, mass: string, by: string, chocks: readonly string[]) => {
    const marks = `${chocks.length === 1 ? 'chock' : 'chocks'} ${chocks.join(', ')}`;
    if (bundles === 0)
      return chocks.length === 0 ? 'Nothing has to come out.' : `No bundle has to come out, but ${marks}.`;
    const then = chocks.length === 0 ? '' : ` Then come ${marks}.`;
    return `Break out ${bundles} ${bundles === 1 ? 'bundle' : 'bundles'}, ${mass}${by}, drawn black.${then}`;
  },
  holdOff: (marks: string) =>
    `First its hold-down comes off, marked as on its sheet: ${marks}. Until it is on again: NOT SECURED, DO NOT GO TO SEA.`,
  holdNone: 'No hold-down is entered for it: whatever holds it comes off first, and goes on again.',
  bars: (marks: string) => `bars across ${marks}`,
  straps: (marks: string) => `straps ${marks}`,
  heads: { out: 'out', bundle: 'bundle', order: 'order in', mass: 'mass', place: 'place' },
  place: (run: number, tier: number, chocks: readonly string[]) =>
    `run ${run}, tier ${tier}${chocks.length === 0 ? '' : `; before it ${chocks.length === 1 ? 'chock' : 'chocks'} ${chocks.join(', ')}`}`,
} as const;

export const BREAK_OUT_WORDS = {
  title: 'Breaking-out sheet',
  head: (voids: string | null) => (voids === null ? 'All of it out, and back' : `${voids} out, and back`),
  planned: 'Nothing is recorded of what is in: this takes all as in, as planned.',
  recorded: (day: string, inHer: number, all: number, mass: string) =>
    `By the record of ${day} ${inHer} of ${all} bundles are in, ${mass}.`,
  beside: (mass: string, voids: string) => `In her beside these, and not on this sheet: ${mass} in ${voids}.`,
  after: (serial: number, mass: string, voids: string) =>
    `In her by plan ${serial}, and out by its own sheet: ${mass} in ${voids}. Marks and list on the way are told here as though it were ashore.`,
  against: (lines: string) =>
    `Read otherwise, the last time, than reckoned from the record: ${lines} Lists and marks on the way are reckoned, and may be as far off: read her before the first comes out.`,
  nothing: 'By the record nothing of this is in, or was lifted out: there is nothing to break out.',
  sum: (bundles: number, mass: string, by: string) =>
    `${bundles} ${bundles === 1 ? 'bundle' : 'bundles'}, ${mass}${by}.`,
  way: 'Out from the first line down: tick the first box. Back from the last line up: tick the second. Of each void the last in comes out first; high ones come before low ones, and so that she lists little. What is left in her, its moment and her list are told with the bundle of that line out; on the way back the line above tells them with it in.',
  before:
    'First what holds a void comes off, then, before each bundle, the chocks that it is told with; on the way back they go in after it, and the hold-down last. Each bundle goes ashore before the next comes out: on deck it is aboard still, and high. Set them down void by void on battens, in the order in which they came out, tags in sight. Pumps clear, nobody below the load, and each lift within the limit that it went in by.',
  afloat:
    'Lists and marks are hers afloat. On the hard or in slings she is held for what she weighed: ask the yard before any weight comes out. While ballast is out she may be tender: do not go to sea. Where marks or list are not what is told, stop.',
  marks:
    'At each quarter her marks are told against those read before the first bundle came out, her list and roll as they then are; on the way back the same when the same are in.',
  start: 'Before the first comes out, and when the last is back: read the marks.',
  quarter: (words: string) => `${words}: read the marks.`,
  listMost: (degrees: string, most: string | null) =>
    `Greatest list on the way about ${degrees}°${most === null ? '' : `, the most allowed ${most}°`}.`,
  barred: (upper: string, lower: string) =>
    `${upper} lies over ${lower} and is not among these: look whether it must come out first.`,
  outOfTurn: (marks: string) =>
    `Out before their turn: ${marks}. While that is so, what is told on the way as left in her, its moment, her list and her marks, is not hers: put back what is out first, or take the order of the other voids alone.`,
  covered: (mark: string, over: string, more: number, isMany: boolean) =>
    `${mark} can not go back yet: ${over}${more > 0 ? ` and ${more} more` : ''} ${isMany ? 'lie over its place and come out first, in this order' : 'lies over its place and comes out first'}.`,
  moreCovered: (count: number) => `Nor can ${count} more under others that are in.`,
  heads: { out: 'out', back: 'back', left: 'left in' },
  place: (run: number, tier: number, first: string, out: string | null, emptied: string | null) =>
    [
      `run ${run}, tier ${tier}`,
      ...(out === null ? [] : [`out since ${out}`]),
      ...(first === '' ? [] : [`${first} first`]),
      ...(emptied === null ? [] : [`${emptied} is then empty`]),
    ].join('; '),
  holdDown: 'what holds it',
  chocks: 'chocks',
  and: ' and ',
} as const;

/** So many bundles over a place are named, and so many places. */
const NAMED = 8;

/** Of each that is out under what is in, what comes out before it goes back, in a sentence. */
export function coveredLines(covered: readonly Covered[]): string[] {
  const rest = covered.length - NAMED;
  return [
    ...covered
      .slice(0, NAMED)
      .map(({ bundle, over }) =>
        BREAK_OUT_WORDS.covered(
          bundle,
          over.slice(0, NAMED).join(', '),
          Math.max(0, over.length - NAMED),
          over.length > 1,
        ),
      ),
    ...(rest > 0 ? [BREAK_OUT_WORDS.moreCovered(rest)] : []),
  ];
}

export const SECURED_WORDS = {
  notSecured: 'NOT SECURED, DO NOT GO TO SEA',
  held: 'Hold-down worked out for assumed loads. It holds nothing until it is fitted, looked at and approved by a competent person.',
} as const;
