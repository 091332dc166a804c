/** More ballast than she can be meant to take: refused, or asked back. */
import type { Vessel } from '../job/job.ts';
import { hydrostaticsOf } from './hydrostatics.ts';

/** More than this share of what she weighs is no small change. */
const SHARE = 1 / 3;

/** `refused`: it can not be meant; else it is asked back. Null where nothing is to be said of `mass` kg. */
export function tooMuch(vessel: Vessel, mass: number): { refused: boolean; text: string } | null {
  const { displacement } = hydrostaticsOf(vessel);
  if (!displacement) return null;
  const [ballast, weighs] = [`${mass.toFixed(0)} kg of ballast`, `(${displacement.likely.toFixed(0)} kg)`];
  if (mass > displacement.high)
    return {
      refused: true,
      text: `${ballast} is more than all that she weighs now ${weighs}: was another unit meant?`,
    };
  if (mass > SHARE * displacement.likely) {
    const text = `${ballast} is more than a third of all that she weighs now ${weighs}: is that meant? The formulas are for small changes.`;
    return { refused: false, text };
  }
  return null;
}
