/** What was changed in a job since it was planned, told in the words of its page: lots by their marks, voids by their names. */
import type { Draft } from './apply.ts';
import { differences } from './differences.ts';
import { labelAt } from './labels.ts';
import { isRecord, listAt } from './path.ts';

export interface Change {
  where: string;
  /** As planned, and now; '' where there is nothing. */
  before: string;
  now: string;
}

const LISTS = [
  { list: 'pile', mark: 'lot', word: 'Lot' },
  { list: 'voids', mark: 'void', word: 'Void' },
] as const;

/** Every change, the job's own first; a lot or a void that is new, or was taken out, is one. */
export function changesSince(planned: Draft, now: Draft): Change[] {
  const own = differences({ ...planned, pile: [], voids: [] }, { ...now, pile: [], voids: [] }).map(
    ({ path, one, other }) => ({ where: labelAt(path), before: one, now: other }),
  );
  return [
    ...own,
    ...LISTS.flatMap(({ list, mark, word }) =>
      changesIn(byMark(planned, list, mark), byMark(now, list, mark), list, word),
    ),
  ];
}

function changesIn(
  before: ReadonlyMap<string, unknown>,
  now: ReadonlyMap<string, unknown>,
  list: string,
  word: string,
) {
  return [...new Set([...before.keys(), ...now.keys()])].flatMap((mark): Change[] => {
    const where = `${word} ${mark}`;
    if (!before.has(mark)) return [{ where, before: '', now: 'new' }];
    if (!now.has(mark)) return [{ where, before: 'in the job', now: 'taken out' }];
    return differences(before.get(mark), now.get(mark)).map(({ path, one, other }) => ({
      where: `${where}, ${labelAt(`${list}[].${path}`)}`,
      before: one,
      now: other,
    }));
  });
}

/** The rows of a list by their marks. */
function byMark(draft: Draft, list: string, mark: string): Map<string, unknown> {
  return new Map(listAt(draft, [list]).flatMap((row) => (isRecord(row) ? [[String(row[mark] ?? ''), row]] : [])));
}
