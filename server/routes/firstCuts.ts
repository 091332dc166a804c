/** The first cuts measured: what they say is shown, and put into the job when asked. */
import { Router } from 'express';
import { type Corrections, correctFromCuts, type FirstCuts } from '../../src/plan/firstCuts.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { parseLength, parseMass } from '../../src/units.ts';
import type { Context } from '../app.ts';
import type { Draft, Posted } from '../form/apply.ts';
import { isRecord, listAt, setAt } from '../form/path.ts';
import { planIn } from './plan.ts';
import { draftOf, formOf, nameOf, readBody } from './request.ts';

/** Pieces that the page asks for. */
const PIECES = 10;

export function firstCutsRoutes(context: Context): Router {
  const { store, clock } = context;
  const router = Router();

  router.get('/plans/:serial/first-cuts', (request, response) => {
    const { row, plan, jobRow } = planIn(context, request);
    response.render('firstCuts', {
      row,
      job: jobRow,
      ...choicesOf(plan),
      typed: {},
      corrections: null,
      pieces: PIECES,
    });
  });

  router.post('/plans/:serial/first-cuts', readBody, (request, response) => {
    const form = formOf(context, request);
    const { row, plan, job, jobRow } = planIn(context, request);
    const { cuts, unread } = readCuts(form);
    const corrections = correctFromCuts(job, plan, cuts);
    corrections.notes.unshift(...unread);
    if (form.get('do') === 'apply' && corrections.notes.length === 0) {
      const draft = draftOf(store.jobs.body(jobRow.id));
      correctDraft(draft, corrections);
      store.jobs.save(jobRow.id, jobRow.revision, nameOf(draft), JSON.stringify(draft), clock().toISOString());
      response.redirect(303, `/jobs/${jobRow.id}?corrected=1`);
      return;
    }
    response.render('firstCuts', {
      row,
      job: jobRow,
      ...choicesOf(plan),
      typed: Object.fromEntries(form),
      corrections,
      planned: job.saw,
      pieces: PIECES,
    });
  });

  return router;
}

/** Stops, the longest first, and bundles of the plan to choose from. */
function choicesOf(plan: Plan): { stops: number[]; bundles: string[] } {
  const lengths = plan.bars.flatMap((bar) => bar.pieces.map((piece) => Math.round(piece.to - piece.from)));
  return { stops: [...new Set(lengths)].sort((p, q) => q - p), bundles: plan.bundles.map((bundle) => bundle.bundle) };
}

function readCuts(form: Posted): { cuts: FirstCuts; unread: string[] } {
  const unread: string[] = [];
  const read = (name: string, parse: (text: string) => number | null): number | null => {
    const text = (form.get(name) ?? '').trim();
    const value = text === '' ? null : parse(text);
    if (text !== '' && value === null) unread.push(`“${text}” could not be read as a number.`);
    return value;
  };
  const lengths = Array.from({ length: PIECES }, (_, n) => read(`piece${n + 1}`, (text) => parseLength(text)));
  const cuts = {
    ordered: read('ordered', (text) => parseLength(text)) ?? 0,
    measured: lengths.filter((length) => length !== null),
    bar: read('bar', (text) => parseLength(text)),
    remained: read('remained', (text) => parseLength(text)),
    fromBar: read('from-bar', readCount),
    bundle: form.get('bundle') || null,
    weighed: read('weighed', parseMass),
  };
  return { cuts, unread };
}

function readCount(text: string): number | null {
  return /^\d+$/.test(text) && Number(text) > 0 ? Number(text) : null;
}

function correctDraft(draft: Draft, { kerf, tolerance, massPerMetre }: Corrections): void {
  if (kerf !== null) setAt(draft, ['saw', 'kerf'], kerf);
  if (tolerance !== null) setAt(draft, ['saw', 'tolerance'], tolerance);
  for (const [index, lot] of listAt(draft, ['pile']).entries()) {
    const correction = isRecord(lot) && massPerMetre.find((candidate) => candidate.lot === lot.lot);
    if (correction) setAt(draft, ['pile', index, 'massPerMetre'], correction.value);
  }
}
