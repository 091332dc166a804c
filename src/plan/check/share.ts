/** Which bundles are told as the fixed part and which as the trim part of their void. */
import type { Job } from '../../job/job.ts';
import type { Tied } from './bundles.ts';
import { figure, type Tell } from './planFault.ts';

/** Masses are told to 0.01 kg. */
const KG = 0.011;

/**
 * Checks one void: where shares are told, every bundle has one, the fixed part goes in first, and it weighs no more than
 * the fixed share of the void and less than that by no more than the next bundle.
 */
export function checkShare(job: Job, name: string, bundles: Tied[], tell: Tell): void {
  if (bundles.every((tied) => tied.bundle.share === undefined)) return;
  const about = `void ${name}`;
  const { fixedShare } = job.aims;
  const inOrder = [...bundles].sort((p, q) => p.bundle.order - q.bundle.order);
  const untold = inOrder.find((tied) => tied.bundle.share === undefined);
  if (untold)
    tell('share', about, `${untold.bundle.bundle} is told neither fixed nor trim, and others of ${name} are.`);
  const next = inOrder.findIndex((tied) => tied.bundle.share === 'trim');
  const late = next < 0 ? undefined : inOrder.slice(next).find((tied) => tied.bundle.share === 'fixed');
  if (late)
    tell(
      'share',
      about,
      `${late.bundle.bundle} is of the fixed part of ${name}, and goes in after ${inOrder[next]!.bundle.bundle}.`,
    );
  const massOf = (some: Tied[]) => some.reduce((sum, tied) => sum + tied.mass, 0);
  const fixed = massOf(inOrder.filter((tied) => tied.bundle.share === 'fixed'));
  const over = fixed - fixedShare * massOf(inOrder);
  const rounded = KG + 0.005 * inOrder.length;
  if (over > rounded) tell('share', about, `The fixed part of ${name} is ${figure(over)} kg over fixedShare.`, over);
  if (next >= 0 && over + inOrder[next]!.mass < -rounded)
    tell('share', about, `${inOrder[next]!.bundle.bundle} would still be of the fixed part of ${name}.`);
}
