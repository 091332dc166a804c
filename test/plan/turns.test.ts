/** Turns over all voids against every order of small ones: an order that keeps the most list is found where there is one. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { emptyOf, listOf, type Placed, withWeight } from '../../src/plan/aboard.ts';
import { type Queues, takeTurns } from '../../src/plan/turns.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';

const { job } = stackedPair({ voids: 1, runs: 1, tiers: 1, across: 1 });
const vessel = { displacement: 900, gm: 0.4, vcg: 0.5 };

const queuesOfBundles = fc.array(
  fc.array(
    fc.record({
      mass: fc.integer({ min: 2, max: 12 }),
      y: fc.integer({ min: -8, max: 8 }).map((tenths) => tenths / 10),
      z: fc.integer({ min: 0, max: 6 }).map((tenths) => tenths / 10),
    }),
    { maxLength: 3 },
  ),
  { minLength: 1, maxLength: 4 },
);

/** For each queue whether it waits for the one before it, and for the one before that. */
const waits = fc.array(fc.tuple(fc.boolean(), fc.boolean()), { minLength: 4, maxLength: 4 });

/** The least that the greatest list on the way can be, over every order in which the queues may go in, degrees. */
function leastWorst(all: Queues<Placed>, aboard = emptyOf({ ...job, vessel }, 0), worst = 0): number {
  const { queues, under } = all;
  let least = Number.POSITIVE_INFINITY;
  for (const [n, [next, ...rest]] of queues.entries()) {
    if (!next || under[n]!.some((lower) => queues[lower]!.length > 0)) continue;
    const then = withWeight(aboard, next, vessel);
    const others = { queues: queues.with(n, rest), under };
    least = Math.min(least, leastWorst(others, then, Math.max(worst, Math.abs(listOf(then)!))));
  }
  return least === Number.POSITIVE_INFINITY ? worst : least;
}

test('each bundle once, each queue in its order, none over one that is not in, and the most list never passed while another order keeps it', () => {
  let helped = 0;
  fc.assert(
    fc.property(queuesOfBundles, waits, fc.double({ min: 1, max: 1.5, noNaN: true }), (queues, waiting, slack) => {
      const under = queues.map((_, n) => [n - 1, n - 2].filter((lower, i) => lower >= 0 && waiting[n]![i]));
      const listMost = leastWorst({ queues, under }) * slack + 1e-9;
      const limited = { ...job, vessel, aims: { ...job.aims, listMost } };
      const turns = takeTurns({ queues, under }, emptyOf(limited, 0), limited);
      const order = turns.map(({ next }) => next);
      expect(order).toHaveLength(queues.flat().length);
      for (const [n, queue] of queues.entries()) {
        expect(order.filter((next) => queue.includes(next))).toEqual(queue);
        for (const lower of under[n]!.flatMap((each) => queues[each]!))
          for (const upper of queue) expect(order.indexOf(lower)).toBeLessThan(order.indexOf(upper));
      }
      for (const { aboard } of turns) expect(Math.abs(listOf(aboard)!)).toBeLessThanOrEqual(listMost);
      const free = takeTurns({ queues, under }, emptyOf(limited, 0), { ...limited, aims: job.aims });
      if (free.some(({ aboard }) => Math.abs(listOf(aboard)!) > listMost)) helped += 1;
    }),
    { seed: 1, numRuns: 300 },
  );
  // The most asked for was often less than what comes of itself.
  expect(helped).toBeGreaterThan(30);
});

test('where no order keeps it, all go in all the same, and a search without end is given up', () => {
  const even: Placed[][] = Array.from({ length: 12 }, (_, n) =>
    Array.from({ length: 12 }, (_, i) => ({ mass: 10, y: n < 6 ? -0.5 : 0.5, z: i / 10 })),
  );
  // Even at last, and whenever the first of these two goes in, alone with any of the others, it passes the most.
  const uneven = [...even, [-0.9, 0.9].map((y) => ({ mass: 60, y, z: 0 }))];
  const limited = { ...job, vessel, aims: { ...job.aims, listMost: 1 } };
  const turns = takeTurns({ queues: uneven, under: [] }, emptyOf(limited, 0), limited);
  expect(turns).toHaveLength(12 * 12 + 2);
  expect(Math.max(...turns.map(({ aboard }) => Math.abs(listOf(aboard)!)))).toBeGreaterThan(1);
});
