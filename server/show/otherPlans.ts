/** What lies in her by the records of other plans of the same stow: of what was left of a plan, and those before it. */
import type { Weight } from '../../src/balance/moments.ts';
import { weightsByVoid } from '../../src/balance/moments.ts';
import { atMassNow } from '../../src/plan/massNow.ts';
import type { PlanBundle } from '../../src/plan/plan.ts';
import { bundlesIn, recordOf } from '../../src/plan/record.ts';
import { baseName } from '../../src/plan/standing.ts';
import type { Context } from '../app.ts';
import { isThere, planOf } from '../routes/plan.ts';
import { plansAfter } from './validity.ts';

/** Of one plan of what was left: kg in her by its record, and its voids in which they lie. */
export interface InAfter {
  serial: number;
  mass: number;
  voids: string[];
}

export interface OtherPlans {
  /** What counts on top of a plan's own figures; negative what they count as in by a plan before, and is not. */
  weights: Weight[];
  /** What of those weights is of plans before, kg. */
  before: number;
  after: InAfter[];
  /** Names of this plan's voids in the rest of which something lies. */
  voids: ReadonlySet<string>;
}

/** By the records as they are now. */
export function otherPlans(context: Context, serial: number, job: number): OtherPlans {
  const weights = weightsBefore(context, job);
  const before = massOf(weights);
  const after: InAfter[] = [];
  const bases = new Set<string>();
  for (const one of plansAfter(context.store, serial)) {
    const present = weightsOf(context, one, bundlesIn(recordOf(context.store.records.of(one))));
    const voids = [...present].flatMap(([name, own]) => (own.length > 0 ? [name] : []));
    const own = [...present.values()].flat();
    if (own.length === 0) continue;
    weights.push(...own);
    for (const name of voids) bases.add(baseName(name));
    after.push({ serial: one, mass: massOf(own), voids });
  }
  return { weights, before, after, voids: bases };
}

/** Of the plans before: what they count as in and is not, taken off; what is in and they do not count, added. */
function weightsBefore(context: Context, job: number): Weight[] {
  const { store } = context;
  const weights: Weight[] = [];
  for (let rest = store.rests.ofJob(job); rest !== null; ) {
    const { plan, stands } = rest;
    if (!isThere(store, plan)) break;
    const isIn = bundlesIn(recordOf(store.records.of(plan)));
    const absent = new Set([...stands].filter((mark) => !isIn.has(mark)));
    const beside = new Set([...isIn].filter((mark) => !stands.has(mark)));
    const off = [...weightsOf(context, plan, absent).values()].flat();
    weights.push(...off.map((weight) => ({ ...weight, mass: -weight.mass })));
    weights.push(...[...weightsOf(context, plan, beside).values()].flat());
    rest = store.rests.ofJob(planOf(context, plan).row.job);
  }
  return weights;
}

function weightsOf(context: Context, serial: number, marks: ReadonlySet<string>): Map<string, Weight[]> {
  const { plan, job } = planOf(context, serial);
  const bundles = plan.bundles.filter(({ bundle }: PlanBundle) => marks.has(bundle));
  return weightsByVoid(job, { ...plan, bundles: atMassNow(bundles, context.store.weighed.of(serial)) });
}

function massOf(weights: readonly Weight[]): number {
  return weights.reduce((sum, { mass }) => sum + mass, 0);
}
