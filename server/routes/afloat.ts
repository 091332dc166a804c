/** Afloat: what trial amounts would do before there is a plan, aims from an effect wanted, and the trial of a plan. */
import { Router } from 'express';
import { inOrderTaken, trialPairOf } from '../../src/balance/taken.ts';
import { unplacedLines } from '../../src/balance/unplaced.ts';
import type { Job } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { loadSmall } from '../../src/linear/small.ts';
import { onlyThose } from '../../src/plan/moved.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { bundlesIn, leftAshore, recordOf } from '../../src/plan/record.ts';
import { markRanges } from '../../src/plan/stops.ts';
import type { Context } from '../app.ts';
import type { Draft, Posted } from '../form/apply.ts';
import { isRecord, listAt } from '../form/path.ts';
import { localTime } from '../localTime.ts';
import { Problem } from '../problem.ts';
import { showAfloatPage } from '../show/afloatPage.ts';
import { earlierTaken } from '../show/earlierTaken.ts';
import { mendInJob } from '../show/mendInJob.ts';
import { type Found, SHARE_FIELD, showTrialPage, TRIAL_FIELDS } from '../show/trialPage.ts';
import { standsBy, validityOf } from '../show/validity.ts';
import { WANTED_FIELDS } from '../show/wantedEffect.ts';
import type { JobRow } from '../store/jobs.ts';
import { type Words, wordsIn } from '../words.ts';
import { type PlanInHand, planIn } from './plan.ts';
import { draftOf, figuresIn, jobIn, readBody, unitsOf } from './request.ts';
import { saveTyped, typedForm } from './typedVoid.ts';

export function afloatRoutes(context: Context): Router {
  const { store, clock } = context;
  const router = Router();

  router.get('/jobs/:job/afloat', async (request, response) => {
    const row = jobIn(context, request);
    const job = jobOf(context, row);
    const page = job && showAfloatPage(job, figuresIn(request), await loadSmall());
    response.render('afloat', {
      words: wordsOf(row),
      job: row,
      page,
      mend: job ? [] : mendInJob(context, row.id),
      saved: request.query.saved !== undefined,
      vessel: !!job?.vessel,
      wantedFields: WANTED_FIELDS,
    });
  });

  router.post('/jobs/:job/afloat', readBody, async (request, response) => {
    const form = typedForm(context, request);
    const row = jobIn(context, request);
    const job = jobOf(context, row);
    if (!job) throw new Problem('has-faults');
    const page = showAfloatPage(job, (name) => form.get(name), await loadSmall());
    const { targets, listNow } = page;
    const put = form.get('do') === 'list' ? null : page.put;
    if (page.refused.length > 0 || (put && !page.possible)) {
      // Nothing is put in: the page says why, with what was typed.
      response.redirect(303, `/jobs/${row.id}/afloat?${askedAgain(form)}`);
      return;
    }
    const draft = draftOf(store.jobs.body(row.id));
    // The aims make up for the list that they were made with.
    if (form.has('listNow') && !listNow.faulty && job.vessel)
      draft.vessel = { ...recordAt(draft, 'vessel'), list: listNow.value ?? undefined };
    if (put) draft.aims = { ...recordAt(draft, 'aims'), ...put.aims };
    if (targets && form.get('targets') === 'too') putTargets(draft, targets);
    saveTyped(context, row, form, draft, `/jobs/${row.id}?saved=1#${put ? 'aims' : 'vessel'}`, response);
  });

  router.get('/plans/:serial/trial', (request, response) => {
    const hand = planIn(context, request);
    const { row, job, jobRow } = hand;
    const plan = holdingOf(hand);
    const page = showTrialPage(job, plan, figuresIn(request), foundOf(hand));
    const unplaced = unplacedLines(job, plan);
    const ranges = (marks: string[]) => markRanges(marks).join(', ');
    const fields = { shareField: SHARE_FIELD, trialFields: TRIAL_FIELDS, ranges };
    const told = { validity: validityOf(store, row), recordedBy: store.records.ofJob(jobRow.id, row.serial) };
    response.render('trial', { words: wordsOf(jobRow), row, job: jobRow, ...told, unplaced, page, ...fields });
  });

  router.post('/plans/:serial/trial', readBody, (request, response) => {
    const form = typedForm(context, request);
    const hand = planIn(context, request);
    const { row, job, jobRow } = hand;
    const page = showTrialPage(job, holdingOf(hand), (name) => form.get(name), foundOf(hand));
    const figures = { ...page?.result?.doubtful, ...page?.result?.figures };
    if (Object.keys(figures).length === 0 || (page?.doubts && !isKnowing(form))) {
      // Nothing follows from what was typed, or it is in doubt: the page says why.
      response.redirect(303, `/plans/${row.serial}/trial?${askedAgain(form)}`);
      return;
    }
    const draft = draftOf(store.jobs.body(jobRow.id));
    const { kgPerCm, kgmPerCm } = figures;
    draft.vessel = {
      ...recordAt(draft, 'vessel'),
      ...(kgPerCm === undefined ? {} : { kgPerCm: Math.round(kgPerCm) }),
      ...(kgmPerCm === undefined ? {} : { kgmPerCm: Math.round(kgmPerCm) }),
    };
    saveTyped(context, jobRow, form, draft, `/jobs/${jobRow.id}?saved=1#vessel`, response);
  });

  router.post('/plans/:serial/ashore', readBody, (request, response) => {
    const form = typedForm(context, request);
    const hand = planIn(context, request);
    const { row, job } = hand;
    const plan = holdingOf(hand);
    const shown = showTrialPage(job, plan, (name) => form.get(name), foundOf(hand));
    const rest = shown?.doubts && !isKnowing(form) ? null : shown?.rest;
    if (rest) {
      const record = recordOf(store.records.of(row.serial));
      const ashore = new Set(rest.ashore.map(({ bundle }) => bundle));
      store.records.add(row.serial, leftAshore(plan, record, ashore, localTime(clock())));
    }
    // Where nothing follows from what was typed, or it is in doubt, the page of the trial says why.
    const page = rest ? 'stowed?saved=ashore' : `trial?${askedAgain(form)}`;
    response.redirect(303, `/plans/${row.serial}/${page}`);
  });

  /** What of the plan still holds: of a rest that is planned anew nothing is placed by this plan. */
  function holdingOf({ row: { serial }, plan }: PlanInHand): Plan {
    const stands = standsBy({ rest: store.rests.ofPlan(serial) });
    return stands ? onlyThose(plan, new Set([...stands, ...bundlesIn(recordOf(store.records.of(serial)))])) : plan;
  }

  function foundOf({ row: { serial }, jobRow }: PlanInHand): Found {
    const texts = store.taken.of(jobRow.id);
    const earlier = earlierTaken(store, jobRow.id).filter((taken) => taken.earlier?.counts);
    return {
      weighed: store.weighed.of(serial),
      isIn: bundlesIn(recordOf(store.records.of(serial))),
      read: trialPairOf(texts, serial, earlier),
      all: [...earlier, ...inOrderTaken(texts)],
      serial,
    };
  }

  function wordsOf(row: JobRow): Words {
    return wordsIn(unitsOf(store.settings, row.id));
  }

  return router;
}

/** The job as it stands; null where it has faults. */
function jobOf({ store }: Context, row: JobRow): Job | null {
  const read = readJobValue(draftOf(store.jobs.body(row.id)));
  return read.ok ? read.value.job : null;
}

/** Whether the button was pressed that goes by a reading in doubt all the same. */
function isKnowing(form: Posted): boolean {
  return form.get('knowing') === '1';
}

/** What was typed, to be asked for again. */
function askedAgain(form: Posted): URLSearchParams {
  const own = new Set(['token', 'revision', 'targets', 'do', 'knowing']);
  return new URLSearchParams([...form].filter(([name]) => !own.has(name)));
}

/** The targets of all voids, in the draft itself. */
function putTargets(draft: Draft, targets: ReadonlyMap<string, number>): void {
  for (const space of listAt(draft, ['voids'])) {
    if (isRecord(space) && typeof space.void === 'string') space.target = targets.get(space.void) ?? 0;
  }
}

function recordAt(draft: Draft, name: string): Draft {
  const value = draft[name];
  return isRecord(value) ? value : {};
}
