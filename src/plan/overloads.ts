/** What passes the most that was stated for it, by masses other than the planned ones: weighed, or heavier than reckoned. */
import type { Job } from '../job/job.ts';
import { layVoid } from '../stow/laid.ts';
import { bearerLoads, runLoads } from './bearing.ts';
import { atMassNow, type WeighedMasses } from './massNow.ts';
import type { Plan } from './plan.ts';

/** A void, a run or a bearer that is loaded past its most; `by` and what `text` tells are kg, of a run kg/m. */
export interface Overload {
  void: string;
  by: number;
  text: string;
}

/** Less than this is the rounding of planned masses, as in `check`. */
const LEAST = 0.011;

/**
 * The overloads of every void in turn: its `most`, then `mostPerMetre` of its runs, then its bearers by their levers.
 * `weighed` are kg by bundle; a bundle that is not among them weighs what was planned.
 */
export function overloadsOf(job: Job, plan: Pick<Plan, 'bundles' | 'voids'>, weighed: WeighedMasses): Overload[] {
  const bundles = atMassNow(plan.bundles, weighed);
  return job.voids.flatMap((space): Overload[] => {
    const own = bundles.filter((bundle) => bundle.void === space.void);
    if (own.length === 0) return [];
    const axis = plan.voids.find((entry) => entry.void === space.void)?.axis;
    const ways = layVoid(space);
    const laid = ways.find((way) => way.axis === axis) ?? ways[0]!;
    const found: Overload[] = [];
    const weigh = (what: string, load: number, most: number | undefined, unit: string) => {
      const by = load - (most ?? Number.POSITIVE_INFINITY);
      if (by < LEAST) return;
      const text = `${what} ${figure(load)} ${unit}, ${figure(by)} ${unit} over the ${most} ${unit} it may carry`;
      found.push({ void: space.void, by, text });
    };
    const held = own.reduce((sum, { mass }) => sum + mass, 0);
    weigh(`${space.void} holds`, held, space.most, 'kg');
    for (const { run, perMetre } of runLoads(laid, { bundles: own }))
      weigh(`run ${run} of ${space.void} weighs`, perMetre, space.mostPerMetre, 'kg/m');
    for (const { along, load, most } of bearerLoads(laid, { bundles: own }))
      weigh(`the bearer of ${space.void} at ${along} mm carries`, load, most, 'kg');
    return found;
  });
}

function figure(value: number): string {
  return String(Number(value.toFixed(2)));
}
