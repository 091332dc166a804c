/** One job's page, shown: its form with faults and drawings, its plans, and what is kept beside it. */
import type { Response } from 'express';
import { jobDigest } from '../../src/job/digest.ts';
import type { Job, Void } from '../../src/job/job.ts';
import { suggestLimit } from '../../src/lift/limit.ts';
import type { Context } from '../app.ts';
import type { Draft } from '../form/apply.ts';
import { differences } from '../form/differences.ts';
import { type DraftRead, readDraft } from '../form/draftRead.ts';
import { inPageWords, whereIn } from '../form/labels.ts';
import { listAt, parsePath, valueAt } from '../form/path.ts';
import { fullFault } from '../form/rows.ts';
import { type Slice, showForm, WHOLE } from '../form/show.ts';
import { sketchVoid, VIEWS, type VoidSketch } from '../form/sketch.ts';
import { type LotSketch, sketchLot } from '../form/sketchLot.ts';
import { pileSum, tellLot, tellPile } from '../form/sums.ts';
import { questionsOf, wantedOf } from '../form/wanted.ts';
import { keepLatest } from '../keepLatest.ts';
import { draftOf, unitsOf } from '../routes/request.ts';
import { keptWish, tellStopsAim } from '../routes/wish.ts';
import type { JobRow } from '../store/jobs.ts';
import type { PlanningRow } from '../store/plannings.ts';
import type { PlanRow } from '../store/plans.ts';
import { figure, type Words, wordsIn } from '../words.ts';
import { showBefore } from './afloat.ts';
import { inHerBeside, inHerBy } from './inHer.ts';
import { pagesOf } from './paging.ts';
import { isEdited } from './validity.ts';

/** Differences shown of two texts; the rest is counted. */
const DIFFERENCES_SHOWN = 40;
/** A longer pile, or more voids, are shown page by page. */
export const LOTS_SHOWN = 60;
export const VOIDS_SHOWN = 12;
/** Drawings kept at hand; one is drawn again only when what it shows was changed. */
const DRAWN = 400;
/** Jobs kept as read; one is read again only when its text was changed. */
const READ = 4;

export interface Showing {
  slice: Slice;
  saved: boolean;
  /** The page that was sent was of an older state, and said nothing new. */
  since: boolean;
  /** The first cuts have just been put in. */
  corrected: boolean;
  /** It has just been made of what is left of another. */
  left: boolean;
  /** A plan was asked for and not made, or deleting and not done: something lies in her by a plan of this job. */
  stays?: boolean;
  goes?: boolean;
  /** One more was asked for of a list that is full. */
  full?: 'pile' | 'voids' | null;
  /** A plan was asked for and refused. */
  refused?: boolean;
}

/**
 * Gives for a path of the job the query of the page that shows it, with the other list where it is; '' where it is the page
 * of `slice`, or stands on each.
 */
export function pageOfRow({ firstLot, firstVoid }: Pick<Slice, 'firstLot' | 'firstVoid'>): (path: string) => string {
  const here = { lot: Math.floor(firstLot / LOTS_SHOWN) + 1, void: Math.floor(firstVoid / VOIDS_SHOWN) + 1 };
  return (path) => {
    const [, list, index] = /^(pile|voids)\[(\d+)\]/.exec(path) ?? [];
    if (list === undefined) return '';
    const name = list === 'pile' ? 'lot' : 'void';
    const page = Math.floor(Number(index) / (list === 'pile' ? LOTS_SHOWN : VOIDS_SHOWN)) + 1;
    if (page === here[name]) return '';
    const kept = name === 'lot' ? 'void' : 'lot';
    return `?${here[kept] > 1 ? `${kept}=${here[kept]}&` : ''}${name}=${page}`;
  };
}

/** Returns what answers with the page of a job. */
export function jobShower({ store, planning }: Context): (response: Response, job: JobRow, showing: Showing) => void {
  const texts = keepLatest<string | null, { draft: Draft; read: DraftRead; digest: string }>(READ);
  const drawnVoids = keepLatest<string, VoidSketch>(DRAWN);
  const drawnLots = keepLatest<string, LotSketch>(DRAWN);

  return (response, job, showing) => {
    const body = store.jobs.body(job.id);
    const { draft, read, digest } = texts(body, () => readText(body));
    const whole = read.whole?.job ?? null;
    const units = unitsOf(store.settings, job.id);
    const words = wordsIn(units);
    const slice = { ...showing.slice, units };
    // Only of the newest it is told.
    const isNewestEdited = ({ serial, jobDigest: planned }: PlanRow) => {
      const plan = planned === digest ? null : store.plans.find(serial);
      return plan !== null && isEdited(store, plan);
    };
    const [lots, spaces] = [listAt(draft, ['pile']), listAt(draft, ['voids'])];
    const shown = showForm(draft, read, slice);
    const isWhole = lots.length <= LOTS_SHOWN && spaces.length <= VOIDS_SHOWN;
    // What is wrong on other pages is told in the words of its fields, too, which only they know.
    const all = isWhole || whole ? shown.all : showForm(draft, read, { ...WHOLE, blanks: 0, units }).all;
    const form = { ...shown, all };
    const full = showing.full ? fullFault(draft, showing.full) : null;
    const latest = store.plannings.latest(job.id);
    const wish = keptWish(store, job.id);
    response.render('job', {
      job,
      ...showing,
      full,
      slice,
      words,
      units,
      form,
      wanted: wantedOf(form, pageOfRow(slice)),
      questions: questionsOf(form, draft, pageOfRow(slice)),
      ...sumsOf(draft, whole, words),
      views: VIEWS,
      lotSketches: form.pile.map((_, n) => {
        const index = slice.firstLot + n;
        return drawnLots(JSON.stringify([units, index, lots[index], draft.saw]), () => sketchLot(draft, index, units));
      }),
      lotPages: pagesOf(lots.length, slice.firstLot, LOTS_SHOWN),
      voidPages: pagesOf(spaces.length, slice.firstVoid, VOIDS_SHOWN),
      sketches: form.voids.map((_, n) => {
        const index = slice.firstVoid + n;
        return drawnVoids(JSON.stringify([units, index, spaces[index]]), () =>
          sketchVoid(spaces[index], `voids-${index}`, undefined, ['aft'], units),
        );
      }),
      lifters: form.voids.map((_, n) => hasLift(spaces[slice.firstVoid + n])),
      restOf: store.rests.ofJob(job.id)?.plan ?? null,
      inHer: inHerBy(store, job.id),
      inHerBeside: inHerBeside(store, job.id),
      plans: store.plans.ofJob(job.id).map((plan, n) => ({ ...plan, edited: n === 0 && isNewestEdited(plan) })),
      before: whole ? showBefore(whole) : [],
      suggestions: form.voids.map((_, n) => {
        const text = whole && suggestionOf(whole, slice.firstVoid + n);
        return text && words.tell(text);
      }),
      progress: planning.progress(job.id),
      last: lastOf(latest, body, digest),
      wish,
      stopsAim: tellStopsAim(wish, draft),
      beside: store.jobs.beside(job.id).map((text) => besideView(draft, text)),
    });
  };
}

function readText(body: string | null): { draft: Draft; read: DraftRead; digest: string } {
  const draft = draftOf(body);
  const read = readDraft(draft);
  return { draft, read, digest: read.whole?.digest ?? jobDigest(draft) };
}

/** What came of the last planning, in the words of the page, and whether it was of another state of the job than `body`. */
export function lastOf(last: PlanningRow | null, body: string | null, digest: string) {
  if (!last) return null;
  const { state, plan, note } = last;
  const edited = last.jobBody !== body && jobDigest(draftOf(last.jobBody)) !== digest;
  return { state, plan, note: inPageWords(note), edited };
}

/** True where enough is told of how it is lifted there to draw it. */
function hasLift(space: unknown): boolean {
  return ['reach', 'start', 'end'].every((name) => typeof valueAt(space, ['handling', name]) === 'number');
}

/** What the way into a void suggests as a lift limit; null where nothing is told of it. */
function suggestionOf(job: Job, index: number): string | null {
  const space = job.voids[index] as Void;
  const { limit, text } = suggestLimit(job, space);
  if (limit === null) return space.handling || space.route ? text : null;
  if (limit > 0) return `Suggested: at most ${figure(limit, 1)} kg. ${text}`;
  return `Suggested: nothing at all. ${text}${space.limitByGuide ? ' Its limit follows the guide: nothing is placed here.' : ''}`;
}

/** The pile's sums in words: a line for each lot, and one for all. */
function sumsOf(draft: Draft, job: Job | null, words: Words): { lotSums: string[]; total: string } {
  const { lots, ...total } = pileSum(draft, job);
  return { lotSums: lots.map((lot) => (lot === null ? '' : tellLot(lot, words))), total: tellPile(total, words) };
}

function besideView(draft: Draft, text: { id: number; revision: number; body: string; savedAt: string }) {
  const other = draftOf(text.body);
  const all = differences(draft, other);
  const shown = all.slice(0, DIFFERENCES_SHOWN).map(({ path, ...two }) => {
    const of = valueAt(draft, (parsePath(path) ?? []).slice(0, 2)) === undefined ? other : draft;
    return { ...two, where: whereIn(of, path) };
  });
  return { ...text, differences: shown, more: all.length - shown.length };
}
