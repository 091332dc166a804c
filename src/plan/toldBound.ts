/** The bound as a plan tells it. */
import type { Job } from '../job/job.ts';
import type { Bound, Plan } from './plan.ts';

/** What no plan is worth more than, kg: any plan, and those that keep the centre and spread asked for. */
export class Bounds {
  any = Number.POSITIVE_INFINITY;
  aimed = Number.POSITIVE_INFINITY;

  private readonly stop: number;

  /** `stop`: the labour of one, kg, which every plan has at least. */
  constructor(stop: number) {
    this.stop = stop;
  }

  /** One that holds, stops left out, kg; `mayMiss`: the job has such aims. */
  take(value: number, of: BoundOf, mayMiss: boolean): void {
    this[of] = Math.min(this[of], Math.max(0, value - this.stop));
    if (this.aimed < this.any && !mayMiss) this.any = this.aimed;
  }
}

export type BoundOf = 'any' | 'aimed';

/** Values are told to so much, kg. */
const ROUNDING = 0.02;

/** True where a plan misses the centre or the spread asked for. */
export function missesAims({ cautions }: Pick<Plan, 'cautions'>): boolean {
  return cautions.some(({ code }) => code === 'centre-missed' || code === 'spread-missed');
}

/** The bound of a plan with its scope; none where it would be under the plan: rather none is told than a proof that does not hold. */
export function toldBound({ aims }: Job, plan: Plan, bounds: Bounds): Bound {
  const { value } = plan.bound;
  const missed = missesAims(plan);
  const most = missed ? bounds.any : Math.min(bounds.aimed, bounds.any);
  const holds = Number.isFinite(most) && most > value - ROUNDING;
  const valueAtMost = holds ? Math.max(value, Math.ceil(most * 100) / 100) : null;
  const gap = valueAtMost === null ? null : Math.round(((valueAtMost - value) / Math.abs(valueAtMost)) * 1e6) / 1e6;
  const scope =
    missed || (!aims.centre && aims.spread === undefined)
      ? 'every plan of the job, whatever its lengths and stops'
      : 'every plan of the job that keeps the centre and spread asked for, whatever its lengths and stops';
  return { value, valueAtMost, gap, scope };
}
