/**
 * A plan in which some bundles lie elsewhere than they were planned: moved to trim her, by themselves or in exchange for
 * each other. What is cut and tied stays; sums, orders and limits are reckoned anew, and the checker judges the whole.
 */
import type { Job } from '../job/job.ts';
import { type LaidVoid, layVoid } from '../stow/laid.ts';
import type { PlanFault, PlanFaultCode } from './check/planFault.ts';
import { checkPlan } from './check.ts';
import type { Bound, Plan, PlanBundle } from './plan.ts';
import { withShares } from './share.ts';
import { centreOf, planValue, totalsOf, voidsOf } from './totals.ts';

/** Where a bundle lies: its corner in the void as laid, mm, and when it goes in there. */
export interface Place {
  void: string;
  run: number;
  tier: number;
  order: number;
  at: PlanBundle['at'];
}

export interface Shift {
  bundle: string;
  to: Place;
}

export function placeOf({ void: name, run, tier, order, at }: PlanBundle): Place {
  return { void: name, run, tier, order, at };
}

/** The voids of a job as the plan has laid them. */
export function laidVoids(job: Job, plan: Pick<Plan, 'voids'>): Map<string, LaidVoid> {
  return new Map(
    job.voids.map((space) => {
      const ways = layVoid(space);
      const axis = plan.voids.find((told) => told.void === space.void)?.axis;
      return [space.void, ways.find((way) => way.axis === axis) ?? ways[0]!];
    }),
  );
}

/**
 * The plan with these bundles where they were moved to, in the order of `plan.bundles`, so that a number in that list stays
 * the same bundle. Of a void that one left, those after it move up. What it could be worth at most and its cautions stay those of the plan as made.
 */
export function movedPlan(job: Job, plan: Plan, shifts: readonly Shift[]): Plan {
  if (shifts.length === 0) return plan;
  const laid = laidVoids(job, plan);
  const ordered = put(job, plan, shifts);
  const masses = new Map(ordered.map(({ bundle, mass }) => [bundle, mass]));
  const voids = voidsOf(job, ordered, laid, masses).map((told, n) => ({ ...plan.voids[n], ...told }));
  const hasShares = plan.bundles.some(({ share }) => share !== undefined);
  const bundles = hasShares ? withShares({ bundles: ordered, voids }, job.aims.fixedShare) : ordered;
  const totals = totalsOf(job, plan.bars, bundles);
  const value = Math.round(planValue(job, plan.bars, bundles, totals) * 100) / 100;
  return {
    ...plan,
    bundles,
    voids,
    bound: boundOf(plan.bound, value),
    centre: centreOf(bundles, laid, masses),
  };
}

/** The same bound, held against what the plan is worth as it lies. */
function boundOf(bound: Bound, value: number): Bound {
  const most = bound.valueAtMost;
  return { ...bound, value, gap: most === null || most === 0 ? bound.gap : (most - value) / Math.abs(most) };
}

/** The plan with these of its bundles (marks) alone, in the order that they had; voids and sums stay those of the plan as made. */
export function onlyThose(plan: Plan, those: ReadonlySet<string>): Plan {
  return { ...plan, bundles: inOneOrder(plan.bundles.filter(({ bundle }) => those.has(bundle))) };
}

/** All bundles, the moved ones at their new places, in one order in every void. */
function put(job: Job, plan: Plan, shifts: readonly Shift[]): PlanBundle[] {
  const to = new Map(shifts.map((shift) => [shift.bundle, shift.to]));
  const limits = new Map(job.voids.map((space) => [space.void, space.limit ?? job.bundle.limit]));
  return inOneOrder(
    plan.bundles.map((bundle): PlanBundle => {
      const place = to.get(bundle.bundle);
      return place ? { ...bundle, ...place, limit: limits.get(place.void) ?? bundle.limit } : bundle;
    }),
  );
}

/** Orders 1 … n in every void, the bundles in the order that they had. */
function inOneOrder(bundles: readonly PlanBundle[]): PlanBundle[] {
  const orders = new Map<string, number>();
  for (const name of new Set(bundles.map((bundle) => bundle.void))) {
    const own = bundles.filter((bundle) => bundle.void === name).sort((p, q) => p.order - q.order);
    for (const [i, { bundle }] of own.entries()) orders.set(bundle, i + 1);
  }
  return bundles.map((bundle) => ({ ...bundle, order: orders.get(bundle.bundle)! }));
}

/** Rules of what may lie where, which a bundle that is moved must keep. */
const LYING: ReadonlySet<PlanFaultCode> = new Set<PlanFaultCode>([
  'over-limit',
  'bundle-place',
  'outside-ends',
  'outside-sides',
  'outside-top',
  'below-bottom',
  'keep-out',
  'drain',
  'opening',
  'overlap',
  'gap-across',
  'gap-runs',
  'run-start',
  'run-number',
  'run-told',
  'packing',
  'tier-mixed',
  'tier-number',
  'not-carried',
  'overhang',
  'not-on-bearers',
  'over-bearer',
  'over-metre',
  'order',
  'over-most',
]);

/** Rules that what is moved to trim her may pass, and is told: a shorter bundle on a run of longer ones, and what was asked for. */
const OUTSIDE: ReadonlySet<PlanFaultCode> = new Set<PlanFaultCode>(['run-length', 'over-target']);

export interface Judged {
  /** What forbids it. */
  faults: PlanFault[];
  /** What of it is outside of the plan's rules, and may be done all the same. */
  outside: PlanFault[];
}

/** Judges shifts by the checker: what it says of the voids that they touch, and does not say of them in `plan`. */
export function judgeOf(job: Job, plan: Plan): (shifts: readonly Shift[]) => Judged {
  const known = new Map<string, ReadonlySet<string>>();
  return (shifts) => judgeShifts(job, plan, shifts, known);
}

function judgeShifts(job: Job, plan: Plan, shifts: readonly Shift[], known: Map<string, ReadonlySet<string>>): Judged {
  const moved = new Set(shifts.map(({ bundle }) => bundle));
  const touched = new Set([
    ...shifts.map(({ to }) => to.void),
    ...plan.bundles.filter(({ bundle }) => moved.has(bundle)).map((bundle) => bundle.void),
  ]);
  const voids = job.voids.filter((space) => touched.has(space.void));
  const own = new Set(plan.bundles.filter((bundle) => touched.has(bundle.void)).map(({ bundle }) => bundle));
  const some = { ...job, voids };
  const only = (whole: Plan): Plan => ({
    ...whole,
    bars: plan.bars.filter(({ pieces }) => pieces.some(({ bundle }) => own.has(bundle))),
    bundles: whole.bundles.filter(({ bundle }) => own.has(bundle)),
    runs: plan.runs.filter((run) => touched.has(run.void)),
    voids: plan.voids.filter((told) => touched.has(told.void)),
  });
  const voidsKey = JSON.stringify(voids.map((space) => space.void));
  const said = known.get(voidsKey) ?? new Set(checkPlan(some, only(plan)).map(keyOf));
  known.set(voidsKey, said);
  const after = only({ ...plan, bundles: put(job, plan, shifts) });
  const fresh = checkPlan(some, after).filter((fault) => !said.has(keyOf(fault)));
  return {
    faults: fresh.filter(({ code }) => LYING.has(code)),
    outside: fresh.filter(({ code }) => OUTSIDE.has(code)),
  };
}

function keyOf({ code, about }: PlanFault): string {
  return `${code} ${about}`;
}
