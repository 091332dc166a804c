/** The most bars that bundles of one kind hold side by side, erring upward only (see `ceiling.ts`). */
import type { BundleRules } from '../job/job.ts';
import { type Tie, tiesOf } from './bundle.ts';
import type { LaidVoid } from './laid.ts';
import type { Steel } from './steel.ts';

/** The concave hull of bars over width, in bar widths. */
export type Hull = { width: number; bars: number }[];

/** The most bars that a bundle of the lightest lots may hold; `length` of a bar on average, mm. */
export function mostBars(laid: LaidVoid, rules: BundleRules, steel: Steel, length: number): number {
  const limit = laid.limit ?? rules.limit;
  const mass = (steel.lightest * length) / 1000;
  return Math.min(rules.maxBars, Math.floor((limit - rules.wrapping) / mass + 1e-9));
}

/** The hull of nested bundles of `rows` rows and at most `most` bars; those already known are in `hulls`. */
export function hullOf(steel: Steel, rows: number, most: number, hulls: Map<string, Hull>): Hull {
  const key = `${rows}:${most}`;
  let hull = hulls.get(key);
  if (!hull) {
    hull = nestedHull(tiesOf(steel.section, rows, most, true));
    hulls.set(key, hull);
  }
  return hull;
}

/** The most bars in 1, 2, … bundles side by side; stops where one bundle more can add none. */
export function barCeilings(
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

/** The hull of ties, narrowest first. */
export function nestedHull(ties: Tie[]): Hull {
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
