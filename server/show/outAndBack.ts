/** What a survey tells over all voids, or those chosen: what comes out next, what goes back next, and how she floats on the way. */
import { breakOutOf, type OutStep } from '../../src/balance/breakOut.ts';
import { wayBack } from '../../src/balance/wayBack.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Job, Void } from '../../src/job/job.ts';
import { chocksOf } from '../../src/plan/chocks.ts';
import type { WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { Recorded } from '../../src/plan/record.ts';
import { markRanges } from '../../src/plan/stops.ts';
import { BREAK_OUT_WORDS, coveredLines, STOWAGE_WORDS } from '../paper/stowageWords.ts';
import { heldBy } from './beforeOut.ts';

/** So many are told: one that is passed over stays first, and what comes after it is in sight. */
const TOLD = 3;

export interface OutLine extends OutStep {
  /** Number of the bundle in the plan's list, from 0. */
  index: number;
  /** What comes off or out before it, `its hold-down (2 straps) and chock V1/1/2a`; empty where nothing does. */
  before: string;
  /** What goes in and on after it on the way back; empty where nothing does. */
  after: string;
  /** What the scale or the plan says, kg. */
  mass: number;
}

export interface OutAndBack {
  /** The first to come out first. */
  lines: OutLine[];
  /** The first of those that are in, and those out that go back first. */
  next: OutLine[];
  back: OutLine[];
  /** Of each that is out and can not go back yet, what comes out first. */
  covered: string[];
  mass: number;
  /** What is to be read now that a quarter is out, or back; null where nothing is. */
  marks: { words: string; floats: string | null } | null;
  listGreatest: number | null;
  listMost: number | null;
  /** What is said of each quarter. */
  quarters: readonly string[];
  barred: { upper: string; lower: string[] }[];
  /** What is to be said where some came out before their turn; null where none did. */
  strayed: string | null;
  /** What keeps the choice of voids in an address: `&only=0&only=3`; empty where none is chosen. */
  only: string;
  /** Voids of which something was ever in, with their numbers in the plan's list. */
  choice: { index: number; void: string; name: string; chosen: boolean }[];
}

/** Null where nothing of the plan is in or out. `chosen` are numbers of voids in the plan's list; none of them stands for all. */
export function outAndBack(
  job: Job,
  plan: Plan,
  record: Recorded,
  masses: WeighedMasses,
  chosen: readonly number[],
): OutAndBack | null {
  const moved = new Set(
    plan.bundles.filter((one) => (record.get(one.bundle)?.state ?? 'not in') !== 'not in').map((one) => one.void),
  );
  const choice = plan.voids.flatMap((told, index) => {
    const name = job.voids.find((space) => space.void === told.void)?.name ?? '';
    return moved.has(told.void) ? [{ index, void: told.void, name, chosen: chosen.includes(index) }] : [];
  });
  if (choice.length === 0) return null;
  const only = choice.filter((one) => one.chosen);
  const told = breakOutOf(job, plan, record, masses, only.length > 0 ? only.map((one) => one.void) : undefined);
  const indices = new Map(plan.bundles.map(({ bundle }, index) => [bundle, index]));
  const chocks = chocksByBundle(job, plan);
  const lines = told.steps.map((step) => ({
    ...step,
    index: indices.get(step.bundle.bundle)!,
    mass: step.bundle.mass,
    ...around(step, chocks.get(step.bundle.bundle) ?? [], heldBy(job.voids.find(isOf(step)))),
  }));
  const { back, covered } = wayBack(lines);
  return {
    ...told,
    strayed: told.outOfTurn.length === 0 ? null : BREAK_OUT_WORDS.outOfTurn(markRanges(told.outOfTurn).join(', ')),
    lines,
    listMost: job.aims.listMost ?? null,
    quarters: STOWAGE_WORDS.quartersOut,
    next: lines.filter(({ isOut }) => !isOut).slice(0, TOLD),
    back: back.slice(0, TOLD),
    covered: coveredLines(covered),
    marks: marksAt(lines),
    only: only.map(({ index }) => `&only=${index}`).join(''),
    choice,
  };
}

const isOf =
  ({ bundle }: OutStep) =>
  (space: Void): boolean =>
    space.void === bundle.void;

/** Chocks by their marks, and the hold-down where its void is opened by this bundle. */
function around({ opens }: OutStep, chocks: readonly string[], held: string): Pick<OutLine, 'before' | 'after'> {
  const own = chocks.length === 0 ? [] : [`${chocks.length === 1 ? 'its chock' : 'chocks'} ${chocks.join(', ')}`];
  const hold = held === '' ? 'whatever holds it' : `its hold-down (${held})`;
  return {
    before: (opens ? [hold, ...own] : own).join(' and '),
    after: (opens ? [...own, `${hold} again`] : own).join(' and '),
  };
}

/** Where all up to a quarter are out and no other: the same marks on the way out and back. */
export function marksAt(lines: readonly OutStep[]): OutAndBack['marks'] {
  const at = lines.findIndex(({ isOut }) => !isOut);
  const out = at < 0 ? lines.length : at;
  const last = lines[out - 1];
  if (!last || last.quarter === null || lines.slice(out).some(({ isOut }) => isOut)) return null;
  return { words: STOWAGE_WORDS.quartersOut[last.quarter - 1] ?? '', floats: last.floats };
}

function chocksByBundle(job: Job, plan: Plan): Map<string, string[]> {
  const bundles = new Map(plan.bundles.map((one) => [`${one.order} ${one.void}`, one.bundle]));
  const marks = new Map<string, string[]>();
  for (const space of job.voids)
    for (const { after, mark } of chocksOf(laidVoid(space, plan), plan)) {
      const bundle = bundles.get(`${after} ${space.void}`);
      if (bundle) marks.set(bundle, [...(marks.get(bundle) ?? []), mark]);
    }
  return marks;
}
