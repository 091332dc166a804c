/** The bound over every length is never under a plan, at whatever prices it is taken. */
import { describe, expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import type { LinearEngine } from '../../src/linear/model.ts';
import { Bounder } from '../../src/plan/bound.ts';
import { generate } from '../../src/plan/generate.ts';
import { firstLengths } from '../../src/plan/lengths.ts';
import { Master } from '../../src/plan/master.ts';
import type { Prices } from '../../src/plan/prices.ts';
import { berthsOf } from '../../src/plan/pricing.ts';
import { type Problem, problemOf } from '../../src/plan/problem.ts';
import { type Dice, throwDice } from '../bench/dice.ts';
import { bestOfOneLength, type OneLengthPlan } from './oneLength.ts';
import { tinyJob } from './tinyJobs.ts';

const SEEDS = Array.from({ length: 8 }, (_, i) => i + 1);

/** Prices at random: pieces worth up to a fifth more than their mass, loads up to a third of a kilogram a unit. */
function throwPrices(dice: Dice, problem: Problem, master: Master): Prices {
  return {
    pieces: problem.steels.map((steel) => {
      const lengths = [...new Set(Array.from({ length: dice.whole(1, 6) }, () => dice.whole(150, 900)))];
      lengths.sort((a, b) => a - b);
      return { lengths, worth: lengths.map((length) => (steel.heaviest * length * dice.stepped(0, 1.2, 0.01)) / 1000) };
    }),
    bars: new Float64Array(problem.barKinds.length),
    groups: new Float64Array(problem.spaces.length),
    loads: Float64Array.from(master.loadRows, () => dice.pick([0, 0, dice.stepped(0, 0.3, 0.01)])),
  };
}

/** The lowest bound at the master's own prices and at many random ones. */
function lowestBound(engine: LinearEngine, job: Job, dice: Dice, times: number): number {
  const problem = problemOf(job);
  const master = new Master(engine, problem);
  try {
    const lengths = firstLengths(problem, 100);
    lengths.forEach((own, steel) => {
      for (const length of own) master.addLength(steel, length);
    });
    const { prices } = generate(problem, master, berthsOf(problem), { lengths, rounds: 40, tolerance: 1e-3 });
    const bounder = new Bounder(problem);
    let least = bounder.at(master.loadRows, prices).value;
    for (let i = 0; i < times; i++)
      least = Math.min(least, bounder.at(master.loadRows, throwPrices(dice, problem, master)).value);
    return least;
  } finally {
    master.dispose();
  }
}

describe('the bound', () => {
  test.each(SEEDS)('is not under the best plan of one length (seed %i)', async (seed) => {
    const dice = throwDice(seed);
    const job = tinyJob(dice);
    const planted = bestOfOneLength(job, 3);
    const bound = lowestBound(await loadHighs(), job, dice, 3);
    expect(bound).toBeGreaterThan((planted?.value ?? 0) - 1e-6);
  });

  test('holds for plans that keep the centre and the spread asked for', async () => {
    const engine = await loadHighs();
    let tried = 0;
    for (const seed of SEEDS) {
      const dice = throwDice(seed);
      const free = tinyJob(dice, { caps: false });
      const planted = bestOfOneLength(free, 7);
      if (!planted) continue;
      tried++;
      const bound = lowestBound(engine, aimedAt(free, planted, dice), dice, 3);
      expect([seed, bound > planted.value - 1e-6]).toEqual([seed, true]);
    }
    expect(tried).toBeGreaterThan(6);
  });
});

/** The job with a centre and a spread that the plan just keeps. */
function aimedAt(job: Job, plan: OneLengthPlan, dice: Dice): Job {
  const { origin } = job.voids.find((place) => place.void === plan.void)!;
  const xs = plan.runs.map(({ middle, bundles }) => ({ x: origin.x + middle / 1000, bundles }));
  const x = xs.reduce((sum, run) => sum + run.x * run.bundles, 0) / plan.bundles;
  const lcf = x + dice.stepped(-0.5, 0.5, 0.1);
  const spread = Math.sqrt(xs.reduce((sum, run) => sum + (run.x - lcf) ** 2 * run.bundles, 0) / plan.bundles);
  const range: [number, number] = dice.chance(0.5) ? [x - 0.001, x + 0.4] : [x - 0.4, x + 0.001];
  return {
    ...job,
    vessel: { lcf },
    aims: { ...job.aims, centre: { x: range, y: [origin.y - 0.2, origin.y + 0.2] }, spread: spread + 0.001 },
  };
}
