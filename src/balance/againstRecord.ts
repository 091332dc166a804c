/**
 * What was read afloat, held against what is reckoned from the record of what was in her. A reading counts as it was read;
 * where the two lie further apart than both may err, who goes by it is told so.
 *
 * With M the moment of the list she had before and w what is recorded: tan(list) = (M + Σw·y)/((W + w)·GM′), and trim and
 * sinkage are those of before and what w does to them (float.ts). What was read less that is a range; it says something
 * where all of it is beyond the errors of reading.
 */
import type { Job, Vessel } from '../job/job.ts';
import { addedContents, type Content } from '../plan/contents.ts';
import { effectOf, marksOf } from './float.ts';
import { type Hydrostatics, hydrostaticsOf } from './hydrostatics.ts';
import { type Moments, sumMoments, type Weight } from './moments.ts';
import { stiffnessOf, tangentOf } from './present.ts';
import { mapRange, overCorners, type Range } from './range.ts';
import { MARK_ERROR_CM, sinkageFromMarks, TRIM_ERROR_CM, trimFromMarks } from './readings.ts';
import { momentBesides, stiffnessWith } from './readList.ts';
import type { Reading, Taken } from './taken.ts';

/** Draughts, m; a list, degrees to starboard; each null where it was not read. */
export type Floating = Pick<Reading, 'forward' | 'aft' | 'list'>;

/** What is reckoned from: how she floated with nothing of a plan in her. `…Of` is the number of a reading, null as stated. */
export interface FloatsBefore extends Floating {
  marksOf: number | null;
  listOf: number | null;
}

/** What was in her by the record: its moments, and whether the places are stated of where it lies. */
export interface Recorded {
  moments: Moments;
  placed: boolean;
}

export interface Contradiction {
  /** A mark alone where the other end was not read. */
  what: 'list' | 'trim' | 'depth' | 'forward' | 'aft';
  /** Degrees to starboard; cm by the head; cm down since before. `by` is what was read less what was reckoned. */
  reckoned: Range;
  read: number;
  by: Range;
  /** What would explain it, likely values: kg more in her for a depth, kg·m to starboard or forward; null of a mark alone. */
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
};

/** As stated, where `taken`, in the order taken, has nothing that counts and was read with nothing of a plan in her. */
export function floatsBefore(vessel: Vessel | undefined, taken: readonly Taken[]): FloatsBefore {
  const empty = taken.filter(({ reading }) => !reading.struck && reading.aboard.bundles.length === 0);
  const marked = empty.findLast(({ reading }) => reading.forward !== null && reading.aft !== null);
  const listed = empty.findLast(({ reading }) => reading.list !== null);
  return {
    forward: marked?.reading.forward ?? vessel?.draughtForward ?? null,
    aft: marked?.reading.aft ?? vessel?.draughtAft ?? null,
    list: listed?.reading.list ?? vessel?.list ?? null,
    marksOf: marked?.number ?? null,
    listOf: listed?.number ?? null,
  };
}

/** What was read otherwise than it is reckoned; empty where all agrees, or nothing can be reckoned. */
export function compareWithRecord(
  job: Job,
  { moments, placed }: Recorded,
  read: Floating,
  before: FloatsBefore,
): Contradiction[] {
  const { vessel } = job;
  if (!vessel) return [];
  const contents = addedContents(job);
  const marks = markContradictions(hydrostaticsOf(vessel), moments, contents, read, before);
  const all = [listContradiction(job, vessel, moments, read, before), ...marks];
  return all.filter(
    (one): one is Contradiction =>
      one !== null &&
      (placed || one.what === 'depth') &&
      (one.by.low > ERRORS[one.what] || one.by.high < -ERRORS[one.what]),
  );
}

/** All of it at its common centre: lists and marks hang on sums alone. */
function weightOf({ mass, alongMoment, acrossMoment, heightMoment }: Moments): Weight[] {
  return mass > 0 ? [{ mass, x: alongMoment / mass, y: acrossMoment / mass, z: heightMoment / mass }] : [];
}

function listContradiction(
  job: Job,
  vessel: Vessel,
  moments: Moments,
  { list }: Floating,
  before: FloatsBefore,
): Contradiction | null {
  const own = listOfHerOwn(job, vessel, before);
  if (list === null || own === null) return null;
  const weights = weightOf(moments);
  const { stability } = effectOf({ ...vessel, list: own }, [...weights, ...addedContents(job)]);
  const stiffness = stiffnessWith(job, vessel, weights);
  if (stability.kind !== 'answer' || !stiffness) return null;
  const reckoned = stability.list;
  return {
    what: 'list',
    reckoned,
    read: list,
    by: mapRange(reckoned, (degrees) => list - degrees),
    weight: stiffness.likely * (tangentOf(list) - tangentOf(reckoned.likely)),
  };
}

/** Her list without what lies in the voids, which a list that was read counts already; null where it is not known. */
function listOfHerOwn(job: Job, vessel: Vessel, { list, listOf }: FloatsBefore): number | null {
  if (listOf === null || list === null) return list ?? 0;
  const hydro = hydrostaticsOf(vessel);
  const [stiffness, moment] = [stiffnessOf(vessel, hydro), momentBesides(job, vessel, [], list)];
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
  const moments = sumMoments([...weightOf(recorded), ...(before.marksOf === null ? contents : [])]);
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

function bothOf({ forward, aft }: Floating): { forward: number; aft: number } | null {
  return forward === null || aft === null ? null : { forward, aft };
}
