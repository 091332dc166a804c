/** What was read afloat with the jobs that a job is what was left of: she is one boat, and it stays written there. */
import { sumMoments } from '../../src/balance/moments.ts';
import { type Earlier, inOrderTaken, type Taken } from '../../src/balance/taken.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { addedContents } from '../../src/plan/contents.ts';
import { draftOf } from '../routes/request.ts';
import type { Store } from '../store/store.ts';

/** In the order taken, the first job first; none of a job that is no rest. */
export function earlierTaken(store: Store, job: number): Taken[] {
  const all: Taken[][] = [];
  // What was written once the rest was made may have been read with some of the rest in her, of which its job knows nothing.
  let made = madeAt(store, job);
  for (let rest = store.rests.ofJob(job); rest !== null; ) {
    const { plan: serial } = rest;
    const plan = store.plans.find(serial);
    if (!plan) break;
    const before = made;
    const own = inOrderTaken(store.taken.of(plan.job));
    all.unshift(own.map((taken) => ({ ...taken, earlier: earlierOf(store, serial, taken, before) })));
    made = Math.min(made, madeAt(store, plan.job));
    rest = store.rests.ofJob(plan.job);
  }
  return all.flat();
}

function madeAt(store: Store, job: number): number {
  return Date.parse(store.jobs.find(job)?.madeAt ?? '');
}

function earlierOf(store: Store, page: number, taken: Taken, made: number): Earlier {
  const { writtenAt } = taken.before[0] ?? taken;
  const planned = store.plans.find(taken.reading.aboard.plan);
  const read = readJobValue(draftOf(planned?.jobBody ?? null));
  const contents = read.ok ? sumMoments(addedContents(read.value.job)) : null;
  return { plan: page, contents, counts: contents !== null && Date.parse(writtenAt) <= made };
}
