/** What is left once some of it is cut or stowed: told on a page of the plan, made into a job of its own. */
import { type Request, Router } from 'express';
import type { Job } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { massNow } from '../../src/plan/massNow.ts';
import type { CutSoFar } from '../../src/plan/pileLeft.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { bundlesIn, recordIn, recordOf } from '../../src/plan/record.ts';
import { restNameOf, type Standing, standingOf } from '../../src/plan/standing.ts';
import { markRanges, stopsOf } from '../../src/plan/stops.ts';
import { withoutLost, workLeft } from '../../src/plan/workLeft.ts';
import type { Context } from '../app.ts';
import type { Draft, Posted } from '../form/apply.ts';
import { changesSince } from '../form/changesSince.ts';
import { readLengths, readMarks } from '../form/markList.ts';
import { isEdited, plansBefore } from '../show/validity.ts';
import type { WholePlanRow } from '../store/plans.ts';
import type { Store } from '../store/store.ts';
import { wordsIn } from '../words.ts';
import { addDraft } from './jobs.ts';
import { planIn } from './plan.ts';
import { draftOf, formOf, readBody, setUnits, unitsOf } from './request.ts';

export function workLeftRoutes(context: Context): Router {
  const { store } = context;
  const router = Router();

  router.get('/plans/:serial/left', (request, response) => {
    response.render('workLeft', viewOf(request, null));
  });

  router.post('/plans/:serial/left', readBody, (request, response) => {
    const form = formOf(context, request);
    const { row, plan, job, jobRow, moves } = planIn(context, request);
    const recorded = bundlesIn(recordOf(store.records.of(row.serial)));
    const stowed = new Set(
      plan.bundles
        .filter((bundle) => {
          const index = plan.voids.findIndex((told) => told.void === bundle.void);
          return form.has(`stowed.${index}`) || (form.has(`part.${index}`) && recorded.has(bundle.bundle));
        })
        .map(({ bundle }) => bundle),
    );
    const saw = readSaw(form, job, plan);
    const weighed = store.weighed.of(row.serial);
    const unfinished = new Set(
      plan.voids.filter((_, index) => form.get(`begun.${index}`) === 'left').map((told) => told.void),
    );
    const kept = keptIn(form, plan);
    const since = jobSinceOf(store, row);
    const left =
      saw.cut &&
      workLeft(job, plan, {
        by: `plan ${row.serial}`,
        stowed,
        kept,
        unfinished,
        cut: saw.cut,
        found: saw.found.lengths,
        lost: saw.lost.marks,
        weighed,
        ...(since?.job && form.get('since') !== 'not' && { now: since.job }),
      });
    if (!left) {
      response.status(422).render('workLeft', viewOf(request, form));
      return;
    }
    const id = addDraft(context, left as Draft);
    setUnits(store.settings, id, unitsOf(store.settings, jobRow.id));
    const stands = standingOf(job, withoutLost(plan, saw.lost.marks), stowed, weighed, unfinished, kept).flatMap(
      ({ bundles }) => bundles,
    );
    store.rests.add(
      id,
      row.serial,
      stands.map(({ bundle }) => bundle),
      moves,
    );
    response.redirect(303, `/jobs/${id}?left=${row.serial}`);
  });

  /** `typed` is the form that was refused: it stays as it was. */
  function viewOf(request: Request, typed: Posted | null) {
    const { row, plan, job, jobRow } = planIn(context, request);
    const weighed = store.weighed.of(row.serial);
    const record = recordOf(store.records.of(row.serial));
    const recorded = bundlesIn(record);
    const standing = standingOf(job, plan, recorded, weighed);
    const names = new Set(job.voids.map((stated) => stated.void));
    const voids = plan.voids.flatMap((told, index) => {
      const own = plan.bundles.filter((bundle) => bundle.void === told.void);
      const isIn = own.filter(({ bundle }) => recorded.has(bundle));
      const here = standing.find((one) => one.void === told.void);
      if (own.length === 0) return [];
      return [
        {
          index,
          void: told.void,
          name: job.voids.find((stated) => stated.void === told.void)?.name ?? '',
          bundles: own.length,
          mass: own.reduce((sum, bundle) => sum + massNow(bundle, weighed), 0),
          isTicked: typed ? typed.has(`stowed.${index}`) : isIn.length === own.length,
          stays: typed ? typed.has(`part.${index}`) : true,
          isLeft: typed?.get(`begun.${index}`) === 'left',
          in: isIn.length,
          lies: isIn.flatMap(({ bundle }) => {
            const { lies } = recordIn(record, bundle);
            return lies === '' ? [] : [{ bundle, lies }];
          }),
          runs: isIn.length === own.length ? [] : showRuns(here),
          isTaken: here?.isWhole ?? false,
          restName: restNameOf(told.void, names),
        },
      ];
    });
    return {
      words: wordsIn(unitsOf(store.settings, jobRow.id)),
      row,
      job: jobRow,
      voids,
      runs: runsToKeep(plan, recorded).map(({ index, run, bundles }) => {
        const { void: name } = plan.voids[index]!;
        const own = { void: name, run, marks: markRanges(bundles.map(({ bundle }) => bundle)).join(', ') };
        const mass = bundles.reduce((sum, bundle) => sum + massNow(bundle, weighed), 0);
        const field = keepField(index, run);
        return { ...own, field, mass, bundles: bundles.length, isKept: typed?.has(field) ?? false };
      }),
      before: plansBefore(store, jobRow.id).filter(({ lacking }) => lacking !== ''),
      refused: typed !== null,
      since: jobSinceOf(store, row),
      isSinceLeft: typed?.get('since') === 'not',
      ...readSaw(typed, job, plan),
      stops: stopsOf(job, plan),
    };
  }

  return router;
}

/** The runs of a plan of which nothing is in, void by void; `index` is the void's place in the plan. */
function runsToKeep(plan: Plan, isIn: ReadonlySet<string>) {
  return plan.voids.flatMap((told, index) => {
    const own = plan.bundles.filter((bundle) => bundle.void === told.void);
    return [...new Set(own.map(({ run }) => run))].flatMap((run) => {
      const bundles = own.filter((bundle) => bundle.run === run);
      return bundles.some(({ bundle }) => isIn.has(bundle)) ? [] : [{ index, run, bundles }];
    });
  });
}

function keepField(index: number, run: number): string {
  return `keep.${index}.${run}`;
}

/** Marks of the bundles of runs that are kept. */
function keptIn(form: Posted, plan: Plan): Set<string> {
  const runs = runsToKeep(plan, new Set()).filter(({ index, run }) => form.has(keepField(index, run)));
  return new Set(runs.flatMap(({ bundles }) => bundles.map(({ bundle }) => bundle)));
}

/** Changes shown of a job; the rest is counted. */
const CHANGES_SHOWN = 40;

/**
 * The job of a plan as it stands now, and what was changed in it since; `job` is null where it has faults. Null where nothing
 * was changed that is not in the plan's own job.
 */
function jobSinceOf(store: Store, row: WholePlanRow) {
  if (!isEdited(store, row)) return null;
  const draft = draftOf(store.jobs.body(row.job));
  const read = readJobValue(draft);
  const changes = changesSince(draftOf(row.jobBody), draft);
  if (changes.length === 0) return null;
  return {
    job: read.ok ? read.value.job : null,
    faults: read.ok ? 0 : read.faults.length,
    changes: changes.slice(0, CHANGES_SHOWN),
    count: changes.length,
  };
}

/**
 * How far the saw has come, and which bars and bundles turned out otherwise, as it was typed; `cut` is null where it was
 * not said, or where something typed can not be read.
 */
function readSaw(form: Posted | null, job: Job, plan: Plan) {
  const known = plan.bars.map(({ bar }) => bar);
  const by = form?.get('cut') ?? '';
  const next = readMarks(form?.get('next') ?? '', known);
  const bars = readMarks(form?.get('bars') ?? '', known);
  const found = readLengths(form?.get('found') ?? '', known);
  const bundles = plan.bundles.map(({ bundle }) => bundle);
  const lost = readMarks(form?.get('lost') ?? '', bundles);
  const stop = form?.get('stop') ?? '';
  // What stands beside a choice that was not made keeps nobody.
  const isRead = !found.faulty && !lost.faulty && !(by === 'stops' && next.faulty) && !(by === 'bars' && bars.faulty);
  const isStop = stop === '' || stopsOf(job, plan).some(({ length }) => String(length) === stop);
  return { by, stop, next, bars, found, lost, cut: isRead && isStop ? cutOf(by, stop, next.marks, bars.marks) : null };
}

function cutOf(by: string, stop: string, next: Set<string>, bars: Set<string>): CutSoFar | null {
  if (by === 'all' || by === 'stowed') return { by };
  if (by === 'bars') return { by, bars };
  if (by !== 'stops') return null;
  // No stop is done yet: of the first, only what is cut of the bars beside it.
  return { by, stop: stop === '' ? Number.POSITIVE_INFINITY : Number(stop), next };
}

/** The runs that stand in a void stowed in part: what they weigh as they stand and finished, and what lacks of them. */
function showRuns(standing: Standing | undefined) {
  const massOf = (bundles: PlanBundle[]) => bundles.reduce((sum, bundle) => sum + (standing?.massOf(bundle) ?? 0), 0);
  return (standing?.runs ?? []).map(({ run, bundles, lacking }) => ({
    run,
    bundles: bundles.length,
    mass: massOf(bundles),
    massNow: massOf(bundles) - massOf(lacking),
    lacking: markRanges(lacking.map(({ bundle }) => bundle)).join(', '),
  }));
}
