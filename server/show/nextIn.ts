/** What goes in next by the loading sequence over all voids, as the record stands. */
import { breakOutOf } from '../../src/balance/breakOut.ts';
import { loadingOf } from '../../src/balance/loading.ts';
import { wayBack } from '../../src/balance/wayBack.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Job } from '../../src/job/job.ts';
import { calloutsOf } from '../../src/lift/callouts.ts';
import { chocksOf } from '../../src/plan/chocks.ts';
import type { WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { type Recorded, recordIn } from '../../src/plan/record.ts';
import { coveredLines, STOWAGE_WORDS } from '../paper/stowageWords.ts';
import { marksAt } from './outAndBack.ts';

/** So many are told: one that is passed over stays first, and what comes after it is in sight. */
const TOLD = 3;

export interface NextIn {
  /** `index`: number in the plan's list, from 0; `heavy`: what it is too heavy for one person for; null where it is not. */
  bundles: { index: number; bundle: PlanBundle; mass: number; chocks: string[]; heavy: string | null }[];
  /** Voids of these into which part of the way is outside the lifting method. */
  outside: string[];
  /** What is to be read before the first of them, and how she should then float; null where nothing is. */
  marks: { words: string; floats: string | null; against: string } | null;
  /** It is time for the trial. */
  trial: boolean;
  /** They were in before: they go back. */
  isBack: boolean;
  /** Of each that is out and can not go back yet, what comes out first. */
  covered: string[];
}

/**
 * Null where all are in but what the trial left ashore. `masses` are kg off the scale by bundle. Once all were in, what is out goes back in the opposite
 * order to that in which a survey has it come out. `stands` are the marks of all that goes in by this plan, where what was
 * left of it is planned anew.
 */
export function nextIn(
  job: Job,
  plan: Plan,
  record: Recorded,
  masses: WeighedMasses,
  stands: ReadonlySet<string> | null = null,
): NextIn | null {
  const isAshore = (bundle: string) => recordIn(record, bundle).ashore || stands?.has(bundle) === false;
  if (plan.bundles.every(({ bundle }) => isAshore(bundle) || recordIn(record, bundle).state !== 'not in'))
    return nextBack(job, plan, record, masses);
  const all = loadingOf(job, plan, masses);
  const steps = all.filter(({ bundle }) => !isAshore(bundle.bundle));
  const isIn = ({ bundle }: PlanBundle) => recordIn(record, bundle).state === 'in';
  const at = steps.findIndex(({ bundle }) => !isIn(bundle));
  if (at < 0) return null;
  const moved = all
    .map(({ bundle }) => ({ bundle, isOut: recordIn(record, bundle.bundle).state === 'out' }))
    .filter(({ bundle, isOut }) => isOut || isIn(bundle));
  const { back, covered } = wayBack(moved.reverse());
  const isStuck = (bundle: PlanBundle) =>
    recordIn(record, bundle.bundle).state === 'out' && !back.some((one) => one.bundle === bundle);
  const waiting = steps.slice(at).filter(({ bundle }) => !isIn(bundle));
  // Once what comes later is in, the moment to read is over.
  const before = waiting.length === steps.length - at ? steps[at - 1] : undefined;
  const trial = before?.lastOfFirst ?? false;
  const quarter = before?.quarter ? (STOWAGE_WORDS.quarters[before.quarter - 1] ?? null) : null;
  // What is foretold is with all before it in, what the trial left ashore among it.
  const foretold = steps.length === all.length ? (before?.floats ?? null) : null;
  const words = trial ? 'The fixed part is in: go afloat, read the marks, time the roll. Then the rest.' : quarter;
  return {
    ...told(
      job,
      plan,
      waiting.filter(({ bundle }) => !isStuck(bundle)),
    ),
    marks: words === null ? null : { words, floats: foretold, against: 'before the first went in' },
    trial,
    isBack: false,
    covered: coveredLines(covered),
  };
}

function nextBack(job: Job, plan: Plan, record: Recorded, masses: WeighedMasses): NextIn | null {
  const { steps } = breakOutOf(job, plan, record, masses);
  const { back: waiting, covered } = wayBack(steps);
  if (waiting.length + covered.length === 0) return null;
  const marks = marksAt(steps);
  return {
    ...told(job, plan, waiting),
    marks: marks && {
      words: `${marks.words}: read the marks.`,
      floats: marks.floats,
      against: 'before the first came out',
    },
    trial: false,
    isBack: true,
    covered: coveredLines(covered),
  };
}

function told(job: Job, plan: Plan, waiting: readonly { bundle: PlanBundle }[]): Pick<NextIn, 'bundles' | 'outside'> {
  const heads = waiting.slice(0, TOLD).map(({ bundle }) => bundle);
  const lifts = calloutsOf(job, heads);
  return {
    bundles: heads.map((bundle, n) => ({
      index: plan.bundles.findIndex((own) => own.bundle === bundle.bundle),
      bundle,
      mass: bundle.mass,
      chocks: chocksAfter(job, plan, bundle),
      heavy: lifts[n]!.heavy,
    })),
    outside: [...new Set(heads.filter((_, n) => lifts[n]!.outside).map((bundle) => bundle.void))],
  };
}

/** Marks of the chocks that go in once a bundle lies. */
function chocksAfter(job: Job, plan: Plan, { void: name, order }: PlanBundle): string[] {
  const space = job.voids.find((own) => own.void === name);
  if (!space) return [];
  return chocksOf(laidVoid(space, plan), plan).flatMap(({ after, mark }) => (after === order ? [mark] : []));
}
