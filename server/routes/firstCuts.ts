/** The first cuts measured: what they say is shown, and put into the job when asked; the bundle weighed is kept with those of the scale. */
import { Router } from 'express';
import type { Job } from '../../src/job/job.ts';
import { sectionSchema } from '../../src/job/sectionSchema.ts';
import { type Corrections, correctFromCuts, type FirstCuts } from '../../src/plan/firstCuts.ts';
import type { WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { Context } from '../app.ts';
import type { Draft, Posted } from '../form/apply.ts';
import { isRecord, listAt, setAt, valueAt } from '../form/path.ts';
import { type Asked, readFigure, type Unit } from '../show/askedFigures.ts';
import { validityOf } from '../show/validity.ts';
import { wordsIn } from '../words.ts';
import { planIn } from './plan.ts';
import { draftOf, formOf, nameOf, readBody, unitsOf } from './request.ts';

/** Pieces that the page asks for. */
const PIECES = 10;

export function firstCutsRoutes(context: Context): Router {
  const { store, clock } = context;
  const router = Router();

  router.get('/plans/:serial/first-cuts', (request, response) => {
    const { row, plan, jobRow } = planIn(context, request);
    response.render('firstCuts', {
      words: wordsIn(unitsOf(store.settings, jobRow.id)),
      row,
      job: jobRow,
      validity: validityOf(store, row),
      ...choicesOf(plan),
      typed: new Map(),
      asked: readAsked(new Map()),
      corrections: null,
      scale: null,
    });
  });

  router.post('/plans/:serial/first-cuts', readBody, (request, response) => {
    const form = formOf(context, request);
    const { row, plan, job, jobRow } = planIn(context, request);
    const asked = readAsked(form);
    const corrections = correctFromCuts(job, plan, cutsOf(form, asked));
    const draft = draftOf(store.jobs.body(jobRow.id));
    const other = corrections.massPerMetre.filter(({ lot }) => !isSameSteel(job, draft, lot)).map(({ lot }) => lot);
    const faulty = FIELDS.filter(({ name }) => asked[name]!.faulty);
    corrections.notes.unshift(...faulty.map(({ name, label }) => `${label}: ${asked[name]!.fault}`));
    const massPerMetre = corrections.massPerMetre.filter(({ lot }) => !other.includes(lot));
    const now = clock().toISOString();
    const scale = weighedOf(form, asked, corrections, store.weighed.of(row.serial));
    const isAny = corrections.kerf !== null || corrections.tolerance !== null || massPerMetre.length > 0;
    if (form.get('do') === 'apply' && corrections.notes.length === 0 && isAny) {
      correctDraft(draft, { ...corrections, massPerMetre });
      store.jobs.save(jobRow.id, jobRow.revision, nameOf(draft), JSON.stringify(draft), now);
      if (scale) store.weighed.set(row.serial, new Map([[scale.bundle, scale.mass]]), now);
      response.redirect(303, `/jobs/${jobRow.id}?corrected=1`);
      return;
    }
    const isKept = form.get('do') === 'keep' && scale !== null;
    if (isKept) store.weighed.set(row.serial, new Map([[scale.bundle, scale.mass]]), now);
    response.render('firstCuts', {
      words: wordsIn(unitsOf(store.settings, jobRow.id)),
      row,
      job: jobRow,
      scale: scale && { ...scale, isKept: scale.isKept || isKept },
      validity: validityOf(store, row),
      ...choicesOf(plan),
      typed: form,
      asked,
      corrections,
      other,
      planned: job.saw,
    });
  });

  return router;
}

/** The bundle that was weighed, kg, and whether the scale's page has that figure; null where none was, or it is far from what is planned. */
function weighedOf(
  form: Posted,
  asked: Record<string, Asked>,
  { massPerMetre }: Corrections,
  masses: WeighedMasses,
): { bundle: string; mass: number; isKept: boolean } | null {
  const bundle = form.get('bundle') ?? '';
  const mass = asked.weighed!.value;
  return mass === null || massPerMetre.length === 0 ? null : { bundle, mass, isKept: masses.get(bundle) === mass };
}

/** Stops, the longest first, and bundles of the plan to choose from. */
function choicesOf(plan: Plan): { stops: number[]; bundles: string[] } {
  const lengths = plan.bars.flatMap((bar) => bar.pieces.map((piece) => Math.round(piece.to - piece.from)));
  return { stops: [...new Set(lengths)].sort((p, q) => q - p), bundles: plan.bundles.map((bundle) => bundle.bundle) };
}

/** The figures that the page asks for, in its order. */
const FIELDS: { name: string; label: string; unit: Unit }[] = [
  ...Array.from({ length: PIECES }, (_, n) => ({
    name: `piece${n + 1}`,
    label: `Piece ${n + 1}`,
    unit: 'mm' as const,
  })),
  { name: 'from-bar', label: 'So many of the pieces, from the first on', unit: '' },
  { name: 'bar', label: 'Its length, first end squared', unit: 'mm' },
  { name: 'remained', label: 'What remained of it', unit: 'mm' },
  { name: 'weighed', label: 'It weighs', unit: 'kg' },
];

/** Every figure as it was typed and read, with what the page says beside it. */
function readAsked(form: Posted): Record<string, Asked & { label: string; unit: Unit }> {
  return Object.fromEntries(
    FIELDS.map(({ name, label, unit }) => {
      const bounds = unit === '' ? { least: 1, most: PIECES } : { least: 0 };
      return [name, { ...readFigure(form.get(name) ?? '', unit, bounds), label, unit }];
    }),
  );
}

function cutsOf(form: Posted, asked: Record<string, Asked>): FirstCuts {
  const value = (name: string) => asked[name]!.value;
  const pieces = FIELDS.slice(0, PIECES).map(({ name }) => value(name));
  return {
    ordered: readFigure(form.get('ordered') ?? '', 'mm').value ?? 0,
    measured: pieces.filter((length) => length !== null),
    bar: value('bar'),
    remained: value('remained'),
    fromBar: value('from-bar'),
    bundle: form.get('bundle') || null,
    weighed: value('weighed'),
  };
}

/** Whether the lot of this mark in the job as it stands is of the section that was planned with: what was weighed says nothing of another. */
function isSameSteel(job: Job, draft: Draft, mark: string): boolean {
  const planned = job.pile.find(({ lot }) => lot === mark)?.section;
  const now = listAt(draft, ['pile']).find((lot) => valueAt(lot, ['lot']) === mark);
  const section = sectionSchema.safeParse(valueAt(now, ['section'])).data;
  return section !== undefined && JSON.stringify(section) === JSON.stringify(planned);
}

function correctDraft(draft: Draft, { kerf, tolerance, massPerMetre }: Corrections): void {
  if (kerf !== null) setAt(draft, ['saw', 'kerf'], kerf);
  if (tolerance !== null) setAt(draft, ['saw', 'tolerance'], tolerance);
  for (const [index, lot] of listAt(draft, ['pile']).entries()) {
    const correction = isRecord(lot) && massPerMetre.find((candidate) => candidate.lot === lot.lot);
    if (correction) setAt(draft, ['pile', index, 'massPerMetre'], correction.value);
  }
}
