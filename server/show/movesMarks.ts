/** The marks that the page “Trim her by moving” goes by: whether they can be hers, and whether the record explains them. */
import { compareWithRecord, type FloatsBefore } from '../../src/balance/againstRecord.ts';
import { type AgainstWords, againstWords, isPlaced } from '../../src/balance/againstWords.ts';
import { sumMoments, type Weight } from '../../src/balance/moments.ts';
import { apartWords, slippedEnds } from '../../src/balance/slips.ts';
import { type Taken, weightsThen } from '../../src/balance/taken.ts';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { MovesPage } from './movesPage.ts';

/** A mark that does not go together with the one before counts for nothing, and says so beside its field; else the same. */
export function doubted(asked: MovesPage['asked'], before: FloatsBefore): MovesPage['asked'] {
  const ends = slippedEnds(before, { forward: asked.forward.value, aft: asked.aft.value });
  if (ends.length === 0) return asked;
  const remedy = 'Was a point or a digit slipped? Draughts are in metres, and read from the same mark both times.';
  const doubts = ends.map((end) => {
    const fault = `${apartWords(before[end]!, asked[end].value!)}.`;
    return [end, { ...asked[end], value: null, faulty: true, fault, remedy }];
  });
  return { ...asked, ...Object.fromEntries(doubts) };
}

/** Whether list and draughts stand as they were read. */
export function isAsRead(asked: MovesPage['asked'], read: Taken | null): boolean {
  return (
    read !== null && (['list', 'forward', 'aft'] as const).every((name) => asked[name].value === read.reading[name])
  );
}

/** What stands as it was read is held against what was in her then; anything else against what is in her now. */
export function againstOf(
  job: Job,
  plan: Plan,
  now: readonly Weight[],
  { list, forward, aft }: MovesPage['asked'],
  asRead: Taken | null,
  before: FloatsBefore,
): AgainstWords | null {
  const floats = { list: list.value, forward: forward.value, aft: aft.value };
  const moments = asRead?.reading.aboard.moments ?? sumMoments(now);
  const weights = asRead ? weightsThen(job, plan, asRead.reading.aboard) : now;
  const period = asRead?.reading.period ?? null;
  const recorded = { moments, weights, placed: isPlaced(job, plan) };
  const contradictions = compareWithRecord(job, recorded, { ...floats, period }, before);
  return againstWords({ contradictions, before, isEmpty: false });
}
