/** Which bundles must be called out on pages, papers and tags, and in what words. */

import type { Job } from '../job/job.ts';
import { fixed } from '../units.ts';
import {
  HEAVY_BUNDLE,
  HEAVY_FOR_TWO,
  heaviestBundle,
  liftingIndex,
  ownFigure,
  type Suggestion,
  suggestLimit,
} from './limit.ts';

/** Masses of a plan are rounded to a hundredth: by so much one at its limit may be over it, kg. */
const ROUNDED = 0.0051;
/** So little is not told, kg. */
const HIDDEN = 0.004;

/** Said of a bundle whose way is in part outside the method. */
export const OUTSIDE_WORDS =
  'Part of the way is outside the lifting method: try it with a lighter weight, or the lightest bundle, first.';

/** What lifts one that is too heavy for one person, and one that is too heavy for two. */
const TWO = 'TWO PEOPLE or a mechanical aid';
const TACKLE = `HOIST OR TACKLE, not by hand, for over ${HEAVY_FOR_TWO} kg two people are too few`;

/** What is said of the lift of one bundle. */
export interface Callout {
  bundle: string;
  /** Mass over guide; null where the method does not cover the way into its void, or nothing is stated. */
  index: number | null;
  /**
   * Over 25 kg, over the least guide of the legs that the method covers, over a figure of the person's own, beyond the
   * method over the suggested limit, or, as the scale may say, over the lift limit of the void: two people, or a mechanical
   * aid.
   */
  twoPeople: boolean;
  /** It is over what two people may lift: a hoist or tackle, and no lift by hand. */
  tackle: boolean;
  /** A leg of the way is outside the method, or not stated in full: no figure of it is called safe. */
  outside: boolean;
  /** What it is over, of those, in words; null where it is not. */
  over: string | null;
  /** That, with its mass, in a sentence; null where it is not. */
  heavy: string | null;
  /** What to print, that among it; null where nothing needs saying. */
  text: string | null;
}

/** The callouts of bundles, in their order. Only `bundle`, `void` and `mass` (kg) are looked at. */
export function calloutsOf(job: Job, bundles: readonly { bundle: string; void: string; mass: number }[]): Callout[] {
  const ways = new Map(
    job.voids.map((space) => {
      const suggestion = suggestLimit(job, space);
      return [
        space.void,
        { ...suggestion, own: ownFigure(job, suggestion.route), heaviest: heaviestBundle(job, space) },
      ];
    }),
  );
  return bundles.map(({ bundle, void: name, mass }) => callout(bundle, mass, ways.get(name)));
}

/** To a tenth of a kilogram; to a hundredth where that would hide by how little it is over something. */
function told(mass: number): string {
  return fixed(mass, Number(fixed(mass, 1)) < mass - HIDDEN ? 2 : 1);
}

/** `own`: the least that the person has stated; `heaviest`: the most that a bundle of the void may weigh, kg. */
type Way = Suggestion & { own: ReturnType<typeof ownFigure>; heaviest: number };

function callout(bundle: string, mass: number, way: Way | undefined): Callout {
  const route = way?.route;
  const outside = route !== undefined && route.legs.length > 0 && !route.applies;
  const over = overWhat(mass, way, outside);
  const tackle = mass > HEAVY_FOR_TWO;
  const heavy = over && `${tackle ? TACKLE : TWO}: ${told(mass)} kg is over ${over}.`;
  const words: string[] = heavy ? [heavy] : [];
  if (outside) words.push(OUTSIDE_WORDS);
  return {
    bundle,
    index: route ? liftingIndex(mass, route) : null,
    twoPeople: over !== null,
    tackle,
    outside,
    over,
    heavy,
    text: words.length > 0 ? words.join(' ') : null,
  };
}

/**
 * What a bundle is too heavy for; null where one person may lift it. The lift limit of its void, which only the scale takes
 * it over, comes first: nothing that is assumed of the way takes its place.
 */
function overWhat(mass: number, way: Way | undefined, outside: boolean): string | null {
  const over = overWay(mass, way, outside);
  if (!way || mass <= way.heaviest + ROUNDED) return over?.told ?? null;
  const limit = `the lift limit of ${Number(way.heaviest.toFixed(1))} kg`;
  if (!over) return limit;
  // A limit that follows the way is that of the way, or its guide, rounded.
  return Math.abs(over.kg - way.heaviest) < 0.1 ? over.told : `${limit}, and over ${over.told}`;
}

/** What the way, who lifts, or its mass alone makes it too heavy for. Beyond the method the suggested limit counts, too. */
function overWay(mass: number, way: Way | undefined, outside: boolean): { kg: number; told: string } | null {
  const guide = way?.route.guide ?? Number.POSITIVE_INFINITY;
  const beyond = outside && way?.limit !== null && way?.limit !== undefined && mass > way.limit ? way : null;
  const kg = beyond?.limit ?? 0;
  const own = way?.own;
  const least = Math.min(guide, beyond ? kg + 0.1 : Number.POSITIVE_INFINITY);
  if (own && mass > own.kg + ROUNDED && own.kg <= least) return own;
  // A suggestion is rounded down: the guide itself, rounded, is no other figure.
  if (beyond && kg < Math.floor(guide * 10 + 1e-9) / 10) {
    if (kg === 0) return { kg, told: 'what one person may lift that way, where no load is suggested' };
    const told =
      beyond.basis === 'project-default'
        ? `${kg} kg, a default of this project for a way that no published guide covers`
        : `${kg} kg, as suggested for the way`;
    return { kg, told };
  }
  if (mass > guide) return { kg: guide, told: `the guide of ${guide.toFixed(1)} kg` };
  return mass > HEAVY_BUNDLE ? { kg: HEAVY_BUNDLE, told: `${HEAVY_BUNDLE} kg` } : null;
}
