/** Kinds of tier at the lengths of a class, erring upward only, as a rising needs them. */
import type { BundleRules, Saw } from '../job/job.ts';
import { outerSize, rolls } from '../job/section.ts';
import { barCeilings, type Hull, mostBars, nestedHull } from './barCeiling.ts';
import { alongSize, lies, sagOf, tiesOf } from './bundle.ts';
import { jointShare } from './jointShare.ts';
import type { LaidVoid } from './laid.ts';
import { openingOf } from './opening.ts';
import type { Riser } from './rise.ts';
import type { RisingKind } from './riseMap.ts';
import type { Rung } from './rung.ts';
import type { Steel } from './steel.ts';
import { WidthSteps } from './widthSteps.ts';

/** A kind of tier: never higher than its bundles are, and never with fewer bars than they may hold. */
export interface KindCeiling extends RisingKind {
  steel: number;
  /** The fewest bars of a bundle. */
  fewest: number;
}

/** The kinds of tier that bundles of `length` mm or a little more may be tied to, in a space so `high` and `wide`, half mm. */
export function kindCeilings(
  laid: LaidVoid,
  steels: Steel[],
  rules: BundleRules,
  saw: Saw,
  length: number,
  { high, wide }: { high: number; wide: number },
): KindCeiling[] {
  const along = alongSize(length, saw, rules);
  const lacking = jointShare(rules) * saw.tolerance;
  const kinds: KindCeiling[] = [];
  for (const steel of steels) {
    const most = mostBars(laid, rules, steel, length - lacking);
    const around = 2 * rules.wrap + sagOf(steel.bow, length);
    for (const onEdge of lies(steel.section)) {
      const bar = outerSize(steel.section, onEdge);
      for (let rows = 1; rows <= most; rows++) {
        const stack = rolls(steel.section) ? bar.up * (1 + ((rows - 1) * Math.sqrt(3)) / 2) : rows * bar.up;
        const up = Math.ceil((stack + around) * 2 - 1e-9);
        if (up > high) break;
        const widest = openingOf(laid, along, up / 2, 0);
        const tied = tiedWithin(steel, rows, most, (widest - around) / bar.across);
        if (!tied) continue;
        const passes = (low: number) => openingOf(laid, along, up / 2, low / 2) >= tied.narrowest * bar.across + around;
        kinds.push({
          steel: steel.index,
          up,
          last: lastWhere(passes, Math.floor(laid.height * 2) - up),
          fewest: rows,
          steps: new WidthSteps(
            (width) => barCeilings(tied.hull, rows, tied.most, width / 2, laid.gap.across, around, bar.across),
            wide,
          ),
        });
      }
    }
  }
  return kinds;
}

/** What may be tied no wider than so many bar widths: the most bars, the hull where bars nest; null where nothing may. */
function tiedWithin(
  steel: Steel,
  rows: number,
  most: number,
  widths: number,
): { hull: Hull | null; most: number; narrowest: number } | null {
  if (!rolls(steel.section) || rows === 1) {
    const columns = Math.floor(widths + 1e-9);
    return columns < 1 ? null : { hull: null, most: Math.min(most, rows * columns), narrowest: 1 };
  }
  const ties = tiesOf(steel.section, rows, most, true).filter(({ widest }) => widest <= widths + 1e-9);
  return ties.length === 0 ? null : { hull: nestedHull(ties), most, narrowest: ties[0]!.widest };
}

/** The greatest height up to `high` that passes, where none higher than one that fails does; −1 where none does. */
function lastWhere(passes: (low: number) => boolean, high: number): number {
  if (high < 0 || !passes(0)) return -1;
  if (passes(high)) return high;
  let [low, fails] = [0, high];
  while (fails - low > 1) {
    const middle = (low + fails) >> 1;
    if (passes(middle)) low = middle;
    else fails = middle;
  }
  return low;
}

/** What a bar of each steel and a bundle are worth. */
interface Worths {
  perBar: ArrayLike<number>;
  perBundle: number;
}

/**
 * The rungs of kinds at prices, of the riser, from its `first`. Steels of which there is no bar (−Infinity) are left out;
 * one that costs more than it is worth may still carry others.
 */
export function rungsAt(kinds: KindCeiling[], { perBar, perBundle }: Worths, riser: Riser, first: number): Rung[] {
  const rungs: Rung[] = [];
  kinds.forEach((kind, i) => {
    const each = perBar[kind.steel]!;
    if (each === Number.NEGATIVE_INFINITY) return;
    const price = (bars: number[]) => worthOf(kind, each, perBundle, bars);
    rungs.push(riser.rung(first + rungs.length).set(i, kind.up, kind.steps, price));
  });
  return rungs;
}

function worthOf(kind: KindCeiling, perBar: number, perBundle: number, bars: number[]): number {
  if (bars.length === 0) return Number.NEGATIVE_INFINITY;
  if (perBar < 0) return kind.fewest * perBar - perBundle;
  let most = Number.NEGATIVE_INFINITY;
  for (let m = 0; m < bars.length; m++) most = Math.max(most, bars[m]! * perBar - (m + 1) * perBundle);
  return most;
}
