/**
 * What tiers of each kind could hold at most: whole columns shared out evenly, which no sharing beats (the bars of a bundle
 * grow less and less with its columns); nested bundles by the concave hull of bars over width.
 */
import type { BundleRules } from '../job/job.ts';
import { outerSize, rolls } from '../job/section.ts';
import { lies, sagOf, type Tie, tiesOf } from './bundle.ts';
import type { LaidVoid } from './laid.ts';
import type { Steel } from './steel.ts';

/** A kind of tier at one length: its height in half millimetres, rounded down, and the most bars for 1, 2, … bundles. */
export interface TierCeiling {
  steel: number;
  up: number;
  bars: number[];
}

/** The concave hull of bars over width, in bar widths. */
type Hull = { width: number; bars: number }[];

/** The most bars that a bundle of the lightest lots may hold; `length` of a bar on average, mm. */
export function mostBars(laid: LaidVoid, rules: BundleRules, steel: Steel, length: number): number {
  const limit = laid.limit ?? rules.limit;
  const mass = (steel.lightest * length) / 1000;
  return Math.min(rules.maxBars, Math.floor((limit - rules.wrapping) / mass + 1e-9));
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
        const hull = rolls(steel.section) && rows > 1 ? hullOf(steel, rows, most, kept) : null;
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

function hullOf(steel: Steel, rows: number, most: number, { hulls }: Kept): Hull {
  const key = `${rows}:${most}`;
  let hull = hulls.get(key);
  if (!hull) {
    hull = nestedHull(tiesOf(steel.section, rows, most, true));
    hulls.set(key, hull);
  }
  return hull;
}

/** The most bars in 1, 2, … bundles side by side; stops where one bundle more can add none. */
function barCeilings(
  hull: Hull | null,
  rows: number,
  most: number,
  width: number,
  gap: number,
  around: number,
  bar: number,
): number[] {
  const ceilings: number[] = [];
  for (let m = 1; ; m++) {
    const free = width - (m - 1) * gap - m * around;
    const bars = hull ? nestedCeiling(hull, free / bar, m) : gridCeiling(rows, most, Math.floor(free / bar + 1e-9), m);
    if (bars <= (ceilings[m - 2] ?? 0)) break;
    ceilings.push(bars);
  }
  return ceilings;
}

function gridCeiling(rows: number, most: number, columns: number, m: number): number {
  if (columns < m) return 0;
  const each = Math.floor(columns / m);
  const wider = columns - each * m;
  return wider * Math.min(rows * (each + 1), most) + (m - wider) * Math.min(rows * each, most);
}

/** Bars of m nested bundles in so many bar widths: m times the concave hull at the mean width. */
function nestedCeiling(hull: Hull, widths: number, m: number): number {
  const mean = widths / m + 1e-9;
  if (mean < hull[0]!.width) return 0;
  for (let i = 1; i < hull.length; i++) {
    const p = hull[i - 1]!;
    const q = hull[i]!;
    if (mean < q.width)
      return Math.floor(m * (p.bars + ((q.bars - p.bars) * (mean - p.width)) / (q.width - p.width)) + 1e-9);
  }
  return m * hull[hull.length - 1]!.bars;
}

function nestedHull(ties: Tie[]): Hull {
  const hull: Hull = [];
  for (const tie of ties) {
    const point = { width: tie.widest, bars: tie.bars };
    while (hull.length > 1) {
      const p = hull[hull.length - 2]!;
      const q = hull[hull.length - 1]!;
      if ((q.bars - p.bars) * (point.width - q.width) > (point.bars - q.bars) * (q.width - p.width)) break;
      hull.pop();
    }
    hull.push(point);
  }
  return hull.length > 0 ? hull : [{ width: Number.POSITIVE_INFINITY, bars: 0 }];
}
