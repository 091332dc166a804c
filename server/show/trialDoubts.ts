/** Why what was read may not be gone by, on the page “The trial”: it is otherwise than reckoned, or read with other bundles in. */
import { compareWithRecord, type FloatsBefore, floatsBefore } from '../../src/balance/againstRecord.ts';
import { type AgainstWords, againstWords, isPlaced } from '../../src/balance/againstWords.ts';
import { sumMoments, type Weight } from '../../src/balance/moments.ts';
import { type Taken, type TrialPair, takenBefore, weightsThen } from '../../src/balance/taken.ts';
import type { TrialReadings } from '../../src/balance/trial.ts';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';

export interface TrialDoubts {
  /** What was read otherwise than reckoned; null where all agrees. */
  against: AgainstWords | null;
  /** Where other bundles were in than are counted; '' where none were. */
  aboard: string;
  /** How she floated before, by the marks in the fields. */
  before: FloatsBefore;
}

interface OfTrial {
  job: Job;
  plan: Plan;
  /** As they stand in the fields. */
  readings: TrialReadings;
  read: TrialPair;
  /** All that was read, in the order taken, with the jobs before first. */
  all: readonly Taken[];
  /** The marks of what is counted as in, and its weights; the marks of what is in by the record. */
  first: ReadonlySet<string>;
  stowed: readonly Weight[];
  isIn: ReadonlySet<string>;
}

/**
 * Marks that stand as they were read and kept are held against what was in her then by the record, with the list that was
 * read with them; marks that were typed against what is counted as in her.
 */
export function trialDoubtsOf({ job, plan, readings, read, all, first, stowed, isIn }: OfTrial): TrialDoubts {
  const { before, after, period = null } = readings;
  const kept =
    read.after?.reading.forward === after.forward && read.after.reading.aft === after.aft ? read.after : null;
  const from = floatsFrom(job, before, read, kept ? takenBefore(all, kept) : all);
  const list = kept?.reading.list ?? null;
  const weights = kept ? weightsThen(job, plan, kept.reading.aboard) : stowed;
  const moments = kept?.reading.aboard.moments ?? sumMoments(stowed);
  const recorded = { moments, weights, placed: isPlaced(job, plan) };
  const contradictions = compareWithRecord(job, recorded, { ...after, list, period }, from);
  const aboard = kept ? {} : { aboard: 'the bundles counted here in her' };
  return {
    against: againstWords({ contradictions, before: from, isEmpty: false, ...aboard }),
    aboard: otherAboard(kept, first, isIn),
    before: from,
  };
}

function floatsFrom(
  job: Job,
  { forward, aft }: TrialReadings['before'],
  read: TrialPair,
  taken: readonly Taken[],
): FloatsBefore {
  const { marksEarlier, ...from } = floatsBefore(job.vessel, taken);
  if (from.forward === forward && from.aft === aft) return { ...from, ...(marksEarlier && { marksEarlier }) };
  const isRead = read.before?.reading.forward === forward && read.before.reading.aft === aft;
  if (!isRead) return { ...from, forward, aft, marksOf: 'typed' };
  // Of a job before it had other things in the voids.
  const { number, earlier } = read.before!;
  return { ...from, forward, aft, marksOf: number, ...(earlier && { marksEarlier: read.before! }) };
}

/** Of marks that were typed what is in now counts, where a record is kept at all. */
function otherAboard(kept: Taken | null, first: ReadonlySet<string>, isIn: ReadonlySet<string>): string {
  const then = kept ? kept.reading.aboard.bundles : [...isIn];
  if (then.length === 0 || (then.length === first.size && then.every((mark) => first.has(mark)))) return '';
  const count = (some: number): string => (some === 1 ? '1 bundle' : `${some} bundles`);
  const when = kept
    ? `No. ${kept.number} was read with ${count(then.length)} in`
    : `By the record ${count(then.length)} are in`;
  return then.length === first.size
    ? `${when}, and they are others than those counted here.`
    : `${when}, and ${first.size} are counted here.`;
}
