/** What the page “The trial” of a plan shows: what goes in first, what was read afloat, and where the rest goes. */
import { broughtSince } from '../../src/balance/againstRecord.ts';
import { isListAgainst } from '../../src/balance/againstWords.ts';
import { byScale } from '../../src/balance/byScale.ts';
import { effectOf } from '../../src/balance/float.ts';
import { sumMoments } from '../../src/balance/moments.ts';
import { HOW_TO_READ } from '../../src/balance/readings.ts';
import { momentBesides } from '../../src/balance/readList.ts';
import { goTogether } from '../../src/balance/slips.ts';
import { numberWords, type Reading, type Taken, type TrialPair } from '../../src/balance/taken.ts';
import { sentenceOf } from '../../src/balance/telling.ts';
import {
  compareTrial,
  doubtAll,
  stowedWeights,
  type TrialReadings,
  type TrialResult,
} from '../../src/balance/trial.ts';
import { type TrialOrder, trialOrderOf } from '../../src/balance/trialOrder.ts';
import { type MarksRead, placeRest } from '../../src/balance/trialRest.ts';
import { draughtsFor, wantedDown } from '../../src/balance/wantedMarks.ts';
import type { Job, Vessel } from '../../src/job/job.ts';
import { calloutsOf } from '../../src/lift/callouts.ts';
import { addedContents } from '../../src/plan/contents.ts';
import type { WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { firstPart } from '../../src/plan/share.ts';
import { byMark, markRanges } from '../../src/plan/stops.ts';
import { mendOne, type Wanted } from '../form/wanted.ts';
import { type Asked, type Bounds, readFigure, type Unit } from './askedFigures.ts';
import { type TrialDoubts, trialDoubtsOf } from './trialDoubts.ts';

export const SHARE_FIELD = { label: 'Share of each void', unit: '%' } as const;
interface TrialField {
  label: string;
  unit: Unit;
  bounds?: Bounds;
}

export const TRIAL_FIELDS = {
  beforeForward: { label: 'Draught before, fore end', unit: 'm' },
  beforeAft: { label: 'Draught before, after end', unit: 'm' },
  afterForward: { label: 'Draught with these in, fore end', unit: 'm' },
  afterAft: { label: 'Draught with these in, after end', unit: 'm' },
  period: { label: 'One whole roll, with these in', unit: 's', bounds: { least: 0.1, most: 60 } },
  wantForward: { label: 'Wanted in the end: down at the fore end', unit: 'cm' },
  wantAft: { label: 'Wanted in the end: down at the after end', unit: 'cm' },
} as const satisfies Record<string, TrialField>;
export type ReadingName = keyof typeof TRIAL_FIELDS;

const READINGS = Object.keys(TRIAL_FIELDS) as ReadingName[];

export interface TrialVoid {
  void: string;
  name: string;
  /** Bundles in loading order that go in before the trial, and all. */
  first: number;
  all: number;
  last: string | null;
  mass: number;
  /** Bundles to have in her in the end; null until readings say so. */
  inTheEnd: number | null;
}

export interface TrialPage {
  share: Asked;
  /** Why the share typed is not the one reckoned with; '' where it is. */
  shareDoubt: string;
  asked: Record<ReadingName, Asked>;
  /** Of each field that stands as it was read and kept: when that was; '' of the others. */
  kept: Record<ReadingName, string>;
  /** What of it can not be read, or hardly be meant; of readings in doubt nothing is concluded. */
  toMend: Wanted[];
  voids: TrialVoid[];
  /** Voids of which nothing goes in before the trial, since they lie over those whose trim part is still to follow. */
  waiting: { upper: string; lower: string[] }[];
  /** Voids all of which goes in before it, since the fixed part of others lies over them. */
  whole: { lower: string; upper: string[] }[];
  mass: number;
  /** What lies in the voids already and counts beside the bundles, kg. */
  contents: number;
  /** Where the marks before were read with a job before: which reading that is, and how much more lies in the voids since, kg. */
  since: { reading: string; mass: number } | null;
  /** The list read with exactly these in her, which the rest makes up for, degrees; null where none was read, or it can not be counted. */
  listed: number | null;
  /** The number of that reading, where the list is otherwise than reckoned from the record. */
  listAgainst: number | null;
  /** Why what was read may not be gone by; null where nothing speaks against it, or nothing is compared. */
  doubts: TrialDoubts | null;
  /** True where some of the bundles stowed first were weighed: then the scale counts. */
  scale: boolean;
  /** Where the record tells otherwise of what is in; '' where it does not. */
  record: string;
  forecast: string;
  result: TrialResult | null;
  /** How near the rest comes to the marks wanted, cm too deep at each end, and whether that counts from the marks read. */
  rest: ({ forward: number; aft: number; byMarks: boolean } & TrialOrder) | null;
  /** Of the bundles that then come out or go in: what each is too heavy for one person for, by its mark. */
  heavy: ReadonlyMap<string, string>;
  /** Voids that they come out of or go into, where part of the way is outside the lifting method. */
  outside: string[];
  steps: typeof HOW_TO_READ;
}

/** What was found since the plan was made. */
export interface Found {
  /** kg off the scale, by bundle. */
  weighed: WeighedMasses;
  /** The marks of what is in by the record. */
  isIn: ReadonlySet<string>;
  /** What was read afloat, and is kept: what is not typed is taken from there. */
  read: TrialPair;
  /** All that was read, in the order taken, and the number of the plan. */
  all: readonly Taken[];
  serial: number;
}

/** Null where nothing is stated of the vessel. The marks wanted and the share are of the plan; what goes in weighs what the scale says. */
export function showTrialPage(
  job: Job,
  planned: Plan,
  typed: (name: string) => string | undefined,
  { weighed, isIn, read, all, serial }: Found,
): TrialPage | null {
  const { vessel } = job;
  if (!vessel) return null;
  const share = readFigure(typed('share') ?? String(usualShare(job)), SHARE_FIELD.unit, { least: 0, most: 100 });
  const part = share.value === null ? job.aims.fixedShare : share.value / 100;
  const { counts, whole, waiting } = firstPart(job, planned, part);
  const plan = byScale(job, planned, weighed);
  const first = new Set(firstOf(plan, counts));
  const stowed = stowedWeights(job, plan, counts);
  const contents = addedContents(job);
  const asked = doubted(
    Object.fromEntries(
      READINGS.map((name) => {
        const { unit, bounds }: TrialField = TRIAL_FIELDS[name];
        return [name, readFigure(typed(name) ?? usual(name, job, planned, vessel, read), unit, bounds)];
      }),
    ) as TrialPage['asked'],
  );
  const shareDoubt = shareDoubtOf(job, share);
  const kept = keptOf(asked, read);
  // Marks that were read with a job before had less in the voids.
  const earlier = kept.beforeForward !== '' && kept.beforeAft !== '' && read.before?.earlier ? read.before : null;
  const since = earlier ? broughtSince(contents, earlier) : [];
  const readings = shareDoubt === '' ? readingsOf(asked) : null;
  const doubts = readings && trialDoubtsOf({ job, plan: planned, readings, read, all, first, stowed, isIn });
  const compared = readings && compareTrial(vessel, stowed, readings, contents, since);
  const result = compared && doubts && doubts.aboard !== '' ? doubtAll(vessel, compared) : compared;
  const listed = listedOf(job, vessel, stowed, first, read.after);
  const [wantForward, wantAft] = [asked.wantForward.value, asked.wantAft.value];
  const down = wantForward === null || wantAft === null ? null : { forward: wantForward, aft: wantAft };
  const marks = readings && doubts && down && marksRead(job, readings, doubts, counts, down);
  const rest =
    result && down
      ? placeRest(job, plan, result.vessel, leastOf(job, planned, counts), down, listed?.moment, marks)
      : null;
  const order = rest && trialOrderOf(job, plan, counts, rest.counts);
  const lifted = order ? [...order.out, ...order.into] : [];
  const lifts = calloutsOf(job, lifted);
  return {
    share,
    shareDoubt,
    asked,
    kept,
    since: earlier && { reading: numberWords(earlier), mass: sumMoments(since).mass },
    toMend: toMendOf(share, asked),
    voids: voidsOf(job, plan, counts, rest?.counts ?? null),
    waiting: [...waiting].map(([upper, lower]) => ({ upper, lower })),
    whole: [...whole].map(([lower, upper]) => ({ lower, upper })),
    mass: sumMoments(stowed).mass,
    contents: sumMoments(contents).mass,
    listed: listed?.degrees ?? null,
    listAgainst:
      read.after && isListAgainst({ job, plan: planned, serial, all }, read.after) ? read.after.number : null,
    doubts: isDoubted(doubts, result) ? doubts : null,
    scale: [...first].some((bundle) => weighed.has(bundle)),
    record: recordTold(plan, first, isIn, result !== null),
    forecast: sentenceOf(effectOf(vessel, [...stowed, ...contents])),
    result,
    rest: rest && order && { forward: rest.forward, aft: rest.aft, byMarks: marks !== null, ...order },
    heavy: new Map(lifts.flatMap(({ bundle, heavy }) => (heavy === null ? [] : [[bundle, heavy]]))),
    outside: [...new Set(lifted.filter((_, n) => lifts[n]!.outside).map((bundle) => bundle.void))],
    steps: HOW_TO_READ,
  };
}

/** The list that was read with these bundles in her and no others, and the moment of what lists her besides them. */
function listedOf(
  job: Job,
  vessel: Vessel,
  stowed: ReturnType<typeof stowedWeights>,
  first: ReadonlySet<string>,
  after: Taken | null,
): { degrees: number; moment: number } | null {
  const { list = null, aboard } = after?.reading ?? {};
  if (list === null || aboard?.bundles.length !== first.size || !aboard.bundles.every((mark) => first.has(mark)))
    return null;
  const moment = momentBesides(job, vessel, stowed, list);
  return moment === null ? null : { degrees: list, moment };
}

/** How far she was from the marks wanted as she was read; null where other bundles were in her than those counted. */
function marksRead(
  job: Job,
  { after }: TrialReadings,
  { aboard, before }: TrialDoubts,
  counts: ReadonlyMap<string, number>,
  down: { forward: number; aft: number },
): MarksRead | null {
  const wanted = draughtsFor(job, down, before);
  if (aboard !== '' || wanted.forward === null || wanted.aft === null) return null;
  return { counts, forward: 100 * (after.forward - wanted.forward), aft: 100 * (after.aft - wanted.aft) };
}

/** Which kept reading a figure is that stands in a field. */
function keptOf(asked: TrialPage['asked'], { before, after }: TrialPair): TrialPage['kept'] {
  const sources: Partial<Record<ReadingName, [Taken | null, (reading: Reading) => number | null]>> = {
    beforeForward: [before, ({ forward }) => forward],
    beforeAft: [before, ({ aft }) => aft],
    afterForward: [after, ({ forward }) => forward],
    afterAft: [after, ({ aft }) => aft],
    period: [after, ({ period }) => period],
  };
  return Object.fromEntries(
    READINGS.map((name) => {
      const [taken, of] = sources[name] ?? [null, () => null];
      const is = taken !== null && asked[name].value !== null && of(taken.reading) === asked[name].value;
      return [name, is ? `as read on ${taken.reading.on}, ${numberWords(taken)}` : ''];
    }),
  ) as TrialPage['kept'];
}

/** What stays in whatever was read: where more than the fixed part was in, the trim part may come out again. */
function leastOf(job: Job, plan: Plan, counts: ReadonlyMap<string, number>): Map<string, number> {
  const fixed = firstPart(job, plan, job.aims.fixedShare).counts;
  return new Map([...counts].map(([name, count]) => [name, Math.min(count, fixed.get(name) ?? count)]));
}

/** The marks of those that go in before the trial. */
function firstOf(plan: Plan, counts: ReadonlyMap<string, number>): string[] {
  return plan.bundles.filter((own) => own.order <= (counts.get(own.void) ?? 0)).map(({ bundle }) => bundle);
}

/** What is in and not counted, and, once marks are compared, what is counted and not in; '' of a plan of which nothing is in. */
function recordTold(plan: Plan, first: ReadonlySet<string>, isIn: ReadonlySet<string>, compared: boolean): string {
  if (isIn.size === 0) return '';
  const ranges = (some: string[]) => markRanges(some.sort(byMark)).join(', ');
  const marks = plan.bundles.map(({ bundle }) => bundle);
  const over = marks.filter((bundle) => isIn.has(bundle) && !first.has(bundle));
  const lacking = compared ? marks.filter((bundle) => first.has(bundle) && !isIn.has(bundle)) : [];
  return [
    ...(over.length > 0 ? [`By the record these are in, too, and are not counted here: ${ranges(over)}.`] : []),
    ...(lacking.length > 0 ? [`By the record these are counted here and not in: ${ranges(lacking)}.`] : []),
  ].join(' ');
}

function toMendOf(share: Asked, asked: TrialPage['asked']): Wanted[] {
  const faulty = READINGS.filter((name) => asked[name].faulty);
  return [
    ...(share.faulty ? [mendOne('share', SHARE_FIELD.label, share.fault)] : []),
    ...faulty.map((name) => mendOne(name, TRIAL_FIELDS[name].label, asked[name].fault)),
  ];
}

/** What a field holds before anything is typed: what was read and kept, else her draughts as stated; the marks wanted, else those that the whole plan forecasts. */
function usual(name: ReadingName, job: Job, plan: Plan, vessel: Vessel, { before, after }: TrialPair): string {
  if (name === 'beforeForward') return String(before?.reading.forward ?? vessel.draughtForward ?? '');
  if (name === 'beforeAft') return String(before?.reading.aft ?? vessel.draughtAft ?? '');
  if (name === 'afterForward') return String(after?.reading.forward ?? '');
  if (name === 'afterAft') return String(after?.reading.aft ?? '');
  if (name === 'period') return String(after?.reading.period ?? '');
  if (name !== 'wantForward' && name !== 'wantAft') return '';
  const wanted = wantedDown(job, plan);
  if (!wanted) return '';
  const cm = name === 'wantForward' ? wanted.forward : wanted.aft;
  return wanted.asked ? String(cm) : cm.toFixed(1);
}

function usualShare(job: Job): number {
  return Number((100 * job.aims.fixedShare).toFixed(4));
}

/** Of a share that can not be, nothing is concluded: what is shown is then that of the job. */
function shareDoubtOf(job: Job, share: Asked): string {
  if (!share.faulty) return '';
  return `A share of each void is from 0 to 100 %, and “${share.text.trim()}” is none: what is told here is for the ${usualShare(job)} % of the job.`;
}

/** Readings of one end that do not go together: neither counts, and each says so beside its field. */
function doubted(asked: TrialPage['asked']): TrialPage['asked'] {
  const ends = [
    ['beforeForward', 'afterForward'],
    ['beforeAft', 'afterAft'],
  ] as const;
  for (const [first, then] of ends) {
    const [before, after] = [asked[first].value, asked[then].value];
    if (goTogether(before, after)) continue;
    const doubt = {
      value: null,
      faulty: true,
      fault: `${before} m before and ${after} m with these in do not go together.`,
      remedy: 'Draughts are in metres, and read from the same mark both times.',
    };
    asked[first] = { ...asked[first], ...doubt };
    asked[then] = { ...asked[then], ...doubt };
  }
  return asked;
}

/** Null while marks of both ends do not stand there both times. */
function readingsOf(asked: TrialPage['asked']): TrialReadings | null {
  const { beforeForward, beforeAft, afterForward, afterAft, period } = asked;
  if (beforeForward.value === null || beforeAft.value === null) return null;
  if (afterForward.value === null || afterAft.value === null) return null;
  return {
    before: { forward: beforeForward.value, aft: beforeAft.value },
    after: { forward: afterForward.value, aft: afterAft.value },
    ...(period.value === null ? {} : { period: period.value }),
  };
}

function isDoubted(doubts: TrialDoubts | null, result: TrialResult | null): boolean {
  return (
    (doubts !== null && (doubts.against !== null || doubts.aboard !== '')) ||
    Object.keys(result?.doubtful ?? {}).length > 0
  );
}

function voidsOf(
  job: Job,
  plan: Plan,
  counts: ReadonlyMap<string, number>,
  inTheEnd: ReadonlyMap<string, number> | null,
): TrialVoid[] {
  const names = new Map(job.voids.map((space) => [space.void, space.name]));
  return plan.voids.map((placed) => {
    const bundles = plan.bundles.filter((bundle) => bundle.void === placed.void).sort((p, q) => p.order - q.order);
    const first = bundles.slice(0, counts.get(placed.void) ?? 0);
    return {
      void: placed.void,
      name: names.get(placed.void) ?? '',
      first: first.length,
      all: bundles.length,
      last: first.at(-1)?.bundle ?? null,
      mass: first.reduce((sum, bundle) => sum + bundle.mass, 0),
      inTheEnd: inTheEnd?.get(placed.void) ?? null,
    };
  });
}
