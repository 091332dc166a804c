/** Which bundles must be called out on pages, papers and tags, and in what words. */
import type { Job } from '../job/job.ts';
import { HEAVY_BUNDLE, liftingIndex } from './limit.ts';
import { guideRoute, type RouteGuide } from './route.ts';

/** What is said of the lift of one bundle. */
export interface Callout {
  bundle: string;
  /** Mass over guide; null where the method does not cover the way into its void, or nothing is stated. */
  index: number | null;
  /** Over 25 kg, or over the least guide of the legs that the method covers: two people, or a mechanical aid. */
  twoPeople: boolean;
  /** A leg of the way is outside the method, or not stated in full: no figure of it is called safe. */
  outside: boolean;
  /** What to print; null where nothing needs saying. */
  text: string | null;
}

/** The callouts of bundles, in their order. Only `bundle`, `void` and `mass` (kg) are looked at. */
export function calloutsOf(job: Job, bundles: readonly { bundle: string; void: string; mass: number }[]): Callout[] {
  const routes = new Map(job.voids.map((space) => [space.void, guideRoute(job, space)]));
  return bundles.map(({ bundle, void: name, mass }) => callout(bundle, mass, routes.get(name)));
}

function callout(bundle: string, mass: number, route: RouteGuide | undefined): Callout {
  const guide = route?.guide ?? Number.POSITIVE_INFINITY;
  const twoPeople = mass > HEAVY_BUNDLE || mass > guide;
  const outside = route !== undefined && route.legs.length > 0 && !route.applies;
  const index = route ? liftingIndex(mass, route) : null;
  const words: string[] = [];
  if (twoPeople) {
    const over = mass > guide ? `over the guide of ${guide.toFixed(1)} kg` : `over ${HEAVY_BUNDLE} kg`;
    words.push(`TWO PEOPLE or a mechanical aid: ${mass.toFixed(1)} kg is ${over}.`);
  }
  if (outside) words.push('Part of the way is outside the lifting method: try with less first.');
  return { bundle, index, twoPeople, outside, text: words.length > 0 ? words.join(' ') : null };
}
