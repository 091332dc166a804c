/** What is left of a pile once some of it is cut and some of that is stowed: lots of whole bars, of pieces, and of what is left of bars. */
import { canonicalJson } from '../job/digest.ts';
import type { Job, Lot } from '../job/job.ts';
import { barLengths, lotSquaring, type Span, usableSpans } from '../job/lot.ts';
import { SHORTEST_BAR } from '../job/lotFaults.ts';
import { atKerf, type BarNow, barsSince, without } from './jobSince.ts';
import { gatherLots, isCountedFromSawnEnd, type Part } from './lotsLeft.ts';
import type { Plan, PlanBar } from './plan.ts';
import { toHundredth } from './standing.ts';
import { markRanges, pieceLength } from './stops.ts';

/**
 * How far the saw has come. Pieces of bundles that stand are cut, whatever is said here.
 *
 * - `all`: every bar, as the saw sheet says;
 * - `stowed`: the bars of which something is in or tied to be kept, each of them whole;
 * - `stops`: of every bar the pieces as long as `stop` (mm) or longer, and of the bars `next` those of the stop after it, too;
 * - `bars`: these bars, each of them whole.
 */
export type CutSoFar =
  | { by: 'all' }
  | { by: 'stowed' }
  | { by: 'stops'; stop: number; next: ReadonlySet<string> }
  | { by: 'bars'; bars: ReadonlySet<string> };

export interface Sawn {
  /** What the papers call the plan, `plan 7`: its bars are told by it. */
  by: string;
  cut: CutSoFar;
  /** Bars that turned out longer or shorter than stated, by mark: how long each was before its first cut, mm. */
  found: ReadonlyMap<string, number>;
  /** Marks of bundles that stand and are not in yet: what is not cut of them is cut by this plan before the rest is. */
  lacking?: ReadonlySet<string>;
  /** Marks of those of them that are tied, as far as is said. */
  tied?: ReadonlySet<string>;
}

type Piece = PlanBar['pieces'][number];

/** A piece that ends no further than this past the end of a bar could be cut from it, mm. */
const END = 0.05;

/**
 * Lots of what stands in no bundle of `stowed` (marks), in the order of the pile:
 *
 * - the bars of a lot that are whole, as they turned out;
 * - `A begun`: what is left of bars of which some pieces are cut and others are not, its spoiled stretches counted from
 *   where it begins now; one lot for each way in which they lie;
 * - `A cut`: the pieces, true at both ends;
 * - `A left over`: the remainders that were kept of bars cut up as planned;
 *
 * so named also where the lot is one of an earlier rest (`gatherLots`).
 *
 * What no piece can be cut from, and stubs too short to be read as bars, are let go.
 *
 * `now` is the job as it stands, where it was corrected since it was planned: lots are as they are there, by their marks, with
 * bars added and taken out; what is left of bars is reckoned with its kerf.
 */
export function pileLeft(
  job: Job,
  plan: Plan,
  stowed: ReadonlySet<string>,
  { by, cut, found, lacking = NOTHING, tied = NOTHING }: Sawn,
  now: Job = job,
): Lot[] {
  // By stops and by bars it is said of the pieces themselves, also of those of a run that is kept and not all tied yet.
  const made = new Set([...stowed].filter((mark) => !lacking.has(mark) || (cut.by === 'stowed' && tied.has(mark))));
  const isSaid = cutBy(plan, made, cut);
  const isCut = (bar: PlanBar, piece: Piece) => stowed.has(piece.bundle) || isSaid(bar, piece);
  // Where the kerf is wider than was reckoned with, the last piece of a bar is that piece though it came out a little short.
  const slack = END + (now.saw.kerf > job.saw.kerf ? now.saw.tolerance : 0);
  const known = new Set(job.pile.map(({ lot }) => lot));
  const parts = job.pile.flatMap((lot): Part[] => {
    const stated = now.pile.find((own) => own.lot === lot.lot);
    const bars = plan.bars.filter((bar) => bar.lot === lot.lot).map((bar) => atKerf(bar, lot, job.saw, now.saw.kerf));
    const sawn = (lengths: Sawn['found']) =>
      bars.map((bar): BarSawn => {
        const length = lengths.get(bar.bar) ?? bar.length;
        // What would end past the end of a bar as it turned out was never cut from it, unless it is stowed.
        const isThere = (piece: Piece) => stowed.has(piece.bundle) || piece.to <= length + slack;
        const toCut = bar.pieces.filter((piece) => stowed.has(piece.bundle) && !isSaid(bar, piece));
        return { bar, length, cut: bar.pieces.filter((piece) => isCut(bar, piece) && isThere(piece)), toCut };
      });
    const asFound = sawn(found);
    const of = stated ?? lot;
    const whole = wholeLeft(lot, of, asFound);
    const since = stated ? barsSince(lot, stated, whole, barsNow(asFound, found)) : { whole: [], found: NONE };
    const own = sawn(new Map([...since.found, ...found]));
    const freed = own.filter((one, i) => !isBegun(one) && isBegun(asFound[i]!) && !isShort(of, one));
    const all = { own, whole: [...since.whole, ...freed.map(({ length }) => length)] };
    return partsLeft(now, of, all, stowed, by, endsAs(of) === endsAs(lot));
  });
  const added = now.pile.filter(({ lot }) => !known.has(lot)).map((lot) => wholePart(lot, barLengths(lot)));
  return gatherLots([...parts, ...added], [...known, ...added.map(({ lot }) => lot.lot)]);
}

const NONE: ReadonlyMap<string, number> = new Map();
const NOTHING: ReadonlySet<string> = new Set();

/** A bar of the plan, its length as it turned out, and the pieces that are cut from it, or counted as cut. */
interface BarSawn {
  bar: PlanBar;
  length: number;
  cut: Piece[];
  /** Pieces among them that are still to be cut by the plan. */
  toCut: Piece[];
}

function isBegun({ cut }: BarSawn): boolean {
  return cut.length > 0;
}

/** A bar that ends before what is spoiled of its lot ends is of no lot with the others. */
function isShort({ spoiled }: Lot, { length }: BarSawn): boolean {
  return spoiled.some(({ to }) => to > length);
}

function barsNow(bars: BarSawn[], found: Sawn['found']): BarNow[] {
  return bars.map((one) => ({
    bar: one.bar.bar,
    planned: one.bar.length,
    length: one.length,
    isFound: found.has(one.bar.bar),
    isBegun: isBegun(one),
  }));
}

/** Lengths of the bars that are whole, as they turned out, by those that the plan was made with. */
function wholeLeft(lot: Lot, of: Lot, bars: BarSawn[]): number[] {
  const otherwise = bars.filter((one) => !isBegun(one) && one.length !== one.bar.length);
  const taken = [...bars.filter(isBegun), ...otherwise].map(({ bar }) => bar.length);
  return [
    ...without(barLengths(lot), taken),
    ...otherwise.filter((one) => !isShort(of, one)).map(({ length }) => length),
  ];
}

/** What decides where on a bar pieces may lie. */
function endsAs({ spoiled, squaring }: Lot): string {
  return canonicalJson({ spoiled, squaring });
}

function wholePart(lot: Lot, lengths: number[]): Part {
  const { spoiled, squaring } = lot;
  return { lot, kind: 'whole', lengths, spoiled, squaring, of: '', isFromSawnEnd: isCountedFromSawnEnd(lot) };
}

/** The parts of one lot. `isAsPlanned`: nothing was said since of where pieces may lie on its bars. */
function partsLeft(
  now: Job,
  lot: Lot,
  { own, whole }: { own: BarSawn[]; whole: number[] },
  stowed: ReadonlySet<string>,
  by: string,
  isAsPlanned: boolean,
): Part[] {
  const isDone = ({ bar, length, cut }: BarSawn) =>
    isAsPlanned && cut.length === bar.pieces.length && length === bar.length;
  const begun = own.filter(isBegun);
  const short = own.filter((one) => !isBegun(one) && one.length !== one.bar.length && isShort(lot, one));
  const kept = begun.filter(isDone).flatMap(({ bar }) => bar.remainders.filter(({ fate }) => fate === 'keep'));
  const pieces = begun.flatMap(({ cut }) => cut.filter(({ bundle }) => !stowed.has(bundle)));
  const stretches = [...begun.filter((one) => !isDone(one)), ...short].flatMap(({ bar, length, cut }) =>
    stretchesLeft(now, lot, bar.bar, length, cut),
  );
  const plain = { lot, spoiled: [], squaring: 0, of: '', isFromSawnEnd: false };
  const isBar = (length: number) => length >= SHORTEST_BAR && length > 2 * lotSquaring(lot, now.saw);
  return [
    wholePart(lot, whole.filter(isBar)),
    ...begunParts(lot, stretches, own, by),
    { ...plain, kind: 'cut' as const, lengths: lengthsOf(pieces) },
    { ...plain, kind: 'left over' as const, lengths: lengthsOf(kept) },
  ].filter(({ lengths }) => lengths.length > 0);
}

/** Whether any piece of the plan is cut by what is said. */
export function isAnyCut(plan: Plan, stowed: ReadonlySet<string>, cut: CutSoFar): boolean {
  const isCut = cutBy(plan, stowed, cut);
  return plan.bars.some((bar) => bar.pieces.some((piece) => isCut(bar, piece)));
}

/** Whether a piece is cut, `made` being the marks of the bundles that are in, or tied. */
function cutBy(plan: Plan, made: ReadonlySet<string>, cut: CutSoFar): (bar: PlanBar, piece: Piece) => boolean {
  const isMade = ({ bundle }: Piece) => made.has(bundle);
  if (cut.by === 'all') return () => true;
  if (cut.by === 'stowed') return (bar) => bar.pieces.some(isMade);
  if (cut.by === 'bars') return (bar, piece) => isMade(piece) || cut.bars.has(bar.bar);
  const { stop, next } = cut;
  const shorter = plan.bars.flatMap((bar) => bar.pieces.map(pieceLength)).filter((length) => length < stop);
  const after = Math.max(...shorter);
  return (bar, piece) =>
    isMade(piece) || pieceLength(piece) >= stop || (next.has(bar.bar) && pieceLength(piece) >= after);
}

/** What is left of a bar between its cuts. */
interface Stretch {
  bar: string;
  length: number;
  /** From where the stretch begins. */
  spoiled: Span[];
  /** It begins where the saw went through, now or before. */
  isSawn: boolean;
  /** Cut off each end to true it: nothing where the saw made both. */
  squaring: number;
}

/** What is left of a bar of `length` once these pieces are out of it, where the saw could still take a piece from it. */
function stretchesLeft(job: Job, lot: Lot, bar: string, length: number, cut: Piece[]): Stretch[] {
  const { saw } = job;
  const sorted = [...cut].sort((p, q) => p.from - q.from);
  const starts = [0, ...sorted.map(({ to }) => to + saw.kerf)];
  const ends = [...sorted.map(({ from }) => from - saw.kerf), length];
  return starts.flatMap((from, i) => {
    const to = ends[i]!;
    if (to - from < SHORTEST_BAR) return [];
    const stretch = {
      bar,
      isSawn: i > 0 || isCountedFromSawnEnd(lot),
      length: toHundredth(to - from),
      spoiled: lot.spoiled.flatMap((span) => {
        const own = { from: toHundredth(Math.max(0, span.from - from)), to: toHundredth(Math.min(to, span.to) - from) };
        return own.to > own.from ? [own] : [];
      }),
      squaring: i > 0 && i < sorted.length ? 0 : lotSquaring(lot, saw),
    };
    const usable = usableSpans(stretch, stretch.length, saw).map((span) => span.to - span.from);
    return Math.max(0, ...usable) >= saw.shortestPiece ? [stretch] : [];
  });
}

/** What is left of bars: parts in one of which the spoiled stretches lie alike, and the ends are as true. */
function begunParts(lot: Lot, stretches: Stretch[], sawn: BarSawn[], by: string): Part[] {
  const groups = new Map<string, Stretch[]>();
  for (const stretch of stretches) {
    const key = JSON.stringify([stretch.spoiled, stretch.squaring, stretch.spoiled.length > 0 && stretch.isSawn]);
    groups.set(key, [...(groups.get(key) ?? []), stretch]);
  }
  return [...groups.values()].map((group) => {
    const [{ spoiled, squaring, isSawn }] = group as [Stretch];
    const lengths = group.map(({ length }) => length).sort((p, q) => q - p);
    const bars = new Set(group.map(({ bar }) => bar));
    const of = `${rangesOf(bars)} of ${by}${toCutFirst(sawn.filter(({ bar }) => bars.has(bar.bar)))}`;
    return { lot, kind: 'begun', lengths, spoiled, squaring, of, isFromSawnEnd: isSawn };
  });
}

/** What has to come off some of these bars before they are as long as is told; '' where nothing has. */
function toCutFirst(bars: BarSawn[]): string {
  const some = bars.filter(({ toCut }) => toCut.length > 0);
  if (some.length === 0) return '';
  const bundles = some.flatMap(({ toCut }) => toCut.map(({ bundle }) => bundle));
  return `, once its pieces for ${rangesOf(bundles)} are cut from ${rangesOf(some.map(({ bar }) => bar.bar))}`;
}

function rangesOf(marks: Iterable<string>): string {
  return markRanges([...new Set(marks)]).join(', ');
}

/** Lengths, the longest first. Stubs too short to be read as bars are let go. */
function lengthsOf(parts: { from: number; to: number }[]): number[] {
  return parts
    .map(({ from, to }) => toHundredth(to - from))
    .filter((length) => length >= SHORTEST_BAR)
    .sort((p, q) => q - p);
}
