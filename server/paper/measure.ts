/** How high something will be on a page, found out by writing it to nowhere. */
import type { Doc } from './letters.ts';
import type { Paper } from './page.ts';

/** Takes every call of a document and writes nothing. */
const NOWHERE: Doc = new Proxy(() => {}, { get: () => NOWHERE, apply: () => NOWHERE }) as unknown as Doc;

/** The points that `write` moves `paper.y` down where no page ends; nothing is written to the paper. */
export async function heightOf(paper: Paper, write: (paper: Paper) => Promise<void>): Promise<number> {
  const trial = {
    ...paper,
    doc: NOWHERE,
    letters: paper.letters.onto(NOWHERE),
    y: 0,
    bottom: Number.POSITIVE_INFINITY,
  };
  await write(trial);
  return trial.y;
}

/** True of a paper that is written to nowhere: it has one page without an end. */
export function isTrial({ doc }: Paper): boolean {
  return doc === NOWHERE;
}
