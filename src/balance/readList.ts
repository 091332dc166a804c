/**
 * A list that was read with ballast in her, as a moment: with S = (W + w)·GM as she then floats, S·tan(list). It counts
 * whatever made it, and so goes before a list that is reckoned from the weights.
 */
import type { Job, Vessel } from '../job/job.ts';
import { addedContents } from '../plan/contents.ts';
import { effectOf } from './float.ts';
import { hydrostaticsOf } from './hydrostatics.ts';
import { sumMoments, type Weight } from './moments.ts';
import { tangentOf } from './present.ts';
import { overCorners, type Range } from './range.ts';

/** S, kg·m, with these bundles in her and what lies in the voids beside them; null where it is not known. */
export function stiffnessWith(job: Job, vessel: Vessel, weights: readonly Weight[]): Range | null {
  const all = [...weights, ...addedContents(job)];
  const { displacement } = hydrostaticsOf(vessel);
  // GM hangs on how high they lie, and not on their side or on a list.
  const { stability } = effectOf(
    { ...vessel, list: undefined },
    all.map((weight) => ({ ...weight, y: 0 })),
  );
  if (stability.kind !== 'answer' || !displacement) return null;
  const { mass } = sumMoments(all);
  return overCorners({ displacement, gm: stability.gm }, (v) => (v.displacement + mass) * v.gm);
}

/**
 * The likely moment, kg·m to starboard, of what lists her besides these bundles and what lies in the voids: `degrees` were
 * read with all of it in her. Null where it is not known.
 */
export function momentBesides(job: Job, vessel: Vessel, weights: readonly Weight[], degrees: number): number | null {
  const stiffness = stiffnessWith(job, vessel, weights);
  if (!stiffness) return null;
  const { acrossMoment } = sumMoments([...weights, ...addedContents(job)]);
  return stiffness.likely * tangentOf(degrees) - acrossMoment;
}
