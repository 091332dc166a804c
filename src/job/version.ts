/** What the format has and this version does not use yet: told, never silently left out. */
import type { JobInput } from './job.ts';

/** Something stated that changes nothing yet. */
export interface Note {
  path: string;
  message: string;
}

/** Fields of a job as written that are read and kept, and change nothing yet. */
export function notUsedYet(raw: JobInput): Note[] {
  const notes: Note[] = [];
  if (raw.aims?.fixedShare !== undefined)
    notes.push({ path: 'aims.fixedShare', message: 'is kept, and not used yet: the whole plan is shown as one part.' });
  return notes;
}
