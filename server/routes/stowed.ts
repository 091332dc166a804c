/** What is stowed so far: ticked bundle by bundle as it goes in, kept beside the plan, which never changes. */
import { type Request, Router } from 'express';
import { unplacedLines } from '../../src/balance/unplaced.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { recordOf } from '../../src/plan/record.ts';
import type { Context } from '../app.ts';
import { type Refused, readTicks } from '../form/recordFields.ts';
import { mendOne } from '../form/wanted.ts';
import { nextIn } from '../show/nextIn.ts';
import { otherPlans } from '../show/otherPlans.ts';
import { firstOf, pagesOf } from '../show/paging.ts';
import { showRecord } from '../show/record.ts';
import { standsBy, validityOf } from '../show/validity.ts';
import { wordsIn } from '../words.ts';
import { type PlanInHand, planIn } from './plan.ts';
import { formOf, readBody, unitsOf } from './request.ts';

/** More voids are shown page by page. */
const VOIDS_SHOWN = 12;

export function stowedRoutes(context: Context): Router {
  const { store, clock } = context;
  const router = Router();

  router.get('/plans/:serial/stowed', (request, response) => {
    response.render('stowed', viewOf(request, planIn(context, request), new Map()));
  });

  router.post('/plans/:serial/stowed', readBody, (request, response) => {
    const form = formOf(context, request);
    const hand = planIn(context, request);
    const { serial } = hand.row;
    const record = recordOf(store.records.of(serial));
    const { entries, refused } = readTicks(
      form,
      hand.plan,
      record,
      clock(),
      standsBy({ rest: store.rests.ofPlan(serial) }),
    );
    store.records.add(serial, entries);
    if (refused.size > 0) {
      response.status(422).render('stowed', viewOf(request, hand, refused));
      return;
    }
    const back = hand.plan.bundles.find((bundle) => bundle.bundle === form.get('back'));
    if (back) {
      response.redirect(303, `/b/${serial}/${encodeURIComponent(back.bundle)}`);
      return;
    }
    const place = /^\d{1,5}$/.exec(form.get('whole') ?? form.get('keep') ?? '')?.[0] ?? '';
    const page = new URLSearchParams({ void: String(request.query.void ?? '1'), saved: place });
    response.redirect(303, `/plans/${serial}/stowed?${page}#${place === '' ? 'next' : `void-${place}`}`);
  });

  function viewOf(request: Request, hand: PlanInHand, refused: ReadonlyMap<string, Refused>) {
    const view = recordPage(context, request, hand);
    const toMend = hand.plan.bundles.flatMap(({ bundle }, n) => {
      const bad = refused.get(bundle);
      return bad ? [mendOne(`lies-${n}`, bundle, bad.message)] : [];
    });
    const { serial } = hand.row;
    const next = nextIn(
      hand.job,
      hand.plan,
      recordOf(store.records.of(serial)),
      store.weighed.of(serial),
      standsBy(view.validity),
    );
    return { ...view, next, saved: refused.size > 0 ? null : (request.query.saved ?? null), refused, toMend };
  }

  return router;
}

/** The number of a void in the plan's list, and of the page of the record that shows it. */
export function placeInRecord(plan: Plan, name: string): { voidIndex: number; recordPageOf: number } {
  const filled = plan.voids.filter((told) => plan.bundles.some((bundle) => bundle.void === told.void));
  const nth = filled.findIndex((told) => told.void === name);
  return {
    voidIndex: plan.voids.findIndex((told) => told.void === name),
    recordPageOf: Math.floor(Math.max(0, nth) / VOIDS_SHOWN) + 1,
  };
}

/** What the pages of the record have in common; the voids of the page that is asked for. */
export function recordPage(context: Context, request: Request, { row, plan, job, jobRow }: PlanInHand) {
  const { store } = context;
  const others = otherPlans(context, row.serial, jobRow.id);
  const view = showRecord(job, plan, store.records.of(row.serial), store.weighed.of(row.serial), others.weights);
  const first = firstOf(request.query.void, VOIDS_SHOWN, view.voids.length);
  const validity = validityOf(store, row);
  return {
    words: wordsIn(unitsOf(store.settings, jobRow.id)),
    row,
    job: jobRow,
    validity,
    others,
    unplaced: unplacedLines(job, plan),
    /** Whether a bundle goes in by this plan. */
    holds: (mark: string) => standsBy(validity)?.has(mark) !== false,
    recordedBy: store.records.ofJob(jobRow.id, row.serial),
    here: first / VOIDS_SHOWN + 1,
    pages: pagesOf(view.voids.length, first, VOIDS_SHOWN),
    ...view,
    voids: view.voids.slice(first, first + VOIDS_SHOWN),
  };
}
