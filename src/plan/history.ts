/** The record of many bundles told shortly: what was done on one day with the same words is one line. */
import { type BundleRecord, isPlace, type Move } from './record.ts';
import { markRanges } from './stops.ts';

export interface Act {
  /** The day where it was written. */
  day: string;
  did: Move['did'];
  note: string;
  /** By ranges: `V1-01 to V1-09`; `all 14 bundles` where nothing else is among the records. */
  bundles: string;
}

/**
 * Day by day, oldest first, and of one day in the order in which it was written. What was done alike on one day is one act
 * unless one of its bundles was moved in between: told in this order, each bundle has its own acts in the order in which
 * they happened. What is seen of a bundle, and how it lies, does not part those that went in before it from those after.
 */
export function historyOf(records: readonly BundleRecord[]): Act[] {
  const moves = records.flatMap(dated).sort((p, q) => compare(p.day, q.day) || p.move.nth - q.move.nth);
  const acts: Doing[] = [];
  for (const { day, move } of moves) {
    const alike = lastAlike(acts, day, move);
    if (alike) alike.marks.add(move.bundle);
    else acts.push({ day, first: move, marks: new Set([move.bundle]) });
  }
  return acts.map(({ first, marks }) => ({
    day: dayOf(first.at),
    did: first.did,
    note: first.note,
    bundles:
      marks.size === records.length && marks.size > 2 ? `all ${marks.size} bundles` : markRanges([...marks]).join(', '),
  }));
}

interface Doing {
  /** Where it stands in the order. */
  day: string;
  first: Move;
  marks: Set<string>;
}

/** Where a clock was put back between them, a bundle that came out still came out after it went in. */
function dated({ moves }: BundleRecord): { day: string; move: Move }[] {
  let latest = '';
  return moves.map((move) => {
    const day = dayOf(move.at);
    if (!isPlace(move)) return { day, move };
    if (day > latest) latest = day;
    return { day: latest, move };
  });
}

/** The latest act that `move` belongs to; none where anything was done with it since, or a bundle of that act was moved. */
function lastAlike(acts: readonly Doing[], day: string, move: Move): Doing | null {
  const moved = new Set<string>();
  for (let n = acts.length - 1; acts[n]?.day === day; n--) {
    const act = acts[n]!;
    const { first, marks } = act;
    const isAlike = first.did === move.did && first.note === move.note && dayOf(first.at) === dayOf(move.at);
    // Done twice running it is told once.
    if (isAlike && (marks.has(move.bundle) || [...marks].every((mark) => !moved.has(mark)))) return act;
    if (marks.has(move.bundle)) return null;
    if (isPlace(first)) for (const mark of marks) moved.add(mark);
  }
  return null;
}

/** The day of an entry. */
export function dayOf(at: string): string {
  return at.slice(0, 10);
}

function compare(p: string, q: string): number {
  return p < q ? -1 : p > q ? 1 : 0;
}
