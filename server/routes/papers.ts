/** The papers, tables and archive of a plan, and how its tags are laid out. */
import { type Request, type Response, Router } from 'express';
import type { Fault } from '../../src/fault.ts';
import { markRanges } from '../../src/plan/stops.ts';
import type { Context } from '../app.ts';
import { writeArchive } from '../paper/archive.ts';
import { CSV_TABLES, csvOf } from '../paper/csv.ts';
import type { PaperOptions } from '../paper/page.ts';
import { PAPERS } from '../paper/papers.ts';
import { readTagSheet } from '../paper/tagSheet.ts';
import { Problem } from '../problem.ts';
import { earlierTaken } from '../show/earlierTaken.ts';
import { otherPlans } from '../show/otherPlans.ts';
import { keepTagSheet, keptTagSheet, showTagSheet } from '../show/tagSheet.ts';
import { standsBy, validityOf } from '../show/validity.ts';
import { type PlanInHand, planIn } from './plan.ts';
import { formOf, numbersOf, plainName, readBody, sendFile, unitsOf } from './request.ts';

export function paperRoutes(context: Context): Router {
  const { store } = context;
  const router = Router();

  router.get('/plans/:serial/papers.zip', async (request, response) => {
    const hand = planIn(context, request);
    response.attachment(`${plainName(hand.jobRow.name)}-${hand.row.serial}-papers.zip`).type('application/zip');
    await writeArchive(hand.job, hand.plan, paperOptions(context, request, hand), response, `${hand.row.body}\n`);
  });

  router.get('/plans/:serial/papers/:file', async (request, response) => {
    const hand = planIn(context, request);
    const paper = PAPERS.find((candidate) => candidate.file === request.params.file);
    if (!paper) throw new Problem('no-such-page');
    const name = `${plainName(hand.jobRow.name)}-${hand.row.serial}-${paper.file}`;
    response.type('application/pdf').set('Content-Disposition', `inline; filename="${name}"`);
    await paper.write(hand.job, hand.plan, paperOptions(context, request, hand), response);
  });

  router.get('/plans/:serial/tables/:file', (request, response) => {
    const { row, plan, job, jobRow } = planIn(context, request);
    const table = CSV_TABLES.find((candidate) => candidate.file === request.params.file);
    if (!table) throw new Problem('no-such-page');
    const text = csvOf(table, job, plan, store.weighed.of(row.serial), store.records.of(row.serial));
    sendFile(response, jobRow.name, `-${row.serial}-${table.file}`, 'text/csv', text);
  });

  router.get('/plans/:serial/tags', (request, response) => {
    showTagPage(planIn(context, request), response, null, []);
  });

  router.post('/plans/:serial/tags', readBody, (request, response) => {
    const form = formOf(context, request);
    const hand = planIn(context, request);
    const typed = Object.fromEntries(form);
    const paper = typed.size === 'letter' ? 'letter' : 'a4';
    const read = readTagSheet(typed, paper);
    if (!read.ok) {
      showTagPage(hand, response.status(422), typed, read.faults);
      return;
    }
    keepTagSheet(store.settings, { sheet: read.value, paper });
    const size = paper === 'letter' && read.value.kind === 'grid' ? '?size=letter' : '';
    response.redirect(303, `/plans/${hand.row.serial}/papers/tags.pdf${size}`);
  });

  function showTagPage(
    { row, jobRow }: PlanInHand,
    response: Response,
    typed: Record<string, string> | null,
    faults: readonly Fault[],
  ): void {
    const validity = validityOf(store, row);
    response.render('tags', { row, job: jobRow, validity, tagSheet: showTagSheet(store.settings, typed, faults) });
  }

  return router;
}

/** Papers carry the day of their plan, the tags as last laid out, and codes that lead back to this server under the name it was asked by. */
function paperOptions(context: Context, request: Request, { row, plan }: PlanInHand): PaperOptions {
  const { store } = context;
  const base = `${request.protocol}://${request.headers.host}`;
  const paper = request.query.size === 'letter' ? 'letter' : 'a4';
  const tags = keptTagSheet(store.settings, paper);
  const weighed = store.weighed.of(row.serial);
  const record = store.records.of(row.serial);
  const breakOut = numbersOf(request.query.only).flatMap((n) => plan.voids[n]?.void ?? []);
  const validity = validityOf(store, row);
  const stands = standsBy(validity);
  const recordedBy = store.records.ofJob(row.job, row.serial);
  return {
    date: new Date(row.madeAt),
    paper,
    digest: row.digest,
    feet: unitsOf(store.settings, row.job) === 'inches',
    base,
    planSerial: row.serial,
    weighed,
    record,
    recordedBy,
    ...(stands ? { stands: markRanges([...stands]).join(', ') } : {}),
    before: validity.before,
    others: otherPlans(context, row.serial, row.job),
    taken: store.taken.of(row.job),
    earlier: earlierTaken(store, row.job),
    breakOut,
    ...(tags ? { tags } : {}),
  };
}
