/**
 * What was read afloat, held against what is reckoned from the record of what was in her. A reading counts as it was read;
 * where the two lie further apart than both may err, who goes by it is told so.
 *
 * With M the moment of the list she had before and w what is recorded: tan(list) = (M + Σw·y)/((W + w)·GM′), and trim and
 * sinkage are those of before and what w does to them (float.ts). What was read less that is a range; it says something
 * where all of it is beyond the errors of reading. A mark that can not be hers with the one before (slips.ts) says that alone,
 * and no weight is made of it. A roll says something where it is half as long again as the longest that
 * is reckoned, or as much shorter than the shortest.
 */
import type { Job, Vessel } from '../job/job.ts';
import { addedContents, type Content } from '../plan/contents.ts';
import { effectOf, GM_LEAST, marksOf } from './float.ts';
import { type Hydrostatics, hydrostaticsOf } from './hydrostatics.ts';
import { type Moments, pointOf, sumMoments, type Weight } from './moments.ts';
import { stiffnessOf, tangentOf } from './present.ts';
import { known, mapRange, overCorners, type Range } from './range.ts';
import { MARK_ERROR_CM, sinkageFromMarks, TRIM_ERROR_CM, trimFromMarks } from './readings.ts';
import { momentBesides, stiffnessWith } from './readList.ts';
import { periodFromGm } from './roll.ts';
import { type End, slippedEnds } from './slips.ts';
import { inHerThen, isEmpty, type Reading, type Taken } from './taken.ts';

/** Draughts, m; a list, degrees to starboard; each null where it was not read. */
export type Floating = Pick<Reading, 'forward' | 'aft' | 'list'>;

/** What was read of her: how she floats, and seconds for one whole roll. */
export type Read = Floating & { period?: number | null };

/**
 * What is reckoned from: how she floated with nothing of a plan in her. `…Of` is the number of a reading, null as stated;
 * `typed` where draughts were typed that are neither.
 */
export interface FloatsBefore extends Floating {
  marksOf: number | 'typed' | null;
  listOf: number | null;
  /** The same readings, where they were written with a job before. */
  marksEarlier?: Taken;
  listEarlier?: Taken;
}

/** What was in her by the record: its moments, its weights each in its place, and whether it is stated where that is. */
export interface Recorded {
  moments: Moments;
  weights: readonly Weight[];
  placed: boolean;
}

export interface Contradiction {
  /** A mark alone where the other end was not read; `slow` where a roll can be held against her beam alone; `slip…` where marks of an end do not go together. */
  what: 'slipForward' | 'slipAft' | 'list' | 'trim' | 'depth' | 'forward' | 'aft' | 'roll' | 'slow';
  /** Degrees to starboard; cm by the head; cm down since before; s, of `slow` the longest; m of draught, of `slip…` those before. `by` is what was read less that. */
  reckoned: Range;
  read: number;
  by: Range;
  /** What would explain it, likely values: kg more in her for a depth, kg·m to starboard or forward; null of a mark alone, of a slip and of a roll. */
  weight: number | null;
}

/** A list is read to half a degree. */
const LIST_ERROR = 0.5;
/** What was read and what it is reckoned from were both read: each may err. */
const ERRORS: Record<Contradiction['what'], number> = {
  list: 2 * LIST_ERROR,
  trim: 2 * TRIM_ERROR_CM,
  depth: 2 * MARK_ERROR_CM,
  forward: 2 * MARK_ERROR_CM,
  aft: 2 * MARK_ERROR_CM,
  roll: 0,
  slow: 0,
  slipForward: 0,
  slipAft: 0,
};
/** A roll so many times as long as reckoned, or as short, was counted or written wrongly: GM hangs on its square. Our own choice. */
const ROLL_APART = 1.5;

/** As stated, where `taken`, in the order taken, has nothing that counts and was read with nothing of a plan in her. */
export function floatsBefore(vessel: Vessel | undefined, taken: readonly Taken[]): FloatsBefore {
  const empty = taken.filter((one) => !one.reading.struck && isEmpty(one));
  const marked = empty.findLast(({ reading }) => reading.forward !== null && reading.aft !== null);
  const listed = empty.findLast(({ reading }) => reading.list !== null);
  return {
    forward: marked?.reading.forward ?? vessel?.draughtForward ?? null,
    aft: marked?.reading.aft ?? vessel?.draughtAft ?? null,
    list: listed?.reading.list ?? vessel?.list ?? null,
    marksOf: marked?.number ?? null,
    listOf: listed?.number ?? null,
    ...(marked?.earlier && { marksEarlier: marked }),
    ...(listed?.earlier && { listEarlier: listed }),
  };
}

/** What was read otherwise than it is reckoned; empty where all agrees, or nothing can be reckoned. */
export function compareWithRecord(
  job: Job,
  { moments, weights, placed }: Recorded,
  read: Read,
  before: FloatsBefore,
): Contradiction[] {
  const { vessel } = job;
  const ends = slippedEnds(before, read);
  const slips = ends.map((end) => slipOf(end, before[end]!, read[end]!));
  if (!vessel) return slips;
  const contents = addedContents(job);
  const sound = { ...read, ...Object.fromEntries(ends.map((end) => [end, null])) };
  const marks = markContradictions(hydrostaticsOf(vessel), moments, contents, sound, before);
  const list = listContradiction(job, vessel, moments, read, before);
  const all = [list, ...marks, rollContradiction(job, vessel, weights, read.period ?? null)];
  const found = all.filter(
    (one): one is Contradiction =>
      one !== null &&
      (placed || one.what === 'depth' || one.what === 'slow') &&
      (one.by.low > ERRORS[one.what] || one.by.high < -ERRORS[one.what]),
  );
  return [...slips, ...found];
}

function slipOf(end: End, was: number, is: number): Contradiction {
  const what = end === 'forward' ? 'slipForward' : 'slipAft';
  return { what, reckoned: known(was), read: is, by: known(is - was), weight: null };
}

/** Degrees to starboard that she should list with what is recorded in her; null where it can not be told. */
export function reckonedList(job: Job, moments: Moments, before: FloatsBefore): Range | null {
  const { vessel } = job;
  const own = vessel ? listOfHerOwn(job, vessel, before) : null;
  if (!vessel || own === null) return null;
  const { stability } = effectOf({ ...vessel, list: own }, [...pointOf(moments), ...addedContents(job)]);
  return stability.kind === 'answer' ? stability.list : null;
}

/**
 * Seconds for one whole roll with these in her, as {@link effectOf} has it; null where it can not be told. Her gyradius hangs
 * on how far aside each lies (y²) and not on which side, so half of each is put on the other: what she lists keeps no roll
 * from being told.
 */
export function reckonedRoll(job: Job, weights: readonly Weight[]): Range | null {
  if (!job.vessel) return null;
  const even = [...weights, ...addedContents(job)].flatMap(({ mass, x, y, z }) =>
    [y, -y].map((side) => ({ mass: mass / 2, x, y: side, z })),
  );
  const { stability } = effectOf({ ...job.vessel, list: undefined }, even);
  return stability.kind === 'answer' ? stability.period : null;
}

function rollContradiction(
  job: Job,
  vessel: Vessel,
  weights: readonly Weight[],
  read: number | null,
): Contradiction | null {
  if (read === null) return null;
  const reckoned = reckonedRoll(job, weights);
  if (reckoned && (read > ROLL_APART * reckoned.high || read < reckoned.low / ROLL_APART))
    return { what: 'roll', reckoned, read, by: mapRange(reckoned, (seconds) => read - seconds), weight: null };
  const { beam } = hydrostaticsOf(vessel);
  const longest = beam && periodFromGm(known(GM_LEAST), beam).high;
  if (reckoned || !longest || read <= longest) return null;
  return { what: 'slow', reckoned: known(longest), read, by: known(read - longest), weight: null };
}

function listContradiction(
  job: Job,
  vessel: Vessel,
  moments: Moments,
  { list }: Floating,
  before: FloatsBefore,
): Contradiction | null {
  const reckoned = reckonedList(job, moments, before);
  const stiffness = stiffnessWith(job, vessel, pointOf(moments));
  if (list === null || !reckoned || !stiffness) return null;
  return {
    what: 'list',
    reckoned,
    read: list,
    by: mapRange(reckoned, (degrees) => list - degrees),
    weight: stiffness.likely * (tangentOf(list) - tangentOf(reckoned.likely)),
  };
}

/** Her list without what lies in the voids, which a list that was read counts already; null where it is not known. */
function listOfHerOwn(job: Job, vessel: Vessel, { list, listOf, listEarlier }: FloatsBefore): number | null {
  if (listOf === null || list === null) return list ?? 0;
  const hydro = hydrostaticsOf(vessel);
  // With a job before, other things lay in the voids.
  const moment = listEarlier
    ? momentBesides({ ...job, voids: [] }, vessel, pointOf(inHerThen(listEarlier)), list)
    : momentBesides(job, vessel, [], list);
  const stiffness = stiffnessOf(vessel, hydro);
  if (!hydro.displacement || !stiffness || moment === null) return null;
  return (Math.atan(moment / (hydro.displacement.likely * stiffness.gm.likely)) * 180) / Math.PI;
}

function markContradictions(
  hydro: Hydrostatics,
  recorded: Moments,
  contents: readonly Content[],
  read: Floating,
  before: FloatsBefore,
): Contradiction[] {
  // What lies in the voids was in her when she was read, and is not in her draughts as stated.
  const moments = sumMoments([...pointOf(recorded), ...contentsSince(contents, before)]);
  const marks = marksOf(hydro, moments);
  const { lcf, waterlineLength, kgPerCm, kgmPerCm } = hydro;
  if (marks.kind !== 'answer' || !lcf || !waterlineLength || !kgPerCm || !kgmPerCm) return [];
  const [then, now] = [bothOf(before), bothOf(read)];
  if (!then || !now) {
    return (['forward', 'aft'] as const).flatMap((end): Contradiction[] => {
      const [was, is] = [before[end], read[end]];
      if (was === null || is === null) return [];
      const moved = 100 * (is - was);
      return [
        { what: end, reckoned: marks[end], read: moved, by: mapRange(marks[end], (cm) => moved - cm), weight: null },
      ];
    });
  }
  const own = { lcf, length: waterlineLength, perCm: kgPerCm };
  const sunk = (v: Record<keyof typeof own, number>): number => sinkageFromMarks(then, now, v.lcf, v.length);
  const by = overCorners(own, (v) => sunk(v) - moments.mass / v.perCm);
  const trimmed = trimFromMarks(then, now);
  const trimThen = 100 * (then.forward - then.aft);
  const trimBy = mapRange(marks.trim, (cm) => trimmed - cm);
  return [
    {
      what: 'trim',
      reckoned: mapRange(marks.trim, (cm) => trimThen + cm),
      read: trimThen + trimmed,
      by: trimBy,
      weight: trimBy.likely * kgmPerCm.likely,
    },
    {
      what: 'depth',
      reckoned: marks.sinkage,
      read: overCorners(own, sunk).likely,
      by,
      weight: by.likely * kgPerCm.likely,
    },
  ];
}

/** What came to lie in the voids since the draughts were as before; what lay there then and does not now is negative. */
function contentsSince(contents: readonly Content[], { marksOf, marksEarlier }: FloatsBefore): Weight[] {
  if (marksEarlier) return broughtSince(contents, marksEarlier);
  return marksOf === null ? [...contents] : [];
}

/** What of these contents came to lie in the voids since a reading with a job before, less what lay there then. */
export function broughtSince(contents: readonly Weight[], earlier: Taken): Weight[] {
  return [...contents, ...pointOf(inHerThen(earlier)).map((weight) => ({ ...weight, mass: -weight.mass }))];
}

function bothOf({ forward, aft }: Floating): { forward: number; aft: number } | null {
  return forward === null || aft === null ? null : { forward, aft };
}
