/** What one person may lift into each void: typed beside a drawing of them, put into the job when they say so. */
import { type Request, Router } from 'express';
import { readJobValue } from '../../src/job/readJob.ts';
import type { Context } from '../app.ts';
import { applyForm, type Draft, type Posted } from '../form/apply.ts';
import { setAt } from '../form/path.ts';
import { faultsOf } from '../show/jobPage.ts';
import { type LiftPage, showLiftPage } from '../show/liftPage.ts';
import type { JobRow } from '../store/jobs.ts';
import { wordsIn } from '../words.ts';
import { draftOf, formOf, jobIn, nameOf, readBody, unitsOf } from './request.ts';

export function liftRoutes(context: Context): Router {
  const { store, clock } = context;
  const router = Router();

  router.get('/jobs/:job/lift', (request, response) => {
    const row = jobIn(context, request);
    const typed = queryOf(request);
    const { page } = pageOf(row, draftOf(store.jobs.body(row.id)), typed);
    const units = unitsOf(store.settings, row.id);
    response.render('lift', { job: row, page, words: wordsIn(units), saved: typed.has('saved') });
  });

  router.post('/jobs/:job/lift', readBody, (request, response) => {
    const form = formOf(context, request);
    const row = jobIn(context, request);
    const known = Number(form.get('revision'));
    const revision = Number.isSafeInteger(known) ? known : 0;
    // What was typed is read over the text that the page was shown from.
    const { page, draft } = pageOf(row, draftOf(store.jobs.body(row.id, revision) ?? store.jobs.body(row.id)), form);
    if (!page) {
      response.redirect(303, `/jobs/${row.id}/lift`);
      return;
    }
    if (form.get('do') === 'follow') {
      setAt(draft, ['voids', page.index, 'limitByGuide'], true);
      const limit = page.suggestion?.limit;
      if (limit !== null && limit !== undefined) setAt(draft, ['voids', page.index, 'limit'], limit);
    }
    const saved = store.jobs.save(row.id, revision, nameOf(draft), JSON.stringify(draft), clock().toISOString());
    const late = saved.kind === 'late';
    response.redirect(
      303,
      late ? `/jobs/${row.id}#beside-${saved.draft}` : `/jobs/${row.id}/lift?void=${page.index + 1}&saved=1`,
    );
  });

  function pageOf(row: JobRow, base: Draft, typed: Posted): { page: LiftPage | null; draft: Draft } {
    const draft = applyForm(base, typed);
    const number = Number(typed.get('void') ?? 1);
    const index = Number.isSafeInteger(number) && number >= 1 ? number - 1 : 0;
    const page = showLiftPage(draft, index, faultsOf(readJobValue(draft)), unitsOf(store.settings, row.id));
    return { page, draft };
  }

  return router;
}

/** The query as a form: names hold brackets and points, which the framework's own reader would take apart. */
function queryOf(request: Request): Posted {
  return new Map(new URL(request.originalUrl, 'http://localhost').searchParams);
}
