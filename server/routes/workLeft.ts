/** What is left once some of it is stowed: told on a page of the plan, made into a job of its own. */
import { type Request, Router } from 'express';
import { massNow } from '../../src/plan/massNow.ts';
import { bundlesIn, recordIn, recordOf } from '../../src/plan/record.ts';
import { type Standing, standingOf } from '../../src/plan/standing.ts';
import { markRanges } from '../../src/plan/stops.ts';
import { workLeft } from '../../src/plan/workLeft.ts';
import type { Context } from '../app.ts';
import type { Draft, Posted } from '../form/apply.ts';
import { wordsIn } from '../words.ts';
import { addDraft } from './jobs.ts';
import { planIn } from './plan.ts';
import { formOf, readBody, unitsOf } from './request.ts';

export function workLeftRoutes(context: Context): Router {
  const { store } = context;
  const router = Router();

  router.get('/plans/:serial/left', (request, response) => {
    response.render('workLeft', viewOf(request, null));
  });

  router.post('/plans/:serial/left', readBody, (request, response) => {
    const form = formOf(context, request);
    const { row, plan, job } = planIn(context, request);
    const recorded = bundlesIn(recordOf(store.records.of(row.serial)));
    const stowed = new Set(
      plan.bundles
        .filter((bundle) => {
          const index = plan.voids.findIndex((told) => told.void === bundle.void);
          return form.has(`stowed.${index}`) || (form.has(`part.${index}`) && recorded.has(bundle.bundle));
        })
        .map(({ bundle }) => bundle),
    );
    const left = workLeft(job, plan, { stowed, allCut: isAllCut(form), weighed: store.weighed.of(row.serial) });
    if (!left) {
      response.status(422).render('workLeft', viewOf(request, form));
      return;
    }
    response.redirect(303, `/jobs/${addDraft(context, left as Draft)}?left=${row.serial}`);
  });

  /** `typed` is the form that was refused: it stays as it was. */
  function viewOf(request: Request, typed: Posted | null) {
    const { row, plan, job, jobRow } = planIn(context, request);
    const weighed = store.weighed.of(row.serial);
    const record = recordOf(store.records.of(row.serial));
    const recorded = bundlesIn(record);
    const standing = standingOf(job, plan, recorded, weighed);
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
          in: isIn.length,
          lies: isIn.flatMap(({ bundle }) => {
            const { lies } = recordIn(record, bundle);
            return lies === '' ? [] : [{ bundle, lies }];
          }),
          runs: isIn.length === own.length ? [] : showRuns(here),
          isTaken: here?.isWhole ?? false,
        },
      ];
    });
    return {
      words: wordsIn(unitsOf(store.settings, jobRow.id)),
      row,
      job: jobRow,
      voids,
      refused: typed !== null,
      allCut: isAllCut(typed),
    };
  }

  return router;
}

function isAllCut(form: Posted | null): boolean {
  return form?.get('cut') !== 'stowed';
}

/** The runs that stand in a void stowed in part: their mass, and what lacks of them. */
function showRuns(standing: Standing | undefined): { run: number; bundles: number; mass: number; lacking: string }[] {
  return (standing?.runs ?? []).map(({ run, bundles, lacking }) => ({
    run,
    bundles: bundles.length,
    mass: bundles.reduce((sum, bundle) => sum + (standing?.massOf(bundle) ?? 0), 0),
    lacking: markRanges(lacking.map(({ bundle }) => bundle)).join(', '),
  }));
}
