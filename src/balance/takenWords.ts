/** What was read afloat, in sentences. */
import type { Job } from '../job/job.ts';
import { amount } from './amount.ts';
import { listNow } from './present.ts';
import {
  FREEBOARDS,
  type FreeboardPlace,
  numberWords,
  type Reading,
  type Sunk,
  sunkBetween,
  type Taken,
  underLeast,
} from './taken.ts';

const FREEBOARD_WORDS: Record<FreeboardPlace, string> = {
  forward: 'at the fore end',
  aft: 'at the after end',
  port: 'to port',
  starboard: 'to starboard',
};

/** What was read, each in a short sentence. */
export function readWords({ forward, aft, list, period, freeboards }: Reading): string[] {
  const marks = [
    ...(forward === null ? [] : [`${metres(forward)} forward`]),
    ...(aft === null ? [] : [`${metres(aft)} aft`]),
  ];
  const boards = FREEBOARDS.flatMap((place) =>
    freeboards[place] === null ? [] : [`${metres(freeboards[place])} ${FREEBOARD_WORDS[place]}`],
  );
  return [
    ...(marks.length > 0 ? [`Draught ${marks.join(', ')}.`] : []),
    ...(list === null ? [] : [list === 0 ? 'No list.' : `Lists ${listNow(list)}.`]),
    ...(period === null ? [] : [`One roll ${period} s.`]),
    ...(boards.length > 0 ? [`Freeboard ${boards.join(', ')}.`] : []),
  ];
}

/** Metres as they were read. */
function metres(value: number): string {
  return `${Number(value.toFixed(4))} m`;
}

/** Where a freeboard read is under the least that is allowed her. */
export function lowWords(job: Job, reading: Reading): string {
  const low = underLeast(job.vessel, reading);
  if (low.length === 0) return '';
  const told = low.map((place) => `${metres(reading.freeboards[place] ?? 0)} ${FREEBOARD_WORDS[place]}`).join(', ');
  return `Freeboard ${told}: under the least allowed, ${job.vessel?.freeboardLeast} m. Put nothing more in, and ask whoever answers for her stability.`;
}

/** What the second changed since the first, and what was foretold of it; '' where marks do not tell. */
export function sinceWords(job: Job, before: Taken, after: Taken): string {
  const sunk = sunkBetween(job.vessel, before.reading, after.reading);
  if (!sunk) return '';
  const told = `${endWords(sunk.forward, 'forward')}, ${endWords(sunk.aft, 'aft')}`;
  return `Since ${numberWords(before)}: ${told}.`;
}

function endWords({ read, foretold }: Sunk, end: string): string {
  const way = Math.abs(read) < 0.05 ? 'as before' : `${read < 0 ? 'up' : 'down'} ${Math.abs(read).toFixed(1)} cm`;
  if (!foretold) return `${end} ${way}`;
  const up = foretold.likely < 0;
  const size = up ? { low: -foretold.high, likely: -foretold.likely, high: -foretold.low } : foretold;
  const expected = Math.abs(foretold.likely) < 0.05 ? 'no change' : `${up ? 'up' : 'down'} ${amount(size, 1, 'cm')}`;
  return `${end} ${way} (foretold ${expected})`;
}
