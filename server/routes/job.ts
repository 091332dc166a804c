/** One job, read downward: its form, its plans, and what is wrong with it. Whatever is typed is kept. */
import { Router } from 'express';
import type { Fault } from '../../src/fault.ts';
import type { Units } from '../../src/units.ts';
import type { Context } from '../app.ts';
import { applyForm, applyLines, type Draft, type Posted } from '../form/apply.ts';
import { readDraft } from '../form/draftRead.ts';
import { idOf, listAt } from '../form/path.ts';
import { applyOrder, parseOrder, refusalOf } from '../form/rows.ts';
import { type Slice, WHOLE } from '../form/show.ts';
import { isView, sketchVoid } from '../form/sketch.ts';
import { sketchForm } from '../form/sketchForm.ts';
import { tellLot, tellPile } from '../form/sums.ts';
import { Problem } from '../problem.ts';
import { isAskedAnew } from '../show/inHer.ts';
import { jobShower, LOTS_SHOWN, pageOfRow, VOIDS_SHOWN } from '../show/jobPage.ts';
import { drawLifter } from '../show/liftPage.ts';
import { firstOf } from '../show/paging.ts';
import type { JobRow, Saved } from '../store/jobs.ts';
import type { PlanningRow, Wish } from '../store/plannings.ts';
import { wordsIn } from '../words.ts';
import {
  baseOf,
  draftOf,
  formOf,
  jobIn,
  nameOf,
  numberIn,
  readBody,
  revisionIn,
  setUnits,
  unitsOf,
} from './request.ts';
import { keepWish, keptWish, tellStopsTyped, wishOf } from './wish.ts';

export function jobRoutes(context: Context): Router {
  const { store, planning, clock } = context;
  const router = Router();
  const showJob = jobShower(context);
  const now = (): string => clock().toISOString();

  router.get('/jobs/:job', (request, response) => {
    const job = jobIn(context, request);
    const draft = draftOf(store.jobs.body(job.id));
    showJob(response, job, {
      slice: {
        ...sliceOf(draft, request.query.lot, request.query.void),
        blanks: request.query.lines === '5' ? 5 : 1,
      },
      saved: request.query.saved !== undefined,
      since: request.query.since !== undefined,
      corrected: request.query.corrected !== undefined,
      left: request.query.left !== undefined,
      stays: request.query.stays !== undefined,
      goes: request.query.goes !== undefined,
      full: request.query.full === 'pile' || request.query.full === 'voids' ? request.query.full : null,
    });
  });

  router.post('/jobs/:job', readBody, (request, response) => {
    const form = formOf(context, request);
    const job = jobIn(context, request);
    const { saved, draft, row, full } = saveForm(context, job, form);
    if (saved?.kind !== 'saved') {
      response.redirect(303, `/jobs/${job.id}${afterSaving(saved, draft, form)}`);
      return;
    }
    const beside = pageBeside(form);
    if (beside !== null) {
      response.redirect(303, `/jobs/${job.id}/${beside}`);
      return;
    }
    if (form.get('do') !== 'plan') {
      const more = pageOf(draft, form, row);
      if (full) more.set('full', full.path);
      const place = row === null ? turnedIn(form)?.place : idOf(row);
      response.redirect(303, `/jobs/${job.id}?${more}${place === undefined ? '' : `#${place}`}`);
      return;
    }
    if (readDraft(draft).whole === null) {
      response.status(422);
      showJob(response, store.jobs.find(job.id) ?? job, {
        slice: sliceOf(draft, form.get('page.lot'), form.get('page.void')),
        saved: false,
        since: false,
        corrected: false,
        left: false,
        refused: true,
      });
      return;
    }
    // Planned as a whole it would count every void as empty.
    if (isAskedAnew(store, job.id) && form.get('anew') !== 'on') {
      response.redirect(303, `/jobs/${job.id}?saved=1&stays=1#plan`);
      return;
    }
    const [wish, body] = [keptWish(store, job.id), JSON.stringify(draft)];
    const asked = planning.ask(job.id, wish, body) || isUnderWay(store.plannings.latest(job.id), wish, body);
    response.redirect(303, `/jobs/${job.id}/planning${asked ? '' : '?already=1'}`);
  });

  router.post('/jobs/:job/sketch', readBody, (request, response, next) => {
    const form = formOf(context, request);
    const job = jobIn(context, request);
    const base = baseOf(context, job, form);
    const typed = applyLines(base, form);
    const { draft } = typed;
    const units = unitsOf(store.settings, job.id);
    const words = wordsIn(units);
    const pageOf = pageOfRow(sliceOf(draft, form.get('page.lot'), form.get('page.void')));
    const sketch = sketchForm(typed, form, readDraft(draft), form.get('focus') ?? '', units, pageOf);
    const { wanted, questions, lines, ...rest } = sketch;
    const stops = tellStopsTyped(form, keptWish(store, job.id), base, draft);
    if (stops !== null) rest.doubts['wish.stops'] = stops;
    const { lots, ...total } = sketch.sums;
    const sums = Object.fromEntries(lots.map((lot, n) => [lines[n], lot === null ? '' : tellLot(lot, words)]));
    response.app.render('partials/wanted', { wanted, questions }, (error: Error | null, html: string) => {
      // Called once the route has returned: what is thrown here would end the server.
      if (error) next(error);
      else
        response.json({ ...rest, questionCount: questions.count, wanted: html, sums, total: tellPile(total, words) });
    });
  });

  // Drawings that a page shows only when they are looked at.
  router.get('/jobs/:job/voids/:number/:view.svg', (request, response) => {
    const job = jobIn(context, request);
    const index = numberIn(request, 'number', 'no-such-page') - 1;
    const { view } = request.params;
    const draft = draftOf(store.jobs.body(job.id));
    const svg = drawView(draft, index, String(view), unitsOf(store.settings, job.id));
    if (svg === null) throw new Problem('no-such-page');
    response.type('image/svg+xml').send(svg);
  });

  // Feet, inches and pounds as well, or no longer.
  router.post('/jobs/:job/units', readBody, (request, response) => {
    const form = formOf(context, request);
    const job = jobIn(context, request);
    setUnits(store.settings, job.id, form.get('do') === 'inches' ? 'inches' : 'metric');
    if (form.get('revision') === undefined) {
      response.redirect(303, `/jobs/${job.id}`);
      return;
    }
    // The button stands in the form of the job: what was typed there is saved.
    const { saved, draft } = saveForm(context, job, form);
    response.redirect(303, `/jobs/${job.id}${afterSaving(saved, draft, form)}`);
  });

  router.post('/jobs/:job/beside/:draft', readBody, (request, response) => {
    const form = formOf(context, request);
    const job = jobIn(context, request);
    const draft = Number(request.params.draft);
    const kept = store.jobs.beside(job.id).find((text) => text.id === draft);
    if (kept && form.get('do') === 'take') store.jobs.swapBeside(job.id, draft, nameOf(draftOf(kept.body)), now());
    if (kept && form.get('do') === 'let go') store.jobs.dropBeside(job.id, draft);
    response.redirect(303, `/jobs/${job.id}`);
  });

  return router;
}

/** A void from one side, or `lift` for whoever lifts into it. */
function drawView(draft: Draft, index: number, view: string, units: Units): string | null {
  if (view === 'lift') return drawLifter(draft, index, units);
  if (!isView(view)) return null;
  const space = listAt(draft, ['voids'])[index];
  return sketchVoid(space, `voids-${index}`, undefined, [view], units).views[view]?.svg ?? null;
}

/** One page of lots and one of voids, by their numbers; of a list that has become shorter the last. */
function sliceOf(draft: Draft, lotPage: unknown, voidPage: unknown): Slice {
  return {
    ...WHOLE,
    firstLot: firstOf(lotPage, LOTS_SHOWN, listAt(draft, ['pile']).length),
    lots: LOTS_SHOWN,
    firstVoid: firstOf(voidPage, VOIDS_SHOWN, listAt(draft, ['voids']).length),
    voids: VOIDS_SHOWN,
  };
}

/** The page beside the job that a button leads to, all that was typed being saved first: `leave hold 3`. */
function pageBeside(form: Posted): string | null {
  const [, page, number] = /^leave (afloat|lift|hold)(?: (\d{1,4}))?$/.exec(form.get('do') ?? '') ?? [];
  return page === undefined ? null : `${page}?${number === undefined ? '' : `void=${number}&`}saved=1`;
}

/** The page of lots or of voids that a button turns to, all that was typed being saved first: `turn lot 2`. */
function turnedIn(form: Posted): { name: string; page: string; place: string } | null {
  const [, name, page] = /^turn (lot|void) (\d{1,5})$/.exec(form.get('do') ?? '') ?? [];
  return name === undefined || page === undefined ? null : { name, page, place: name === 'lot' ? 'pile' : 'voids' };
}

/** The part of the address that shows the row that a button made, or the page that was saved, once more. */
function pageOf(draft: Draft, form: Posted, row: string | null): URLSearchParams {
  const lines = form.get('do') === 'lines';
  const more = new URLSearchParams(lines ? { lines: '5' } : { saved: '1' });
  for (const [name, list, shown] of [
    ['lot', 'pile', LOTS_SHOWN],
    ['void', 'voids', VOIDS_SHOWN],
  ] as const) {
    const length = listAt(draft, [list]).length;
    if (length <= shown) continue;
    const index =
      lines && list === 'pile' ? String(length - 1) : new RegExp(`^${list}\\[(\\d+)\\]`).exec(row ?? '')?.[1];
    const turned = turnedIn(form);
    const own = turned?.name === name ? turned.page : form.get(`page.${name}`);
    const page = index === undefined ? own : String(Math.floor(Number(index) / shown) + 1);
    if (page !== undefined && /^\d{1,5}$/.test(page)) more.set(name, page);
  }
  return more;
}

interface SavedForm {
  /** Null where it was shown from an older revision, and nothing was typed over that. */
  saved: Saved | null;
  draft: Draft;
  /** The row that a button made or left, to be shown next. */
  row: string | null;
  /** Why the row that a button asked for was not made. */
  full: Fault | null;
}

/**
 * Saves what was typed, then what a row button asks. A text typed over an older revision is kept beside; where nothing was
 * typed over it there is nothing to keep, and a row of it may be another by now. What is wished of a plan is kept with it.
 */
function saveForm(context: Context, job: JobRow, form: Posted): SavedForm {
  const { store, clock } = context;
  const revision = revisionIn(form);
  const base = baseOf(context, job, form);
  const draft = applyForm(base, form);
  const late = revision !== job.revision && JSON.stringify(draft) !== store.jobs.body(job.id);
  if (late && store.jobs.body(job.id, revision) !== null && JSON.stringify(draft) === JSON.stringify(base))
    return { saved: null, draft, row: null, full: null };
  const order = parseOrder(form.get('do') ?? '');
  const full = order && refusalOf(draft, order);
  const row = order && !full && revision === job.revision ? applyOrder(draft, order) : null;
  const saved = store.jobs.save(job.id, revision, nameOf(draft), JSON.stringify(draft), clock().toISOString());
  if (saved.kind === 'saved') keepWish(store, job.id, wishOf(form, keptWish(store, job.id), base, draft));
  return { saved, draft, full, row: full?.path ?? row ?? (form.get('do') === 'lines' ? 'pile' : null) };
}

/** The rest of the address that tells what became of what was typed. */
function afterSaving(saved: SavedForm['saved'], draft: Draft, form: Posted): string {
  if (saved?.kind === 'late') return `#beside-${saved.draft}`;
  const more = pageOf(draft, form, null);
  if (saved === null) {
    more.delete('saved');
    more.set('since', '1');
  }
  return `?${more}`;
}

/** True of a planning of the same job in the same words: who asks twice gets what was asked for. */
function isUnderWay(last: PlanningRow | null, wish: Wish, body: string): boolean {
  return last?.jobBody === body && JSON.stringify(last.wish) === JSON.stringify(wish);
}
