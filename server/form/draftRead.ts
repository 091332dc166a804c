/** A draft read once, for all that a page tells of it: reading a job of many voids takes longer than most of what follows. */
import type { Fault } from '../../src/fault.ts';
import type { StatedParts } from '../../src/job/jobFaults.ts';
import { type JobRead, readableParts, readJobValue } from '../../src/job/readJob.ts';
import type { Draft } from './apply.ts';

export interface DraftRead {
  /** Everything that keeps it from being planned. */
  faults: Fault[];
  /** What can be read of it, whatever is wrong elsewhere. */
  parts: StatedParts;
  /** The job that it is; null while there are faults. */
  whole: JobRead | null;
}

export function readDraft(draft: Draft): DraftRead {
  const read = readJobValue(draft);
  if (!read.ok) return { faults: read.faults, parts: readableParts(draft), whole: null };
  const { job } = read.value;
  return { faults: [], parts: { ...job, density: job.steel.density }, whole: read.value };
}
