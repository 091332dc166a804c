/** What is left once some voids are stowed: told on a page of the plan, made into a job of its own. */
import { type Request, Router } from 'express';
import { workLeft } from '../../src/plan/workLeft.ts';
import type { Context } from '../app.ts';
import type { Draft } from '../form/apply.ts';
import { wordsIn } from '../words.ts';
import { addDraft } from './jobs.ts';
import { planIn } from './plan.ts';
import { formOf, readBody, unitsOf } from './request.ts';

export function workLeftRoutes(context: Context): Router {
  const { store } = context;
  const router = Router();

  router.get('/plans/:serial/left', (request, response) => {
    response.render('workLeft', viewOf(request, false));
  });

  router.post('/plans/:serial/left', readBody, (request, response) => {
    const form = formOf(context, request);
    const { row, plan, job } = planIn(context, request);
    const stowed = new Set(plan.voids.filter((_, i) => form.has(`stowed.${i}`)).map((told) => told.void));
    const allCut = form.get('cut') !== 'stowed';
    const left = workLeft(job, plan, { stowed, allCut, weighed: store.weighed.of(row.serial) });
    if (!left) {
      response.status(422).render('workLeft', viewOf(request, true));
      return;
    }
    response.redirect(303, `/jobs/${addDraft(context, left as Draft)}?left=${row.serial}`);
  });

  function viewOf(request: Request, refused: boolean) {
    const { row, plan, job, jobRow } = planIn(context, request);
    const weighed = store.weighed.of(row.serial);
    const voids = plan.voids
      .map((told, index) => ({
        index,
        void: told.void,
        name: job.voids.find((stated) => stated.void === told.void)?.name ?? '',
        bundles: told.bundles,
        mass: plan.bundles
          .filter((bundle) => bundle.void === told.void)
          .reduce((sum, bundle) => sum + (weighed.get(bundle.bundle) ?? bundle.mass), 0),
      }))
      .filter(({ bundles }) => bundles > 0);
    return { words: wordsIn(unitsOf(store.settings, jobRow.id)), row, job: jobRow, voids, refused };
  }

  return router;
}
