/** Surveys: what was lifted out to look at the hull, what was seen, and what was put back, written to the record. */
import { type Request, Router } from 'express';
import { lastAgainst } from '../../src/balance/againstWords.ts';
import { allThatCounts } from '../../src/balance/taken.ts';
import { dayOf } from '../../src/plan/history.ts';
import { recordOf } from '../../src/plan/record.ts';
import { baseName } from '../../src/plan/standing.ts';
import type { Context } from '../app.ts';
import type { Posted } from '../form/apply.ts';
import { readSurvey, type SurveyFault } from '../form/recordFields.ts';
import { localTime } from '../localTime.ts';
import { beforeOut } from '../show/beforeOut.ts';
import { earlierTaken } from '../show/earlierTaken.ts';
import { outAndBack } from '../show/outAndBack.ts';
import { type PlanInHand, planIn } from './plan.ts';
import { formOf, numbersOf, readBody } from './request.ts';
import { recordPage } from './stowed.ts';

/** What was done by each of the page's buttons, as it is told afterwards. */
const DONE = new Map([
  ['out', 'lifted out'],
  ['in', 'put back'],
  ['seen', 'only seen'],
  ['undone', 'taken back as a mistake'],
]);

export function surveyRoutes(context: Context): Router {
  const { store, clock } = context;
  const router = Router();

  router.get('/plans/:serial/survey', (request, response) => {
    response.render('survey', viewOf(request, planIn(context, request), new Map(), []));
  });

  router.post('/plans/:serial/survey', readBody, (request, response) => {
    const form = formOf(context, request);
    const hand = planIn(context, request);
    const { serial } = hand.row;
    const { entries, faults } = readSurvey(form, hand.plan, store.records.of(serial), clock());
    if (faults.length > 0) {
      response.status(422).render('survey', viewOf(request, hand, form, faults));
      return;
    }
    store.records.add(serial, entries);
    const back = hand.plan.bundles.find((bundle) => bundle.bundle === form.get('back'));
    if (back) {
      response.redirect(303, `/b/${serial}/${encodeURIComponent(back.bundle)}`);
      return;
    }
    const page = new URLSearchParams({
      void: String(request.query.void ?? '1'),
      saved: String(entries.length),
      did: form.get('do') ?? '',
    });
    for (const one of numbersOf(request.query.only)) page.append('only', String(one));
    // From the order over all voids it is gone on there.
    response.redirect(303, `/plans/${serial}/survey?${page}${form.get('place') === 'over' ? '&place=over#over' : ''}`);
  });

  function viewOf(request: Request, hand: PlanInHand, typed: Posted, faults: readonly SurveyFault[]) {
    const { saved, did } = request.query;
    const page = recordPage(context, request, hand);
    const { serial } = hand.row;
    const record = recordOf(store.records.of(serial));
    const masses = store.weighed.of(serial);
    const all = allThatCounts(earlierTaken(store, hand.jobRow.id), store.taken.of(hand.jobRow.id));
    return {
      ...page,
      before: new Map(
        page.voids.map(({ void: own }) => [
          own,
          beforeOut(hand.job, hand.plan, record, masses, own, page.others.weights),
        ]),
      ),
      against: lastAgainst({ job: hand.job, plan: hand.plan, serial, all }),
      order: outAndBack(hand.job, hand.plan, record, masses, numbersOf(request.query.only)),
      baseName,
      typed,
      faults,
      today: dayOf(localTime(clock())),
      did: DONE.get(String(did)) ?? '',
      fromOver: request.query.place === 'over',
      saved: faults.length === 0 && typeof saved === 'string' && /^\d{1,6}$/.test(saved) ? Number(saved) : 0,
    };
  }

  return router;
}
