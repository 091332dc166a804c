/** How far joints go at most: for what must hold of every plan. */
import type { BundleRules } from '../job/job.ts';

/** The largest share of the bars of any bundle that may be jointed: as stated, and never the two at the ends of a row. 0 without joints. */
export function jointShare({ joints, maxBars }: BundleRules): number {
  if (!joints || Math.floor(joints.share * maxBars + 1e-9) < 1) return 0;
  return Math.max(0, Math.min(joints.share, 1 - 2 / maxBars));
}

/**
 * The longest bundle that may have a jointed bar, mm: it has as many bars as make one by their share, three at least, and
 * is within `limit` kg. `lightest`: the least mass per metre of its section; `tolerance`: what a jointed bar may lack, mm.
 */
export function longestJointed(rules: BundleRules, limit: number, lightest: number, tolerance: number): number {
  if (jointShare(rules) === 0) return 0;
  const bars = Math.max(3, Math.ceil(1 / rules.joints!.share - 1e-9));
  return ((limit - rules.wrapping) * 1000) / (bars * lightest) + tolerance;
}
