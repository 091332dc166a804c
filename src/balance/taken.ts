/**
 * What was read afloat and is kept, in the order taken: marks, list, roll and freeboards, when, by whom, and what of a plan
 * was aboard then. Texts are only ever added: the last one of a number stands.
 */
import type { Job, Vessel } from '../job/job.ts';
import { atMassNow } from '../plan/massNow.ts';
import type { Plan } from '../plan/plan.ts';
import { bundlesIn, type Entry, recordOf } from '../plan/record.ts';
import { marksOf } from './float.ts';
import { hydrostaticsOf } from './hydrostatics.ts';
import { addMoments, type Moments, pointOf, sumMoments, type Weight, weightsByVoid } from './moments.ts';
import type { Range } from './range.ts';

/** Places where a freeboard is read, m. */
export const FREEBOARDS = ['forward', 'aft', 'port', 'starboard'] as const;
export type FreeboardPlace = (typeof FREEBOARDS)[number];

/** What of a plan was in her, by its record at that time. */
export interface AboardThen {
  /** Serial of the plan. */
  plan: number;
  /** Marks of its bundles. */
  bundles: string[];
  /** Of these bundles, by the scale where they were weighed when it was written. */
  moments: Moments;
}

export interface Reading {
  /** The day, `2026-05-04`. */
  on: string;
  /** `14:30`, by the clock of the place; '' where nobody said: it then counts as when it was first written, or as the end of another day (`timeOf`). */
  at: string;
  who: string;
  /** What else was aboard, and how it was read. */
  note: string;
  /** Draughts at the ends, m. */
  forward: number | null;
  aft: number | null;
  /** Degrees, to starboard positive. */
  list: number | null;
  /** Seconds for one whole roll. */
  period: number | null;
  freeboards: Record<FreeboardPlace, number | null>;
  aboard: AboardThen;
  /** True where it was taken back: it does not count, and stays written. */
  struck: boolean;
}

/** One text of a reading as it was written. */
export interface Written {
  id: number;
  number: number;
  writtenAt: string;
  reading: Reading;
}

/** A reading as it stands. */
export interface Taken extends Written {
  /** What it said before, the first text first. */
  before: Written[];
  /** Where it was written with a job before, of which the one at hand is what was left. */
  earlier?: Earlier;
}

/** Of a reading that was written with a job before. */
export interface Earlier {
  /** Serial of the plan on whose page it is written. */
  plan: number;
  /** What lay in the voids then beside the bundles of a plan and her own figures; null where that is not known. */
  contents: Moments | null;
  /** Nothing of the plan at hand can have been in her. */
  counts: boolean;
}

/** `no. 3`, or `no. 3 of plan 4`: a job before has numbers of its own. */
export function numberWords({ number, earlier }: Pick<Taken, 'number' | 'earlier'>): string {
  return earlier ? `no. ${number} of plan ${earlier.plan}` : `no. ${number}`;
}

/** All that was in her besides her own figures when it was read with a job before: that job has as bundles what this one has in its voids. */
export function inHerThen({ reading, earlier }: Taken): Moments {
  return addMoments(reading.aboard.moments, earlier?.contents ?? sumMoments([]));
}

/** Whether nothing of the plans of the job at hand was in her. */
export function isEmpty({ reading, earlier }: Taken): boolean {
  return earlier !== undefined || reading.aboard.bundles.length === 0;
}

/** Of all that was read, in the order taken, what was read before one of it; a job before has numbers of its own. */
export function takenBefore(all: readonly Taken[], { number, earlier }: Taken): readonly Taken[] {
  const at = all.findIndex((one) => one.number === number && one.earlier?.plan === earlier?.plan);
  return all.slice(0, Math.max(0, at));
}

/** What stands of every number, in the order taken; of one moment in the order written. */
export function inOrderTaken(texts: readonly Written[]): Taken[] {
  const byNumber = new Map<number, Written[]>();
  for (const text of texts) byNumber.set(text.number, [...(byNumber.get(text.number) ?? []), text]);
  return [...byNumber.values()]
    .map((own): Taken => ({ ...own.at(-1)!, before: own.slice(0, -1) }))
    .sort((p, q) => compare(momentOf(p), momentOf(q)) || p.number - q.number);
}

/** All that counts of what was read, with the jobs before first, in the order taken. */
export function allThatCounts(earlier: readonly Taken[], texts: readonly Written[]): Taken[] {
  return [...earlier.filter((taken) => taken.earlier?.counts), ...inOrderTaken(texts)];
}

function momentOf({ reading, before, writtenAt }: Taken): string {
  return `${reading.on}T${timeOf(reading, before[0]?.writtenAt ?? writtenAt) || '24:00'}`;
}

/**
 * At which time of its day a reading counts; '' is the end of the day. Without a time of its own it is that at which it was
 * first written, an ISO time of the place, where that was the same day.
 */
export function timeOf({ on, at }: Pick<Reading, 'on' | 'at'>, firstWritten: string): string {
  if (at !== '') return at;
  return firstWritten.slice(0, 10) === on ? firstWritten.slice(11, 16) : '';
}

function compare(p: string, q: string): number {
  return p < q ? -1 : p > q ? 1 : 0;
}

/** What of a plan was in her when it was read; `at` is the time of that day at which it counts (`timeOf`). `masses` are kg off the scale by bundle. */
export function aboardThen(
  job: Job,
  plan: Plan,
  serial: number,
  entries: readonly Entry[],
  masses: ReadonlyMap<string, number>,
  { on, at }: Pick<Reading, 'on' | 'at'>,
): AboardThen {
  // The record's times are by the clock of the place, too; what is dated alone counts from its day on.
  const isBefore = (entry: Entry): boolean =>
    entry.at.slice(0, 10) < on ||
    (entry.at.slice(0, 10) === on && (at === '' || entry.at.length <= 10 || entry.at.slice(11, 16) <= at));
  const present = bundlesIn(recordOf(entries.filter(isBefore)));
  const there = plan.bundles.filter(({ bundle }) => present.has(bundle));
  const bundles = atMassNow(there, masses);
  const moments = sumMoments([...weightsByVoid(job, { ...plan, bundles }).values()].flat());
  return { plan: serial, bundles: bundles.map(({ bundle }) => bundle), moments };
}

/** The same as weights each in its place, as heavy together as was written down; as one where the plan does not have them. */
export function weightsThen(job: Job, plan: Plan, { bundles: marks, moments }: AboardThen): Weight[] {
  const were = new Set(marks);
  const bundles = plan.bundles.filter(({ bundle }) => were.has(bundle));
  const weights = [...weightsByVoid(job, { ...plan, bundles }).values()].flat();
  if (bundles.length < were.size || weights.length === 0) return pointOf(moments);
  const heavier = moments.mass / sumMoments(weights).mass;
  return weights.map((weight) => ({ ...weight, mass: weight.mass * heavier }));
}

/** How far an end went down between two readings, cm: as it was read, and as it is foretold by what went in or came out. */
export interface Sunk {
  read: number;
  /** Null where her hydrostatics are not known, or the two are of different plans. */
  foretold: Range | null;
}

/** Null where marks were not read at both ends both times. */
export function sunkBetween(
  vessel: Vessel | undefined,
  before: Reading,
  after: Reading,
): { forward: Sunk; aft: Sunk } | null {
  if (before.forward === null || before.aft === null || after.forward === null || after.aft === null) return null;
  const [p, q] = [before.aboard.moments, after.aboard.moments];
  const same = before.aboard.plan === after.aboard.plan;
  const marks =
    vessel && same
      ? marksOf(hydrostaticsOf(vessel), {
          mass: q.mass - p.mass,
          alongMoment: q.alongMoment - p.alongMoment,
          acrossMoment: q.acrossMoment - p.acrossMoment,
          heightMoment: q.heightMoment - p.heightMoment,
        })
      : null;
  const told = marks?.kind === 'answer' ? marks : null;
  return {
    forward: { read: (after.forward - before.forward) * 100, foretold: told?.forward ?? null },
    aft: { read: (after.aft - before.aft) * 100, foretold: told?.aft ?? null },
  };
}

/** Freeboards read under the least that is allowed; none where nothing is stated of it. */
export function underLeast(vessel: Vessel | undefined, { freeboards }: Reading): FreeboardPlace[] {
  const least = vessel?.freeboardLeast;
  if (least === undefined) return [];
  return FREEBOARDS.filter((place) => (freeboards[place] ?? Number.POSITIVE_INFINITY) < least);
}

/** Of what was read, that with which the trial of a plan is compared; each null where nothing fits. */
export interface TrialPair {
  /** The last with marks before `after`, of nothing of a plan of the job in her. */
  before: Taken | null;
  /** The last with marks and some of the plan in her. */
  after: Taken | null;
}

/** `earlier`: what was read with the jobs before, as far as it counts. */
export function trialPairOf(texts: readonly Written[], plan: number, earlier: readonly Taken[] = []): TrialPair {
  const marked = [...earlier, ...inOrderTaken(texts)].filter(
    ({ reading }) => !reading.struck && reading.forward !== null && reading.aft !== null,
  );
  const at = marked.findLastIndex((taken) => taken.reading.aboard.plan === plan && !isEmpty(taken));
  const before = (at < 0 ? marked : marked.slice(0, at)).findLast(isEmpty);
  return { before: before ?? null, after: marked[at] ?? null };
}
