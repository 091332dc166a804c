/** What the page “Read afloat” of a plan shows: what was read so far, in the order taken, and the form for the next. */
import { type AgainstWords, foretoldWords, takenAgainst } from '../../src/balance/againstWords.ts';
import { allThatCounts, inOrderTaken, type Reading, type Taken, type Written } from '../../src/balance/taken.ts';
import { lowWords, readWords, sinceWords } from '../../src/balance/takenWords.ts';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { byMark, markRanges } from '../../src/plan/stops.ts';

export interface TakenLine {
  number: number;
  /** Of the text that stands. */
  id: number;
  on: string;
  at: string;
  who: string;
  note: string;
  struck: boolean;
  /** What was read, in short sentences. */
  read: string[];
  aboard: string;
  /** What it changed since the one before it that had marks, in a sentence; '' where nothing can be said. */
  since: string;
  /** What was reckoned of list and roll, where they were read; '' where nothing can be said. */
  foretold: string;
  /** Where a freeboard is under the least allowed; '' where none is. */
  low: string;
  /** Where it is otherwise than reckoned from the record; null where it is not. */
  against: AgainstWords | null;
  /** What it said before, oldest first. */
  before: { writtenAt: string; told: string }[];
  /** Serial of the plan on whose page it is written, where that is one of a job before; null where it is of this job. */
  plan: number | null;
  /** Nothing of this plan can have been in her: what is reckoned here may start from it. */
  counts: boolean;
}

/** On the page of the plan of this serial, what was read with the jobs before first. `kilograms` prints a mass as the page does. */
export function takenLines(
  of: { job: Job; plan: Plan; serial: number },
  texts: readonly Written[],
  kilograms: (mass: number) => string,
  earlier: readonly Taken[] = [],
): TakenLine[] {
  const { job } = of;
  let last: Taken | null = null;
  const own = inOrderTaken(texts);
  const all = allThatCounts(earlier, texts);
  return [...earlier, ...own].map((taken) => {
    const { reading, number, id } = taken;
    const isOurs = taken.earlier === undefined;
    const against = isOurs ? takenAgainst({ ...of, all }, taken) : null;
    // Of a mark that slipped no change is told, neither to it nor from it.
    const isSound = !reading.struck && !against?.slipped;
    const since: string = last && isOurs && isSound ? sinceWords(job, last, taken) : '';
    if (taken.earlier?.counts !== false && isSound && reading.forward !== null && reading.aft !== null) last = taken;
    return {
      number,
      id,
      on: reading.on,
      at: reading.at,
      who: reading.who,
      note: reading.note,
      struck: reading.struck,
      read: readWords(reading),
      aboard: aboardWords(reading, kilograms),
      since,
      // What is stated now may not be what it was then: that is told on its own page.
      foretold: isOurs ? foretoldWords({ ...of, all }, taken) : '',
      against,
      plan: taken.earlier?.plan ?? null,
      counts: taken.earlier?.counts ?? true,
      low: reading.struck ? '' : lowWords(job, reading),
      before: taken.before.map((text) => ({ writtenAt: text.writtenAt, told: wholeWords(text.reading) })),
    };
  });
}

/** What of the plan was in her then. */
export function aboardWords({ aboard }: Reading, kilograms: (mass: number) => string): string {
  const { bundles, plan, moments } = aboard;
  if (bundles.length === 0) return `Nothing of plan ${plan} was in her by the record.`;
  const marks = markRanges([...bundles].sort(byMark)).join(', ');
  return `In her by the record of plan ${plan}: ${kilograms(moments.mass)} in ${bundles.length === 1 ? '1 bundle' : `${bundles.length} bundles`}, ${marks}.`;
}

function wholeWords(reading: Reading): string {
  return [
    `${reading.on}${reading.at === '' ? '' : ` ${reading.at}`}${reading.who === '' ? '' : `, ${reading.who}`}:`,
    ...readWords(reading),
    ...(reading.note === '' ? [] : [`“${reading.note}”`]),
    ...(reading.struck ? ['Taken back.'] : []),
  ].join(' ');
}
