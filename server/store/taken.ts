/** What was read afloat, beside its job: every text that was ever written of a reading stays. */
import type { Reading, Written } from '../../src/balance/taken.ts';
import type { Connection } from './database.ts';

/** A reading that is written for the first time, or put in the place of what its number said when the page was shown. */
export interface NewText {
  /** Null for one that has no number yet. */
  number: number | null;
  /** The text of that number that the page showed, by its id; of no account for a new one. */
  seen: number;
  /** The page that it comes from: the same text from the same page is written once. */
  form: string;
  reading: Reading;
}

/** `late`: another text of that number was written since the page was shown; nothing was kept. */
export type TakenSaved = { kind: 'kept'; number: number } | { kind: 'late' };

export interface TakenReadings {
  /** Every text of a job in the order in which it was written. */
  of(job: number): Written[];
  /** Adds a text, unless it comes too late. `at` is the moment of writing. */
  add(job: number, text: NewText, at: string): TakenSaved;
}

interface Raw {
  id: number;
  number: number;
  form: string;
  body: string;
  writtenAt: string;
}

export function openTaken(connection: Connection): TakenReadings {
  const ofJob = connection.prepare<[number], Raw>('SELECT * FROM taken WHERE job = ? ORDER BY id');
  const add = connection.prepare('INSERT INTO taken (job, number, form, body, writtenAt) VALUES (?, ?, ?, ?, ?)');
  return {
    of: (job) =>
      ofJob.all(job).map(({ id, number, body, writtenAt }) => ({
        id,
        number,
        writtenAt,
        reading: JSON.parse(body) as Reading,
      })),
    add: connection.transaction((job: number, { number, seen, form, reading }: NewText, at: string): TakenSaved => {
      const all = ofJob.all(job);
      const body = JSON.stringify(reading);
      const sent =
        form === '' ? undefined : all.findLast((text) => text.form === form && text.number === (number ?? text.number));
      const stands = sent && all.findLast((text) => text.number === sent.number);
      if (stands && stands === sent && sent.body === body) return { kind: 'kept', number: sent.number };
      // Sent once more from a page that was left: its new reading has a number by now, or what it corrects says something else.
      if (sent) return { kind: 'late' };
      const last = number === null ? undefined : all.findLast((text) => text.number === number);
      if (last?.body === body) return { kind: 'kept', number: last.number };
      if (number !== null && last?.id !== seen) return { kind: 'late' };
      const own = number ?? all.reduce((most, text) => Math.max(most, text.number), 0) + 1;
      add.run(job, own, form, body, at);
      return { kind: 'kept', number: own };
    }),
  };
}
