/** What holds the ballast of each void down: typed beside the loads it carries, put into the job when they say so. */
import { type Response, Router } from 'express';
import type { Context } from '../app.ts';
import { applyForm, type Draft, type Posted } from '../form/apply.ts';
import { readDraft } from '../form/draftRead.ts';
import { idOf } from '../form/path.ts';
import { applyOrder, parseOrder } from '../form/rows.ts';
import type { Planned } from '../show/holdDrawing.ts';
import { type HoldPage, holdFieldsOf, showHoldPage } from '../show/holdPage.ts';
import type { JobRow } from '../store/jobs.ts';
import { wordsIn } from '../words.ts';
import { planOf } from './plan.ts';
import { baseOf, draftOf, jobIn, queryOf, readBody, unitsOf } from './request.ts';
import { ADDRESS_AT_MOST, addressLength, hasVoidsNow, savedVoid, saveTyped, typedForm, voidOf } from './typedVoid.ts';

export function holdRoutes(context: Context): Router {
  const { store } = context;
  const router = Router();

  router.get('/jobs/:job/hold', (request, response) => {
    const row = jobIn(context, request);
    const typed = queryOf(request);
    const { page } = pageOf(row, draftOf(store.jobs.body(row.id)), typed);
    show(response, row, page, false, typed.has('saved'));
  });

  router.post('/jobs/:job/hold', readBody, (request, response) => {
    const form = typedForm(context, request);
    const row = jobIn(context, request);
    const { page, draft } = pageOf(row, baseOf(context, row, form), form);
    if (!page) {
      response.redirect(303, `/jobs/${row.id}/hold`);
      return;
    }
    // Asked, and nothing saved: an address would not hold the fields of so many rows.
    if (form.get('do') === 'ask') {
      show(response, row, page, true);
      return;
    }
    const order = parseOrder(form.get('do') ?? '');
    // Rows of this void's hold-down, and nothing else of the job.
    const own = order?.text.startsWith(`voids[${page.index}].holdDown.`) ? order : null;
    const shown = own && applyOrder(draft, own);
    const next = `${savedVoid(row, form, 'hold')}${page.ownMass === null ? '' : `&${new URLSearchParams({ mass: page.ownMass })}`}`;
    saveTyped(context, row, form, draft, shown ? `${next}#${idOf(shown)}` : next, response);
  });

  /** `whole`: what was typed is in no address, so that all of it has to be sent again with every question. */
  function show(response: Response, job: JobRow, page: HoldPage | null, whole: boolean, saved = false): void {
    const words = wordsIn(unitsOf(store.settings, job.id));
    const long = whole || (page !== null && addressLength(holdFieldsOf(page)) > ADDRESS_AT_MOST);
    const hasVoids = hasVoidsNow(context, job);
    response.render('hold', { job, page, words, hasVoids, saved, whole, long, longest: ADDRESS_AT_MOST });
  }

  function pageOf(row: JobRow, base: Draft, typed: Posted): { page: HoldPage | null; draft: Draft } {
    const draft = applyForm(base, typed);
    const units = unitsOf(store.settings, row.id);
    const page = showHoldPage(draft, voidOf(typed), typed, latestPlan(row), readDraft(draft), units);
    return { page, draft };
  }

  /** The plan made last of this job, for what lies in each void. */
  function latestPlan(row: JobRow): Planned | null {
    const serial = store.plans.ofJob(row.id)[0]?.serial;
    return serial === undefined ? null : { ...planOf(context, serial), weighed: store.weighed.of(serial) };
  }

  return router;
}
