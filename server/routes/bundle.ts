/** Where a bundle's code leads: its picture, pieces, place and mass. */
import { Router } from 'express';
import type { Context } from '../app.ts';
import { Problem } from '../problem.ts';
import { showBundle } from '../show/planPage.ts';
import { wordsIn } from '../words.ts';
import { planIn } from './plan.ts';
import { unitsOf } from './request.ts';

export function bundleRoutes(context: Context): Router {
  const router = Router();
  router.get('/b/:serial/:bundle', (request, response) => {
    const { row, plan, job, jobRow } = planIn(context, request);
    const bundle = plan.bundles.find((candidate) => candidate.bundle === request.params.bundle);
    if (!bundle) throw new Problem('no-such-bundle', [`This is plan ${row.serial} of ${jobRow.name}.`]);
    const words = wordsIn(unitsOf(context.store.settings, jobRow.id));
    response.render('bundle', { words, row, job: jobRow, view: showBundle(job, plan, bundle) });
  });
  return router;
}
