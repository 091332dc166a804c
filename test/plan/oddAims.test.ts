/** Aims that can hardly be kept, or not at all: jobs that broke the planner once, or lost a plan. */
import { expect, test } from 'vitest';
import { jobSchema } from '../../src/job/job.ts';
import type { PlanProgress } from '../../src/plan/planner.ts';
import { planJob } from '../../src/plan/planner.ts';
import { throwDice } from '../bench/dice.ts';
import { tinyInput } from './tinyJobs.ts';

const DIGEST = `sha256:${'0'.repeat(64)}`;

/** The tiny job of a seed with a centre asked for near its first void. */
function jobAt(seed: number, centre: (at: { x: number; y: number }) => object) {
  const input = tinyInput(throwDice(seed), { caps: seed % 2 === 0 });
  const { x = 0, y = 0 } = input.voids[0]!.origin!;
  return jobSchema.parse({ ...input, aims: { ...input.aims, centre: centre({ x, y }) } });
}

async function planned(job: ReturnType<typeof jobAt>) {
  const told: PlanProgress[] = [];
  const onProgress = (progress: PlanProgress) => void told.push(progress);
  const result = await planJob(job, { effort: 'quick', stops: 'free', jobDigest: DIGEST, onProgress });
  if (result.kind !== 'plan') throw new Error('nothing was placed');
  const missed = result.plan.cautions.filter(({ code }) => code === 'centre-missed');
  return { plan: result.plan, told: told.flatMap(({ plan }) => plan ?? []), missed };
}

test('a light stow whose centre is missed by little is told so by its masses before rounding', async () => {
  // Its first plan misses by 1.7 mm, and by masses told to a hundredth of a kilogram by nothing.
  const { told } = await planned(jobAt(21, ({ x }) => ({ x: [x + 2, x + 2.01] })));
  expect(told.length).toBeGreaterThan(0);
});

test('a plan that keeps the centre goes before a first one that gave it up, though it is worth less', async () => {
  const { told, missed } = await planned(jobAt(146, ({ x, y }) => ({ x: [x + 0.1, x + 0.2], y: [y, y + 0.001] })));
  expect(missed).toEqual([]);
  expect(told.length).toBeGreaterThan(0);
});

test.each([67, 80])(
  'plans that miss the centre are told as they are found, so that stopping keeps one (tiny job %i)',
  async (seed) => {
    const centre = ({ x, y }: { x: number; y: number }) =>
      seed === 67 ? { y: [y + 0.05, y + 0.06] } : { x: [x + 0.1, x + 0.2], y: [y, y + 0.001] };
    const { plan, told } = await planned(jobAt(seed, centre));
    expect(told.at(-1)?.bundles).toEqual(plan.bundles);
  },
);
