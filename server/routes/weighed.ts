/** Masses read off the scale: typed bundle by bundle, kept beside the plan, and told where they are not what was reckoned. */
import { createHash } from 'node:crypto';
import { type Request, Router } from 'express';
import type { WeighedMasses } from '../../src/plan/massNow.ts';
import type { PlanBundle } from '../../src/plan/plan.ts';
import { parseMass, twoReadings } from '../../src/units.ts';
import type { Context } from '../app.ts';
import type { Posted } from '../form/apply.ts';
import { mendOne } from '../form/wanted.ts';
import { firstOf, pagesOf } from '../show/paging.ts';
import { validityOf } from '../show/validity.ts';
import { showWeighed, type UnreadMass } from '../show/weighed.ts';
import { wordsIn } from '../words.ts';
import { type PlanInHand, planIn } from './plan.ts';
import { formOf, readBody, unitsOf } from './request.ts';

/** More voids are shown page by page. */
const VOIDS_SHOWN = 12;
/** The heaviest that is taken for a bundle, kg. */
const MOST = 10_000;
/** So many times what is reckoned, or so small a part of it, is a slip of the point more likely than a weight; pounds are less. */
const FAR = 4;

export function weighedRoutes(context: Context): Router {
  const { store, clock } = context;
  const router = Router();

  router.get('/plans/:serial/weighed', (request, response) => {
    response.render('weighed', viewOf(request, planIn(context, request), new Map()));
  });

  router.post('/plans/:serial/weighed', readBody, (request, response) => {
    const form = formOf(context, request);
    const hand = planIn(context, request);
    const { masses, unread } = readMasses(form, hand.plan.bundles);
    store.weighed.set(hand.row.serial, masses, clock().toISOString());
    if (unread.size > 0) {
      response.status(422).render('weighed', viewOf(request, hand, unread));
      return;
    }
    const back = hand.plan.bundles.find((bundle) => bundle.bundle === form.get('back'));
    const page = new URLSearchParams({ void: String(request.query.void ?? '1'), saved: String(masses.size) });
    const place = back
      ? `/b/${hand.row.serial}/${encodeURIComponent(back.bundle)}`
      : `/plans/${hand.row.serial}/weighed?${page}`;
    response.redirect(303, place);
  });

  function viewOf(request: Request, { row, plan, job, jobRow }: PlanInHand, unread: ReadonlyMap<string, UnreadMass>) {
    const filled = plan.voids.filter((entry) => entry.bundles > 0);
    const first = firstOf(request.query.void, VOIDS_SHOWN, filled.length);
    const shown = new Set(filled.slice(first, first + VOIDS_SHOWN).map((entry) => entry.void));
    // What could not be read is never left on a page that is not shown.
    for (const bundle of plan.bundles) if (unread.has(bundle.bundle)) shown.add(bundle.void);
    return {
      words: wordsIn(unitsOf(store.settings, jobRow.id)),
      row,
      job: jobRow,
      validity: validityOf(store, row),
      saved: unread.size === 0 && /^\d{1,6}$/.test(String(request.query.saved)) ? Number(request.query.saved) : null,
      revision: revisionOf(store.weighed.of(row.serial)),
      toMend: plan.bundles.flatMap(({ bundle }, n) => {
        const bad = unread.get(bundle);
        return bad ? [mendOne(`mass-${n}`, bundle, bad.message)] : [];
      }),
      here: first / VOIDS_SHOWN + 1,
      pages: pagesOf(filled.length, first, VOIDS_SHOWN),
      ...showWeighed(job, plan, store.weighed.of(row.serial), unread, shown),
    };
  }

  return router;
}

/** Another for other masses. */
export function revisionOf(masses: WeighedMasses): string {
  return createHash('sha256')
    .update(JSON.stringify([...masses]))
    .digest('hex')
    .slice(0, 16);
}

/**
 * The masses posted, null for those taken away; what could not be read stays as typed. Fields are `mass.N`, N from 0 in the
 * plan's list; `told.N`, what stood there when the page was shown: only what differs from it was typed, so that what came in
 * since from another phone stays; and `sure.N`, what was asked about: the same once more is meant.
 */
function readMasses(
  form: Posted,
  bundles: readonly PlanBundle[],
): { masses: Map<string, number | null>; unread: Map<string, UnreadMass> } {
  const masses = new Map<string, number | null>();
  const unread = new Map<string, UnreadMass>();
  for (const [n, { bundle, mass: reckoned }] of bundles.entries()) {
    const typed = form.get(`mass.${n}`);
    if (typed === undefined || typed.trim() === form.get(`told.${n}`)) continue;
    const mass = typed.trim() === '' ? null : parseMass(typed);
    if (typed.trim() === '') masses.set(bundle, null);
    else if (mass === null)
      unread.set(bundle, {
        typed,
        message: 'This could not be read as a mass, and was not kept.',
        remedy: twoReadings(typed)
          ? `It could be a thousand or a little over one: write ${twoReadings(typed)?.join(' or ')}.`
          : 'Give kilograms, such as 7.9, or another unit, such as 17 lb 6 oz.',
      });
    else if (mass <= 0 || mass > MOST)
      unread.set(bundle, {
        typed,
        message: `A bundle does not weigh ${mass} kg: this was not kept.`,
        remedy: 'Give what the scale says, in kilograms.',
      });
    else if ((mass > FAR * reckoned || mass < reckoned / FAR) && typed.trim() !== form.get(`sure.${n}`))
      unread.set(bundle, {
        typed,
        isAsked: true,
        message: `Is it ${mass} kg? It is reckoned at ${reckoned} kg, so that this was not kept yet.`,
        remedy: 'Mend it, or press again to keep it as it is.',
      });
    else masses.set(bundle, mass);
  }
  return { masses, unread };
}
