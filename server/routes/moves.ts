/** Trim her by moving: what to move is proposed by what was read; what is done is written down, and all else goes by it. */
import { type Request, Router } from 'express';
import { floatsBefore } from '../../src/balance/againstRecord.ts';
import { inOrderTaken } from '../../src/balance/taken.ts';
import { unplacedLines } from '../../src/balance/unplaced.ts';
import { judgeOf, placeOf, type Shift } from '../../src/plan/moved.ts';
import { type Entry, recordOf } from '../../src/plan/record.ts';
import type { Context } from '../app.ts';
import { localTime } from '../localTime.ts';
import { earlierTaken } from '../show/earlierTaken.ts';
import { entriesOf, MOVES_FIELDS, movedWords, shiftsOf, showMovesPage } from '../show/movesPage.ts';
import { standsBy, validityOf } from '../show/validity.ts';
import { wordsIn } from '../words.ts';
import { type PlanInHand, planBefore, planIn } from './plan.ts';
import { figuresIn, readBody, unitsOf } from './request.ts';
import { typedForm } from './typedVoid.ts';

export function movesRoutes(context: Context): Router {
  const { store, clock } = context;
  const router = Router();

  router.get('/plans/:serial/moves', (request, response) => {
    const hand = planIn(context, request);
    response.render('moves', {
      words: wordsIn(unitsOf(store.settings, hand.jobRow.id)),
      row: hand.row,
      job: hand.jobRow,
      validity: validityOf(store, hand.row),
      recordedBy: store.records.ofJob(hand.jobRow.id, hand.row.serial),
      unplaced: unplacedLines(hand.job, hand.plan),
      moves: hand.moves,
      fields: MOVES_FIELDS,
      page: pageOf(hand, figuresIn(request)),
      done: request.query.done === '1',
      stale: request.query.stale === '1',
      back: request.query.back === '1',
    });
  });

  router.post('/plans/:serial/moves', readBody, (request: Request, response) => {
    const form = typedForm(context, request);
    const hand = planIn(context, request);
    const { serial } = hand.row;
    // What is wanted stays as it was typed; how she floats is to be read anew.
    const wanted = new URLSearchParams([...form].filter(([name]) => name.startsWith('want'))).toString();
    const backTo = (told: string) => `/plans/${serial}/moves?${told}${wanted === '' ? '' : `&${wanted}`}`;
    if (form.get('do') === 'back') {
      const isNow = form.get('moves') === String(hand.moves);
      if (isNow) takeBack(hand);
      response.redirect(303, backTo(isNow ? 'back=1' : 'stale=1'));
      return;
    }
    // What is written is what this server proposes now: a page that was overtaken proposes something else.
    const now = pageOf(hand, (name) => form.get(name));
    const all = [...(now?.proposals ?? []), ...(now?.on ? [now.on] : [])];
    const chosen = all.find(({ key }) => key === form.get('key'));
    if (!chosen) {
      response.redirect(303, backTo('stale=1'));
      return;
    }
    const at = localTime(clock());
    const record = recordOf(store.records.of(serial));
    store.moved.add(serial, shiftsOf(chosen.acts), entriesOf(chosen.acts, record, at), at);
    response.redirect(303, backTo('done=1'));
  });

  /** The bundles of the last batch lie again where they lay before it. */
  function takeBack({ row: { serial }, job, plan }: PlanInHand): void {
    const batches = store.moved.of(serial);
    const last = batches.at(-1) ?? [];
    const before = planBefore(context, serial, batches.length - 1);
    const shifts = last.flatMap(({ bundle }): Shift[] => {
      const own = before.bundles.find((one) => one.bundle === bundle);
      return own ? [{ bundle, to: placeOf(own) }] : [];
    });
    const at = localTime(clock());
    const note = (shift: Shift): string =>
      movedWords(plan.bundles.find((one) => one.bundle === shift.bundle)!, shift.to);
    const entries = shifts.map(
      (shift): Entry => ({ bundle: shift.bundle, what: 'moved', note: `back ${note(shift)}`, at }),
    );
    if (shifts.length > 0 && judgeOf(job, plan)(shifts).faults.length === 0)
      store.moved.add(serial, shifts, entries, at);
  }

  function pageOf({ row, plan, job, jobRow }: PlanInHand, typed: (name: string) => string | undefined) {
    const counted = earlierTaken(store, jobRow.id).filter((one) => one.earlier?.counts);
    const taken = [...counted, ...inOrderTaken(store.taken.of(jobRow.id))];
    const at = taken.findLastIndex(
      ({ reading: { struck, aboard, forward, list } }) =>
        !struck && aboard.plan === row.serial && aboard.bundles.length > 0 && (forward !== null || list !== null),
    );
    const record = recordOf(store.records.of(row.serial));
    return showMovesPage(job, plan, typed, {
      record,
      weighed: store.weighed.of(row.serial),
      holds: standsBy({ rest: store.rests.ofPlan(row.serial) }),
      read: taken[at] ?? null,
      earlier: counted.findLast(({ reading }) => !reading.struck) ?? null,
      before: floatsBefore(job.vessel, at < 0 ? taken : taken.slice(0, at)),
    });
  }

  return router;
}
