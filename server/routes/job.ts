/** One job, read downward: its form, its plans, and what is wrong with it. Whatever is typed is kept. */
import { type Response, Router } from 'express';
import type { Fault } from '../../src/fault.ts';
import { jobDigest } from '../../src/job/digest.ts';
import type { JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { notInThisVersion, notUsedYet } from '../../src/job/version.ts';
import { suggestLimit } from '../../src/lift/limit.ts';
import type { Context } from '../app.ts';
import { applyForm, type Draft, type Posted } from '../form/apply.ts';
import { differences } from '../form/differences.ts';
import { idOf, listAt } from '../form/path.ts';
import { applyOrder, parseOrder } from '../form/rows.ts';
import { type Slice, showForm, WHOLE } from '../form/show.ts';
import { sketchVoid, VIEWS, type View } from '../form/sketch.ts';
import { sketchForm } from '../form/sketchForm.ts';
import { sketchLot } from '../form/sketchLot.ts';
import { pileSum, tellLot, tellPile } from '../form/sums.ts';
import { Problem } from '../problem.ts';
import type { JobRow, Saved } from '../store/jobs.ts';
import type { Wish } from '../store/plannings.ts';
import { figure, type Words, wordsIn } from '../words.ts';
import { draftOf, formOf, jobIn, nameOf, readBody, setUnits, unitsOf } from './request.ts';

/** Differences shown of two texts; the rest is counted. */
const DIFFERENCES_SHOWN = 40;
/** A longer pile, or more voids, are shown page by page. */
const LOTS_SHOWN = 100;
const VOIDS_SHOWN = 20;

export function jobRoutes(context: Context): Router {
  const { store, planning, clock } = context;
  const router = Router();
  const now = (): string => clock().toISOString();

  router.get('/jobs/:job', (request, response) => {
    showJob(context, response, jobIn(context, request), {
      slice: {
        blanks: request.query.lines === '5' ? 5 : 1,
        firstLot: firstOf(request.query.lot, LOTS_SHOWN),
        lots: LOTS_SHOWN,
        firstVoid: firstOf(request.query.void, VOIDS_SHOWN),
        voids: VOIDS_SHOWN,
        units: 'metric',
      },
      saved: request.query.saved !== undefined,
      corrected: request.query.corrected !== undefined,
    });
  });

  router.post('/jobs/:job', readBody, (request, response) => {
    const form = formOf(context, request);
    const job = jobIn(context, request);
    const { saved, draft, row } = saveForm(context, job, form);
    if (saved.kind === 'late') {
      response.redirect(303, `/jobs/${job.id}#beside-${saved.draft}`);
      return;
    }
    if (form.get('do') !== 'plan') {
      const more = new URLSearchParams(form.get('do') === 'lines' ? { lines: '5' } : { saved: '1' });
      for (const name of ['lot', 'void'])
        if (/^\d{1,5}$/.test(form.get(`page.${name}`) ?? '')) more.set(name, form.get(`page.${name}`) ?? '');
      response.redirect(303, `/jobs/${job.id}?${more}${row === null ? '' : `#${idOf(row)}`}`);
      return;
    }
    if (faultsOf(draft).length > 0) {
      response.status(422);
      showJob(context, response, store.jobs.find(job.id) ?? job, {
        slice: { ...WHOLE, lots: LOTS_SHOWN, voids: VOIDS_SHOWN },
        saved: false,
        corrected: false,
        refused: true,
      });
      return;
    }
    if (!planning.ask(job.id, wishOf(form), JSON.stringify(draft))) throw new Problem('being-planned');
    response.redirect(303, `/jobs/${job.id}/planning`);
  });

  router.post('/jobs/:job/sketch', readBody, (request, response) => {
    const form = formOf(context, request);
    const job = jobIn(context, request);
    const draft = applyForm(draftOf(baseOf(context, job, form)), form);
    const units = unitsOf(store.settings, job.id);
    const words = wordsIn(units);
    const sketch = sketchForm(draft, form, faultsOf(draft), form.get('focus') ?? '', units);
    const { lots, ...total } = sketch.sums;
    const sums = Object.fromEntries(
      lots.map((lot, n) => [idOf(`pile[${n}]`), lot === null ? '' : tellLot(lot, words)]),
    );
    response.json({ ...sketch, sums, total: tellPile(total, words) });
  });

  router.post('/jobs/:job/units', readBody, (request, response) => {
    const form = formOf(context, request);
    const job = jobIn(context, request);
    setUnits(store.settings, job.id, form.get('do') === 'inches' ? 'inches' : 'metric');
    response.redirect(303, `/jobs/${job.id}`);
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

interface SavedForm {
  saved: Saved;
  draft: Draft;
  /** The row that a button made or left, to be shown next. */
  row: string | null;
}

/** Saves what was typed, then what a row button asks. A text typed over an older revision is kept beside. */
function saveForm(context: Context, job: JobRow, form: Posted): SavedForm {
  const { store, clock } = context;
  const revision = revisionOf(job, form);
  const draft = applyForm(draftOf(baseOf(context, job, form)), form);
  const order = parseOrder(form.get('do') ?? '');
  const row = order && revision === job.revision ? applyOrder(draft, order) : null;
  const saved = store.jobs.save(job.id, revision, nameOf(draft), JSON.stringify(draft), clock().toISOString());
  return { saved, draft, row: row ?? (form.get('do') === 'lines' ? 'pile' : null) };
}

/** The revision that the form was shown from. */
function revisionOf(job: JobRow, form: Posted): number {
  const revision = Number(form.get('revision') ?? job.revision);
  return Number.isSafeInteger(revision) ? revision : 0;
}

/** The text that the form was shown from; the present one where that is no longer kept. */
function baseOf({ store }: Context, job: JobRow, form: Posted): string | null {
  return store.jobs.body(job.id, revisionOf(job, form)) ?? store.jobs.body(job.id);
}

/** Everything that keeps a draft from being planned. */
export function faultsOf(draft: Draft): Fault[] {
  const read = readJobValue(draft);
  return read.ok ? notInThisVersion(read.value.job) : read.faults;
}

function wishOf(form: Posted): Wish {
  const effort = form.get('wish.effort');
  const stops = form.get('wish.stops') ?? '';
  return {
    effort: effort === 'quick' || effort === 'thorough' ? effort : 'steady',
    seed: 1,
    stops: stops === 'free' ? 'free' : /^[1-9]\d{0,3}$/.test(stops) ? Number(stops) : null,
  };
}

interface Showing {
  slice: Slice;
  saved: boolean;
  /** The first cuts have just been put in. */
  corrected: boolean;
  refused?: boolean;
}

function showJob({ store, planning }: Context, response: Response, job: JobRow, showing: Showing): void {
  const draft = draftOf(store.jobs.body(job.id));
  const faults = faultsOf(draft);
  const digest = jobDigest(draft);
  const units = unitsOf(store.settings, job.id);
  const words = wordsIn(units);
  const slice = { ...showing.slice, units };
  const spaces = listAt(draft, ['voids']);
  const notes = faults.length === 0 ? notUsedYet(draft as unknown as JobInput) : [];
  const form = showForm(draft, faults, slice);
  response.render('job', {
    job,
    ...showing,
    slice,
    words,
    units,
    form,
    notes,
    ...sumsOf(draft, words),
    views: VIEWS,
    lotSketches: form.pile.map((lot) => sketchLot(draft, Number(/\d+/.exec(lot.path)?.[0]))),
    lotPages: pagesOf(listAt(draft, ['pile']).length, slice.firstLot, LOTS_SHOWN),
    voidPages: pagesOf(spaces.length, slice.firstVoid, VOIDS_SHOWN),
    sketches: spaces.slice(slice.firstVoid, slice.firstVoid + slice.voids).map((space, n) =>
      (Object.keys(VIEWS) as View[]).map((view) => ({
        view,
        svg: sketchVoid(space, view, `void-${slice.firstVoid + n}-${view}`),
      })),
    ),
    plans: store.plans.ofJob(job.id).map((plan) => ({ ...plan, edited: plan.jobDigest !== digest })),
    suggestions: suggestionsOf(draft),
    progress: planning.progress(job.id),
    last: store.plannings.latest(job.id),
    beside: store.jobs.beside(job.id).map((text) => besideView(draft, text)),
  });
}

/** For each void of a job without faults, what its way in suggests as a lift limit; null where nothing is told of it. */
function suggestionsOf(draft: Draft): (string | null)[] {
  const read = readJobValue(draft);
  if (!read.ok) return [];
  const { job } = read.value;
  return job.voids.map((space) => {
    const { limit, basis, text } = suggestLimit(job, space);
    if (basis === 'none') return space.handling || space.route ? text : null;
    return `${limit === null ? '' : `Suggested: at most ${figure(limit, 1)} kg. `}${text}`;
  });
}

/** Where a page of a long list begins, from its address. */
function firstOf(query: unknown, shown: number): number {
  const page = typeof query === 'string' && /^\d{1,5}$/.test(query) ? Number(query) : 1;
  return (Math.max(1, page) - 1) * shown;
}

/** The pages of a long list; none where one page shows it all. */
function pagesOf(
  length: number,
  first: number,
  shown: number,
): { page: number; from: number; to: number; here: boolean }[] {
  if (length <= shown) return [];
  return Array.from({ length: Math.ceil(length / shown) }, (_, n) => ({
    page: n + 1,
    from: n * shown + 1,
    to: Math.min(length, (n + 1) * shown),
    here: n * shown === first,
  }));
}

/** The pile's sums in words: a line for each lot, and one for all. */
function sumsOf(draft: Draft, words: Words): { lotSums: string[]; total: string } {
  const { lots, ...total } = pileSum(draft);
  return { lotSums: lots.map((lot) => (lot === null ? '' : tellLot(lot, words))), total: tellPile(total, words) };
}

function besideView(draft: Draft, text: { id: number; revision: number; body: string; savedAt: string }) {
  const all = differences(draft, draftOf(text.body));
  return { ...text, differences: all.slice(0, DIFFERENCES_SHOWN), more: Math.max(0, all.length - DIFFERENCES_SHOWN) };
}
