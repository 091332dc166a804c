/** What tiers of each kind could hold at most at one length of bundle, erring upward only (see `ceiling.ts`). */
import type { BundleRules } from '../job/job.ts';
import { outerSize, rolls } from '../job/section.ts';
import { barCeilings, type Hull, hullOf, mostBars } from './barCeiling.ts';
import { lies, sagOf } from './bundle.ts';
import type { LaidVoid } from './laid.ts';
import type { Steel } from './steel.ts';

/** A kind of tier at one length: its height in half millimetres, rounded down, and the most bars for 1, 2, … bundles. */
export interface TierCeiling {
  steel: number;
  up: number;
  bars: number[];
}

/** The kinds of tier of one length of bundle. */
export function tierCeilings(
  laid: LaidVoid,
  steels: Steel[],
  rules: BundleRules,
  length: number,
  width: number,
  height: number,
  kept: Kept,
): TierCeiling[] {
  const found: TierCeiling[] = [];
  for (const steel of steels) {
    const most = mostBars(laid, rules, steel, length - kept.lacking);
    if (most < 1) continue;
    const sag = sagOf(steel.bow, length);
    for (const onEdge of lies(steel.section)) {
      const bar = outerSize(steel.section, onEdge);
      for (let rows = 1; rows <= most; rows++) {
        const stack = rolls(steel.section) ? bar.up * (1 + ((rows - 1) * Math.sqrt(3)) / 2) : rows * bar.up;
        const up = Math.ceil((stack + 2 * rules.wrap + sag) * 2 - 1e-9);
        if (up > height) break;
        const hull = rolls(steel.section) && rows > 1 ? hullOf(steel, rows, most, kept.hulls) : null;
        const bars = barCeilings(hull, rows, most, width, laid.gap.across, 2 * rules.wrap + sag, bar.across);
        if (bars.length > 0) found.push(keepOne({ steel: steel.index, up, bars }, kept));
      }
    }
  }
  return found;
}

/** What lengths share: tiers that are alike, and hulls of nested bundles, kept once. */
export interface Kept {
  tiers: Map<string, TierCeiling>;
  hulls: Map<string, Hull>;
  lacking: number;
}

function keepOne(tier: TierCeiling, { tiers }: Kept): TierCeiling {
  const key = `${tier.steel}:${tier.up}:${tier.bars.join()}`;
  const known = tiers.get(key);
  if (known) return known;
  tiers.set(key, tier);
  return tier;
}
