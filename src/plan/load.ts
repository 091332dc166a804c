/** What a layout weighs and where: the sums that the rows of the master and the aims are made of. */

import { vesselPoint } from '../stow/laid.ts';
import type { Layout, Run } from '../stow/layout.ts';
import type { Steel } from '../stow/steel.ts';

/** Sums over the bundles of a layout: kg, kg·m and kg·m² (about `lcf`). */
export interface Load {
  bundles: number;
  /** Bundle mass, wrapping and all. */
  mass: number;
  /** Steel alone. */
  steel: number;
  x: number;
  y: number;
  z: number;
  /** Σ mass × (x − lcf)². */
  xx: number;
  /** The heaviest and the lightest bundle, kg; 0 and Infinity where there is none. */
  heaviest: number;
  lightest: number;
}

/** An empty load. */
export function noLoad(): Load {
  return { bundles: 0, mass: 0, steel: 0, x: 0, y: 0, z: 0, xx: 0, heaviest: 0, lightest: Number.POSITIVE_INFINITY };
}

/** Adds `load` to `sum`. */
export function addLoad(sum: Load, load: Load): void {
  sum.bundles += load.bundles;
  sum.mass += load.mass;
  sum.steel += load.steel;
  sum.x += load.x;
  sum.y += load.y;
  sum.z += load.z;
  sum.xx += load.xx;
  sum.heaviest = Math.max(sum.heaviest, load.heaviest);
  sum.lightest = Math.min(sum.lightest, load.lightest);
}

/** The load of a layout; `along` is the size along of a bundle of a length, mm. */
export function loadOf(
  layout: Layout,
  steels: Steel[],
  wrapping: number,
  lcf: number,
  along: (length: number) => number,
): Load {
  const sum = noLoad();
  for (const run of layout.runs) addRun(sum, layout, run, steels, wrapping, lcf, along(run.stack.length));
  return sum;
}

function addRun(
  sum: Load,
  layout: Layout,
  run: Run,
  steels: Steel[],
  wrapping: number,
  lcf: number,
  along: number,
): void {
  const middle = run.from + along / 2;
  for (const tier of run.stack.tiers) {
    const perBar = (steels[tier.kind.steel]!.heaviest * run.stack.length) / 1000;
    const up = tier.up + tier.kind.up / 2;
    for (const lying of tier.lying) {
      const steel = lying.tie.bars * perBar;
      const mass = steel + wrapping;
      const at = vesselPoint(layout.laid, middle, lying.from + lying.across / 2, up);
      sum.bundles++;
      sum.mass += mass;
      sum.steel += steel;
      sum.x += mass * at.x;
      sum.y += mass * at.y;
      sum.z += mass * at.z;
      sum.xx += mass * (at.x - lcf) * (at.x - lcf);
      sum.heaviest = Math.max(sum.heaviest, mass);
      sum.lightest = Math.min(sum.lightest, mass);
    }
  }
}
