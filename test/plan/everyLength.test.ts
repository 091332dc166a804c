/** The least bound over every length, sought by its own program: lower than where it set out, and never under a plan. */
import { describe, expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import { Bounder } from '../../src/plan/bound.ts';
import { leastBound } from '../../src/plan/everyLength.ts';
import { generate } from '../../src/plan/generate.ts';
import { firstLengths, takeIn } from '../../src/plan/lengths.ts';
import { Master } from '../../src/plan/master.ts';
import { berthsOf } from '../../src/plan/pricing.ts';
import { problemOf } from '../../src/plan/problem.ts';
import { throwDice } from '../bench/dice.ts';
import { keptBy } from '../keptBy.ts';
import { bestOfOneLength } from './oneLength.ts';
import { tinyJob } from './tinyJobs.ts';

const SEEDS = Array.from({ length: 8 }, (_, i) => i + 40);

/** The bound at the master's own prices, the least one, what was told on the way, and the lengths it uses. */
async function soughtFor(job: Job) {
  const engine = await loadHighs();
  const problem = problemOf(job);
  const master = new Master(engine, problem);
  try {
    const knots = firstLengths(problem, 150);
    knots.forEach((own, steel) => {
      for (const length of own) master.addLength(steel, length);
    });
    const { prices } = generate(problem, master, berthsOf(problem), { lengths: knots, rounds: 20, tolerance: 2e-2 });
    const bounder = new Bounder(problem);
    const start = bounder.at(master.loadRows, prices).value;
    const told: number[] = [];
    const options = { knots, mostLengths: 6, rounds: 8, tolerance: 1e-3, onBound: (value: number) => told.push(value) };
    const least = leastBound(engine, problem, bounder, master, prices, options);
    // What is taken in afterwards changes nothing of what was told.
    takeIn(knots, least.lengths);
    for (const own of knots) own.sort((a, b) => a - b);
    return { start, told, least, again: bounder.at(master.loadRows, least.prices).value };
  } finally {
    master.dispose();
  }
}

/** What is found for the tiny job of a seed. */
const sought = keptBy((seed: number) => soughtFor(tinyJob(throwDice(seed))));

describe('the least bound over every length', () => {
  test.each(SEEDS)('falls, is the bound at its own prices, and holds (seed %i)', async (seed) => {
    const planted = bestOfOneLength(tinyJob(throwDice(seed)), 3);
    const { told, least, again } = await sought(seed);
    expect(told).toEqual([...told].sort((a, b) => b - a));
    expect(least.value).toBe(told[told.length - 1]);
    expect(least.value).toBeCloseTo(again, 6);
    expect(least.value).toBeGreaterThan((planted?.value ?? 0) - 1e-6);
    for (const lengths of least.lengths) expect(lengths.size).toBeLessThanOrEqual(6);
  });

  test('is lower than where it set out in most jobs', async () => {
    let lower = 0;
    for (const seed of SEEDS) {
      const { start, least } = await sought(seed);
      if (least.value < start - 1e-3) lower++;
    }
    expect(lower).toBeGreaterThan(SEEDS.length / 2);
  });
});
