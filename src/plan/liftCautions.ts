/** Cautions of carrying and lowering bundles: one for each void that has a cause. */

import type { Job, Void } from '../job/job.ts';
import { calloutsOf } from '../lift/callouts.ts';
import { HEAVY_BUNDLE, heaviestBundle, ownFigure } from '../lift/limit.ts';
import { guideRoute, type LegGuide } from '../lift/route.ts';
import { fixed } from '../units.ts';
import { aboutVoids, tell } from './cautionList.ts';
import type { WeighedMasses } from './massNow.ts';
import { MASS_SPREAD, massTolerances } from './massTolerance.ts';
import type { Caution, Plan, PlanBundle } from './plan.ts';

/** The cautions of lifting, over 25 kg first; of bundles that were weighed nothing is in doubt. */
export function liftCautions(job: Job, plan: Pick<Plan, 'bars' | 'bundles'>, weighed: WeighedMasses): Caution[] {
  const { bundles } = plan;
  const byVoid = job.voids.map((space) => ({ space, own: bundles.filter((bundle) => bundle.void === space.void) }));
  const filled = byVoid.filter(({ own }) => own.length > 0);
  const heavy = filled.flatMap(({ space, own }): Caution[] => {
    const over = own.filter((bundle) => bundle.mass > HEAVY_BUNDLE);
    return over.length === 0
      ? []
      : [tell('over-25-kg', `void ${space.void}`, `${weights(over)} over ${HEAVY_BUNDLE} kg.`)];
  });
  const guided = filled.flatMap(({ space, own }): Caution[] => {
    const route = guideRoute(job, space);
    const { guide, legs, applies } = route;
    const figures = guide === null ? [] : [{ kg: guide, told: `the guide of ${guide.toFixed(1)} kg` }];
    // Of a way outside the method it is told below.
    const stated = applies || legs.length === 0 ? ownFigure(job, route) : null;
    if (stated) figures.push(stated);
    const least = figures.sort((p, q) => p.kg - q.kg)[0];
    const over = own.filter((bundle) => least && bundle.mass > least.kg);
    if (!least || over.length === 0) return [];
    return [tell('over-guide', `void ${space.void}`, `${weights(over)} over ${least.told}.`)];
  });
  const outside = filled.flatMap(({ space, own }): Caution[] => {
    const { legs, applies } = guideRoute(job, space);
    if (applies || legs.length === 0) return [];
    const names = legs.filter((leg) => !leg.guide?.applies).map((leg) => `“${leg.leg}”`);
    const why = legs.flatMap((leg) => leg.guide?.cautions ?? []).map((caution) => caution.code.replaceAll('-', ' '));
    const two = calloutsOf(job, own).filter(({ twoPeople }) => twoPeople);
    const heavier = own.filter(({ bundle }) => two.some((called) => called.bundle === bundle));
    const over = heavier.length === 0 ? '' : ` ${weights(heavier)} more than is suggested for one person that way.`;
    const reason = why.length > 0 ? ` (${[...new Set(why)].join(', ')})` : '';
    return [
      tell(
        'lift-outside-method',
        `void ${space.void}`,
        `Not covered by the lifting method: ${names.join(', ')}${reason}.${testedWords(legs)}${over}`,
      ),
    ];
  });
  return [...heavy, ...guided, ...unweighed(job, plan, weighed), ...outside, ...notStated(job, filled)];
}

interface Filled {
  space: Void;
  own: PlanBundle[];
}

/** Filled voids of which no lift, or no opening, is stated: all of them in one caution each. */
function notStated(job: Job, filled: readonly Filled[]): Caution[] {
  const about = (some: readonly Filled[]) =>
    some.length === filled.length ? 'every void' : aboutVoids(some.map(({ space }) => space.void));
  const namesOf = (some: readonly Filled[]) => some.map(({ space }) => space.void).join(', ');
  const mostOf = (some: readonly Filled[], of: (bundle: PlanBundle) => number) =>
    Math.max(...some.flatMap(({ own }) => own.map(of)));
  const unlifted = filled.filter(({ space }) => guideRoute(job, space).legs.length === 0);
  const shut = filled.filter(({ space }) => !space.opening && (space.otherOpenings ?? []).length === 0);
  const cautions: Caution[] = [];
  if (unlifted.length > 0) {
    const heaviest = fixed(
      mostOf(unlifted, ({ mass }) => mass),
      1,
    );
    const text = `How bundles are lifted into ${namesOf(unlifted)} is not stated: no guide can be told. The heaviest weighs ${heaviest} kg.`;
    cautions.push(tell('lift-unknown', about(unlifted), text));
  }
  if (shut.length > 0) {
    const longest = Math.ceil(mostOf(shut, ({ size }) => size.along));
    const text = `No opening is stated for ${namesOf(shut)}: nobody checked that bundles up to ${longest} mm long pass it.`;
    cautions.push(tell('opening-unknown', about(shut), text));
  }
  return cautions;
}

/** Of lots whose mass per metre is reckoned from their section: bundles so near their limit that heavier bars would pass it. */
function unweighed(job: Job, { bars, bundles }: Pick<Plan, 'bars' | 'bundles'>, weighed: WeighedMasses): Caution[] {
  const heaviest = new Map(job.voids.map((space) => [space.void, heaviestBundle(job, space)]));
  const limits = new Map(
    bundles.map(({ bundle, void: name, mass, limit }) => [bundle, Math.min(limit, heaviest.get(name) ?? limit) - mass]),
  );
  return job.pile.flatMap((lot): Caution[] => {
    if (lot.massPerMetre !== undefined) return [];
    const own = bars.filter((bar) => bar.lot === lot.lot);
    const near = [...massTolerances(job, { bars: own })].filter(
      ([bundle, more]) => !weighed.has(bundle) && more > (limits.get(bundle) ?? 0),
    );
    if (near.length === 0) return [];
    const what = near.length === 1 ? '1 bundle' : `${near.length} bundles`;
    const text = `Nobody has weighed these bars: ${100 * MASS_SPREAD.reckoned} % heavier than reckoned, they would take ${what} past the lift limit.`;
    return [tell('limit-on-paper', `pile lot ${lot.lot}`, text)];
  });
}

function testedWords(legs: LegGuide[]): string {
  const tested = legs.flatMap((leg) => leg.tested ?? []);
  return tested.length === 0 ? '' : ` Your own tested figure is ${Math.min(...tested)} kg.`;
}

function weights(bundles: PlanBundle[]): string {
  const most = Math.max(...bundles.map((bundle) => bundle.mass));
  const marks = bundles.slice(0, 6).map((bundle) => bundle.bundle);
  const rest = bundles.length > marks.length ? ` and ${bundles.length - marks.length} more` : '';
  return `${marks.join(', ')}${rest}: up to ${fixed(most, 1)} kg, which is`;
}
