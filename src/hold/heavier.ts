/**
 * What a void carries no longer, should the bars that nobody has weighed be as much heavier than reckoned as they may be:
 * the doubt that limits and bearers are told with (`plan/massTolerance.ts`), for what holds a stow down.
 */
import { MASS_SPREAD } from '../plan/massTolerance.ts';
import type { HeldCase } from './holdDown.ts';

/** Of the cases that `mass` kg would take past what carries them now; null where that is none. */
export function lostWords(lost: readonly HeldCase[], mass: number): string | null {
  if (lost.length === 0) return null;
  const told = lost.map(({ name, used }) => (used === null ? name : `${name} (${percentOver(used)} %)`));
  return `Nobody has weighed some of these bars: should they be ${100 * MASS_SPREAD.reckoned} % heavier than reckoned, ${mass.toFixed(1)} kg here, what is entered no longer carries: ${told.join(', ')}.`;
}

/** Never told as 100 where it is more. */
function percentOver(used: number): number {
  return Math.ceil(100 * used - 1e-9);
}
