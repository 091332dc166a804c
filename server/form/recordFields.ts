/** What is posted to the record: ticks of what is in, and what a survey lifted out, put back and saw. */
import { dayOf } from '../../src/plan/history.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { type BundleRecord, type Entry, type Recorded, recordIn, recordOf, type What } from '../../src/plan/record.ts';
import { markRanges } from '../../src/plan/stops.ts';
import { localTime } from '../localTime.ts';
import type { Posted } from './apply.ts';

/** The longest note that is taken. */
export const NOTE_LONGEST = 500;

/** A text that was not taken, as it was typed. */
export interface Refused {
  typed: string;
  message: string;
  remedy: string;
}

export interface ReadTicks {
  entries: Entry[];
  /** By bundle. */
  refused: Map<string, Refused>;
}

/**
 * Fields of bundle N of the plan's list: `in.N` is there where it is ticked, `was.N` where it was ticked when the page was
 * shown, `lies.N` and `told.N` are its note and what that said when the page was shown. Only what differs from what was
 * shown is written: what came in since from another phone stays, and a form that is sent twice writes once. `ago.N` is how
 * long before it was sent it was ticked, ms, where it could not be sent at once; what was written of that bundle in the
 * meantime stands. `said.N` is the same of its note: what another wrote in the meantime stands, and the note that waited is
 * kept before it. `whole` is the number of a void that is in as a whole: all of it that goes in by this plan, which are those of `holds`
 * (marks) where what was left of it is planned anew. What is ticked by itself is written in any case: it was seen to lie there.
 */
export function readTicks(
  form: Posted,
  plan: Plan,
  record: Recorded,
  now: Date,
  holds: ReadonlySet<string> | null = null,
): ReadTicks {
  const whole = plan.voids.find((_, index) => form.get('whole') === String(index))?.void;
  const entries: Entry[] = [];
  const refused = new Map<string, Refused>();
  for (const [n, { bundle, void: space }] of plan.bundles.entries()) {
    const { state, lies, said, written } = recordIn(record, bundle);
    const ticked = new Date(now.getTime() - waitOf(form.get(`ago.${n}`)));
    const at = localTime(ticked);
    const isWhole = space === whole && holds?.has(bundle) !== false;
    const [isTicked, wasTicked] = [form.has(`in.${n}`) || isWhole, form.has(`was.${n}`)];
    const what = isTicked && (!wasTicked || isWhole) && state !== 'in' ? 'in' : 'undone';
    const differs = what === 'in' || (!isTicked && wasTicked && state === 'in');
    if (differs && !isOvertaken(ticked, written, now)) entries.push({ bundle, what, note: '', at });
    const note = form.get(`lies.${n}`);
    if (note === undefined || tidy(note) === tidy(form.get(`told.${n}`) ?? '')) continue;
    const fault = noteFault(note);
    if (fault) refused.set(bundle, fault);
    else if (tidy(note) !== lies) {
      const typed = new Date(now.getTime() - waitOf(form.get(`said.${n}`)));
      entries.push(...liesEntries(bundle, { note: tidy(note), typed }, { note: lies, at: said }, now));
    }
  }
  return { entries, refused };
}

/** The last one counts: where another was said after this one was typed, that one is said again. */
function liesEntries(
  bundle: string,
  { note, typed }: { note: string; typed: Date },
  standing: { note: string; at: string | null },
  now: Date,
): Entry[] {
  const entry: Entry = { bundle, what: 'lies', note, at: localTime(typed) };
  if (standing.at === null || !isOvertaken(typed, standing.at, now)) return [entry];
  return note === '' ? [] : [entry, { bundle, what: 'lies', note: standing.note, at: standing.at }];
}

/** A time still to come is of a clock that was put back since: it tells nothing. */
function isOvertaken(ticked: Date, written: string | null, now: Date): boolean {
  const since = Date.parse(written ?? '');
  return ticked.getTime() < since && since <= now.getTime();
}

/** Ticks that waited for a connection longer than this count from when they came, ms. */
const LONGEST_WAIT = 14 * 24 * 3600 * 1000;

/** How long ago something was ticked, ms: as told, unless that can not be. */
function waitOf(told: string | undefined): number {
  const wait = /^\d{1,12}$/.test(told ?? '') ? Number(told) : 0;
  return wait <= LONGEST_WAIT ? wait : 0;
}

const ACTS: ReadonlyMap<string, What> = new Map((['out', 'in', 'seen', 'undone'] as const).map((what) => [what, what]));

export interface SurveyFault {
  /** What it is about: the day, what was seen, or which are ticked. */
  field: 'on' | 'seen' | 'pick';
  message: string;
  remedy: string;
}

export interface ReadSurvey {
  entries: Entry[];
  /** Where there is one nothing is written. */
  faults: SurveyFault[];
}

/**
 * `pick.N` is there for bundle N, `void.I` for void I as a whole, of which those count that the act can be done with;
 * `on` is the day, `seen` what was seen, `do` the act, `entries` how many were written when the page was shown: sent twice,
 * a mistake taken back would take back what was right before it.
 */
export function readSurvey(form: Posted, plan: Plan, written: readonly Entry[], now: Date): ReadSurvey {
  const record = recordOf(written);
  const what = ACTS.get(form.get('do') ?? '') ?? 'seen';
  const today = dayOf(localTime(now));
  const note = tidy(form.get('seen') ?? '');
  const day = (form.get('on') ?? '').trim() || today;
  const faults: SurveyFault[] = [];
  const tell = (field: SurveyFault['field'], message: string, remedy: string) =>
    faults.push({ field, message, remedy });
  const tooLong = noteFault(form.get('seen') ?? '');
  if (tooLong) tell('seen', tooLong.message, tooLong.remedy);
  if (what === 'seen' && note === '')
    tell('seen', 'Nothing is said of what was seen.', 'Type it, or choose what was done with the bundles.');
  if (!isDay(day)) tell('on', `“${day.slice(0, 40)}” is no day.`, 'Give year, month and day, such as 2029-05-04.');
  else if (day > today) tell('on', `${day} is still to come.`, 'Give the day on which it was done.');
  const { picked, unfit } = pick(form, plan, record, what);
  const isPast = isDay(day) && day < today;
  if (isPast && (what === 'out' || what === 'in')) faults.push(...tooEarly(day, picked, record));
  if (what === 'undone' && form.get('entries') !== String(written.length))
    tell('pick', 'The record was written to since this page was shown.', 'Look at what it says now, and choose again.');
  for (const { bundle } of unfit) tell('pick', ...unfitWords(bundle, what));
  if (picked.length === 0 && unfit.length === 0)
    tell(
      'pick',
      'No bundle is ticked with which that can be done.',
      'Tick bundles, or a whole void, and choose again.',
    );
  const at = isPast && what !== 'undone' ? day : localTime(now);
  return { entries: faults.length > 0 ? [] : picked.map(({ bundle }) => ({ bundle, what, note, at })), faults };
}

/** What was moved after `day` can not have been moved on it, a fault for each later day. */
function tooEarly(day: string, picked: readonly PlanBundle[], record: Recorded): SurveyFault[] {
  const moved = new Map<string, string[]>();
  for (const { bundle } of picked) {
    const on = dayOf(recordIn(record, bundle).since ?? day);
    if (day < on) moved.set(on, [...(moved.get(on) ?? []), bundle]);
  }
  return [...moved].map(([on, marks]) => ({
    field: 'on',
    message: `${markRanges(marks).join(', ')} ${marks.length === 1 ? 'was' : 'were'} last moved on ${on}, after that day.`,
    remedy: 'Give a later day, or leave unticked what was moved since.',
  }));
}

function pick(form: Posted, plan: Plan, record: Recorded, what: What): { picked: PlanBundle[]; unfit: PlanBundle[] } {
  const whole = new Set(plan.voids.filter((_, index) => form.has(`void.${index}`)).map((told) => told.void));
  const ticked = plan.bundles.filter((_, n) => form.has(`pick.${n}`));
  const fits = ({ bundle }: PlanBundle) => fitsState(recordIn(record, bundle).state, what);
  return {
    picked: plan.bundles.filter((bundle) => fits(bundle) && (ticked.includes(bundle) || whole.has(bundle.void))),
    unfit: ticked.filter((bundle) => !fits(bundle)),
  };
}

function fitsState(state: BundleRecord['state'], what: What): boolean {
  if (what === 'out') return state === 'in';
  if (what === 'in') return state === 'out';
  return what === 'undone' ? state !== 'not in' : true;
}

function unfitWords(bundle: string, what: What): [message: string, remedy: string] {
  if (what === 'out') return [`${bundle} is not in by the record: it can not be lifted out.`, 'Leave it unticked.'];
  if (what === 'in')
    return [
      `${bundle} is not out by the record: it can not be put back.`,
      'Leave it unticked; what goes in for the first time is ticked under “Stowed so far”.',
    ];
  return [`Nothing is written of ${bundle} that could be taken back.`, 'Leave it unticked.'];
}

export function noteFault(note: string): Refused | null {
  if (tidy(note).length <= NOTE_LONGEST) return null;
  return {
    typed: note,
    message: `These are ${tidy(note).length} letters, and a note has at most ${NOTE_LONGEST}: it was not kept.`,
    remedy: 'Say it shorter, or say the rest another day.',
  };
}

/** On one line, without what can not be printed. */
export function tidy(note: string): string {
  return note.replaceAll(/[\p{Cc}\s]+/gu, ' ').trim();
}

/** Whether a text is a day as a form of this house has it: `2026-05-04`. */
export function isDay(text: string): boolean {
  if (!/^\d{4}-\d\d-\d\d$/.test(text)) return false;
  const at = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(at.getTime()) && at.toISOString().slice(0, 10) === text;
}
