/** A reading that is otherwise than the record has it, in sentences: what was reckoned, what was read, and what to look at. */
import type { Job } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import {
  type Contradiction,
  compareWithRecord,
  type FloatsBefore,
  floatsBefore,
  reckonedList,
  reckonedRoll,
} from './againstRecord.ts';
import { amount } from './amount.ts';
import { GM_LEAST } from './float.ts';
import { sideWords } from './present.ts';
import { known, mapRange, type Range } from './range.ts';
import { apartWords } from './slips.ts';
import { numberWords, type Taken, takenBefore, weightsThen } from './taken.ts';
import { listWords } from './telling.ts';
import { unplacedLines } from './unplaced.ts';

export interface AgainstWords {
  /** One for each thing that is otherwise; marks that do not go together first. */
  lines: string[];
  /** Marks do not go together: no move may be proposed from them. */
  slipped: boolean;
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
  /** What was in her, where that is not what the record has. */
  aboard?: string;
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

/** Of the last reading that counts with bundles of the plan in her; null where it is as reckoned, or there is none. */
export function lastAgainst(of: ReadingsOf): AgainstWords | null {
  const last = of.all.findLast(
    ({ reading, earlier }) =>
      !earlier && !reading.struck && reading.aboard.plan === of.serial && reading.aboard.bundles.length > 0,
  );
  return last ? takenAgainst(of, last) : null;
}

/** Whether the list of one of the readings is otherwise. */
export function isListAgainst(of: ReadingsOf, taken: Taken): boolean {
  return saysList(findAgainst(of, taken).contradictions);
}

/**
 * Beside a list and a roll that were read what is reckoned of them, in a sentence; '' where neither was read, where nothing
 * of the plan was in her, and where nothing can be reckoned.
 */
export function foretoldWords(of: ReadingsOf, taken: Taken): string {
  const { list, period, aboard, struck } = taken.reading;
  const { job, plan, serial, all } = of;
  if (struck || aboard.bundles.length === 0 || aboard.plan !== serial || !isPlaced(job, plan)) return '';
  const listed =
    list === null ? null : reckonedList(job, aboard.moments, floatsBefore(job.vessel, takenBefore(all, taken)));
  const rolled = period === null ? null : reckonedRoll(job, weightsThen(job, plan, aboard));
  const told = [...(listed ? [listWords(listed)] : []), ...(rolled ? [`one roll ${amount(rolled, 1, 's')}`] : [])].join(
    ', ',
  );
  return told === '' ? '' : `Foretold: ${told}.`;
}

function findAgainst(of: ReadingsOf, taken: Taken): Found {
  const { job, plan, serial, all } = of;
  const { reading } = taken;
  const isEmpty = reading.aboard.bundles.length === 0;
  // With nothing of a plan in her it is held against what the plan was reckoned from.
  const before = floatsBefore(job.vessel, isEmpty ? [] : takenBefore(all, taken));
  const counts = !reading.struck && (isEmpty || reading.aboard.plan === serial);
  const { aboard } = reading;
  const weights = weightsThen(job, plan, aboard);
  const recorded = { moments: aboard.moments, weights, placed: isEmpty || isPlaced(job, plan) };
  return { contradictions: counts ? compareWithRecord(job, recorded, reading, before) : [], before, isEmpty };
}

/** Whether it is stated where the voids lie that a plan fills. */
export function isPlaced(job: Job, plan: Plan): boolean {
  return unplacedLines(job, plan).length === 0;
}

/** Null where nothing is otherwise. */
export function againstWords(all: Found): AgainstWords | null {
  const { contradictions: found, before, isEmpty } = all;
  if (found.length === 0) return null;
  const slipped = found.some(isSlip);
  return { lines: found.map(lineOf), slipped, from: fromWords(all), look: lookWords(found, before, isEmpty) };
}

function isSlip({ what }: Contradiction): boolean {
  return what === 'slipForward' || what === 'slipAft';
}

function lineOf(found: Contradiction): string {
  const { what, reckoned, read, by, weight } = found;
  if (isSlip(found)) {
    const end = what === 'slipForward' ? 'Fore end' : 'After end';
    return `${end}: ${apartWords(reckoned.likely, read)}: was a point or a digit slipped?`;
  }
  const more = by.likely > 0;
  const size = Math.abs(by.likely);
  if (what === 'roll') {
    const times = more ? read / reckoned.likely : reckoned.likely / read;
    return `One roll: reckoned ${amount(reckoned, 1, 's')}, read ${read} s: ${times.toFixed(1)} times as ${more ? 'long' : 'quick'}.`;
  }
  if (what === 'slow')
    return `One roll: read ${read} s; of her beam, more than ${reckoned.likely.toFixed(1)} s is a GM under ${GM_LEAST.toFixed(2)} m.`;
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

function fromWords({ contradictions: found, before, isEmpty, aboard }: Found): string {
  const { marksOf, listOf, marksEarlier, listEarlier, list } = before;
  const sourceOf = (number: number | 'typed' | null, taken: Taken | undefined): string =>
    number === null ? 'as stated' : number === 'typed' ? 'as typed' : `of ${numberWords(taken ?? { number })}`;
  const marks = saysMarks(found) ? sourceOf(marksOf, marksEarlier) : null;
  const listed = saysList(found) && list !== null ? sourceOf(listOf, listEarlier) : null;
  const sources = [
    ...(marks !== null && marks === listed ? [`her draughts and list ${marks}`] : []),
    ...(marks !== null && marks !== listed ? [`her draughts ${marks}`] : []),
    ...(listed !== null && marks !== listed ? [`her list ${listed}`] : []),
    ...(saysRoll(found) ? ['her GM and beam as stated or estimated'] : []),
    isEmpty ? 'nothing of the plan in her' : (aboard ?? 'what the record has in her'),
  ];
  if (found.every(isSlip)) return `Her draughts before are those ${sourceOf(marksOf, marksEarlier)}.`;
  const upright = saysList(found) && list === null;
  return `Reckoned from ${sources.join(', and ')}.${upright ? ' No list of her own is stated: she is taken as upright before.' : ''}`;
}

function lookWords(found: readonly Contradiction[], { marksOf, listOf }: FloatsBefore, isEmpty: boolean): string {
  const hasStated = saysRoll(found) || (saysMarks(found) && marksOf === null) || (saysList(found) && listOf === null);
  const slips = found.some(isSlip)
    ? ['is each draught in metres, with its point where it belongs, and read from the same mark both times']
    : [];
  const mend =
    ' Where none of it explains what was read, mend what is stated of her in the job: a plan made again then goes by it.';
  if (found.every(isSlip)) return `${slips.join()}?${hasStated ? mend : ''}`;
  const questions = [
    ...slips,
    ...(saysList(found) ? ['is the list written to the side that she leans to'] : []),
    ...(saysMarks(found) ? ['was each mark read at its own end'] : []),
    ...(saysRoll(found) ? ['was one whole roll timed, there and back, and its point written where it belongs'] : []),
    'is there water in the bilge',
    'where are people and stores',
    'how full are the tanks',
    isEmpty ? 'is a bundle in her that is not recorded' : 'is a bundle in another void than recorded, or not recorded',
    'do wind or mooring lines hold her',
  ];
  return `${questions.join('; ')}?${hasStated ? mend : ''}`;
}

function saysList(found: readonly Contradiction[]): boolean {
  return found.some(({ what }) => what === 'list');
}

function saysMarks(found: readonly Contradiction[]): boolean {
  return found.some(({ what }) => what !== 'list' && what !== 'roll' && what !== 'slow');
}

function saysRoll(found: readonly Contradiction[]): boolean {
  return found.some(({ what }) => what === 'roll' || what === 'slow');
}
