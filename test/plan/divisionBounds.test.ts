/** Divisions guessed by prices of others, solved, and filled with whole stacks. */
import { describe, expect, test } from 'vitest';
import { jobSchema } from '../../src/job/job.ts';
import { Bounder } from '../../src/plan/bound.ts';
import { Dice } from '../../src/plan/dice.ts';
import { type Division, lengthsIn } from '../../src/plan/division.ts';
import { DivisionBounds } from '../../src/plan/divisionBounds.ts';
import { Divisions } from '../../src/plan/divisions.ts';
import { pickStacks } from '../../src/plan/pickStacks.ts';
import { throwDice } from '../bench/dice.ts';
import { addShape } from '../bench/shapes.ts';
import { keptBy } from '../keptBy.ts';
import { tinyInput } from './tinyJobs.ts';
import { tinyMaster } from './tinyMaster.ts';

const SEEDS = [1, 2, 3, 4];
const TRIES = 8;
/** Prices are settled to this share of what a division is worth. */
const SETTLED = 1e-3;

/** A tiny job without caps, its kerf whole and its bars enough, and divisions of it, each found near the best so far. */
async function divide(seed: number, mostLengths = Number.POSITIVE_INFINITY, shaped = false) {
  const box = tinyInput(throwDice(seed), { caps: false });
  const input = shaped ? addShape(throwDice(seed), box) : box;
  const job = jobSchema.parse({
    ...input,
    saw: { ...input.saw, kerf: 3 },
    pile: input.pile.map((lot) => ({ ...lot, count: 80 })),
  });
  const { engine, problem, berths, master, prices } = await tinyMaster(job);
  const dice = new Dice(seed);
  const options = { engine, prices, bounder: new Bounder(problem), mostLengths, dice };
  const divisions = new Divisions(problem, berths, options);
  const loadRows = master.loadRows;
  const first = divisions.begin(master);
  master.dispose();
  const all: Division[] = [first];
  let best = first;
  for (let i = 0; i < TRIES; i++) {
    const next = divisions.near(best, 0.9 * best.worth);
    if (next) all.push(next);
    if (next && next.worth > best.worth) best = next;
  }
  return { engine, problem, berths, loadRows, divisions, all, best };
}

const divided = keptBy((seed: number) => divide(seed));
const dividedShapes = keptBy((seed: number) => divide(seed, Number.POSITIVE_INFINITY, true));
const BOXES_AND_SHAPES = SEEDS.flatMap((seed) => [
  { of: 'boxes', seed, dividing: divided },
  { of: 'shapes', seed, dividing: dividedShapes },
]);

describe('guessing what divisions are worth', () => {
  test.each(BOXES_AND_SHAPES)(
    'allows each no less than it is worth, by the prices of any other, $of $seed',
    async ({ seed, dividing }) => {
      const { problem, loadRows, all } = await dividing(seed);
      for (const { prices } of all) {
        const bounds = new DivisionBounds(problem);
        bounds.take(prices, loadRows);
        for (const { skeletons, worth } of all) {
          const most = bounds.most(skeletons, lengthsIn(skeletons), Number.NEGATIVE_INFINITY);
          expect(most).toBeGreaterThanOrEqual(worth - SETTLED * Math.abs(worth));
        }
      }
    },
  );

  test.each(BOXES_AND_SHAPES)(
    'allows a division about what it is worth by prices of its own, $of $seed',
    async ({ seed, dividing }) => {
      const { problem, loadRows, all } = await dividing(seed);
      for (const { prices, skeletons, worth } of all) {
        const bounds = new DivisionBounds(problem);
        bounds.take(prices, loadRows);
        const most = bounds.most(skeletons, lengthsIn(skeletons), Number.NEGATIVE_INFINITY);
        expect(most).toBeLessThan(worth + 0.02 * Math.abs(worth) + 0.05);
      }
    },
  );

  test('finds better divisions where the first is not the best, as of most tiny jobs it is', async () => {
    const all = await Promise.all(SEEDS.map(divided));
    const better = all.filter(({ all: [first], best }) => best.worth > first!.worth + 0.01);
    expect(better.length).toBeGreaterThanOrEqual(2);
  });

  test('has no more lengths than are allowed', async () => {
    for (const seed of SEEDS.slice(0, 3)) {
      const { all } = await divide(seed, 1);
      for (const { skeletons } of all) expect(lengthsIn(skeletons).length).toBeLessThanOrEqual(1);
    }
  });
});

describe('whole stacks for a division', () => {
  test.each(SEEDS)('are worth no more than the division, and lie in its runs, job %i', async (seed) => {
    const { engine, problem, berths, all } = await divided(seed);
    for (const division of all) {
      const { fillings, worth } = pickStacks(problem, berths, division, { engine, dice: new Dice(seed) });
      expect(worth).toBeLessThanOrEqual(division.worth + 0.01 + SETTLED * Math.abs(division.worth));
      fillings.forEach((filling, space) => {
        const places = division.skeletons[space]!.runs.map(({ from, length }) => `${from}:${length}`);
        for (const { from, stack } of filling?.runs ?? []) expect(places).toContain(`${from}:${stack.length}`);
      });
    }
  });

  test('come near what the division is worth', async () => {
    let picked = 0;
    let most = 0;
    for (const seed of SEEDS) {
      const { engine, problem, berths, best } = await divided(seed);
      picked += pickStacks(problem, berths, best, { engine, dice: new Dice(seed) }).worth;
      most += best.worth;
    }
    expect(picked).toBeGreaterThan(0.9 * most);
  });
});
