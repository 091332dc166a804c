/** What bars are worth at prices, held against the patterns that are priced one by one. */
import { describe, expect, test } from 'vitest';
import { jobSchema } from '../../src/job/job.ts';
import { BarsWorth } from '../../src/plan/barsWorth.ts';
import { pricePatterns } from '../../src/plan/pricing.ts';
import { throwDice } from '../bench/dice.ts';
import { tinyInput } from './tinyJobs.ts';
import { tinyMaster } from './tinyMaster.ts';

const SEEDS = Array.from({ length: 8 }, (_, i) => i + 1);

/** A tiny job with a saw of this kerf, its prices, and some of its lengths. */
async function priced(seed: number, kerf: number) {
  const dice = throwDice(seed);
  const input = tinyInput(dice);
  const { problem, lengths, master, prices } = await tinyMaster(
    jobSchema.parse({ ...input, saw: { ...input.saw, kerf } }),
  );
  master.dispose();
  const all = [...new Set(lengths.flat())].sort((p, q) => p - q);
  const some = all.filter(() => dice.chance(0.3));
  const patterns = pricePatterns(
    problem,
    prices,
    problem.steels.map(() => some),
  );
  const exact = patterns.reduce((sum, { kind, worth }) => sum + kind.count * Math.max(0, worth), 0);
  return { worth: new BarsWorth(problem).of(prices, some), exact };
}

describe('what bars are worth', () => {
  test.each(SEEDS)('is what their best patterns are, where the kerf is whole, job %i', async (seed) => {
    const { worth, exact } = await priced(seed, seed % 4);
    expect(worth).toBeCloseTo(exact, 6);
  });

  test('is something in half of the jobs', async () => {
    const all = await Promise.all(SEEDS.map((seed) => priced(seed, 3)));
    expect(all.filter(({ exact }) => exact > 0.1).length).toBeGreaterThanOrEqual(SEEDS.length / 2);
  });

  test.each(SEEDS)('is about that with any other kerf, job %i', async (seed) => {
    const { worth, exact } = await priced(seed, 2.5);
    expect(Math.abs(worth - exact)).toBeLessThan(0.5 + 0.1 * exact);
  });
});
