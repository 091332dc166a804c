/** What was read afloat: written down, corrected, taken back, and never lost. */
import { randomUUID } from 'node:crypto';
import { type Request, Router } from 'express';
import { aboardThen, inOrderTaken, type Reading, type Taken, timeOf } from '../../src/balance/taken.ts';
import type { Context } from '../app.ts';
import type { Posted } from '../form/apply.ts';
import { type ReadTaken, readTaken, TAKEN_FIELDS, typedOf } from '../form/takenFields.ts';
import { mendOne } from '../form/wanted.ts';
import { localTime } from '../localTime.ts';
import { Problem } from '../problem.ts';
import { earlierTaken } from '../show/earlierTaken.ts';
import { takenLines } from '../show/takenPage.ts';
import { validityOf } from '../show/validity.ts';
import { wordsIn } from '../words.ts';
import { type PlanInHand, planIn } from './plan.ts';
import { formOf, queryOf, readBody, unitsOf } from './request.ts';

/** What a form said that was not taken. */
interface NotTaken {
  typed: Posted;
  read: ReadTaken;
  /** Another text of the same reading was written since the page was shown. */
  isLate: boolean;
}

const LABELS = { on: 'On the day', at: 'At', who: 'Read by', note: 'What else was aboard', forward: 'What was read' };

export function takenRoutes(context: Context): Router {
  const { store, clock } = context;
  const router = Router();

  router.get('/plans/:serial/read', (request, response) => {
    response.render('taken', viewOf(request, planIn(context, request), null));
  });

  router.post('/plans/:serial/read', readBody, (request, response) => {
    const form = formOf(context, request);
    const hand = planIn(context, request);
    const number = numberOf(form.get('number'));
    const standing = standingOf(hand, number);
    const read = readTaken((name) => form.get(name), placeNow());
    const act = form.get('do');
    const isMoved = standing !== undefined && (act === 'strike' || act === 'count');
    if (number !== null && !standing) throw new Problem('no-such-page');
    if (!isMoved && !read.reading) {
      response.status(422).render('taken', viewOf(request, hand, { typed: form, read, isLate: false }));
      return;
    }
    const reading: Reading = isMoved
      ? { ...standing.reading, struck: act === 'strike' }
      : { ...read.reading!, aboard: aboardOf(hand, read.reading!, standing, form.has('anew')) };
    const text = { number, seen: Number(form.get('seen') ?? 0), form: (form.get('form') ?? '').slice(0, 40), reading };
    const saved = store.taken.add(hand.jobRow.id, text, localTime(clock()));
    if (saved.kind === 'late') {
      response.status(422).render('taken', viewOf(request, hand, { typed: form, read, isLate: true }));
      return;
    }
    response.redirect(303, `/plans/${hand.row.serial}/read?saved=${saved.number}#reading-${saved.number}`);
  });

  /** What was aboard stands as it was written, unless the moment is another now, or it is asked for anew. */
  function aboardOf(hand: PlanInHand, now: Omit<Reading, 'aboard'>, standing: Taken | undefined, isAnew: boolean) {
    const was = standing?.reading;
    if (was && !isAnew && was.on === now.on && was.at === now.at) return was.aboard;
    const { serial } = hand.row;
    const at = timeOf(now, (standing?.before[0] ?? standing)?.writtenAt ?? localTime(clock()));
    const moment = { on: now.on, at };
    return aboardThen(hand.job, hand.plan, serial, store.records.of(serial), store.weighed.of(serial), moment);
  }

  function standingOf({ jobRow }: PlanInHand, number: number | null): Taken | undefined {
    return inOrderTaken(store.taken.of(jobRow.id)).find((taken) => taken.number === number);
  }

  function placeNow(): { today: string; now: string } {
    const now = localTime(clock());
    return { today: now.slice(0, 10), now: now.slice(11, 16) };
  }

  function viewOf(request: Request, hand: PlanInHand, notTaken: NotTaken | null) {
    const { row, jobRow, job, plan } = hand;
    const words = wordsIn(unitsOf(store.settings, jobRow.id));
    const texts = store.taken.of(jobRow.id);
    const query = queryOf(request);
    const number = numberOf(notTaken ? notTaken.typed.get('number') : query.get('correct'));
    const standing = standingOf(hand, number);
    const { today, now } = placeNow();
    const usual: Record<string, string> = { on: today, at: now, who: inOrderTaken(texts).at(-1)?.reading.who ?? '' };
    const typedIn = notTaken
      ? (name: string) => notTaken.typed.get(name)
      : standing
        ? typedOf(standing.reading)
        : (name: string) => query.get(name)?.slice(0, 40) ?? usual[name];
    const read = notTaken?.read ?? readTaken(typedIn, { today, now });
    const faults = notTaken?.read.faults ?? [];
    const before = earlierTaken(store, jobRow.id);
    const lines = takenLines({ job, plan, serial: row.serial }, texts, words.kilograms, before);
    const saved = notTaken ? null : numberOf(query.get('saved'));
    return {
      words,
      row,
      job: jobRow,
      validity: validityOf(store, row),
      recordedBy: store.records.ofJob(jobRow.id, row.serial),
      lines: lines.filter(({ plan: of }) => of === null),
      earlier: lines.filter(({ plan: of }) => of !== null),
      fields: TAKEN_FIELDS,
      asked: read.asked,
      typed: typedIn,
      faults,
      toMend: notTaken && !notTaken.isLate ? toMendOf(notTaken.read) : [],
      isLate: notTaken?.isLate ?? false,
      correcting: standing ?? null,
      form: (notTaken && !notTaken.isLate && notTaken.typed.get('form')) || randomUUID(),
      revision: `${texts.length}-${standing?.number ?? 'new'}`,
      today,
      saved,
    };
  }

  return router;
}

function toMendOf({ asked, faults }: ReadTaken) {
  const faulty = Object.entries(asked).filter(([, { faulty: is }]) => is);
  return [
    ...faulty.map(([name, { fault }]) =>
      mendOne(`read-${name}`, TAKEN_FIELDS[name as keyof typeof TAKEN_FIELDS].label, fault),
    ),
    ...faults.map(({ field, message }) => mendOne(`read-${field}`, LABELS[field], message)),
  ];
}

/** The number of a reading as a form or an address has it; null where it has none. */
function numberOf(text: string | undefined): number | null {
  return /^[1-9]\d{0,8}$/.test(text ?? '') ? Number(text) : null;
}
