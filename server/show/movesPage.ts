/** What the page “Trim her by moving” of a plan shows: how she floats, what is wanted, and the few moves that bring her nearest. */
import type { FloatsBefore } from '../../src/balance/againstRecord.ts';
import type { AgainstWords } from '../../src/balance/againstWords.ts';
import { amount } from '../../src/balance/amount.ts';
import { effectOf } from '../../src/balance/float.ts';
import { hydrostaticsOf } from '../../src/balance/hydrostatics.ts';
import { type Moments, sumMoments, type Weight, weightsByVoid } from '../../src/balance/moments.ts';
import { sideWords, tangentOf } from '../../src/balance/present.ts';
import { known, mapRange, overCorners, type Range } from '../../src/balance/range.ts';
import { stiffnessWith } from '../../src/balance/readList.ts';
import type { Taken } from '../../src/balance/taken.ts';
import { readWords } from '../../src/balance/takenWords.ts';
import { marksAfter } from '../../src/balance/trialRest.ts';
import { type Act, type Proposal, trimMoves, trimOn } from '../../src/balance/trimMoves.ts';
import { wantedDraughts } from '../../src/balance/wantedMarks.ts';
import { holdDownOf } from '../../src/hold/holdDown.ts';
import type { Job, Vessel } from '../../src/job/job.ts';
import { addedContents } from '../../src/plan/contents.ts';
import { atMassNow } from '../../src/plan/massNow.ts';
import { movedPlan, type Place, type Shift } from '../../src/plan/moved.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { type Entry, type Recorded, recordIn } from '../../src/plan/record.ts';
import { byMark, markRanges } from '../../src/plan/stops.ts';
import { mendOne, type Wanted } from '../form/wanted.ts';
import { type Asked, readFigure, readListNow } from './askedFigures.ts';
import { againstOf, doubted, isAsRead } from './movesMarks.ts';

const DEPTH = { least: 0.01, most: 10 };
export const MOVES_FIELDS = {
  list: { label: 'She lists now', unit: '' },
  forward: { label: 'Draught now, fore end', unit: 'm' },
  aft: { label: 'Draught now, after end', unit: 'm' },
  wantForward: { label: 'Wanted at the fore end', unit: 'm' },
  wantAft: { label: 'Wanted at the after end', unit: 'm' },
} as const;
export type MovesName = keyof typeof MOVES_FIELDS;
const NAMES = Object.keys(MOVES_FIELDS) as MovesName[];

export interface ProposalView {
  /** What names it when it is written down as done. */
  key: string;
  acts: Act[];
  /** What is done, one after the other, in sentences. */
  steps: string[];
  /** How she should then float, in a sentence. */
  floats: string;
  /** What of it is outside of the plan's rules. */
  outside: string[];
  /** What has to be done besides, and what then no longer holds. */
  minds: string[];
}

export interface MovesPage {
  asked: Record<MovesName, Asked>;
  /** Beside each mark wanted that stands as it is wanted of her anyway: by what; '' beside the others. */
  usual: Record<'wantForward' | 'wantAft', string>;
  /** What of the plan is still to be stowed, which goes before moves, and what she then is; null where nothing is. */
  still: { count: number; marks: string; mass: number; floats: string } | null;
  toMend: Wanted[];
  /** Null while nothing is typed of how she floats. */
  proposals: ProposalView[] | null;
  /** More moves one after the other; null where two do it, or more would do no better. */
  on: ProposalView | null;
  /** Why something can not be reckoned, and what follows. */
  lacking: string[];
  assumed: string[];
  /** Where nothing was read with this plan in her: what was read last with a job before, and that in sentences. */
  earlier: { taken: Taken; words: string } | null;
  /** The reading that the fields stand as, and what was written to the record since. */
  read: Taken | null;
  since: string;
  /** Where what is gone by is otherwise than reckoned from the record; null where it is not. */
  against: AgainstWords | null;
  isIn: number;
}

interface Found {
  record: Recorded;
  /** kg off the scale, by bundle. */
  weighed: ReadonlyMap<string, number>;
  /** Marks of what goes in by this plan, where what was left of it is planned anew. */
  holds: ReadonlySet<string> | null;
  /** The last reading that counts with some of the plan in her. */
  read: Taken | null;
  /** The last reading that counts with a job before, of which this plan's is what was left. */
  earlier: Taken | null;
  /** How she floated before. */
  before: FloatsBefore;
}

/** Null where nothing is stated of the vessel. */
export function showMovesPage(
  job: Job,
  planned: Plan,
  typed: (name: string) => string | undefined,
  { record, weighed, holds, read, earlier, before }: Found,
): MovesPage | null {
  const { vessel } = job;
  if (!vessel) return null;
  const plan = { ...planned, bundles: atMassNow(planned.bundles, weighed) };
  const left = new Set(plan.bundles.flatMap(({ bundle }) => (holds?.has(bundle) === false ? [bundle] : [])));
  const foretold = wantedDraughts(job, planned, before);
  // Of a plan of which not all goes in what all of it would bring is not wanted.
  const wanted = left.size > 0 && !foretold?.asked ? null : foretold;
  const typedIn = askedOf(typed, read, wanted);
  const asked = doubted(typedIn, before);
  const slipped = asked !== typedIn;
  const isIn = new Set(plan.bundles.flatMap(({ bundle }) => (recordIn(record, bundle).state === 'in' ? [bundle] : [])));
  const present = plan.bundles.filter(({ bundle }) => isIn.has(bundle));
  const weights = [...weightsByVoid(job, { ...plan, bundles: present }).values()].flat();
  const now = floatsNow(job, vessel, weights, asked);
  const effect = effectOf(vessel, [...weights, ...addedContents(job)]);
  const since = sinceWords(read, isIn);
  const isOld = since !== '' && isAsRead(typedIn, read);
  const nothing =
    slipped ||
    isOld ||
    (asked.list.value === null &&
      (asked.wantForward.value === null || asked.forward.value === null) &&
      (asked.wantAft.value === null || asked.aft.value === null));
  const found = nothing || isIn.size === 0 ? null : trimMoves(job, plan, isIn, now.miss, left);
  const on = found && found.length > 0 ? trimOn(job, plan, isIn, now.miss, left) : null;
  const viewOf = ({ acts, change, outside }: Proposal): ProposalView => ({
    key: keyOf(acts),
    acts,
    steps: acts.flatMap(stepsOf),
    floats: sheShould(thenWords(vessel, now, asked, change)),
    outside,
    minds: mindsOf(job, planned, shiftsOf(acts), acts, weighed),
  });
  const lacking = [
    ...(slipped
      ? ['Nothing is proposed from marks that do not go together: mend the one that is wrong, now or before.']
      : []),
    ...(isOld ? ['Read her again first: moves are proposed from how she floats with what is in her now.'] : []),
    ...(asked.list.value !== null && now.stiffness === null && effect.stability.kind === 'none'
      ? [`Her list is not counted: ${effect.stability.why} ${effect.stability.remedy}`]
      : []),
    ...(effect.marks.kind === 'none' ? [`${effect.marks.why} ${effect.marks.remedy}`] : []),
  ];
  return {
    asked,
    toMend: NAMES.filter((name) => asked[name].faulty).map((name) =>
      mendOne(name, MOVES_FIELDS[name].label, asked[name].fault),
    ),
    proposals: found?.map(viewOf) ?? null,
    on: on && viewOf(on),
    lacking,
    assumed: effect.assumed,
    read,
    earlier: read === null && earlier ? { taken: earlier, words: readWords(earlier.reading).join(' ') } : null,
    since,
    against:
      isIn.size === 0 ? null : againstOf(job, plan, weights, asked, isAsRead(typedIn, read) ? read : null, before),
    isIn: isIn.size,
    usual: {
      wantForward: usualOf(asked.wantForward, wanted, 'forward'),
      wantAft: usualOf(asked.wantAft, wanted, 'aft'),
    },
    still: isIn.size === 0 ? null : stillOf(job, plan, { record, left }, weights, now, asked),
  };
}

type WantedDraughts = ReturnType<typeof wantedDraughts>;

function usualOf({ text }: Asked, wanted: WantedDraughts, end: 'forward' | 'aft'): string {
  if (text.trim() === '') return 'empty: as it is now';
  if (!wanted || text !== draughtText(wanted[end])) return '';
  return wanted.asked ? 'as the job wants it' : 'as the whole plan is foretold to bring it';
}

function draughtText(draught: number | null | undefined): string {
  return draught === null || draught === undefined ? '' : String(Number(draught.toFixed(3)));
}

/** What was never in, is not left ashore and still holds; null where that is nothing. */
function stillOf(
  job: Job,
  plan: Plan,
  { record, left }: { record: Recorded; left: ReadonlySet<string> },
  weights: readonly Weight[],
  { stiffness }: FloatsNow,
  asked: MovesPage['asked'],
): MovesPage['still'] {
  const bundles = plan.bundles.filter(({ bundle }) => {
    const { state, ashore } = recordIn(record, bundle);
    return state === 'not in' && !ashore && !left.has(bundle);
  });
  if (bundles.length === 0) return null;
  const more = [...weightsByVoid(job, { ...plan, bundles }).values()].flat();
  const change = sumMoments(more);
  const after = stiffness && stiffnessWith(job, job.vessel!, [...weights, ...more]);
  return {
    count: bundles.length,
    marks: markRanges(bundles.map(({ bundle }) => bundle).sort(byMark)).join(', '),
    mass: change.mass,
    floats: thenWords(job.vessel!, { stiffness, after }, asked, change),
  };
}

function askedOf(
  typed: (name: string) => string | undefined,
  read: Taken | null,
  wanted: WantedDraughts,
): MovesPage['asked'] {
  const { list = null, forward = null, aft = null } = read?.reading ?? {};
  const usual: Partial<Record<MovesName, string>> = {
    list: list === null ? '' : list === 0 ? '0' : `${Math.abs(list)} ${sideWords(list)}`,
    forward: String(forward ?? ''),
    aft: String(aft ?? ''),
    wantForward: draughtText(wanted?.forward),
    wantAft: draughtText(wanted?.aft),
  };
  const text = (name: MovesName) => typed(name) ?? usual[name] ?? '';
  return {
    list: readListNow(text('list')),
    forward: readFigure(text('forward'), 'm', DEPTH),
    aft: readFigure(text('aft'), 'm', DEPTH),
    wantForward: readFigure(text('wantForward'), 'm', DEPTH),
    wantAft: readFigure(text('wantAft'), 'm', DEPTH),
  };
}

interface FloatsNow {
  /** From what is wanted, cm; ends of which nothing is wanted are to stay as they are. */
  miss: { forward: number; aft: number; list: number };
  /** Displacement times GM as she floats, kg·m; null where her list is not typed, or it is not known. */
  stiffness: Range | null;
}

/** With S = W·GM as she floats, her list is a moment S·tan(list), which counts as the same moment of trim. */
function floatsNow(job: Job, vessel: Vessel, weights: readonly Weight[], asked: MovesPage['asked']): FloatsNow {
  const { kgmPerCm } = hydrostaticsOf(vessel);
  const stiffness = asked.list.value === null ? null : stiffnessWith(job, vessel, weights);
  const deep = (is: number | null, wanted: number | null) => (is === null || wanted === null ? 0 : 100 * (is - wanted));
  const moment = stiffness === null ? 0 : stiffness.likely * tangentOf(asked.list.value!);
  return {
    miss: {
      forward: deep(asked.forward.value, asked.wantForward.value),
      aft: deep(asked.aft.value, asked.wantAft.value),
      list: kgmPerCm ? moment / kgmPerCm.likely : 0,
    },
    stiffness,
  };
}

/** How she floats after a change of moments; '' where that can not be told. `after` is her stiffness then, where much is changed. */
function thenWords(
  vessel: Vessel,
  { stiffness, after = stiffness }: Pick<FloatsNow, 'stiffness'> & { after?: Range | null },
  asked: MovesPage['asked'],
  change: Moments,
): string {
  const marks = marksAfter(vessel, change);
  const ends = (['forward', 'aft'] as const).flatMap((end) => {
    if (!marks) return [];
    const now = asked[end].value;
    if (now !== null)
      return [
        `${amount(
          mapRange(marks[end], (cm) => now + cm / 100),
          3,
          'm',
        )} ${end}`,
      ];
    const up = marks[end].likely < 0;
    return [`${end} ${up ? 'up' : 'down'} ${amount(up ? mapRange(marks[end], (cm) => -cm) : marks[end], 1, 'cm')}`];
  });
  const list = listAfter(stiffness, after, asked.list.value, change);
  return [...ends, ...(list ? [listTold(list)] : [])].join(', ');
}

function sheShould(then: string): string {
  return then === '' ? 'What it does to her can not be told.' : `She should then be ${then}.`;
}

/** tan(list) = (S·tan(list now) + Σw·y)/S′; what S itself changes by a bundle or two is left out, S′ is S then. */
function listAfter(stiffness: Range | null, after: Range | null, list: number | null, change: Moments): Range | null {
  if (stiffness === null || after === null || list === null || stiffness.low <= 0 || after.low <= 0) return null;
  const degrees = (tangent: number) => (Math.atan(tangent) * 180) / Math.PI;
  const more = after.likely / stiffness.likely;
  return overCorners({ stiffness, list: known(list) }, (v) =>
    degrees((tangentOf(v.list) + change.acrossMoment / v.stiffness) / more),
  );
}

function listTold(list: Range): string {
  if (Math.max(Math.abs(list.low), Math.abs(list.high)) < 0.1) return 'without list';
  const size = list.likely < 0 ? mapRange(list, (value) => -value) : list;
  return `listing ${amount(size, 1, '°')} ${sideWords(list.likely)}`;
}

function kg(mass: number): string {
  return `${Number(mass.toFixed(2))} kg`;
}

function whereOf({ void: name, run, tier }: Pick<PlanBundle, 'void' | 'run' | 'tier'>): string {
  return `${name}, run ${run}, tier ${tier}`;
}

function cornerOf({ along, across, up }: PlanBundle['at']): string {
  return `its corner ${along} mm along, ${across} mm across, ${up} mm up`;
}

function stepsOf(act: Act): string[] {
  const { bundle } = act;
  if (act.kind === 'ashore')
    return [`Lift ${bundle.bundle} (${kg(bundle.mass)}) out of ${bundle.void} and leave it ashore.`];
  if (act.kind === 'in')
    return [`Put ${bundle.bundle} (${kg(bundle.mass)}) in where it was planned: ${whereOf(bundle)}.`];
  if (act.kind === 'move') {
    const { to } = act.shift;
    return [
      `Move ${bundle.bundle} (${kg(bundle.mass)}) from ${whereOf(bundle)} to ${whereOf(to)}: ${cornerOf(to.at)}.`,
    ];
  }
  const { other } = act;
  return [
    `Lift out ${bundle.bundle} (${kg(bundle.mass)}, ${whereOf(bundle)}) and ${other.bundle} (${kg(other.mass)}, ${whereOf(other)}), and let them change places: each lies where the other lay.`,
  ];
}

/** What to look to besides: holds that are loosened, and those that then no longer carry. */
function mindsOf(
  job: Job,
  plan: Plan,
  shifts: readonly Shift[],
  acts: readonly Act[],
  weighed: ReadonlyMap<string, number>,
): string[] {
  const touched = new Set([...acts.map(({ bundle }) => bundle.void), ...shifts.map(({ to }) => to.void)]);
  const fitted = job.voids.filter((space) => space.holdDown && touched.has(space.void)).map((space) => space.void);
  const heldBy = (whole: Plan) =>
    new Set(holdDownOf(job, whole, weighed).flatMap((own) => (own.held ? [own.void] : [])));
  const [before, after] =
    shifts.length > 0 ? [heldBy(plan), heldBy(movedPlan(job, plan, shifts))] : [new Set(), new Set()];
  const lost = [...before].filter((name) => !after.has(name));
  return [
    ...(fitted.length > 0
      ? [
          `The hold-down of ${fitted.join(', ')} is loosened for it: fit it again, and have it looked at by a competent person.`,
        ]
      : []),
    ...(lost.length > 0 ? [`NOT SECURED: ${lost.join(', ')} would no longer be held by what is entered.`] : []),
  ];
}

export function shiftsOf(acts: readonly Act[]): Shift[] {
  return acts.flatMap((act) => (act.kind === 'move' ? [act.shift] : act.kind === 'exchange' ? act.shifts : []));
}

function keyOf(acts: readonly Act[]): string {
  return acts
    .map((act) => [act.kind, act.bundle.bundle, ...shiftsOf([act]).map(({ to }) => JSON.stringify(to))].join(' '))
    .join('; ');
}

/** `from V1, run 1, tier 2 to V3, run 2, tier 3`. */
export function movedWords(from: PlanBundle, to: Place): string {
  return `from ${whereOf(from)} to ${whereOf(to)}`;
}

/** What is written of it to the record. */
export function entriesOf(acts: readonly Act[], record: Recorded, at: string): Entry[] {
  const entry = (bundle: string, what: Entry['what'], note = ''): Entry => ({ bundle, what, note, at });
  return acts.flatMap((act): Entry[] => {
    const { bundle } = act.bundle;
    if (act.kind === 'ashore') return [entry(bundle, 'out'), entry(bundle, 'ashore')];
    if (act.kind === 'in')
      return [...(recordIn(record, bundle).ashore ? [entry(bundle, 'undone')] : []), entry(bundle, 'in')];
    const whole = act.kind === 'move' ? [act.bundle] : [act.bundle, act.other];
    return shiftsOf([act]).map(({ to }, i) => entry(whole[i]!.bundle, 'moved', movedWords(whole[i]!, to)));
  });
}

/** What went in or came out since she was read; '' where nothing did. */
function sinceWords(read: Taken | null, isIn: ReadonlySet<string>): string {
  if (!read) return '';
  const then = new Set(read.reading.aboard.bundles);
  const count = [...isIn].filter((mark) => !then.has(mark)).length + [...then].filter((mark) => !isIn.has(mark)).length;
  if (count === 0) return '';
  return `By the record ${count === 1 ? '1 bundle went in or came out' : `${count} bundles went in or came out`} since she was read as no. ${read.number}: read her again before you go by this.`;
}
