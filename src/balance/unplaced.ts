/** Voids that nobody said the place of: what is reckoned from places is then none of hers, and whoever reads it has to be told. */
import type { Job } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import { isPlaced } from '../plan/samePlace.ts';

/**
 * A sentence on the voids that lie where a void lies that says nothing; none where there are none. With a plan only
 * those that it fills are asked after. A void can hardly be there: under its bottom are at least planking and frames.
 */
export function unplacedLines(job: Job, plan?: Plan): string[] {
  const filled = plan && new Set(plan.bundles.map((bundle) => bundle.void));
  const marks = job.voids
    .filter((space) => !isPlaced(space) && (filled?.has(space.void) ?? true))
    .map((space) => space.void);
  if (marks.length === 0) return [];
  const [lie, theyAre, together] =
    marks.length === 1 ? ['lies', 'it is', ''] : ['lie', 'they are', ', all in one place'];
  return [
    `Where ${marks.join(', ')} ${lie} in her is not stated: ${theyAre} reckoned at the after end of the waterline, on the middle line and at the underside of the keel${together}. ` +
      'What hangs on places is not hers until it is stated: x, y and z, the centre, moments, trim, list, and the order that keeps her upright.',
  ];
}
