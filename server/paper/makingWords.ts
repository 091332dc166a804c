/** What the making list says. */
import { DRAWING_WORDS } from '../../src/drawing/words.ts';
import { type ChockMade, FRAME } from '../../src/plan/chockMade.ts';
import type { Chock } from '../../src/plan/chocks.ts';
import type { Lack } from '../../src/plan/shortages.ts';
import { many } from '../words.ts';

/** Wood is not sawn thinner than this, mm. */
const LEAST_WOOD = 3;

export const MAKING_WORDS = {
  title: 'Making list',
  groups: {
    steel: 'Steel still to buy',
    bed: 'Matting, battens and packing',
    chocks: 'Chocks',
    tying: 'To tie with',
    coating: 'Coating and sawing',
    holding: 'To hold it down with',
  },
  notes: {
    steel:
      'What is short once bars that are uncut and remainders that are kept are used up, in the section that carries most of the mass there. Weigh one bar of what you buy.',
    bed: 'Battens, 40 mm wide, lie across the bars, one near each end of a run and at most 300 mm from middle to middle, notched so that water runs on to the pump. They are told by their middles along. They bear on frames and floors. Where bearers are stated, a block stands on each instead. What stands on the bed is left free: matting is cut out for it, and a batten or block that would cross it is in parts.',
    chocks:
      'Wood, cut to the gap less the finger room: never wedged tight between frames, rust swells. Of a wedge 22/31 is its width at its foot and at its head, and edge what runs out too thin to saw. Mark each with its place.',
    tying: 'Two bands, or one more than every 500 mm of length, and one at each joint; once round and 60 mm of lap.',
    holding: 'As entered for each void; what they go through is looked at by a competent person.',
    coating: 'Areas for one coat; divide by what your paint covers.',
  },
  heads: { what: 'what', quantity: 'how much', reckoning: 'reckoned from' },
  noSteel: 'nothing',
  noQuantity: '–',
  limits: (passed: string) => `Buy no steel before this is settled. ${passed}`,
  noSteelWhy: 'no target is stated that the plan falls short of',
  steel: (section: string, space: string | null) =>
    space === null ? `${section}, for the ballast aimed at` : `${section}, for ${space}`,
  nothing: (space: string | null) => (space === null ? 'nothing for the ballast aimed at' : `nothing for ${space}`),
  steelWhy: (
    { short, left, spare }: Record<'short' | 'left' | 'spare', string | null>,
    perMetre: string,
    within: string | null,
  ) =>
    `${short} short of the target${spare === null ? '' : ` (she may carry ${spare} more)`}${left === null ? '' : `, less ${left} uncut or kept`}, at ${perMetre}${within === null ? '' : `; the ${within} bought for voids above are part of it`}`,
  notSteelWhy: ({ short, left }: Record<'short' | 'left', string | null>, lack: Exclude<Lack, 'steel'>) =>
    `${short} short of the target: ${MAKING_WORDS.lacks[lack]}${left === null ? '' : `; ${left} are uncut or kept`}`,
  lacks: {
    room: 'room is lacking, more steel would not go in',
    shut: 'no section of the pile goes in, whatever is bought of it',
    vessel: 'she may displace no more',
    ballast: 'the ballast asked for is reached without it',
    'room or worth': 'there is steel enough, room is lacking or its work would not pay',
  },
  counted: (n: number) => String(n),
  pieces: (n: number, length: string) => `${n} of ${length}`,
  run: (space: string, run: number) => `${space}, run ${run}`,
  matting: (space: string) => `matting, ${space}`,
  mattingRun: (run: number, length: string, width: string) => `run ${run}: ${length} × ${width}`,
  battens: (space: string, height: string) => `notched battens, ${space}: with the matting ${height} high`,
  battensRun: (run: number, places: string, parts: string) =>
    `run ${run} at ${places}${parts === '' ? '' : ` along, ${parts}`}`,
  cutOut: (size: string, what: string | undefined, along: string, across: string) =>
    `cut out ${size} for ${what ?? 'what is kept clear'} at ${along} along, ${across} across`,
  parts: (spans: readonly string[]) => `${spans.join(' and ')} across`,
  bearerBlock: (space: string, width: string, height: string) =>
    `blocks on the bearers, ${space}: ${width} wide, with the matting ${height} high`,
  packing: (where: string) => `packing, ${where}`,
  wedge: (first: string, last: string) => `${first} to ${last} high`,
  packingWhy: (dunnage: string) => `height at the run’s two ends over ${dunnage} of dunnage`,
  chock: (mark: string, side: string) => `${mark}, ${side}`,
  edge: 'edge',
  /** `24`, or foot and head of what leans: `24/31`; what is too thin to saw runs out to an edge: `edge/31`. */
  wedgeOf: (foot: number, head: number, told: (mm: number) => string): string => {
    if (foot === head) return told(foot);
    const [low, high] = [foot, head].map((mm) => (mm < LEAST_WOOD ? MAKING_WORDS.edge : told(mm)));
    return `${low}/${high}`;
  },
  /** At an end of the void, or where it stands in front of that against something told by its name. */
  side: ({ side, against }: Pick<Chock, 'side' | 'against'>, axis: 'fore-and-aft' | 'athwartships') => {
    const { sides, ends } = DRAWING_WORDS;
    const end = (where: string) => (against === undefined ? `${where} end` : `${where}, against ${against}`);
    return {
      least: sides[axis].least,
      most: sides[axis].most,
      'first end': end(ends[axis].least),
      'last end': end(ends[axis].most),
      'next run': 'towards the next run',
      inner: 'between bundles',
      short: 'behind a shorter bundle',
    }[side];
  },
  /** How it is made that is no single block: empty of one. */
  made: ({ pieces, struts }: ChockMade, atEnd: boolean, told: (mm: number) => string) =>
    [
      ...(pieces === null ? ['of pieces that pass'] : []),
      ...(pieces !== null && pieces > 1 ? [atEnd ? `${pieces} side by side` : `in ${pieces} lengths`] : []),
      ...(struts ? [`${(pieces ?? 1) > 1 ? 'each ' : ''}${struts.count} struts of ${told(struts.length)}`] : []),
    ].join(', '),
  /** What is to be known of those made so. */
  madeNotes: (made: readonly ChockMade[]) =>
    [
      ...(made.some(({ pieces }) => pieces !== 1)
        ? ['What would not pass the opening whole is made of pieces that do, screwed together in the void.']
        : []),
      ...(made.some(({ struts }) => struts)
        ? [
            `A long one is a frame: two boards ${FRAME.board} mm thick, as long across and as high as told, one against the bundles and one against what it bears on, and struts ${FRAME.strut} mm wide between them, the outer ones at the ends of the boards, screwed to both; these measures are a rule of thumb.`,
          ]
        : []),
    ].join(' '),
  block: (size: string, height: string, end: boolean) => `${size} ${end ? 'along' : 'across'}, ${height} high`,
  chockWhy: (length: string, gap: string, end: boolean) => `${length} ${end ? 'across' : 'along'}; the gap less ${gap}`,
  bands: 'bands',
  bandsWhy: (length: string) => `${length} in all`,
  cord: (cord: string | null) => (cord === null ? 'cord for beckets' : `${cord} cord for beckets`),
  cordWhy: 'the beckets of the bundle sheet together',
  endCaps: 'end covers',
  endCapsWhy: 'two a bundle',
  tags: 'tags',
  tagsWhy: (tags: number, spare: number) => `${many(tags, 'bundle')} and ${spare} spare`,
  paint: 'paint, a coat',
  paintWhy: (pieces: number) => `outer surface of ${many(pieces, 'piece')}`,
  zincPaint: 'zinc-rich paint, a coat',
  zincPaintWhy: (pieces: number) => `both ends of ${many(pieces, 'piece')}`,
  blades: 'steel sawn through',
  bladesWhy: (cuts: number) => `${many(cuts, 'cut')}; divide by what one of your blades lasts`,
  strap: (space: string, how: string) => `${how === 'over' ? 'straps over the top' : 'direct straps'}, ${space}`,
  strapWhy: (capacity: string) => `lashing capacity ${capacity} each`,
  bar: (space: string, size: string) => `bars across, ${space}: ${size}`,
  barWhy: (span: string, bolts: number, size: string, grade: string) =>
    `span ${span}, ${bolts} bolts ${size} ${grade} in all`,
  foot: 'Spacings and allowances are our assumptions; a competent person decides what carries the weight. Nothing metal on metal; never athwartships battens unnotched under fore-and-aft bars: they dam the bilge.',
} as const;
