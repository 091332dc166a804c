/**
 * The checker: everything a plan file says, derived again from the job and the plan by the format page alone. It shares
 * no code with the planner, so that the two can disagree; a plan that it faults is never shown and never printed.
 *
 * Cost: n log n in the bars, pieces and bundles, but for faulty plans with runs on top of each other.
 */
import type { Job } from '../job/job.ts';
import { checkBars } from './check/bars.ts';
import { checkBundles, type Tied } from './check/bundles.ts';
import { checkCarry } from './check/carry.ts';
import { checkPlace } from './check/place.ts';
import type { PlanFault, Tell } from './check/planFault.ts';
import { checkShare } from './check/share.ts';
import { layVoid } from './check/space.ts';
import { checkStow } from './check/stow.ts';
import { checkSums, checkVoid } from './check/sums.ts';
import type { Plan } from './plan.ts';

/**
 * Every rule that `plan` breaks, bars first, then bundles, voids and sums; none where it is right. `digest` is that of
 * the job as written (`job/digest.ts`); without it the job is known by its name only.
 */
export function checkPlan(job: Job, plan: Plan, digest?: string): PlanFault[] {
  const faults: PlanFault[] = [];
  const tell: Tell = (code, about, text, by) => faults.push({ code, about, text, by: by ?? null });
  if (plan.job !== job.name) tell('other-job', 'plan', `The plan is of “${plan.job}”, the job is “${job.name}”.`);
  if (digest !== undefined && plan.jobDigest !== digest)
    tell('other-job', 'plan', 'The job was changed after the plan was made, or the plan is of another one.');
  const cutting = checkBars(job, plan, tell);
  const axes = new Map(plan.voids.map((told) => [told.void, told.axis]));
  const spaces = new Map(job.voids.map((stated) => [stated.void, layVoid(stated, axes.get(stated.void))]));
  const bundles = checkBundles(job, plan, spaces, cutting.pieces, tell);
  for (const tied of bundles) checkPlace(tied, tell);
  const byVoid = groupBy(bundles, (tied: Tied) => tied.bundle.void);
  const runs = groupBy(plan.runs, (run) => run.void);
  const voids = groupBy(plan.voids, (told) => told.void);
  for (const [name, space] of spaces) {
    checkStow(job, space, byVoid.get(name) ?? [], runs.get(name) ?? [], tell);
    checkCarry(space, byVoid.get(name) ?? [], tell);
    checkShare(job, name, byVoid.get(name) ?? [], tell);
    checkVoid(space, byVoid.get(name) ?? [], voids.get(name) ?? [], tell);
  }
  for (const name of new Set([...runs.keys(), ...voids.keys()]))
    if (!spaces.has(name))
      tell('void-told', `void ${name}`, `The plan tells of ${name}, and the job has no such void.`);
  checkSums(job, plan, cutting, bundles, tell);
  return faults;
}

function groupBy<T>(items: T[], key: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const group = groups.get(key(item));
    if (group) group.push(item);
    else groups.set(key(item), [item]);
  }
  return groups;
}
