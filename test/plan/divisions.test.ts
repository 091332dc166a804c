/** Dividing voids again: better and better, of runs that fit, and never worth less than whole stacks make of it. */
import { describe, expect, test } from 'vitest';
import { jobSchema } from '../../src/job/job.ts';
import { Bounder } from '../../src/plan/bound.ts';
import { Dice } from '../../src/plan/dice.ts';
import { type Division, lengthsIn } from '../../src/plan/division.ts';
import { Divisions } from '../../src/plan/divisions.ts';
import { workFor } from '../../src/plan/effort.ts';
import { exchangeRuns } from '../../src/plan/exchange.ts';
import { fitShares } from '../../src/plan/fitShares.ts';
import { Improver } from '../../src/plan/improver.ts';
import { Neighbours } from '../../src/plan/neighbours.ts';
import { pickStacks } from '../../src/plan/pickStacks.ts';
import { throwDice } from '../bench/dice.ts';
import { addShape } from '../bench/shapes.ts';
import { keptBy } from '../keptBy.ts';
import { tinyInput, tinyJob } from './tinyJobs.ts';
import { tinyMaster } from './tinyMaster.ts';

const SEEDS = [1, 2, 3, 4, 5];
const BOXES_AND_SHAPES = ['boxes', 'shapes'].flatMap((of) => SEEDS.map((seed): [string, number] => [of, seed]));
const TRIES = 8;

/** The division that a tiny job begins with, and those that it comes to, try by try. */
async function divide(seed: number, job = tinyJob(throwDice(seed)), mostLengths = Number.POSITIVE_INFINITY) {
  const { engine, problem, berths, lengths, master, prices } = await tinyMaster(job);
  try {
    const divisions = new Divisions(problem, berths, {
      engine,
      prices,
      bounder: new Bounder(problem),
      mostLengths,
      dice: new Dice(seed),
    });
    const neighbours = new Neighbours(problem, new Dice(seed), 8);
    const all: Division[] = [divisions.begin(master)];
    for (let i = 0; i < TRIES; i++) {
      const now = all.at(-1)!;
      const used = now.skeletons.map((skeleton) => lengthsIn([skeleton]));
      const next = divisions.isLimited
        ? neighbours.without(used, lengths)
        : neighbours.divide(lengthsIn(now.skeletons), lengths);
      const found = divisions.again(now, next, { step: 4, rest: i % 4 }, now.worth);
      if (found) all.push(found);
    }
    return { problem, berths, engine, divisions, all };
  } finally {
    master.dispose();
  }
}

/** What the tiny job of a seed comes to as it stands. */
const divided = keptBy(divide);

describe('dividing voids again', () => {
  test.each(SEEDS)('makes each division better than the last, of runs that fit their voids, job %i', async (seed) => {
    const { all } = await divided(seed);
    all.forEach(({ worth, skeletons }, i) => {
      if (i > 0) expect(worth).toBeGreaterThan(all[i - 1]!.worth);
      for (const { berth, runs } of skeletons) {
        let end = berth.laid.clear.ends - berth.laid.gap.runs;
        for (const { from, length } of runs) {
          expect(from).toBeGreaterThanOrEqual(end + berth.laid.gap.runs - 1e-6);
          end = from + berth.space(from, length).along;
        }
        expect(end).toBeLessThanOrEqual(berth.laid.length - berth.laid.clear.ends + 1e-6);
      }
    });
  });

  test('finds better ones in most jobs', async () => {
    const found = await Promise.all(SEEDS.map(async (seed) => (await divided(seed)).all.length > 1));
    expect(found.filter(Boolean).length).toBeGreaterThan(SEEDS.length / 2);
  });

  test.each(SEEDS)('is worth no less than whole stacks make of it, job %i', async (seed) => {
    // Of bars enough: where they are scarce stacks are priced roughly. Without caps: what may be passed of one depends on the
    // lightest bundle, which a division only guesses.
    const input = tinyInput(throwDice(seed), { caps: false });
    const job = jobSchema.parse({ ...input, pile: input.pile.map((lot) => ({ ...lot, count: 80 })) });
    const { problem, berths, engine, all } = await divide(seed, job);
    for (const division of all) {
      const options = { engine, dice: new Dice(seed) };
      const filled = exchangeRuns(problem, berths, pickStacks(problem, berths, division, options), 12, options);
      expect(filled.worth).toBeLessThanOrEqual(division.worth + 0.01 + 1e-3 * Math.abs(division.worth));
    }
  });

  test.each(SEEDS)(
    'may change all its lengths at once: its bars yield them and its stacks keep the limit, job %i',
    async (seed) => {
      const { problem, engine, all } = await divided(seed);
      const { kerf } = problem.job.saw;
      for (const division of all) {
        const { changes, gain } = fitShares(problem, division, engine)!;
        expect(gain).toBeGreaterThanOrEqual(-1e-9);
        for (const { pattern, count } of division.cuts) {
          expect(count).toBeGreaterThan(0);
          pattern.kind.spans.forEach(({ from, to }, i) => {
            const used = pattern.spans[i]!.reduce((sum, length) => sum + length + changes.get(length)! + kerf, -kerf);
            expect(used).toBeLessThanOrEqual(to - from + 1e-6);
          });
        }
        for (const { run } of division.shares.flat(2)) {
          const length = run.stack.length + changes.get(run.stack.length)!;
          for (const { kind, lying } of run.stack.tiers) {
            const bars = Math.max(...lying.map(({ tie }) => tie.bars));
            const mass = (bars * problem.steels[kind.steel]!.heaviest * length) / 1000 + problem.job.bundle.wrapping;
            expect(mass).toBeLessThanOrEqual(problem.job.bundle.limit + 1e-9);
          }
        }
      }
    },
  );

  test('is worth more with its lengths fitted to its shares', async () => {
    let fitted = 0;
    for (const seed of SEEDS) {
      const { divisions, all } = await divide(seed);
      for (const division of all) {
        const next = divisions.fitted(division, division.worth);
        if (!next) continue;
        fitted++;
        expect(next.worth).toBeGreaterThan(division.worth);
        expect(next.skeletons.map(({ runs }) => runs.length)).toEqual(
          division.skeletons.map(({ runs }) => runs.length),
        );
        // No other than this was looked for again.
        expect(divisions.fitted(division, division.worth)).toBeNull();
      }
    }
    expect(fitted).toBeGreaterThan(0);
  });

  test('has no more lengths than are allowed, and finds better ones all the same', async () => {
    let more = 0;
    for (const seed of SEEDS.slice(0, 5)) {
      const { all } = await divide(seed, tinyJob(throwDice(seed)), 1);
      for (const { skeletons } of all) expect(lengthsIn(skeletons).length).toBeLessThanOrEqual(1);
      more += all.length - 1;
    }
    expect(more).toBeGreaterThan(1);
  });

  test('ends where try after try brings nothing new, and no sooner', async () => {
    const { problem, berths, engine, divisions, all } = await divided(1);
    const making = { engine, version: '0', jobDigest: '', effort: 'thorough', seed: 1, cuttingEffort: 5 } as const;
    const work = workFor('thorough', { voids: 2, shaped: false, bars: 80 }, 5);
    /** How often it is asked for a division, rounds together; every so many times it has a new one. */
    const asked = (newEvery: number, rounds: number) => {
      let times = 0;
      divisions.again = () => (++times % newEvery === 0 ? { ...all[0]!, key: `${times}` } : null);
      divisions.near = () =>
        divisions.again(all[0]!, { open: [], lengths: [], leastBundle: 0 }, { step: 1, rest: 0 }, 0);
      const next = new Improver(problem, berths, making, work).divided(divisions, all[0]!, [[]], () => undefined);
      for (let round = 0; round < rounds; round++) next.round();
      return times;
    };
    const rounds = 20;
    expect(asked(work.divisions, rounds)).toBe(work.divisions * rounds);
    expect(asked(Number.POSITIVE_INFINITY, rounds)).toBeLessThan(work.divisions * rounds);
  });

  test.each(BOXES_AND_SHAPES)(
    'are brought down to ever fewer lengths, the best of each number, %s %i',
    async (of, seed) => {
      const box = tinyInput(throwDice(seed));
      const job = jobSchema.parse(of === 'shapes' ? addShape(throwDice(seed), box) : box);
      const { engine, problem, berths, master, prices } = await tinyMaster(job);
      try {
        const making = { engine, version: '0', jobDigest: '', effort: 'steady', seed, cuttingEffort: 5 } as const;
        const work = workFor('steady', { voids: 2, shaped: false, bars: 80 }, undefined);
        const improver = new Improver(problem, berths, making, work);
        const divisions = improver.divisions(prices, new Bounder(problem), Number.POSITIVE_INFINITY);
        const search = improver.divided(divisions, divisions.begin(master), [[]], () => undefined);
        const counts = (found: Division[]) => found.map(({ skeletons }) => lengthsIn(skeletons).length);
        const { length } = lengthsIn(search.best.skeletons);
        const found = search.descend(master, 1);
        const numbers = counts(found);
        expect(numbers).toEqual([...new Set(numbers)].sort((p, q) => q - p));
        // One length was asked for: down to it whatever it costs.
        if (length > 1) expect(numbers.at(-1)).toBe(1);
        for (const [i, division] of found.entries()) {
          expect(division.worth).toBeLessThanOrEqual(search.best.worth);
          expect(search.bestOf(numbers[i]!)).toBe(division);
        }
      } finally {
        master.dispose();
      }
    },
  );
});
