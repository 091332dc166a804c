/** The record of many bundles told shortly: what was done on one day with the same words is one line. */
import type { BundleRecord, Move } from './record.ts';
import { markRanges } from './stops.ts';

export interface Act {
  /** The day where it was written. */
  day: string;
  did: Move['did'];
  note: string;
  /** By ranges: `V1-01 to V1-09`; `all 14 bundles` where nothing else is among the records. */
  bundles: string;
}

/** Day by day, oldest first; of one day in the order in which it was written for each bundle. */
export function historyOf(records: readonly BundleRecord[]): Act[] {
  const moves = records.flatMap((record) => record.moves).sort((p, q) => compare(dayOf(p.at), dayOf(q.at)));
  const acts = new Map<string, { first: Move; marks: Set<string> }>();
  for (const move of moves) {
    const key = JSON.stringify([dayOf(move.at), move.did, move.note]);
    const act = acts.get(key) ?? { first: move, marks: new Set() };
    acts.set(key, act);
    act.marks.add(move.bundle);
  }
  return [...acts.values()].map(({ first, marks }) => ({
    day: dayOf(first.at),
    did: first.did,
    note: first.note,
    bundles:
      marks.size === records.length && marks.size > 2 ? `all ${marks.size} bundles` : markRanges([...marks]).join(', '),
  }));
}

/** The day of an entry. */
export function dayOf(at: string): string {
  return at.slice(0, 10);
}

function compare(p: string, q: string): number {
  return p < q ? -1 : p > q ? 1 : 0;
}
