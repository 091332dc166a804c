/**
 * What lies in the voids already, stated as the mass of a keep-out: an old pig, a full tank. A weight in the middle of
 * the keep-out's three ranges, m in the vessel's coordinates. It is added to the vessel only where her own figures were
 * taken without it.
 */
import type { Job } from '../job/job.ts';
import type { StatedParts } from '../job/jobFaults.ts';
import { type LaidVoid, layVoid, vesselPoint } from '../stow/laid.ts';

/** `what` it is, the void, kg, and its place, m. `aboard`: the vessel's own figures hold it already. */
export interface Content {
  void: string;
  what: string;
  mass: number;
  aboard: boolean;
  x: number;
  y: number;
  z: number;
}

/** Every content of the job, void by void. How a void was laid changes nothing of where its contents are. */
export function contentsOf(job: Job): Content[] {
  return job.voids.flatMap((space) => {
    const laid = layVoid(space)[0]!;
    return laid.keepOut.flatMap((keepOut): Content[] => {
      const { mass = 0, aboard = false, what = 'keep-out' } = keepOut;
      return mass > 0 ? [{ void: space.void, what, mass, aboard, ...middleOf(laid, keepOut) }] : [];
    });
  });
}

/** The contents that the vessel's own figures do not hold, and that come on top of them with the bundles. */
export function addedContents(job: Job): Content[] {
  return contentsOf(job).filter((content) => !content.aboard);
}

/**
 * What she may carry beside so much ballast, kg, and what is put into the voids beside it; Infinity where that is not
 * stated. What can not be read of a job counts for nothing.
 */
export function stillCarries({ vessel, voids }: Pick<StatedParts, 'vessel' | 'voids'>, ballast: number): number {
  const { displacement, displacementMost } = vessel ?? {};
  if (displacement === undefined || displacementMost === undefined) return Number.POSITIVE_INFINITY;
  const lying = voids.flatMap((space) => (typeof space === 'object' ? space.keepOut : []));
  const added = lying.reduce((sum, { mass = 0, aboard = false }) => sum + (aboard ? 0 : mass), 0);
  return displacementMost - displacement - added - ballast;
}

function middleOf(
  laid: LaidVoid,
  { along, across, up }: LaidVoid['keepOut'][number],
): { x: number; y: number; z: number } {
  const middle = ([from, to]: [number, number]): number => (from + to) / 2;
  return vesselPoint(laid, middle(along), middle(across), middle(up));
}
