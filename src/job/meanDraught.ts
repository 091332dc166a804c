/** How deep she floats now in the middle of her length. */
import type { Vessel } from './job.ts';

/** The mean of the draughts at both ends of the waterline, m; of one that is stated alone that one, null of none. */
export function meanDraught({ draughtForward, draughtAft }: Vessel): number | null {
  if (draughtForward !== undefined && draughtAft !== undefined) return (draughtForward + draughtAft) / 2;
  return draughtForward ?? draughtAft ?? null;
}
