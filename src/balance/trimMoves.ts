/**
 * Which few bundles to move so that she comes nearest to the marks wanted and upright, by what was read of her: one lifted
 * ashore, one put in where it was planned, one laid in another void on a run that has room, two that change places; all of
 * these, and every two of them, tried, the best first. What w·x and w·y do is linear (trialRest.ts), so a try costs a few
 * additions; what may lie where is then asked of the checker, from the best on, until enough are found. New runs are not
 * thought of; more than two moves come of one pair after the other (`trimOn`).
 */
import type { Job } from '../job/job.ts';
import { sectionKey } from '../job/section.ts';
import { standsInWay } from '../plan/access.ts';
import { type Judged, judgeOf, laidVoids, movedPlan, placeOf, type Shift } from '../plan/moved.ts';
import { voidsUnder } from '../plan/overVoids.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import { restsOn } from '../plan/record.ts';
import { envelope } from '../stow/envelope.ts';
import { type LaidVoid, middlePoint } from '../stow/laid.ts';
import { addMoments, type Moments, sumMoments } from './moments.ts';
import { type Miss, missBy } from './trialRest.ts';

/** One thing done with a bundle that is in, or with one that is not. */
export type Act =
  | { kind: 'ashore'; bundle: PlanBundle }
  | { kind: 'in'; bundle: PlanBundle }
  | { kind: 'move'; bundle: PlanBundle; shift: Shift }
  | { kind: 'exchange'; bundle: PlanBundle; other: PlanBundle; shifts: [Shift, Shift] };

export interface Proposal {
  acts: Act[];
  /** What it changes. */
  change: Moments;
  /** How far she then is from what is wanted: cm too deep at each end, and a list as a change of trim, cm. */
  miss: Miss;
  /** What of it is outside of the plan's rules, in sentences. */
  outside: string[];
}

/** Proposals given at most. */
const GIVEN = 5;
/** Moves put before the checker at most. */
const JUDGED = 60;
/** Tries of two at once at most: of more acts, the nearest alone are paired. */
const PAIRED = 1200;
/** One more act must bring her nearer by this share of what is missed now. */
const WORTH = 0.03;
/** Bundles that differ by less weigh the same, kg. */
const ALIKE = 0.01;
/** Of floating point, mm. */
const DUST = 0.01;
const NO_FAULT: Judged = { faults: [], outside: [] };
/** Corners of bundles in voids are on half millimetres. */
const onHalf = (mm: number): number => Math.round(2 * mm) / 2;

/**
 * `now` is how far she is from what is wanted before anything is done, cm. `isIn` are the marks of what is in; `plan` is as
 * it lies, masses those of the scale where known; the bundles of `done` (marks) are left where they are. Empty where nothing
 * brings her nearer; null where her hydrostatics are not known.
 */
export function trimMoves(
  job: Job,
  plan: Plan,
  isIn: ReadonlySet<string>,
  now: Miss,
  done: ReadonlySet<string> = new Set(),
): Proposal[] | null {
  const { vessel } = job;
  const moved = vessel ? missBy(vessel) : null;
  if (!moved) return null;
  const laid = laidVoids(job, plan);
  const acts = actsOf(job, plan, isIn, laid)
    .filter((act) => bundlesOf(act).every((bundle) => !done.has(bundle)))
    .map((act) => tried(act, moved, laid, now));
  const single = [...acts].sort(byScore);
  const paired = pairs(single.slice(0, PAIRED), now);
  const all = [...single.map((one) => ({ acts: [one], score: one.score })), ...paired];
  const scoreNow = scoreOf(now);
  const rank = (each: { acts: Tried[]; score: number }): number => each.score + WORTH * scoreNow * each.acts.length;
  const better = all.filter((each) => rank(each) < scoreNow).sort((p, q) => rank(p) - rank(q));
  return choose(job, plan, isIn, better, now);
}

/** Times that two at once are put after each other at most. */
const ROUNDS = 4;
/** Of more bundles it would keep who asks waiting. */
const BUNDLES = 300;

/**
 * On from the best single move or pair, the best after it, and so on while she comes nearer: no longer the best of all that
 * so many moves could do. Null where that is no more than two acts, or what they come to together is faulted; and of a plan
 * of more than {@link BUNDLES}. The bundles of `left` (marks) are left where they are.
 */
export function trimOn(
  job: Job,
  plan: Plan,
  isIn: ReadonlySet<string>,
  now: Miss,
  left: ReadonlySet<string> = new Set(),
): Proposal | null {
  if (plan.bundles.length > BUNDLES) return null;
  const acts: Act[] = [];
  let [lying, present, miss, change] = [plan, isIn, now, sumMoments([])];
  for (let round = 0; round < ROUNDS; round++) {
    const [best] = trimMoves(job, lying, present, miss, new Set([...left, ...acts.flatMap(bundlesOf)])) ?? [];
    if (!best) break;
    acts.push(...best.acts);
    lying = movedPlan(job, lying, best.acts.flatMap(shiftsOf));
    present = isInAfter(present, best.acts);
    [miss, change] = [best.miss, addMoments(change, best.change)];
  }
  if (acts.length < 3) return null;
  const { faults, outside } = judgeOf(job, plan)(acts.flatMap(shiftsOf));
  return faults.length > 0 ? null : { acts, change, miss, outside: outside.map(({ text }) => text) };
}

function isInAfter(isIn: ReadonlySet<string>, acts: readonly Act[]): Set<string> {
  const then = new Set(isIn);
  for (const { kind, bundle } of acts) {
    if (kind === 'ashore') then.delete(bundle.bundle);
    if (kind === 'in') then.add(bundle.bundle);
  }
  return then;
}

interface Tried {
  act: Act;
  change: Moments;
  step: Miss;
  score: number;
}

const byScore = (p: Tried, q: Tried): number => p.score - q.score;

function tried(act: Act, moved: (moments: Moments) => Miss, laid: ReadonlyMap<string, LaidVoid>, now: Miss): Tried {
  const change = changeOf(act, laid);
  const step = moved(change);
  return { act, change, step, score: scoreOf(plus(now, step)) };
}

/** Every two acts with different bundles. */
function pairs(single: readonly Tried[], now: Miss): { acts: Tried[]; score: number }[] {
  const found: { acts: Tried[]; score: number }[] = [];
  // A pair is kept where it is nearer than either of the two alone.
  single.forEach((one, i) => {
    const after = plus(now, one.step);
    for (const two of single.slice(i + 1)) {
      const score = scoreOf(plus(after, two.step));
      if (score < one.score && score < two.score && !shareBundle(one.act, two.act))
        found.push({ acts: [one, two], score });
    }
  });
  return found;
}

function choose(
  job: Job,
  plan: Plan,
  isIn: ReadonlySet<string>,
  better: readonly { acts: Tried[]; score: number }[],
  now: Miss,
): Proposal[] {
  const given: Proposal[] = [];
  const seen = new Set<string>();
  const judge = judgeOf(job, plan);
  const verdicts = new Map<Act, Judged>();
  const verdictOf = (act: Act): Judged => {
    const known = verdicts.get(act) ?? judge(shiftsOf(act));
    verdicts.set(act, known);
    return known;
  };
  for (const { acts } of better) {
    if (given.length >= GIVEN || verdicts.size >= JUDGED) break;
    // Of alike bundles to alike places one is enough.
    const key = acts
      .map(({ act }) => likeOf(act))
      .sort()
      .join(' ');
    if (seen.has(key)) continue;
    const shifting = acts.filter(({ act }) => shiftsOf(act).length > 0);
    if (shifting.some(({ act }) => verdictOf(act).faults.length > 0)) continue;
    const all = shifting.flatMap(({ act }) => shiftsOf(act));
    const verdict = shifting.length > 1 ? judge(all) : shifting[0] ? verdictOf(shifting[0].act) : NO_FAULT;
    if (verdict.faults.length > 0) continue;
    const ordered = inOrder(plan, isIn, acts);
    if (!ordered) continue;
    seen.add(key);
    const change = acts.reduce((sum, one) => addMoments(sum, one.change), sumMoments([]));
    const miss = acts.reduce((sum, { step }) => plus(sum, step), now);
    given.push({ acts: ordered, change, miss, outside: verdict.outside.map(({ text }) => text) });
  }
  return given;
}

/** What comes out first, then what goes in; null where one of two takes away what the other rests on. */
function inOrder(plan: Plan, isIn: ReadonlySet<string>, acts: readonly Tried[]): Act[] | null {
  const order = ['ashore', 'exchange', 'move', 'in'];
  const ordered = acts.map(({ act }) => act).sort((p, q) => order.indexOf(p.kind) - order.indexOf(q.kind));
  const lifted = new Set(ordered.flatMap((act) => (act.kind === 'ashore' ? [act.bundle.bundle] : [])));
  const left = new Set([...isIn].filter((mark) => !lifted.has(mark)));
  for (const act of ordered) {
    if (act.kind === 'in' && plan.bundles.some((low) => restsOn(act.bundle, low) && !left.has(low.bundle))) return null;
    const shifts = shiftsOf(act);
    for (const { bundle, to } of shifts) {
      const own = plan.bundles.find((one) => one.bundle === bundle)!;
      const there = { ...own, ...to };
      const gone = new Set([...lifted, ...shifts.map((shift) => shift.bundle)]);
      if (plan.bundles.some((low) => gone.has(low.bundle) && restsOn(there, low))) return null;
    }
  }
  return ordered;
}

function actsOf(job: Job, plan: Plan, isIn: ReadonlySet<string>, laid: ReadonlyMap<string, LaidVoid>): Act[] {
  const present = plan.bundles.filter(({ bundle }) => isIn.has(bundle));
  const [inVoid, ofVoid] = [groupBy(present), groupBy(plan.bundles)];
  const absent = plan.bundles.filter(({ bundle }) => !isIn.has(bundle));
  const covered = new Set([...voidsUnder(job, { ...plan, bundles: present }).values()].flat());
  const isReached = (bundle: PlanBundle): boolean =>
    !covered.has(bundle.void) &&
    (inVoid.get(bundle.void) ?? []).every(
      (other) =>
        other.bundle === bundle.bundle ||
        !(restsOn(other, bundle) || standsInWay(other, bundle, laid.get(bundle.void)!)),
    );
  const free = present.filter(isReached);
  const ready = absent.filter(
    (bundle) => isReached(bundle) && absent.every((low) => low === bundle || !restsOn(bundle, low)),
  );
  const acts: Act[] = [
    ...free.map((bundle): Act => ({ kind: 'ashore', bundle })),
    ...ready.map((bundle): Act => ({ kind: 'in', bundle })),
  ];
  const rooms = new Map<string, PlanBundle[]>();
  /** Where in a void a bundle would fit as if it were no weight: bundles of one size are asked about once. */
  const roomIn = (bundle: PlanBundle, space: LaidVoid): PlanBundle[] => {
    const key = `${space.void} ${sizeKey(bundle)}`;
    const own = ofVoid.get(space.void) ?? [];
    const known =
      rooms.get(key) ??
      roomFor(bundle, inVoid.get(space.void) ?? [], space.gap.across)
        .map((place): PlanBundle => ({ ...bundle, ...place, void: space.void, order: own.length + 1 }))
        .filter((there) => mayFit(own, space, there) && isReached(there));
    rooms.set(key, known);
    return known;
  };
  // Of what the plan lays on another, nothing moves from under it.
  const tops = free.filter((bundle) => ofVoid.get(bundle.void)!.every((upper) => !restsOn(upper, bundle)));
  for (const bundle of tops) {
    for (const space of laid.values()) {
      if (space.void === bundle.void || covered.has(space.void)) continue;
      if (bundle.mass > (space.limit ?? job.bundle.limit)) continue;
      for (const there of roomIn(bundle, space))
        acts.push({ kind: 'move', bundle, shift: { bundle: bundle.bundle, to: placeOf(there) } });
    }
    for (const other of tops) {
      // What weighs the same changes nothing.
      if (Math.abs(other.mass - bundle.mass) < ALIKE) continue;
      if (other.void <= bundle.void || Math.abs(other.size.along - bundle.size.along) > 2 * job.saw.tolerance) continue;
      const shifts: [Shift, Shift] = [
        { bundle: bundle.bundle, to: placeOf(other) },
        { bundle: other.bundle, to: placeOf(bundle) },
      ];
      acts.push({ kind: 'exchange', bundle, other, shifts });
    }
  }
  return acts;
}

function sizeKey({ size, rows, onEdge, section }: PlanBundle): string {
  return `${size.along} ${size.across} ${size.up} ${rows} ${onEdge} ${sectionKey(section)}`;
}

function groupBy(bundles: readonly PlanBundle[]): Map<string, PlanBundle[]> {
  const groups = new Map<string, PlanBundle[]>();
  for (const bundle of bundles) groups.set(bundle.void, [...(groups.get(bundle.void) ?? []), bundle]);
  return groups;
}

/** Places on and beside the free tops of the runs of a void, as far as lengths go; whether they hold is for the checker. */
function roomFor(
  bundle: PlanBundle,
  own: readonly PlanBundle[],
  gap: number,
): Pick<PlanBundle, 'run' | 'tier' | 'at'>[] {
  const { along: long, across: wide } = bundle.size;
  const places = new Map<string, Pick<PlanBundle, 'run' | 'tier' | 'at'>>();
  const add = (base: PlanBundle, tier: number, across: number, up: number): void => {
    const at = { along: base.at.along, across: onHalf(across), up };
    places.set(`${base.run} ${at.across} ${up}`, { run: base.run, tier, at });
  };
  for (const base of own) {
    // Longer than what is to carry it, it would stand out over the end of the run.
    if (base.size.along < long - 2) continue;
    const top = base.at.up + base.size.up;
    const beside = own.find((one) => one.run === base.run && Math.abs(one.at.up - top) <= 2);
    const tier = beside?.tier ?? base.tier + 1;
    const up = beside?.at.up ?? top;
    const left = base.at.across;
    const right = left + base.size.across - wide;
    for (const across of [left, right, (left + right) / 2]) add(base, tier, across, up);
    add(base, base.tier, base.at.across + base.size.across + gap, base.at.up);
    add(base, base.tier, base.at.across - gap - wide, base.at.up);
  }
  return [...places.values()];
}

/**
 * False of what the checker would refuse at a glance: outside of the clear space, where a bundle of the plan lies
 * already (in or not), not alike the tier that it would be of, or hardly carried.
 */
function mayFit(own: readonly PlanBundle[], laid: LaidVoid, bundle: PlanBundle): boolean {
  const { at, size } = bundle;
  if (at.along + size.along > laid.length - laid.clear.ends) return false;
  const space = envelope(laid, at.along, at.along + size.along);
  if (at.up + size.up > space.top) return false;
  const [from, to] = [at.across + DUST, at.across + size.across - DUST];
  if (!space.clear(at.up, at.up + size.up).some((free) => free.from <= from && to <= free.to)) return false;
  let carried = bundle.tier === 1 ? 1 : 0;
  for (const other of own) {
    if (other.bundle === bundle.bundle) continue;
    const long = meeting(at.along, size.along, other.at.along, other.size.along);
    const wide = meeting(at.across, size.across, other.at.across, other.size.across);
    const high = meeting(at.up, size.up, other.at.up, other.size.up);
    if (long > 0 && high > 0 && wide > -laid.gap.across) return false;
    if (other.run !== bundle.run) continue;
    if (other.tier === bundle.tier && !isAlike(other, bundle)) return false;
    if (long > 0 && wide > 0 && Math.abs(other.at.up + other.size.up - at.up) <= 2)
      carried += (long * wide) / (size.along * size.across);
  }
  return carried > 0.59;
}

/** By how much two stretches, each from its start so long, overlap. */
function meeting(from: number, long: number, other: number, otherLong: number): number {
  return Math.min(from + long, other + otherLong) - Math.max(from, other);
}

/** Whether two may be of one tier. */
function isAlike(p: PlanBundle, q: PlanBundle): boolean {
  return p.rows === q.rows && p.onEdge === q.onEdge && sectionKey(p.section) === sectionKey(q.section);
}

function shiftsOf(act: Act): Shift[] {
  return act.kind === 'move' ? [act.shift] : act.kind === 'exchange' ? act.shifts : [];
}

function bundlesOf(act: Act): string[] {
  return act.kind === 'exchange' ? [act.bundle.bundle, act.other.bundle] : [act.bundle.bundle];
}

function shareBundle(p: Act, q: Act): boolean {
  const own = bundlesOf(p);
  return bundlesOf(q).some((bundle) => own.includes(bundle));
}

/** What it does, told so that alike bundles moved alike are one. */
function likeOf(act: Act): string {
  const like = ({ void: name, run, tier, mass }: PlanBundle) => `${name}/${run}/${tier}/${mass}`;
  if (act.kind === 'move') return `move ${like(act.bundle)} ${act.shift.to.void}/${act.shift.to.run}`;
  if (act.kind === 'exchange') return `exchange ${like(act.bundle)} ${like(act.other)}`;
  return `${act.kind} ${like(act.bundle)}`;
}

function changeOf(act: Act, laid: ReadonlyMap<string, LaidVoid>): Moments {
  const weight = (bundle: PlanBundle, sign: number) => ({
    mass: sign * bundle.mass,
    ...middlePoint(laid.get(bundle.void)!, bundle),
  });
  if (act.kind === 'ashore') return sumMoments([weight(act.bundle, -1)]);
  if (act.kind === 'in') return sumMoments([weight(act.bundle, 1)]);
  const whole = act.kind === 'move' ? [act.bundle] : [act.bundle, act.other];
  return sumMoments(shiftsOf(act).flatMap(({ to }, i) => [weight(whole[i]!, -1), weight({ ...whole[i]!, ...to }, 1)]));
}

function plus(p: Miss, q: Miss): Miss {
  return { forward: p.forward + q.forward, aft: p.aft + q.aft, list: p.list + q.list };
}

function scoreOf({ forward, aft, list }: Miss): number {
  return forward ** 2 + aft ** 2 + list ** 2;
}
