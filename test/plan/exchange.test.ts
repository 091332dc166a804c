/** Exchanging what runs hold: never for the worse, never more bars than there are, never over a cap. */

import { describe, expect, test } from 'vitest';
import { type Pattern, patternOf } from '../../src/plan/barPattern.ts';
import { areCapsKept } from '../../src/plan/caps.ts';
import { cutFrom } from '../../src/plan/cutting.ts';
import { Dice } from '../../src/plan/dice.ts';
import { dive } from '../../src/plan/dive.ts';
import { exchangeBars, exchangeRuns } from '../../src/plan/exchange.ts';
import type { Use } from '../../src/plan/master.ts';
import { type Problem, problemOf } from '../../src/plan/problem.ts';
import { usesOf } from '../../src/plan/short.ts';
import { throwDice } from '../bench/dice.ts';
import { keptBy } from '../keptBy.ts';
import { tinyJob } from './tinyJobs.ts';
import { tinyMaster } from './tinyMaster.ts';

const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];

/** A tiny job dived once, roughly. */
async function dived(seed: number) {
  const { engine, problem, berths, lengths, master } = await tinyMaster(tinyJob(throwDice(seed)));
  try {
    const start = dive(problem, master, berths, { engine, lengths, rounds: 2 });
    return { problem, berths, start, options: () => ({ engine, dice: new Dice(seed) }) };
  } finally {
    master.dispose();
  }
}

/** The dive of a seed: exchanging leaves what it begins with as it is. */
const diveOf = keptBy(dived);

/** How many bars of each kind are cut. */
function barsUsed(problem: Problem, bars: Pattern[]): number[] {
  const counts = problem.barKinds.map(() => 0);
  for (const { kind } of bars) counts[kind.index]!++;
  return counts;
}

describe('exchanging what runs hold', () => {
  test.each(SEEDS)('with bars as shares is never for the worse, job %i', async (seed) => {
    const { problem, berths, start, options } = await diveOf(seed);
    const before = exchangeRuns(problem, berths, start, 0, options());
    const after = exchangeRuns(problem, berths, start, 24, options());
    expect(after.worth).toBeGreaterThanOrEqual(before.worth - 1e-6);
  });

  test.each(SEEDS)('with whole bars uses no more than there are, and keeps every cap, job %i', async (seed) => {
    const { problem, berths, start, options } = await diveOf(seed);
    const { fillings, bars } = exchangeBars(problem, berths, start, [], 40, options());
    const used = barsUsed(problem, bars);
    problem.barKinds.forEach((kind) => {
      expect(used[kind.index]).toBeLessThanOrEqual(kind.count);
    });
    expect(areCapsKept(problem, fillings)).toBe(true);
    expect(cutFrom(problem, usesOf(fillings), bars).short).toEqual([]);
  });

  test('does the same with the same dice', async () => {
    const { problem, berths, start, options } = await diveOf(5);
    const once = exchangeBars(problem, berths, start, [], 30, options());
    expect(exchangeBars(problem, berths, start, [], 30, options())).toEqual(once);
  });
});

describe('cutting from whole bars', () => {
  const job = tinyJob(throwDice(3), { sections: 1 });
  const problem = problemOf({
    ...job,
    pile: [{ ...job.pile[0]!, length: 2000, count: 3, spoiled: [] }],
    saw: { ...job.saw, squaring: 0 },
  });
  const [kind] = problem.barKinds;
  const bar = (pieces: number[]) => patternOf(kind!, [pieces], problem.job, problem.labour);
  const want = (...uses: [number, number][]): Use[] => uses.map(([length, bars]) => ({ steel: 0, length, bars }));
  const pieces = (bars: Pattern[]) => bars.flatMap(({ spans }) => spans.flat()).sort((a, b) => a - b);

  test('leaves uncut what is too much', () => {
    const { bars, short } = cutFrom(problem, want([500, 2]), [bar([500, 500, 400]), bar([500, 300])]);
    expect(pieces(bars)).toEqual([500, 500]);
    expect(short).toEqual([]);
  });

  test('cuts a piece too many shorter where that is wanted', () => {
    const { bars, short } = cutFrom(problem, want([500, 1], [300, 1]), [bar([500, 500])]);
    expect(pieces(bars)).toEqual([300, 500]);
    expect(short).toEqual([]);
  });

  test('tells what is short', () => {
    expect(cutFrom(problem, want([600, 2]), [bar([600, 500])]).short).toEqual(want([600, 1]));
  });
});
