/** The marks that she is to come to with a plan: those that the job wants, else those that the whole plan is foretold to bring. */
import type { Job } from '../job/job.ts';
import { addedContents } from '../plan/contents.ts';
import type { Plan } from '../plan/plan.ts';
import type { FloatsBefore } from './againstRecord.ts';
import { effectOf, marksOf } from './float.ts';
import { hydrostaticsOf } from './hydrostatics.ts';
import { sumMoments, weightsAboard } from './moments.ts';
import { inHerThen } from './taken.ts';

/** cm at each end, down positive, counted from her own figures; `asked` where the job says so. */
export interface WantedDown {
  forward: number;
  aft: number;
  asked: boolean;
}

/** Null where the job wants no marks and her hydrostatics are not known. */
export function wantedDown(job: Job, plan: Plan): WantedDown | null {
  const down = job.aims.effect?.down;
  if (down) return { ...down, asked: true };
  const { marks } = job.vessel ? effectOf(job.vessel, weightsAboard(job, plan)) : { marks: null };
  if (marks?.kind !== 'answer') return null;
  return { forward: marks.forward.likely, aft: marks.aft.likely, asked: false };
}

/** The draughts that are wanted, m, from how she floated before; an end is null where nobody said how deep it was then. */
export function wantedDraughts(
  job: Job,
  plan: Plan,
  before: FloatsBefore,
): { forward: number | null; aft: number | null; asked: boolean } | null {
  const down = wantedDown(job, plan);
  return down && job.vessel ? { ...draughtsFor(job, down, before), asked: down.asked } : null;
}

/** Those that are so far down, cm counted from her own figures. */
export function draughtsFor(
  job: Job,
  down: { forward: number; aft: number },
  before: FloatsBefore,
): { forward: number | null; aft: number | null } {
  // What lies in the voids was in her when she was read, and is not in her draughts as stated; with a job before it was other.
  const lay = before.marksEarlier ? inHerThen(before.marksEarlier) : sumMoments(addedContents(job));
  const already = before.marksOf === null || !job.vessel ? null : marksOf(hydrostaticsOf(job.vessel), lay);
  const deep = (end: 'forward' | 'aft'): number | null => {
    const read = already?.kind === 'answer' ? already[end].likely : 0;
    return before[end] === null ? null : before[end] + (down[end] - read) / 100;
  };
  return { forward: deep('forward'), aft: deep('aft') };
}
