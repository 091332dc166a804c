/** A reading that is otherwise than the record has it, in sentences: what was reckoned, what was read, and what to look at. */
import type { Job } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import { type Contradiction, compareWithRecord, type FloatsBefore, floatsBefore } from './againstRecord.ts';
import { amount } from './amount.ts';
import { sideWords } from './present.ts';
import { known, mapRange, type Range } from './range.ts';
import type { Taken } from './taken.ts';
import { listWords } from './telling.ts';
import { unplacedLines } from './unplaced.ts';

export interface AgainstWords {
  /** One for each thing that is otherwise. */
  lines: string[];
  /** What it was reckoned from. */
  from: string;
  /** What to look at first, as questions. */
  look: string;
}

/** What of a reading is otherwise, and what that was reckoned from. */
interface Found {
  contradictions: Contradiction[];
  before: FloatsBefore;
  /** Nothing of a plan was in her. */
  isEmpty: boolean;
}

/** The page or paper of the plan of this serial, and all that was read, in the order taken. */
export interface ReadingsOf {
  job: Job;
  plan: Plan;
  serial: number | undefined;
  all: readonly Taken[];
}

/**
 * Of one of the readings; null where nothing is otherwise, where it was taken back, and where another plan was in her: what
 * is stated now may not be what it was then.
 */
export function takenAgainst(of: ReadingsOf, taken: Taken): AgainstWords | null {
  return againstWords(findAgainst(of, taken));
}

/** Whether the list of one of the readings is otherwise. */
export function isListAgainst(of: ReadingsOf, taken: Taken): boolean {
  return saysList(findAgainst(of, taken).contradictions);
}

function findAgainst({ job, plan, serial, all }: ReadingsOf, { number, reading }: Taken): Found {
  const isEmpty = reading.aboard.bundles.length === 0;
  // With nothing of a plan in her it is held against what the plan was reckoned from.
  const earlier = isEmpty
    ? []
    : all.slice(
        0,
        Math.max(
          0,
          all.findIndex((one) => one.number === number),
        ),
      );
  const before = floatsBefore(job.vessel, earlier);
  const counts = !reading.struck && (isEmpty || reading.aboard.plan === serial);
  const recorded = { moments: reading.aboard.moments, placed: isEmpty || isPlaced(job, plan) };
  return { contradictions: counts ? compareWithRecord(job, recorded, reading, before) : [], before, isEmpty };
}

/** Whether it is stated where the voids lie that a plan fills. */
export function isPlaced(job: Job, plan: Plan): boolean {
  return unplacedLines(job, plan).length === 0;
}

/** Null where nothing is otherwise. */
export function againstWords({ contradictions: found, before, isEmpty }: Found): AgainstWords | null {
  if (found.length === 0) return null;
  return { lines: found.map(lineOf), from: fromWords(found, before, isEmpty), look: lookWords(found, before, isEmpty) };
}

function lineOf({ what, reckoned, read, by, weight }: Contradiction): string {
  const more = by.likely > 0;
  const size = Math.abs(by.likely);
  if (what === 'list') {
    const side = sideWords(by.likely);
    return `List: reckoned ${listTold(reckoned)}, read ${listTold(known(read))}: ${size.toFixed(1)}° farther ${side}, as about ${kgOf(weight)} moved 1 m ${side} would do.`;
  }
  if (what === 'trim')
    return `Trim: reckoned ${trimTold(reckoned)}, read ${trimTold(known(read))}: ${size.toFixed(1)} cm more by the ${more ? 'head' : 'stern'}, as about ${kgOf(weight)} moved 1 m ${more ? 'forward' : 'aft'} would do.`;
  const deep = `reckoned ${downTold(reckoned)}, read ${downTold(known(read))}: ${size.toFixed(1)} cm ${more ? 'deeper' : 'higher'}`;
  if (what === 'depth') return `Depth: ${deep}, as with about ${kgOf(weight)} ${more ? 'more' : 'less'} in her.`;
  return `${what === 'forward' ? 'Fore end' : 'After end'}: ${deep}.`;
}

/** `1.5° to port`, `none`. */
function listTold(list: Range): string {
  const told = listWords(list);
  return told === 'no list' ? 'none' : told.replace(/^lists? /, '');
}

/** By the head positive, cm. */
function trimTold(trim: Range): string {
  if (trim.low < 0 && trim.high > 0 && trim.low !== trim.high)
    return `from ${(-trim.low).toFixed(1)} cm by the stern to ${trim.high.toFixed(1)} cm by the head`;
  if (Math.abs(trim.likely) < 0.05) return 'level';
  return trim.likely > 0 ? `${amount(trim, 1, 'cm')} by the head` : `${amount(minus(trim), 1, 'cm')} by the stern`;
}

function downTold(down: Range): string {
  if (down.low < 0 && down.high > 0 && down.low !== down.high)
    return `from ${(-down.low).toFixed(1)} cm up to ${down.high.toFixed(1)} cm down`;
  if (Math.abs(down.likely) < 0.05) return 'as before';
  return down.likely > 0 ? `${amount(down, 1, 'cm')} down` : `${amount(minus(down), 1, 'cm')} up`;
}

function minus(range: Range): Range {
  return mapRange(range, (value) => -value);
}

function kgOf(weight: number | null): string {
  return `${Math.abs(weight ?? 0).toFixed(0)} kg`;
}

function fromWords(found: readonly Contradiction[], { marksOf, listOf, list }: FloatsBefore, isEmpty: boolean): string {
  const sourceOf = (number: number | null): string => (number === null ? 'as stated' : `of no. ${number}`);
  const marks = saysMarks(found) ? sourceOf(marksOf) : null;
  const listed = saysList(found) && list !== null ? sourceOf(listOf) : null;
  const sources = [
    ...(marks !== null && marks === listed ? [`her draughts and list ${marks}`] : []),
    ...(marks !== null && marks !== listed ? [`her draughts ${marks}`] : []),
    ...(listed !== null && marks !== listed ? [`her list ${listed}`] : []),
    isEmpty ? 'nothing of the plan in her' : 'what the record has in her',
  ];
  const upright = saysList(found) && list === null;
  return `Reckoned from ${sources.join(', and ')}.${upright ? ' No list of her own is stated: she is taken as upright before.' : ''}`;
}

function lookWords(found: readonly Contradiction[], { marksOf, listOf }: FloatsBefore, isEmpty: boolean): string {
  const hasStated = (saysMarks(found) && marksOf === null) || (saysList(found) && listOf === null);
  const questions = [
    ...(saysList(found) ? ['is the list written to the side that she leans to'] : []),
    ...(saysMarks(found) ? ['was each mark read at its own end'] : []),
    'is there water in the bilge',
    'where are people and stores',
    'how full are the tanks',
    isEmpty ? 'is a bundle in her that is not recorded' : 'is a bundle in another void than recorded, or not recorded',
    'do wind or mooring lines hold her',
  ];
  const stated = hasStated
    ? ' Where none of it explains what was read, mend what is stated of her in the job: a plan made again then goes by it.'
    : '';
  return `${questions.join('; ')}?${stated}`;
}

function saysList(found: readonly Contradiction[]): boolean {
  return found.some(({ what }) => what === 'list');
}

function saysMarks(found: readonly Contradiction[]): boolean {
  return found.some(({ what }) => what !== 'list');
}
