/** A plan: its page, its file, and two plans side by side. */
import { type Request, Router } from 'express';
import { byScale } from '../../src/balance/byScale.ts';
import { allInVoids } from '../../src/balance/moments.ts';
import { Defect } from '../../src/fault.ts';
import { jobDigest } from '../../src/job/digest.ts';
import type { Job } from '../../src/job/job.ts';
import { readJob } from '../../src/job/readJob.ts';
import { cautionsNow } from '../../src/plan/cautions.ts';
import { cutAgain, tellCutAgain } from '../../src/plan/cutAgain.ts';
import { countWeighed, type WeighedMasses } from '../../src/plan/massNow.ts';
import { movedPlan } from '../../src/plan/moved.ts';
import type { Caution, Plan, PlanBundle } from '../../src/plan/plan.ts';
import { alikeBars } from '../../src/plan/stops.ts';
import { bundleMassOf } from '../../src/plan/totals.ts';
import type { Units } from '../../src/units.ts';
import type { Context } from '../app.ts';
import { withCautions } from '../cautionsMade.ts';
import { jobTextNow } from '../holdNow.ts';
import { keepLatest } from '../keepLatest.ts';
import { CSV_TABLES } from '../paper/csv.ts';
import { massBy } from '../paper/massBy.ts';
import { PAPERS } from '../paper/papers.ts';
import { weighedOverloads, weighingsOf } from '../paper/weighing.ts';
import { Problem } from '../problem.ts';
import { isThisMachineOnly } from '../security.ts';
import { showAfloat, showHeld } from '../show/afloat.ts';
import { groupCautions } from '../show/cautions.ts';
import { drawChoice } from '../show/choice.ts';
import { findMark, notFoundIn } from '../show/findMark.ts';
import { isAskedAnew } from '../show/inHer.ts';
import { LYING_FROM, lyingOf } from '../show/lying.ts';
import { firstOf, pagesOf } from '../show/paging.ts';
import {
  BARS_SHOWN,
  type LiftedOut,
  placesOfVoids,
  type Stretch,
  showBars,
  showVoids,
  VOIDS_SHOWN,
} from '../show/planPage.ts';
import { showRecord } from '../show/record.ts';
import { showTagSheet } from '../show/tagSheet.ts';
import { plansAfter, plansBefore, validityOf } from '../show/validity.ts';
import type { JobRow } from '../store/jobs.ts';
import type { WholePlanRow } from '../store/plans.ts';
import type { Store } from '../store/store.ts';
import { wordsIn } from '../words.ts';
import { draftOf, formOf, numberIn, readBody, sendFile, unitsOf } from './request.ts';
import { keepWish } from './wish.ts';

/** A stored plan, read, with the job that it was made for and the job's present row. */
export interface PlanInHand {
  row: WholePlanRow;
  /** As its bundles lie: where some were moved, not as it was made. */
  plan: Plan;
  /** How often bundles of it were moved. */
  moves: number;
  /** As it was planned, but with what holds the stow now. */
  job: Job;
  jobRow: JobRow;
  /** What holds the stow was changed since; its digest, '' where it was not. */
  heldAnew: string;
}

/** Drawn pages of plans kept at hand. */
const DRAWN = 8;
/** Voids drawn of two plans side by side; the figures above them are of all. */
const COMPARED = 30;

export function planRoutes(context: Context): Router {
  const { store, planning } = context;
  const router = Router();
  const drawn = keepLatest<string, ReturnType<typeof drawPlan>>(DRAWN);

  router.get('/plans/:serial', (request, response) => {
    const { row, plan, job, jobRow, heldAnew, moves } = planIn(context, request);
    const lifted = liftedOut(request.query.out);
    const voids = { first: firstOf(request.query.void, VOIDS_SHOWN, plan.voids.length), count: VOIDS_SHOWN };
    const masses = store.weighed.of(row.serial);
    const scaled = byScale(job, plan, masses);
    const isScaled = scaled !== plan;
    const { bar } = request.query;
    const words = wordsIn(unitsOf(store.settings, jobRow.id));
    const { units } = words;
    const again = cutAgain(job, plan);
    const entries = store.records.of(row.serial);
    const recorded = entries.length === 0 ? null : showRecord(job, plan, entries, masses);
    response.render('plan', {
      words,
      lyingOf,
      lyingFrom: LYING_FROM,
      row,
      plan,
      notFound: notFoundIn(request.query.lacks, plan),
      voidPlaces: voids.count < plan.voids.length ? placesOfVoids(plan) : null,
      moves,
      // Each bundle's mass is rounded: bands or none, they do not weigh less than their steel.
      bundleMass: Math.max(bundleMassOf(plan), plan.totals.placedMass),
      now: isScaled ? { mass: bundleMassOf(scaled), weighed: countWeighed(plan.bundles, masses) } : null,
      centre: scaled.centre,
      kgPerHour: job.aims.kgPerHour,
      whole: allInVoids(job, scaled),
      by: (bundles: PlanBundle[]) => massBy(bundles, plan, masses),
      planned: new Map(plan.bundles.flatMap(({ bundle, mass }) => (masses.has(bundle) ? [[bundle, mass]] : []))),
      job: jobRow,
      ...drawn(
        `${row.serial} ${heldAnew} ${moves} ${voids.first} ${firstOf(bar, BARS_SHOWN)} ${units} ${JSON.stringify([...masses])}`,
        () => drawPlan(job, scaled, masses, voids, bar, units),
      ),
      ...(lifted ? { voids: showVoids(job, scaled, voids, lifted, '', units) } : {}),
      cutAgain: again && tellCutAgain(again),
      overloads: weighedOverloads(job, plan, masses),
      overLimit: weighingsOf(job, plan, masses).filter((each) => each.overLimit),
      papers: PAPERS,
      tagSheet: showTagSheet(store.settings),
      codesLeadNowhere: isThisMachineOnly(request.headers.host),
      cautions: groupCautions(
        isScaled
          ? cautionsByScale(job, plan, scaled, masses)
          : heldAnew === ''
            ? plan.cautions
            : withCautions(job, plan, masses).cautions,
      ),
      heldAnew: heldAnew !== '',
      curve: drawChoice(plan.choice ?? [], words),
      tables: CSV_TABLES,
      validity: validityOf(store, row),
      recordedBy: store.records.ofJob(jobRow.id),
      out: recorded?.out ?? [],
      ashore: recorded?.ashore ?? null,
      others: store.plans.ofJob(jobRow.id).filter((other) => other.serial !== row.serial),
      last: store.plannings.latest(jobRow.id),
    });
  });

  // The place of a void, a bundle or a bar, by its mark.
  router.get('/plans/:serial/find', (request, response) => {
    const { row, plan, job } = planIn(context, request);
    const mark = typeof request.query.mark === 'string' ? request.query.mark : '';
    const lacks = mark.trim() === '' ? '' : `?${new URLSearchParams({ lacks: mark })}`;
    const found = findMark(row.serial, job, plan, mark) ?? findElsewhere(context, row, mark);
    response.redirect(303, found ?? `/plans/${row.serial}${lacks}#find`);
  });

  router.post('/plans/:serial/stops/:stops', readBody, (request, response) => {
    formOf(context, request);
    const { row, plan, jobRow } = planIn(context, request);
    const stops = numberIn(request, 'stops', 'no-such-page');
    const wish = { effort: plan.effort, seed: plan.seed, stops };
    keepWish(store, jobRow.id, wish);
    if (isAskedAnew(store, jobRow.id)) {
      response.redirect(303, `/jobs/${jobRow.id}?stays=1#plan`);
      return;
    }
    const asked = planning.ask(jobRow.id, wish, row.jobBody);
    response.redirect(303, `/jobs/${jobRow.id}/planning${asked ? '' : '?already=1'}`);
  });

  router.get('/plans/:serial/beside/:other', (request, response) => {
    const one = planIn(context, request);
    const other = planIn(context, request, 'other');
    if (one.jobRow.id !== other.jobRow.id) throw new Problem('no-such-plan');
    const pair = [one, other].sort((p, q) => p.row.serial - q.row.serial);
    const words = wordsIn(unitsOf(store.settings, one.jobRow.id));
    response.render('beside', {
      words,
      job: one.jobRow,
      sides: pair.map(({ row, plan, job }) => ({
        row,
        plan,
        bundleMass: bundleMassOf(plan),
        voids: showVoids(job, plan, { first: 0, count: COMPARED }, null, `plan-${row.serial}-`, words.units),
      })),
    });
  });

  router.get('/plans/:serial/plan.json', (request, response) => {
    const { row, jobRow } = planIn(context, request);
    sendFile(response, jobRow.name, `.plan-${row.serial}.json`, 'application/json', `${row.body}\n`);
  });

  router.get('/plans/:serial/job.json', (request, response) => {
    const { row, jobRow } = planIn(context, request);
    sendFile(response, jobRow.name, '.job.json', 'application/json', `${row.jobBody}\n`);
  });

  return router;
}

/** With what holds it down worked out at the masses that it has now. */
function cautionsByScale(job: Job, plan: Plan, scaled: Plan, weighed: WeighedMasses): Caution[] {
  return withCautions(job, { ...scaled, cautions: cautionsNow(job, plan, weighed) }, weighed).cautions;
}

/** What the page of a plan shows that follows from the plan, by the scale, and from what was weighed. */
function drawPlan(job: Job, plan: Plan, weighed: WeighedMasses, voids: Stretch, bar: unknown, units: Units) {
  const groups = alikeBars(job, plan);
  const bars = { first: firstOf(bar, BARS_SHOWN, groups.length), count: BARS_SHOWN };
  return {
    afloat: showAfloat(job, plan),
    hold: showHeld(job, plan, weighed),
    voids: showVoids(job, plan, voids, null, '', units),
    voidPages: pagesOf(plan.voids.length, voids.first, voids.count),
    bars: showBars(job, groups, bars, units),
    barPages: pagesOf(groups.length, bars.first, bars.count),
  };
}

/** The plan that the address names. */
export function planIn(context: Context, request: Request, name = 'serial'): PlanInHand {
  return planOf(context, numberIn(request, name, 'no-such-plan'));
}

/** False of a plan whose job was deleted. */
export function isThere({ plans, jobs }: Store, serial: number): boolean {
  const row = plans.find(serial);
  return row !== null && jobs.find(row.job)?.deletedAt === null;
}

/** The plan of a serial. */
export function planOf({ store, plansRead }: Context, serial: number): PlanInHand {
  const row = store.plans.find(serial);
  const jobRow = row && store.jobs.find(row.job);
  if (!row || !jobRow || jobRow.deletedAt !== null) throw new Problem('no-such-plan');
  const text = jobTextNow(store, row);
  const heldAnew = text === row.jobBody ? '' : jobDigest(draftOf(text));
  const batches = store.moved.of(serial);
  const read = plansRead(`${serial} ${heldAnew} ${batches.length}`, () => {
    const { plan, job } = readPlan(row, text);
    if (batches.length === 0) return { plan, job };
    // What held a void may no longer carry what lies there now.
    return {
      plan: withCautions(
        job,
        batches.reduce((lying, shifts) => movedPlan(job, lying, shifts), plan),
      ),
      job,
    };
  });
  return { row, jobRow, heldAnew, moves: batches.length, ...read };
}

/** The plan as it lay when only so many batches of its bundles had been moved. */
export function planBefore({ store }: Context, serial: number, batches: number): Plan {
  const row = store.plans.find(serial);
  if (!row) throw new Problem('no-such-plan');
  const { plan, job } = readPlan(row, jobTextNow(store, row));
  return store.moved
    .of(serial)
    .slice(0, batches)
    .reduce((lying, shifts) => movedPlan(job, lying, shifts), plan);
}

function readPlan(row: WholePlanRow, jobText: string): { plan: Plan; job: Job } {
  const read = readJob(jobText, { toCheck: true });
  if (!read.ok) throw new Defect(`the job of plan ${row.serial} can not be read any more`);
  // It was read by its schema when it was stored, and a stored plan is never changed.
  return { plan: JSON.parse(row.body) as Plan, job: read.value.job };
}

/** A mark that the plan does not have, among the plans of the same stow: those before it, and those of what was left of it. */
function findElsewhere(context: Context, row: WholePlanRow, mark: string): string | null {
  for (const serial of [
    ...plansBefore(context.store, row.job).map((before) => before.serial),
    ...plansAfter(context.store, row.serial),
  ]) {
    const found = isThere(context.store, serial) ? planOf(context, serial) : null;
    const place = found && findMark(serial, found.job, found.plan, mark);
    if (place) return place;
  }
  return null;
}

/** `?out=V1.3`: three bundles of V1 lifted out. */
function liftedOut(query: unknown): LiftedOut | null {
  const [, name, count] = typeof query === 'string' ? (/^(.*)\.(\d{1,5})$/s.exec(query) ?? []) : [];
  return name === undefined ? null : { void: name, count: Number(count) };
}
