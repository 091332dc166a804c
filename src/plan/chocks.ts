/**
 * Chocks: what fills the gaps that would let a tier shift, at its sides, at its ends, between runs and between bundles.
 * Each is smaller than its gap by the finger room, so that nothing is wedged tight between frames: rust swells. Mm in
 * the frame in which the void was laid.
 */
import type { LaidVoid } from '../stow/laid.ts';
import { type EndSide, facings, type Interval, openStretches, type Room, sidesOver } from './chockRoom.ts';
import type { Plan, PlanBundle, PlanRun } from './plan.ts';

/**
 * `least` and `most` across, the first and the last end of the run, there to the end of the void or to what bears in front
 * of it, towards the next run, between two bundles of the tier, or behind a bundle that is shorter than its run, as one is
 * that was moved there.
 */
export type ChockSide = 'least' | 'most' | EndSide | 'next run' | 'inner' | 'short';

export interface Chock {
  /** Void, run, tier and a letter: `V1/1/2b`. */
  mark: string;
  void: string;
  run: number;
  tier: number;
  side: ChockSide;
  /** The keep-out that it stands against, by its name; absent where it stands against anything else. */
  against?: string;
  /** It goes in once the bundle of this order in the void lies: with it all that it steadies does. */
  after: number;
  /** Its thickness in the gap, at its foot and at its head: a side that leans wants a wedge. */
  size: number;
  sizeAtHead: number;
  height: number;
  /** How long a stretch it steadies, mm. */
  length: number;
  /** Where it lies: its stretch along, its least edge across, its foot. */
  from: number;
  to: number;
  across: number;
  up: number;
}

/** True of one that lies across, before an end of a bundle: its size is along, its length across. */
export function isAtEnd({ side }: Pick<Chock, 'side'>): boolean {
  return side !== 'least' && side !== 'most' && side !== 'inner';
}

/** The room that a chock takes, a wedge where it is thickest. */
export function roomOf(chock: Chock): Room {
  const { from, to, across, up, height } = chock;
  const thick = Math.max(chock.size, chock.sizeAtHead);
  const start = chock.side === 'least' ? across + chock.size - thick : across;
  const wide = isAtEnd(chock) ? chock.length : thick;
  return { along: { from, to }, across: { from: start, to: start + wide }, up: { from: up, to: up + height } };
}

/** Gaps that leave less than this for a chock need none, mm. */
const LEAST_CHOCK = 15;

/** What a chock is smaller than its gap, mm: the finger room, and never none. */
export function looseness(laid: LaidVoid): number {
  return Math.max(3, laid.gap.across);
}

/** The least gap that a chock goes in, mm. */
export function leastGap(laid: LaidVoid): number {
  return LEAST_CHOCK + looseness(laid);
}

/** The chocks of one void, run by run and tier by tier. None bears on a keep-out that is not told to bear, or stands in the drain. */
export function chocksOf(laid: LaidVoid, plan: Pick<Plan, 'runs' | 'bundles'>): Chock[] {
  const runs = plan.runs
    .filter((run) => run.void === laid.void)
    .sort((p, q) => p.run - q.run)
    .map((run) => ({ run, bundles: plan.bundles.filter((b) => b.void === laid.void && b.run === run.run) }))
    .filter(({ bundles }) => bundles.length > 0);
  return runs.flatMap(({ run, bundles }, i) => {
    const [before, next] = [runs[i - 1], runs[i + 1]];
    const tiers = [...new Set(bundles.map((bundle) => bundle.tier))].sort((p, q) => p - q);
    return tiers.flatMap((number) => {
      const tier = tierOf(
        laid,
        run,
        bundles.filter((bundle) => bundle.tier === number),
      );
      const found = [
        ...sideChocks(tier),
        ...innerChocks(tier),
        ...shortChocks(tier),
        ...endChocks(tier, 'first end', before),
        ...endChocks(tier, 'last end', next),
      ];
      return found.map((chock, n) => ({ ...chock, mark: `${laid.void}/${run.run}/${number}${letter(n)}` }));
    });
  });
}

function letter(n: number): string {
  return n < 26 ? String.fromCharCode(97 + n) : `-${n + 1}`;
}

/** One tier, its bundles from least across, and the heights between which it stands. */
interface Tier {
  laid: LaidVoid;
  run: PlanRun;
  bundles: PlanBundle[];
  low: number;
  high: number;
}

function tierOf(laid: LaidVoid, run: PlanRun, bundles: PlanBundle[]): Tier {
  const low = Math.min(...bundles.map((bundle) => bundle.at.up));
  const high = low + Math.max(...bundles.map((bundle) => bundle.size.up));
  return { laid, run, bundles: [...bundles].sort((p, q) => p.at.across - q.at.across), low, high };
}

const lastOf = (bundles: PlanBundle[]): number => Math.max(...bundles.map((bundle) => bundle.order));
const leastOf = (bundle: PlanBundle): number => bundle.at.across;
const mostOf = (bundle: PlanBundle): number => bundle.at.across + bundle.size.across;

/** The gap of a chock: where it lies across at its foot, its thickness there and at its head. */
interface Gap {
  side: ChockSide;
  across: Interval;
  atHead: number;
}

function sideChocks(tier: Tier): Chock[] {
  const { laid, run, bundles, low, high } = tier;
  const foot = sidesOver(laid, run, low);
  const head = sidesOver(laid, run, high);
  const least = leastOf(bundles[0]!);
  const most = Math.max(...bundles.map(mostOf));
  return [
    ...acrossChocks(tier, { side: 'least', across: { from: foot.from, to: least }, atHead: least - head.from }),
    ...acrossChocks(tier, { side: 'most', across: { from: most, to: foot.to }, atHead: head.to - most }),
  ];
}

function innerChocks(tier: Tier): Chock[] {
  return tier.bundles.slice(1).flatMap((bundle, i) => {
    const across = { from: mostOf(tier.bundles[i]!), to: leastOf(bundle) };
    return acrossChocks(tier, { side: 'inner', across, atHead: across.to - across.from });
  });
}

/** Chocks that fill a gap across, one for each stretch along that nothing else takes. */
function acrossChocks({ laid, run, bundles, low, high }: Tier, { side, across, atHead }: Gap): Chock[] {
  const loose = looseness(laid);
  const size = Math.max(0, Math.floor(across.to - across.from - loose));
  const sizeAtHead = Math.max(0, Math.floor(atHead - loose));
  if (Math.max(size, sizeAtHead) < LEAST_CHOCK) return [];
  // Against the bundle, with the finger room at the hull; between two bundles in the middle.
  const at = side === 'least' ? across.to - size : side === 'inner' ? across.from + loose / 2 : across.from;
  const edge = side === 'least' ? across.to - Math.max(size, sizeAtHead) : at;
  const room = {
    across: { from: edge, to: edge + Math.max(size, sizeAtHead) },
    along: run,
    up: { from: low, to: high },
  };
  return openStretches(laid, room, 'along').map(({ from, to, foot }) => ({
    mark: '',
    void: laid.void,
    run: run.run,
    tier: bundles[0]!.tier,
    side,
    after: lastOf(bundles),
    size,
    sizeAtHead,
    height: high - foot,
    length: to - from,
    from,
    to,
    across: at,
    up: foot,
  }));
}

/** A run and the bundles in it. */
interface FilledRun {
  run: PlanRun;
  bundles: PlanBundle[];
}

/** What is free before an end of a run, along: up to the `other` run that lies there, or to the end of the void. */
export function spaceBefore(laid: LaidVoid, run: PlanRun, side: EndSide, other: PlanRun | undefined): Interval {
  return side === 'first end'
    ? { from: other?.to ?? 0, to: run.from }
    : { from: run.to, to: other?.from ?? laid.length };
}

/**
 * At an end of a run, stretch by stretch across: to what bears in front of it, else to the end of the void or, from the
 * earlier run, to the `other` run beside it.
 */
function endChocks(tier: Tier, side: EndSide, other: FilledRun | undefined): Chock[] {
  const { laid, run } = tier;
  const space = spaceBefore(laid, run, side, other?.run);
  return facings(laid, space, { side, across: wideOf(tier), up: { from: tier.low, to: tier.high } }).flatMap(
    ({ from, to, keepOut }) => {
      const wide = { from, to };
      if (keepOut) {
        const gap =
          side === 'first end' ? { from: keepOut.along[1], to: run.from } : { from: run.to, to: keepOut.along[0] };
        const chocks = alongChocks(tier, side, gap, wide);
        return chocks.map((chock) => ({ ...chock, against: keepOut.what ?? 'what is kept clear' }));
      }
      if (!other) return alongChocks(tier, side, space, wide);
      return side === 'last end' ? nextChocks(tier, other, wide) : [];
    },
  );
}

function wideOf({ bundles }: Tier): Interval {
  return { from: leastOf(bundles[0]!), to: Math.max(...bundles.map(mostOf)) };
}

/** From the end of a bundle that its run is longer than to the end of the run: what stands beyond it holds for all of it. */
function shortChocks(tier: Tier): Chock[] {
  return tier.bundles.flatMap((bundle) => {
    const gap = { from: bundle.at.along + bundle.size.along, to: tier.run.to };
    const high = bundle.at.up + bundle.size.up;
    return alongChocks({ ...tier, high }, 'short', gap, { from: leastOf(bundle), to: mostOf(bundle) });
  });
}

/** Towards the next run, where it stands as high as this tier and beside it, on a stretch across. */
function nextChocks(tier: Tier, next: FilledRun, wide: Interval): Chock[] {
  const beside = next.bundles.filter((bundle) => bundle.at.up < tier.high && bundle.at.up + bundle.size.up > tier.low);
  if (beside.length === 0) return [];
  const from = Math.max(wide.from, Math.min(...beside.map(leastOf)));
  const to = Math.min(wide.to, Math.max(...beside.map(mostOf)));
  if (to <= from) return [];
  const chocks = alongChocks(tier, 'next run', { from: tier.run.to, to: next.run.from }, { from, to });
  return chocks.map((chock) => ({ ...chock, after: Math.max(chock.after, lastOf(beside)) }));
}

/** Chocks that fill a gap along, one for each stretch across that nothing else takes. */
function alongChocks({ laid, run, bundles, low, high }: Tier, side: ChockSide, gap: Interval, wide: Interval): Chock[] {
  const loose = looseness(laid);
  const size = Math.floor(gap.to - gap.from - loose);
  if (size < LEAST_CHOCK) return [];
  const against = side === 'last end' || side === 'short';
  const from = side === 'first end' ? gap.to - size : against ? gap.from : gap.from + loose / 2;
  const room = { along: { from, to: from + size }, across: wide, up: { from: low, to: high } };
  return openStretches(laid, room, 'across').map((open) => ({
    mark: '',
    void: laid.void,
    run: run.run,
    tier: bundles[0]!.tier,
    side,
    after: lastOf(bundles),
    size,
    sizeAtHead: size,
    height: high - open.foot,
    length: open.to - open.from,
    from,
    to: from + size,
    across: open.from,
    up: open.foot,
  }));
}
