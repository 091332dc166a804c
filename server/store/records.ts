/** The record of what is stowed: entries beside the plan that they belong to, added and never changed. */
import type { Entry } from '../../src/plan/record.ts';
import type { Connection } from './database.ts';

export interface Records {
  /** The entries of a plan in the order in which they were written; empty where nothing is recorded. */
  of(plan: number): Entry[];
  /** Adds all of them or, where one fails, none. */
  add(plan: number, entries: readonly Entry[]): void;
  /** Serials of the plans of a job that have a record, without that of `but`. */
  ofJob(job: number, but?: number): number[];
}

export function openRecords(connection: Connection): Records {
  const ofPlan = connection.prepare<[number], Entry>(
    'SELECT bundle, what, note, at FROM entry WHERE plan = ? ORDER BY id',
  );
  const add = connection.prepare('INSERT INTO entry (plan, bundle, what, note, at) VALUES (?, ?, ?, ?, ?)');
  const ofJob = connection.prepare<[number], { serial: number }>(
    'SELECT serial FROM plan WHERE job = ? AND EXISTS (SELECT 1 FROM entry WHERE entry.plan = plan.serial) ORDER BY serial',
  );
  return {
    of: (plan) => ofPlan.all(plan),
    add: connection.transaction((plan: number, entries: readonly Entry[]) => {
      for (const { bundle, what, note, at } of entries) add.run(plan, bundle, what, note, at);
    }),
    ofJob: (job, but) =>
      ofJob
        .all(job)
        .map(({ serial }) => serial)
        .filter((serial) => serial !== but),
  };
}
