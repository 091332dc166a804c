/** From the guides along a route to a suggested lift limit. The limit itself stays the person's decision. */
import type { Job, Void } from '../job/job.ts';
import { guideLift } from './equation.ts';
import { guideRoute, type LegGuide, liftOf, type RouteGuide } from './route.ts';
import { bilgeFigure } from './zones.ts';

/** Above this a bundle is called out whatever its limit, kg. */
export const HEAVY_BUNDLE = 25;
/** Over this two people are too few: each would have more than {@link HEAVY_BUNDLE}, kg. */
export const HEAVY_FOR_TWO = 2 * HEAVY_BUNDLE;

/**
 * A suggested limit, kg, rounded down to 0.1: 0 where the way leaves no load, null where nothing is known that caps it.
 * `basis`: `method`, the equation covers every leg; `tested`, a figure of the person's own decides; `project-default`, a
 * leg is outside the method and no figure was tested, so this is a default of this project and nothing that was published;
 * `none`, too little is stated to reckon one, and `limit` is the least of what is known.
 */
export interface Suggestion {
  limit: number | null;
  basis: 'method' | 'tested' | 'project-default' | 'none';
  text: string;
  route: RouteGuide;
}

/** What to change where the way leaves no load. */
export const NO_LOAD_REMEDY =
  'Come nearer, twist less, take more time between lifts, or carry it another way; beyond the method a figure that you have tested yourself counts instead.';

/**
 * Suggests the limit of a void. Where a leg is outside the method, and no own figure is given for it: the least of half
 * the guide of the last leg that is covered, the equation at the far end of the uncovered leg as if it applied (nothing,
 * where it leaves nothing at the near end), and the lowest zone at arm's length. An own tested figure, where lower, and
 * the reference mass always win, also where no more is known.
 */
export function suggestLimit(job: Job, space: Void): Suggestion {
  const route = guideRoute(job, space);
  const wanted = wantedOf(route);
  const figures = route.legs.flatMap((leg, i) => figuresOf(job, leg, route.legs.slice(0, i)));
  const most = job.lift?.referenceMass;
  if (most !== undefined)
    figures.push({ kg: most, basis: 'method', text: `The reference mass of who lifts is stated as ${most} kg.` });
  const [first, ...rest] = figures;
  if (!first) return { limit: null, basis: 'none', text: wanted ?? '', route };
  const least = rest.reduce((p, q) => (q.kg < p.kg ? q : p), first);
  const limit = Math.max(0, Math.floor(least.kg * 10 + 1e-9) / 10);
  const outside = figures.some((figure) => figure.basis === 'project-default');
  const basis = wanted !== null ? 'none' : outside ? 'project-default' : least.basis;
  if (limit === 0) return { limit, basis, text: `${least.text} That leaves no load. ${NO_LOAD_REMEDY}`, route };
  const text = `${least.text}${outside ? DEFAULT_NOTE : ''}${wanted === null ? '' : ` It may be less. ${wanted}`}`;
  return { limit, basis, text, route };
}

/** What has to be stated before a limit can be reckoned; null where nothing is missing. */
function wantedOf({ legs }: RouteGuide): string | null {
  if (legs.length === 0) return 'State how the bundles are carried here, or a figure you have tested yourself.';
  const unstated = legs.find(({ guide, tested }) => guide === null && tested === undefined);
  return unstated ? `State reach, start and end of “${unstated.leg}”, or a figure you have tested yourself.` : null;
}

const DEFAULT_NOTE =
  ' The method does not cover this way of lifting: the figure is a cautious default of this project, not a published limit. Test it with less, and state your own.';

interface Figure {
  kg: number;
  basis: 'method' | 'tested' | 'project-default';
  text: string;
}

function figuresOf(job: Job, leg: LegGuide, before: LegGuide[]): Figure[] {
  const figures: Figure[] = [];
  const { guide, tested } = leg;
  if (tested !== undefined)
    figures.push({ kg: tested, basis: 'tested', text: `Your own figure for “${leg.leg}” is ${tested} kg.` });
  if (guide?.applies)
    figures.push({
      kg: guide.guide,
      basis: 'method',
      text: `The guide for “${leg.leg}” is ${guide.guide.toFixed(1)} kg.`,
    });
  else if (guide && tested === undefined) {
    const basis = 'project-default';
    const valid = before.findLast((each) => each.guide?.applies)?.guide?.guide;
    if (valid !== undefined)
      figures.push({
        kg: valid / 2,
        basis,
        text: `Half the guide of the last leg before “${leg.leg}” is ${(valid / 2).toFixed(1)} kg.`,
      });
    const [where, kg] = guide.begin.rwl > 0 ? ['end', guide.finish.rwl] : ['start', 0];
    figures.push({
      kg,
      basis,
      text: `The equation at the ${where} of “${leg.leg}”, as if it applied, gives ${kg.toFixed(1)} kg.`,
    });
    const zone = bilgeFigure(job.lift?.zones);
    figures.push({ kg: zone, basis, text: `At arm's length near the floor the table of zones has ${zone} kg.` });
  }
  return figures;
}

/** Mass over guide: over 1 raises the risk for some, far over 1 for many. Null where no guide may be called one. */
export function liftingIndex(mass: number, route: RouteGuide): number | null {
  return route.applies && route.guide !== null && route.guide > 0 ? mass / route.guide : null;
}

/**
 * The most that a bundle of this void may weigh, kg: the limit stated; where the void has `limitByGuide` also the
 * suggested limit, so that it follows the reach; where `lift.forbidHeavy` is set that and {@link HEAVY_BUNDLE}. 0 where the
 * way leaves no load: nothing may be placed there.
 */
export function heaviestBundle(job: Job, space: Void): number {
  const stated = space.limit ?? job.bundle.limit;
  const forbids = job.lift?.forbidHeavy ?? false;
  if (!forbids && !space.limitByGuide) return stated;
  const suggested = suggestLimit(job, space).limit ?? Number.POSITIVE_INFINITY;
  return Math.min(stated, suggested, forbids ? HEAVY_BUNDLE : Number.POSITIVE_INFINITY);
}

/** The least that whoever lifts has stated of themselves for a way, kg: tested for a leg, or the reference mass; null where nothing is. */
export function ownFigure(job: Job, { legs }: RouteGuide): { kg: number; told: string } | null {
  const tested = legs
    .flatMap((leg) => leg.tested ?? [])
    .map((kg) => ({ kg, told: `your own figure of ${kg} kg for the way` }));
  const most = job.lift?.referenceMass;
  const stated = most === undefined ? [] : [{ kg: most, told: `the reference mass of ${most} kg of who lifts` }];
  return [...tested, ...stated].sort((p, q) => p.kg - q.kg)[0] ?? null;
}

/**
 * What one person may carry of whole bars, kg: the least guide of the first legs of the ways, by a poor grip where none is
 * stated, since a bar has no becket; else the lift limit of the job. Never more than a figure of their own for such a leg,
 * or than the reference mass.
 */
export function wholeBarLimit(job: Job): number {
  const first = new Set(job.voids.flatMap((space) => space.route?.slice(0, 1) ?? []));
  const figures = (job.lift?.legs ?? []).flatMap((leg) => {
    if (!first.has(leg.leg)) return [];
    const lift = liftOf(job, { ...leg, grip: leg.grip ?? 'poor' });
    const guide = lift && guideLift(lift);
    return [...(guide?.applies ? [guide.guide] : []), ...(leg.tested === undefined ? [] : [leg.tested])];
  });
  const most = job.lift?.referenceMass ?? Number.POSITIVE_INFINITY;
  return Math.min(most, figures.length > 0 ? Math.min(...figures) : job.bundle.limit);
}
