/** What one person may lift into each void: typed beside a drawing of them, put into the job when they say so. */
import { Router } from 'express';
import type { Context } from '../app.ts';
import { applyForm, type Draft, type Posted } from '../form/apply.ts';
import { readDraft } from '../form/draftRead.ts';
import { setAt } from '../form/path.ts';
import { type LiftPage, showLiftPage } from '../show/liftPage.ts';
import type { JobRow } from '../store/jobs.ts';
import { wordsIn } from '../words.ts';
import { baseOf, draftOf, jobIn, queryOf, readBody, unitsOf } from './request.ts';
import { hasVoidsNow, savedVoid, saveTyped, typedForm, voidOf } from './typedVoid.ts';

export function liftRoutes(context: Context): Router {
  const { store } = context;
  const router = Router();

  router.get('/jobs/:job/lift', (request, response) => {
    const row = jobIn(context, request);
    const typed = queryOf(request);
    const { page } = pageOf(row, draftOf(store.jobs.body(row.id)), typed);
    const words = wordsIn(unitsOf(store.settings, row.id));
    response.render('lift', { job: row, page, words, hasVoids: hasVoidsNow(context, row), saved: typed.has('saved') });
  });

  router.post('/jobs/:job/lift', readBody, (request, response) => {
    const form = typedForm(context, request);
    const row = jobIn(context, request);
    const { page, draft } = pageOf(row, baseOf(context, row, form), form);
    if (!page) {
      response.redirect(303, `/jobs/${row.id}/lift`);
      return;
    }
    if (form.get('do') === 'follow') {
      setAt(draft, ['voids', page.index, 'limitByGuide'], true);
      const limit = page.suggestion?.limit;
      // No limit can be 0: where the guide leaves no load it alone says so.
      if (limit) setAt(draft, ['voids', page.index, 'limit'], limit);
    }
    saveTyped(context, row, form, draft, savedVoid(row, form, 'lift'), response);
  });

  function pageOf(row: JobRow, base: Draft, typed: Posted): { page: LiftPage | null; draft: Draft } {
    const draft = applyForm(base, typed);
    const units = unitsOf(store.settings, row.id);
    return { page: showLiftPage(draft, voidOf(typed), readDraft(draft), units), draft };
  }

  return router;
}
