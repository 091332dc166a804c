/** Marks typed as the papers print them, `A-01 to A-06, B-02`, and what is told of single bars, `A-05: 3530`. */
import { SHORTEST_BAR } from '../../src/job/lotFaults.ts';
import { byMark, markRanges } from '../../src/plan/stops.ts';
import { type Asked, readFigure } from '../show/askedFigures.ts';
import { splitList } from './splitList.ts';

/** A field of marks: what was typed, how it was read, what is wrong. `marks` are those that are known. */
export interface AskedMarks extends Asked {
  marks: Set<string>;
}

/** A field of lengths by mark, mm. */
export interface AskedLengths extends Asked {
  lengths: Map<string, number>;
}

/** No bar is longer, mm. */
const LONGEST_BAR = 100_000;
/** Two marks and what is between them are never longer. */
const LONGEST_ITEM = 500;
/** So many marks are shown as an example. */
const SHOWN = 3;
const HOW_TO_TELL = 'Write it as A-05: 3530.';

/** Marks of `known`, singly or from one to another of the same beginning, whatever the case of their letters. */
export function readMarks(text: string, known: readonly string[]): AskedMarks {
  const marks = new Set<string>();
  const unknown = splitList(text).filter((item) => {
    const own = marksOf(item, known);
    for (const mark of own) marks.add(mark);
    return own.length === 0;
  });
  const field = { ...asTyped(text), marks };
  if (unknown.length > 0) return { ...field, ...refused(unknown, known) };
  const told = markRanges([...marks]).join(', ');
  return { ...field, echo: marks.size > 1 && told !== text.trim() ? `= ${told}` : '' };
}

/** What single bars measure: `A-05: 3530; A-07 to A-09: 3.4 m`. */
export function readLengths(text: string, known: readonly string[]): AskedLengths {
  const lengths = new Map<string, number>();
  const field = { ...asTyped(text), lengths };
  for (const item of splitList(text)) {
    const [of, figure] = partsOf(item, known);
    const marks = marksOf(of, known);
    if (marks.length === 0) return { ...field, ...refused([of], known), remedy: HOW_TO_TELL };
    const length = readFigure(figure, 'mm', { least: SHORTEST_BAR, most: LONGEST_BAR });
    if (length.value === null) {
      const fault = `${markRanges(marks).join(', ')}: ${length.fault || 'its length is missing.'}`;
      return { ...field, faulty: true, fault, remedy: length.remedy || HOW_TO_TELL };
    }
    for (const mark of marks) lengths.set(mark, length.value);
  }
  return field;
}

/** The marks and the figure of an item: apart by `:` or `=`, or where a mark of the plan ends. */
function partsOf(item: string, known: readonly string[]): [string, string] {
  const at = Math.max(item.lastIndexOf(':'), item.lastIndexOf('='));
  if (at >= 0) return [item.slice(0, at).trim(), item.slice(at + 1)];
  const lower = item.toLowerCase();
  const [mark] = known.filter((own) => lower.startsWith(`${own.toLowerCase()} `)).sort((p, q) => q.length - p.length);
  return mark === undefined ? [item, ''] : [mark, item.slice(mark.length)];
}

function asTyped(text: string): Asked {
  return { text, value: null, faulty: false, fault: '', remedy: '', echo: '', figures: false };
}

/** The remedy has marks that there are. */
function refused(unknown: string[], known: readonly string[]): Pick<Asked, 'faulty' | 'fault' | 'remedy'> {
  const fault = `The plan has no ${unknown.map((item) => `“${item}”`).join(', ')}.`;
  return {
    faulty: true,
    fault,
    remedy: `Write marks as the papers have them, such as ${markRanges(known.slice(0, SHOWN)).join(', ')}.`,
  };
}

/** The marks of an item: itself, or all from one to another. */
function marksOf(item: string, known: readonly string[]): string[] {
  const find = (typed: string) => known.find((mark) => mark.toLowerCase() === typed.trim().toLowerCase());
  const single = find(item);
  if (single !== undefined) return [single];
  if (item.length > LONGEST_ITEM) return [];
  for (const { index, 0: word } of item.matchAll(/\s+to\s+|\s*[–—-]\s*/g)) {
    const [first, last] = [find(item.slice(0, index)), find(item.slice(index + word.length))];
    if (first === undefined || last === undefined || leadOf(first) !== leadOf(last)) continue;
    const own = known.filter((mark) => leadOf(mark) === leadOf(first));
    return own.filter((mark) => byMark(first, mark) <= 0 && byMark(mark, last) <= 0);
  }
  return [];
}

/** What stands before the number of a mark. */
function leadOf(mark: string): string {
  return mark.replace(/[0-9]+$/, '');
}
