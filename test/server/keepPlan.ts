import { recordPlan } from '../../server/planning/record.ts';
import type { Store } from '../../server/store/store.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { World } from './world.ts';

/** Keeps a plan of a job that is in the store, as the server keeps one that was made; its serial. */
export function keepPlan(store: Store, job: number, input: object, plan: Plan, madeAt: string): number {
  const { totals, bound, effort, jobDigest } = plan;
  return store.plans.add({
    job,
    jobDigest,
    digest: jobDigest,
    jobBody: JSON.stringify(input),
    body: JSON.stringify(plan),
    summary: { totals, bound, effort },
    stoppedEarly: false,
    madeAt,
  });
}

/** Brings a job in as a file and keeps a plan of it: the job's number and the plan's serial. */
export async function bringPlanned(world: World, job: object, plan: object): Promise<{ id: number; serial: number }> {
  const body = JSON.stringify(job);
  const id = Number((await world.bring(body)).split('/').at(-1));
  return { id, serial: recordPlan(world.store, { job: id, body }, JSON.stringify(plan), null, false, MADE) };
}

const MADE = '2026-05-04T08:00:00Z';
