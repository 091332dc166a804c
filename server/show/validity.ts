/** Whether a plan is still the one of its job: newer plans carry the same marks on other bundles. */
import { jobDigest } from '../../src/job/digest.ts';
import { draftOf } from '../routes/request.ts';
import type { PlanRow } from '../store/plans.ts';
import type { Store } from '../store/store.ts';

export interface Validity {
  /** Serial of the newest plan of the job, where that is another plan and newer. */
  newer: number | null;
  /** There are older plans, which are others. */
  older: boolean;
  /** The job was changed after the plan was made. */
  edited: boolean;
}

/** Whether a plan is the one that holds among those of its job; one of the same digest is the same plan, and its tags hold. */
export function validityOf(store: Store, row: PlanRow): Validity {
  const plans = store.plans.ofJob(row.job);
  const isOther = (other: PlanRow) => other.digest !== row.digest;
  const [newest] = plans;
  return {
    newer: newest && newest.serial > row.serial && isOther(newest) ? newest.serial : null,
    older: plans.some((other) => other.serial < row.serial && isOther(other)),
    edited: jobDigest(draftOf(store.jobs.body(row.job))) !== row.jobDigest,
  };
}
