/** What is posted to the record: ticks of what is in, and what a survey lifted out, put back and saw. */
import { dayOf } from '../../src/plan/history.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { type Entry, type Recorded, recordIn, type What } from '../../src/plan/record.ts';
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
 * shown is written: what came in since from another phone stays, and a form that is sent twice writes once. `at.N`
 * is when it was ticked, where the page could not be kept at once. `whole` is the number of a void that is in as a whole.
 */
export function readTicks(form: Posted, plan: Plan, record: Recorded, now: string): ReadTicks {
  const whole = plan.voids.find((_, index) => form.get('whole') === String(index))?.void;
  const entries: Entry[] = [];
  const refused = new Map<string, Refused>();
  for (const [n, { bundle, void: space }] of plan.bundles.entries()) {
    const { state, lies } = recordIn(record, bundle);
    const at = momentOf(form.get(`at.${n}`), now);
    const isTicked = form.has(`in.${n}`) || space === whole;
    const wasTicked = form.has(`was.${n}`);
    if (isTicked && (!wasTicked || space === whole) && state !== 'in')
      entries.push({ bundle, what: 'in', note: '', at });
    if (!isTicked && wasTicked && state === 'in') entries.push({ bundle, what: 'undone', note: '', at });
    const note = form.get(`lies.${n}`);
    if (note === undefined || tidy(note) === tidy(form.get(`told.${n}`) ?? '')) continue;
    const fault = noteFault(note);
    if (fault) refused.set(bundle, fault);
    else if (tidy(note) !== lies) entries.push({ bundle, what: 'lies', note: tidy(note), at });
  }
  return { entries, refused };
}

/** Ticks that waited for a connection longer than this count from when they came, ms. */
const LONGEST_WAIT = 14 * 24 * 3600 * 1000;

/** When something was ticked: as told, unless that can not be. */
function momentOf(told: string | undefined, now: string): string {
  if (told === undefined || !/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/.test(told)) return now;
  const wait = Date.parse(now) - Date.parse(told);
  return wait >= 0 && wait <= LONGEST_WAIT ? told : now;
}

const ACTS: Record<string, What> = { out: 'out', in: 'in', seen: 'seen', undone: 'undone' };

export interface ReadSurvey {
  entries: Entry[];
  /** In sentences with their remedy; where there is one nothing is written. */
  faults: Refused[];
}

/**
 * `pick.N` is there for bundle N, `void.I` for void I as a whole, of which those count that the act can be done with;
 * `on` is the day, `seen` what was seen, `do` the act. `now` is the ISO time,
 * `today` the day where the server is; the two may be of different days.
 */
export function readSurvey(form: Posted, plan: Plan, record: Recorded, now: string, today: string): ReadSurvey {
  const what = ACTS[form.get('do') ?? ''] ?? 'seen';
  const note = tidy(form.get('seen') ?? '');
  const day = (form.get('on') ?? '').trim() || today;
  const faults: Refused[] = [];
  const tell = (typed: string, message: string, remedy: string) => faults.push({ typed, message, remedy });
  const tooLong = noteFault(form.get('seen') ?? '');
  if (tooLong) faults.push(tooLong);
  if (what === 'seen' && note === '')
    tell('', 'Nothing is said of what was seen.', 'Type it, or choose what was done with the bundles.');
  if (!isDay(day)) tell(day, `“${day.slice(0, 40)}” is no day.`, 'Give year, month and day, such as 2029-05-04.');
  else if (day > today) tell(day, `${day} is still to come.`, 'Give the day on which it was done.');
  const { picked, unfit } = pick(form, plan, record, what);
  const isPast = isDay(day) && day < today;
  const before = picked.find(({ bundle }) => isPast && day < dayOf(recordIn(record, bundle).since ?? day));
  if (before && what !== 'seen' && what !== 'undone')
    tell(
      day,
      `${before.bundle} was last moved on ${dayOf(recordIn(record, before.bundle).since ?? '')}, after that day.`,
      'Give a later day, or leave that bundle unticked.',
    );
  for (const { bundle } of unfit) tell(bundle, ...unfitWords(bundle, what));
  if (picked.length === 0 && unfit.length === 0)
    tell('', 'No bundle is ticked with which that can be done.', 'Tick bundles, or a whole void, and choose again.');
  const at = isPast ? day : now;
  return { entries: faults.length > 0 ? [] : picked.map(({ bundle }) => ({ bundle, what, note, at })), faults };
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

function fitsState(state: 'in' | 'out' | 'not in', what: What): boolean {
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

function noteFault(note: string): Refused | null {
  if (tidy(note).length <= NOTE_LONGEST) return null;
  return {
    typed: note,
    message: `These are ${tidy(note).length} letters, and a note has at most ${NOTE_LONGEST}: it was not kept.`,
    remedy: 'Say it shorter, or say the rest another day.',
  };
}

/** On one line, without what can not be printed. */
function tidy(note: string): string {
  return note.replaceAll(/[\p{Cc}\s]+/gu, ' ').trim();
}

function isDay(text: string): boolean {
  if (!/^\d{4}-\d\d-\d\d$/.test(text)) return false;
  const at = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(at.getTime()) && at.toISOString().slice(0, 10) === text;
}
