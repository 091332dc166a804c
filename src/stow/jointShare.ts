/** How far joints go at most: for what must hold of every plan. */
import type { BundleRules } from '../job/job.ts';

/** The largest share of the bars of any bundle that may be jointed: as stated, and never the two at the ends of a row. 0 without joints. */
export function jointShare({ joints, maxBars }: BundleRules): number {
  if (!joints || Math.floor(joints.share * maxBars + 1e-9) < 1) return 0;
  return Math.max(0, Math.min(joints.share, 1 - 2 / maxBars));
}
