/** The ceiling that suits a void: one for plain boxes, one for every other shape. */
import type { BundleRules, Saw } from '../job/job.ts';
import { BerthCeiling } from './ceiling.ts';
import { isPlain, type LaidVoid } from './laid.ts';
import type { Ceiling, CeilingPrices } from './pileCeiling.ts';
import { ShapeCeiling } from './shapeCeiling.ts';
import type { Steel } from './steel.ts';

/** What a void can be worth at most, at any prices. */
export interface Ceilings {
  at(prices: CeilingPrices): Ceiling;
}

/** The ceiling of a laid void; geometry is worked out once. `least`: the shortest piece, mm; `poll` is asked now and then. */
export function ceilingOf(
  laid: LaidVoid,
  steels: Steel[],
  rules: BundleRules,
  saw: Saw,
  least: number,
  poll: () => void,
): Ceilings {
  return isPlain(laid)
    ? new BerthCeiling(laid, steels, rules, saw, least, poll)
    : new ShapeCeiling(laid, steels, rules, saw, least, poll);
}
