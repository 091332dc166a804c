/**
 * The order in which the bundles of one void go in, and, backwards, come out: towards its openings, so that nobody
 * reaches over what was stowed and breaking out begins at hand. Run by run, the one farthest from an opening first; in a
 * run tier by tier; in a tier the heavier first, then the farther from the opening across.
 */
import type { Opening } from '../job/job.ts';
import type { LaidVoid } from '../stow/laid.ts';
import type { PlanBar, PlanBundle } from './plan.ts';

/** Masses of a tier within this are alike, kg. */
const ALIKE = 0.1;

/** The bundles of one void in their order. Without an opening: runs as they are numbered, tiers from least across. */
export function stowingOrder(laid: LaidVoid, bundles: readonly PlanBundle[]): PlanBundle[] {
  const openings = openingsOf(laid);
  const runs = new Map<number, number>();
  const places = new Map<PlanBundle, number>();
  for (const bundle of bundles) {
    const along = bundle.at.along + bundle.size.along / 2;
    const across = bundle.at.across + bundle.size.across / 2;
    const apart = openings.map((opening) => Math.abs(along - opening.along));
    const nearest = openings[apart.indexOf(Math.min(...apart))];
    runs.set(bundle.run, Math.min(runs.get(bundle.run) ?? Number.POSITIVE_INFINITY, ...apart));
    places.set(bundle, nearest ? Math.abs(across - nearest.across) : 0);
  }
  const heavy = (bundle: PlanBundle) => (openings.length > 0 ? Math.round(bundle.mass / ALIKE) : 0);
  return [...bundles].sort(
    (p, q) =>
      (p.run === q.run || openings.length === 0 ? 0 : runs.get(q.run)! - runs.get(p.run)!) ||
      p.run - q.run ||
      p.tier - q.tier ||
      heavy(q) - heavy(p) ||
      places.get(q)! - places.get(p)! ||
      p.at.across - q.at.across,
  );
}

/** The middles of the openings of a void; none where it is open all over. */
export function openingsOf(laid: LaidVoid): { along: number; across: number }[] {
  const stated: Opening[] = [...(laid.opening ? [laid.opening] : []), ...(laid.otherOpenings ?? [])];
  return stated.map(({ at }) => at ?? { along: laid.length / 2, across: 0 });
}

/** Bundles, bars and masses whose bundles are marked by the order in which they go in. */
interface Marked {
  bars: PlanBar[];
  bundles: PlanBundle[];
  masses: Map<string, number>;
}

/** Numbers and marks the bundles of every void by {@link stowingOrder}; `laid` is by void. */
export function numberInOrder({ bars, bundles, masses }: Marked, laid: ReadonlyMap<string, LaidVoid>): Marked {
  const marks = new Map<string, string>();
  const numbered: PlanBundle[] = [];
  for (const [name, space] of laid) {
    const own = bundles.filter((bundle) => bundle.void === name);
    const free = own.map((bundle) => bundle.bundle);
    for (const [i, bundle] of stowingOrder(space, own).entries()) {
      marks.set(bundle.bundle, free[i]!);
      numbered.push({ ...bundle, bundle: free[i]!, order: i + 1 });
    }
  }
  const marked = (bundle: string): string => marks.get(bundle) ?? bundle;
  return {
    bars: bars.map((bar) => ({
      ...bar,
      pieces: bar.pieces.map((piece) => ({ ...piece, bundle: marked(piece.bundle) })),
    })),
    bundles: numbered,
    masses: new Map([...masses].map(([bundle, mass]) => [marked(bundle), mass])),
  };
}
