/** Whether a plan is still the one of its job: newer plans, and those of what was left of it, carry the same marks on other bundles. */
import { jobDigest } from '../../src/job/digest.ts';
import type { Place } from '../../src/plan/moved.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { bundlesIn, isAway, type Recorded, recordIn, recordOf } from '../../src/plan/record.ts';
import { byMark, markRanges } from '../../src/plan/stops.ts';
import { jobTextNow } from '../holdNow.ts';
import { draftOf } from '../routes/request.ts';
import type { PlanRow, WholePlanRow } from '../store/plans.ts';
import type { Rest, RestOf } from '../store/rests.ts';
import type { Store } from '../store/store.ts';

export interface Validity {
  /** Serial of the newest plan of the job, where that is another plan and newer. */
  newer: number | null;
  /** There are older plans, which are others. */
  older: boolean;
  /** The job was changed after the plan was made, and not in what holds the stow alone. */
  edited: boolean;
  /** What was left of it is a job of its own; `newest` is the serial of the newest plan of that. */
  rest: (Rest & Drift & { newest: number | null; others: OtherRest[] }) | null;
  before: PlanBefore[];
}

/** Where the record of a plan is otherwise than the job of what was left of it takes it to be: marks by ranges, '' for none. */
export interface Drift {
  /** It goes in by the plan, counts as in, and never was: it goes in before anything of the rest. */
  lacking: string;
  /** It is in by the record, and counts as not in: its steel and its room are the rest's too. */
  twice: string;
  /** It counts as in, and was lifted out or left ashore. */
  gone: string;
  /** It was moved since, and counts where it lay. */
  moved: string;
}

/** A plan of which what was left is this plan's job, or was that of the plan after it. */
export interface PlanBefore extends Drift {
  serial: number;
  /** Another job of what was left of it that is planned and newer, or by which something lies in her; null where there is none. */
  other: OtherRest | null;
  /** Its job was deleted, and can be put back. */
  isDeleted: boolean;
}

/** One more job of what was left of the same plan. */
export type OtherRest = Pick<Rest, 'job' | 'isIn'>;

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
export function standsBy({ rest }: { rest: Rest | null }): ReadonlySet<string> | null {
  return rest?.isPlanned ? rest.stands : null;
}

/** The plans of which a job is what was left, the last first. */
export function plansBefore(store: Store, job: number): PlanBefore[] {
  const before: PlanBefore[] = [];
  let of = job;
  for (let rest = store.rests.ofJob(job); rest !== null; ) {
    const plan = store.plans.find(rest.plan);
    const other = store.rests
      .allOfPlan(rest.plan)
      .find(({ job: one, isIn, isPlanned }) => one !== of && (isIn || (isPlanned && one > of)));
    const isDeleted = !plan || store.jobs.find(plan.job)?.deletedAt !== null;
    before.push({ serial: rest.plan, other: other ?? null, isDeleted, ...driftOf(store, rest) });
    if (plan) of = plan.job;
    rest = plan && store.rests.ofJob(plan.job);
  }
  return before;
}

/** Plans with a record of what was left of a plan, and of what was left of those; of several jobs of one rest all of them. */
export function plansAfter(store: Store, serial: number): number[] {
  return store.rests.allOfPlan(serial).flatMap(({ job }) => {
    const recorded = store.plans.ofJob(job).find((plan) => store.records.of(plan.serial).length > 0);
    return recorded ? [recorded.serial, ...plansAfter(store, recorded.serial)] : [];
  });
}

function restOf(store: Store, serial: number): Validity['rest'] {
  const [rest, ...more] = store.rests.allOfPlan(serial);
  if (!rest) return null;
  const newest = store.plans.ofJob(rest.job)[0]?.serial ?? null;
  return {
    ...rest,
    ...driftOf(store, { plan: serial, ...rest }),
    newest,
    others: more.filter(({ isPlanned }) => isPlanned),
  };
}

function driftOf(store: Store, rest: RestOf): Drift {
  const record = recordOf(store.records.of(rest.plan));
  const told = (marks: Iterable<string>) => markRanges([...marks].sort(byMark)).join(', ');
  const { lacking, gone } = absentOf(rest.stands, record);
  return {
    lacking: told(lacking),
    gone: told(gone),
    twice: told([...bundlesIn(record)].filter((mark) => !rest.stands.has(mark))),
    moved: told(movedSince(store, rest)),
  };
}

/** Of what counts as in, what never went in, and what did and is out, or was left ashore. */
function absentOf(stands: ReadonlySet<string>, record: Recorded): { lacking: string[]; gone: string[] } {
  const absent = [...stands].filter((mark) => recordIn(record, mark).state !== 'in');
  const isGone = (mark: string): boolean => isAway(recordIn(record, mark));
  return { lacking: absent.filter((mark) => !isGone(mark)), gone: absent.filter(isGone) };
}

/** What stands elsewhere than where it stood when the job of the rest was made; what was moved back is not among it. */
function movedSince(store: Store, { plan: serial, stands, moves }: RestOf): string[] {
  const batches = store.moved.of(serial);
  if (moves === null || batches.length <= moves) return [];
  const [before, since] = [batches.slice(0, moves), batches.slice(moves)].map(
    (some) => new Map(some.flat().map(({ bundle, to }): [string, Place] => [bundle, to])),
  );
  const planned = new Map(bundlesOf(store, serial).map((own) => [own.bundle, own]));
  return [...since!].flatMap(([mark, to]) => {
    const was: Place | undefined = before!.get(mark) ?? planned.get(mark);
    return stands.has(mark) && !(was && isSamePlace(was, to)) ? [mark] : [];
  });
}

function bundlesOf(store: Store, serial: number): Plan['bundles'] {
  const row = store.plans.find(serial);
  return row ? (JSON.parse(row.body) as Plan).bundles : [];
}

function isSamePlace(p: Place, q: Place): boolean {
  const same = p.void === q.void && p.run === q.run && p.tier === q.tier;
  return same && p.at.along === q.at.along && p.at.across === q.at.across && p.at.up === q.at.up;
}
