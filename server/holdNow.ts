/**
 * What holds a stow is worked out and fitted after it is stowed, and the planner knows nothing of it: where a job was changed
 * in that alone, its plans are still its plans, and are told with what holds them now.
 */
import { canonicalJson } from '../src/job/digest.ts';
import { readJob } from '../src/job/readJob.ts';
import type { Draft } from './form/apply.ts';
import { isRecord, listAt } from './form/path.ts';
import { draftOf } from './routes/request.ts';
import type { WholePlanRow } from './store/plans.ts';
import type { Store } from './store/store.ts';

/**
 * The text of the job of a plan: as the job stands now, where that can be read and differs from what was planned in nothing
 * but `holdDown` of voids; else as it was planned.
 */
export function jobTextNow(store: Store, row: Pick<WholePlanRow, 'job' | 'jobBody'>): string {
  const now = store.jobs.body(row.job);
  if (now === null || now === row.jobBody || withoutHold(now) !== withoutHold(row.jobBody)) return row.jobBody;
  return readJob(now, { toCheck: true }).ok ? now : row.jobBody;
}

function withoutHold(body: string): string {
  const draft: Draft = draftOf(body);
  const voids = listAt(draft, ['voids']).map((space) => (isRecord(space) ? { ...space, holdDown: undefined } : space));
  return canonicalJson({ ...draft, voids });
}
