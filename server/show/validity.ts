/** Whether a plan is still the one of its job: newer plans, and those of what was left of it, carry the same marks on other bundles. */
import { jobDigest } from '../../src/job/digest.ts';
import { bundlesIn, recordOf } from '../../src/plan/record.ts';
import { markRanges } from '../../src/plan/stops.ts';
import { jobTextNow } from '../holdNow.ts';
import { draftOf } from '../routes/request.ts';
import type { PlanRow, WholePlanRow } from '../store/plans.ts';
import type { Rest } from '../store/rests.ts';
import type { Store } from '../store/store.ts';

export interface Validity {
  /** Serial of the newest plan of the job, where that is another plan and newer. */
  newer: number | null;
  /** There are older plans, which are others. */
  older: boolean;
  /** The job was changed after the plan was made, and not in what holds the stow alone. */
  edited: boolean;
  /** What was left of it is a job of its own; `lacking` are the marks, by ranges, of what still goes in by this plan. */
  rest: (Rest & { lacking: string }) | null;
  before: PlanBefore[];
}

/** A plan of which what was left is this plan's job, or was that of the plan after it. */
export interface PlanBefore {
  serial: number;
  /** Marks, by ranges, of what goes in by it and is not in yet; '' where nothing is. */
  lacking: string;
}

/** Whether a plan is the one that holds among those of its job; one of the same digest is the same plan, and its tags hold. */
export function validityOf(store: Store, row: WholePlanRow): Validity {
  const plans = store.plans.ofJob(row.job);
  const isOther = (other: PlanRow) => other.digest !== row.digest;
  const [newest] = plans;
  return {
    newer: newest && newest.serial > row.serial && isOther(newest) ? newest.serial : null,
    older: plans.some((other) => other.serial < row.serial && isOther(other)),
    rest: restOf(store, row.serial),
    before: plansBefore(store, row.job),
    edited: isEdited(store, row),
  };
}

/** Whether the job is another than the one planned, in more than what holds the stow. */
export function isEdited(store: Store, row: WholePlanRow): boolean {
  const isSame = jobDigest(draftOf(store.jobs.body(row.job))) === row.jobDigest;
  return !isSame && jobTextNow(store, row) === row.jobBody;
}

/** Marks of what goes in by a plan of which the rest is planned anew; null where all of it does. */
export function standsBy({ rest }: Validity): ReadonlySet<string> | null {
  return rest?.isPlanned ? rest.stands : null;
}

/** The plans of which a job is what was left, the last first. */
export function plansBefore(store: Store, job: number): PlanBefore[] {
  const before: PlanBefore[] = [];
  for (let rest = store.rests.ofJob(job); rest !== null; ) {
    before.push({ serial: rest.plan, lacking: lackingOf(store, rest.plan, rest.stands) });
    const plan = store.plans.find(rest.plan);
    rest = plan && store.rests.ofJob(plan.job);
  }
  return before;
}

function restOf(store: Store, serial: number): Validity['rest'] {
  const rest = store.rests.ofPlan(serial);
  return rest && { ...rest, lacking: lackingOf(store, serial, rest.stands) };
}

/** Marks, by ranges, of what stays by a plan and is not in by its record. */
function lackingOf(store: Store, serial: number, stands: ReadonlySet<string>): string {
  const isIn = bundlesIn(recordOf(store.records.of(serial)));
  return markRanges([...stands].filter((mark) => !isIn.has(mark))).join(', ');
}
