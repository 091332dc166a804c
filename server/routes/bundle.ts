/** Where a bundle's code leads: its picture, pieces, place and mass. */
import { type Request, Router } from 'express';
import { laidVoid } from '../../src/drawing/laid.ts';
import { liesOver } from '../../src/plan/access.ts';
import { wayIn } from '../../src/plan/hardest.ts';
import { historyOf } from '../../src/plan/history.ts';
import { massNow } from '../../src/plan/massNow.ts';
import { bundlesIn, recordIn, recordOf, restsOn } from '../../src/plan/record.ts';
import type { Context } from '../app.ts';
import { taggedBundle } from '../paper/qr.ts';
import { weighedOverloads, weighingsOf } from '../paper/weighing.ts';
import { Problem } from '../problem.ts';
import { LYING_FROM, lyingOf } from '../show/lying.ts';
import { nextIn } from '../show/nextIn.ts';
import { outAndBack } from '../show/outAndBack.ts';
import { showBundle } from '../show/planPage.ts';
import { standsBy, validityOf } from '../show/validity.ts';
import { wordsIn } from '../words.ts';
import { type PlanInHand, planIn, planOf } from './plan.ts';
import { unitsOf } from './request.ts';
import { placeInRecord } from './stowed.ts';
import { revisionOf } from './weighed.ts';

export function bundleRoutes(context: Context): Router {
  const router = Router();
  router.get('/b/:serial/:bundle', (request, response) => {
    const { row, plan, job, jobRow } = planOnTag(context, request);
    const bundle = taggedBundle(plan, String(request.params.bundle));
    if (!bundle) throw new Problem('no-such-bundle', [`This is plan ${row.serial} of ${jobRow.name}.`]);
    const words = wordsIn(unitsOf(context.store.settings, jobRow.id));
    const masses = context.store.weighed.of(row.serial);
    const weighing = weighingsOf(job, plan, masses).find((each) => each.bundle === bundle);
    const scale = { ...weighing, index: plan.bundles.indexOf(bundle) };
    const recorded = recordOf(context.store.records.of(row.serial));
    const record = recordIn(recorded, bundle.bundle);
    const present = bundlesIn(recorded);
    const under = plan.bundles.filter((low) => restsOn(bundle, low) && !present.has(low.bundle));
    const over = plan.bundles.filter(
      (high) => high.void === bundle.void && present.has(high.bundle) && liesOver(high, bundle),
    );
    const isSurveyed = plan.bundles.some((one) => recordIn(recorded, one.bundle).state === 'out');
    const space = job.voids.find((own) => own.void === bundle.void);
    const validity = validityOf(context.store, row);
    const view = showBundle(job, plan, bundle, massNow(bundle, masses), words.units);
    response.render('bundle', {
      words,
      lying: lyingOf(bundle, view.lies, words),
      lyingFrom: LYING_FROM[view.lies],
      row,
      job: jobRow,
      view,
      validity,
      scale,
      revision: revisionOf(masses),
      record,
      endFirst: space !== undefined && wayIn(bundle, laidVoid(space, plan)) === 'endFirst',
      history: historyOf([record]),
      // Who scans a tag before anything is stowed asks what it is, not what goes in.
      next: recorded.size === 0 ? null : nextIn(job, plan, recorded, masses, standsBy(validity)),
      order: isSurveyed ? outAndBack(job, plan, recorded, masses, []) : null,
      entries: context.store.records.of(row.serial).length,
      over: over.sort((p, q) => q.order - p.order).map((high) => high.bundle),
      // Before anything is recorded nothing is known of what lies under it.
      under: recorded.size === 0 ? [] : under.map((low) => low.bundle),
      recordedBy: context.store.records.ofJob(jobRow.id, row.serial),
      ...placeInRecord(plan, bundle.void),
      overloads: weighedOverloads(job, plan, masses).filter((each) => each.void === bundle.void),
      overLimit: [],
    });
  });
  return router;
}

/**
 * The plan that a tag names: by serial, or, on tags made by the command, by the first eight digits of its digest. The
 * same job, effort and seed give the same plan and so the same digest here. Eight digits are never a serial: there are
 * no ten million plans.
 */
function planOnTag(context: Context, request: Request): PlanInHand {
  const name = String(request.params.serial);
  if (!/^[0-9a-f]{8}$/.test(name)) return planIn(context, request);
  const serial = context.store.plans.ofDigest(name);
  if (serial === null) {
    throw new Problem('no-such-plan', [
      `No plan of digest ${name} is kept here. Bring in the job file that the tags were made from and plan it with the same effort and seed: then their codes lead here.`,
    ]);
  }
  return planOf(context, serial);
}
