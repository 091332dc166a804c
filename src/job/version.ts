/** What the format has and this version does not carry out yet: refused before planning, never silently left out. */
import type { Fault } from '../fault.ts';
import type { Job, JobInput } from './job.ts';

/** Something stated that changes nothing yet. */
export interface Note {
  path: string;
  message: string;
}

/** The fields that keep this version from planning the job; reading and checking it are not affected. */
export function notInThisVersion(job: Job): Fault[] {
  const faults: Fault[] = [];
  const refuse = (path: string, message: string, remedy: string) =>
    faults.push({ path, code: 'not-in-this-version', message: `${message} is not in this version.`, remedy });
  if (job.bundle.joints)
    refuse('bundle.joints', 'Butting short pieces end to end', 'Take “joints” out; whole pieces only are planned.');
  for (const [i, space] of job.voids.entries()) {
    const at = `voids[${i}]`;
    if (space.stations)
      refuse(`${at}.stations`, 'A void of stations', 'Take them out and state the largest box inside.');
    if (space.keepOut.length > 0)
      refuse(
        `${at}.keepOut`,
        'Keeping clear of bolts and pipes',
        'State the void as boxes beside them, and take “keepOut” out.',
      );
    if (space.opening)
      refuse(`${at}.opening`, 'Passing bundles through an opening', 'Take it out, and try the longest bundle by hand.');
    if (space.otherOpenings)
      refuse(
        `${at}.otherOpenings`,
        'A second opening',
        'Take it out, and state the one that passes most as “opening”.',
      );
    if (space.bearers)
      refuse(`${at}.bearers`, 'Resting on stated bearers', 'Take them out, and lay battens under every run yourself.');
    if (space.mostPerMetre !== undefined)
      refuse(`${at}.mostPerMetre`, 'A most for each metre', 'Take it out, and state “most” for the whole void.');
    if (space.drain) refuse(`${at}.drain`, 'A channel kept free', 'Take it out, and state more dunnage.');
    if (space.axis === 'either')
      refuse(`${at}.axis`, 'Choosing the way the bars lie', 'Choose fore-and-aft or athwartships.');
  }
  return faults;
}

/** Fields of a job as written that are read and kept, and change nothing yet. */
export function notUsedYet(raw: JobInput): Note[] {
  const notes: Note[] = [];
  if (raw.aims?.fixedShare !== undefined)
    notes.push({ path: 'aims.fixedShare', message: 'is kept, and not used yet: the whole plan is shown as one part.' });
  return notes;
}
