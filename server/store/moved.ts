/** Where bundles were moved to after a trial, beside the plan that they belong to: the plan itself never changes. */
import type { Place, Shift } from '../../src/plan/moved.ts';
import type { Entry } from '../../src/plan/record.ts';
import type { Connection } from './database.ts';
import { openRecords } from './records.ts';

export interface MovedBundles {
  /** What was moved at once, batch by batch, in the order in which it was done. */
  of(plan: number): Shift[][];
  /** Adds what was moved at once and what is written of it to the record: all of it or, where something fails, nothing. */
  add(plan: number, shifts: readonly Shift[], entries: readonly Entry[], at: string): void;
}

export function openMoved(connection: Connection): MovedBundles {
  const ofPlan = connection.prepare<[number], { batch: number; bundle: string; place: string }>(
    'SELECT batch, bundle, place FROM moved WHERE plan = ? ORDER BY batch, id',
  );
  const last = connection.prepare<[number], { batch: number }>(
    'SELECT coalesce(max(batch), 0) AS batch FROM moved WHERE plan = ?',
  );
  const add = connection.prepare('INSERT INTO moved (plan, batch, bundle, place, at) VALUES (?, ?, ?, ?, ?)');
  const records = openRecords(connection);
  return {
    of: (plan) => {
      const batches = new Map<number, Shift[]>();
      for (const { batch, bundle, place } of ofPlan.all(plan)) {
        const own = batches.get(batch) ?? [];
        batches.set(batch, own);
        own.push({ bundle, to: JSON.parse(place) as Place });
      }
      return [...batches.values()];
    },
    add: connection.transaction(
      (plan: number, shifts: readonly Shift[], entries: readonly Entry[], at: string): void => {
        const batch = (last.get(plan)?.batch ?? 0) + 1;
        for (const { bundle, to } of shifts) add.run(plan, batch, bundle, JSON.stringify(to), at);
        records.add(plan, entries);
      },
    ),
  };
}
