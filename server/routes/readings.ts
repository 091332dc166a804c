/** Readings taken afloat before there is a plan: a weight aboard, moved fore and aft, moved across, and a timed roll. */
import { Router } from 'express';
import { readJobValue } from '../../src/job/readJob.ts';
import type { Context } from '../app.ts';
import { isRecord } from '../form/path.ts';
import { Problem } from '../problem.ts';
import { mendInJob } from '../show/mendInJob.ts';
import { showReadingsPage } from '../show/readingsPage.ts';
import { wordsIn } from '../words.ts';
import { draftOf, figuresIn, jobIn, readBody, unitsOf } from './request.ts';
import { saveTyped, typedForm } from './typedVoid.ts';

export function readingsRoutes(context: Context): Router {
  const { store } = context;
  const router = Router();

  router.get('/jobs/:job/readings', (request, response) => {
    const row = jobIn(context, request);
    const read = readJobValue(draftOf(store.jobs.body(row.id)));
    const vessel = read.ok ? (read.value.job.vessel ?? {}) : null;
    const page = vessel && showReadingsPage(vessel, figuresIn(request));
    const mend = page ? [] : mendInJob(context, row.id);
    response.render('readings', { job: row, page, mend, words: wordsIn(unitsOf(store.settings, row.id)) });
  });

  router.post('/jobs/:job/readings', readBody, (request, response) => {
    const form = typedForm(context, request);
    const row = jobIn(context, request);
    const draft = draftOf(store.jobs.body(row.id));
    const read = readJobValue(draft);
    if (!read.ok) throw new Problem('has-faults');
    const found = showReadingsPage(read.value.job.vessel ?? {}, (name) => form.get(name)).vessel;
    draft.vessel = { ...(isRecord(draft.vessel) ? draft.vessel : {}), ...found };
    saveTyped(context, row, form, draft, `/jobs/${row.id}?saved=1#vessel`, response);
  });

  return router;
}
