import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { cutStock } from '../../src/cut/cutStock.ts';
import type { CutOptions, CutPlan, CutProblem, CutProgress } from '../../src/cut/problem.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import type { LinearEngine } from '../../src/linear/model.ts';
import { makeInstances } from '../bench/cutInstances.ts';
import { firstFit } from '../bench/cutPeers.ts';
import { ownTime } from '../ownTime.ts';
import { recount } from './recount.ts';

let engine: LinearEngine;
beforeAll(async () => {
  engine = await loadHighs();
});

function cut(problem: CutProblem, options: Partial<CutOptions> = {}): CutPlan {
  const plan = cutStock(problem, { engine, effort: 120, ...options });
  expect(recount(problem, plan)).toEqual([]);
  return plan;
}

/** Plans of lists that several laws are asked of, cut once. */
const known = new Map<string, CutPlan>();

function cutOnce(problem: CutProblem): CutPlan {
  const key = JSON.stringify(problem);
  const plan = known.get(key) ?? cut(problem);
  known.set(key, plan);
  return plan;
}

/** A middling list: one or two bar lengths without limit, a dozen piece lengths. */
const list: fc.Arbitrary<CutProblem> = fc.record({
  kerf: fc.constantFrom(0, 3),
  stock: fc
    .uniqueArray(fc.integer({ min: 900, max: 2000 }), { minLength: 1, maxLength: 2 })
    .map((lengths) =>
      lengths.map((length) => ({ length, spans: [{ from: 0, to: length }], count: null, price: length })),
    ),
  pieces: fc.array(fc.record({ length: fc.integer({ min: 90, max: 700 }), count: fc.integer({ min: 1, max: 9 }) }), {
    minLength: 3,
    maxLength: 12,
  }),
});

const runs = { seed: 6, numRuns: 12 };

describe('a cutting plan', () => {
  it('is not proven dearer than it is where a piece fills a bar for nothing', () => {
    const stock = [1321, 1694].map((length) => ({
      length,
      spans: [{ from: 0, to: length }],
      count: null,
      price: length,
    }));
    const pieces = [
      { length: 90, count: 1 },
      { length: 208, count: 5 },
      { length: 490, count: 2 },
    ];
    expect(cut({ stock, pieces, kerf: 0 })).toMatchObject({ cost: 2642, bound: 2642, proven: true });
  });

  it('is never dearer than first fit, and never below its bound', () => {
    fc.assert(
      fc.property(list, (problem) => {
        const plan = cutOnce(problem);
        expect(plan.cost).toBeLessThanOrEqual(firstFit(problem) + 1e-6);
        expect(plan.bound).toBeLessThanOrEqual(plan.cost + 1e-6);
      }),
      runs,
    );
  });

  it('costs the same whatever order the pieces stand in, where it is proven', () => {
    fc.assert(
      fc.property(list, (problem) => {
        const plan = cutOnce(problem);
        const turned = cut({ ...problem, pieces: problem.pieces.toReversed() });
        if (plan.proven && turned.proven) expect(turned.cost).toBeCloseTo(plan.cost, 6);
        expect(turned.bound).toBeLessThanOrEqual(plan.cost + 1e-6);
      }),
      runs,
    );
  });

  it('wastes twice as much where all lengths are doubled', () => {
    fc.assert(
      fc.property(list, (problem) => {
        const twice = {
          kerf: 2 * problem.kerf,
          stock: problem.stock.map(({ length, price, count }) => ({
            length: 2 * length,
            spans: [{ from: 0, to: 2 * length }],
            count,
            price: 2 * price,
          })),
          pieces: problem.pieces.map(({ length, count }) => ({ length: 2 * length, count })),
        };
        const [plan, doubled] = [cutOnce(problem), cut(twice)];
        if (plan.proven && doubled.proven) expect(doubled.cost).toBeCloseTo(2 * plan.cost, 6);
      }),
      runs,
    );
  });

  it('is not made dearer by another stock length, where it is proven', () => {
    fc.assert(
      fc.property(list, fc.integer({ min: 900, max: 2000 }), (problem, length) => {
        const more = { length, spans: [{ from: 0, to: length }], count: 3, price: length };
        const [plan, richer] = [cutOnce(problem), cut({ ...problem, stock: [...problem.stock, more] })];
        expect(richer.bound).toBeLessThanOrEqual(plan.cost + 1e-6);
        if (richer.proven) expect(richer.cost).toBeLessThanOrEqual(plan.cost + 1e-6);
      }),
      runs,
    );
  });

  it('is the same every time for the same work', () => {
    for (const { problem } of makeInstances(5, 1)) {
      expect(cut(problem, { effort: 60 })).toEqual(cut(problem, { effort: 60 }));
    }
  });

  it('meets optima that are known because bars were broken up without waste', () => {
    const known = makeInstances(11, 2).filter(({ set }) => ['triplets', 'exact mixes', 'exact, kerf 3'].includes(set));
    for (const { problem, best } of known) {
      const plan = cut(problem, { effort: 6000 });
      expect(plan.bound).toBeLessThanOrEqual(best ?? 0);
      expect(plan.cost - (best ?? 0)).toBeLessThanOrEqual(1);
    }
  });
});

describe('stock that can not yield all', () => {
  const stock = [{ length: 1000, spans: [{ from: 0, to: 1000 }], count: 2, price: 1 }];

  it('yields the heaviest part, and the shortage is proven', () => {
    const pieces = [
      { length: 600, count: 3 },
      { length: 400, count: 1 },
    ];
    const plan = cut({ stock, pieces, kerf: 0 });
    expect(plan).toMatchObject({ short: [{ piece: 0, count: 1 }], shortWeight: 600, shortAtLeast: 600, proven: true });
  });

  it('yields by weight where weights are given', () => {
    const pieces = [
      { length: 900, count: 2, weight: 1 },
      { length: 300, count: 6, weight: 5 },
    ];
    const plan = cut({ stock, pieces, kerf: 0 });
    expect(plan).toMatchObject({ short: [{ piece: 0, count: 2 }], shortWeight: 2, proven: true });
  });

  it('is used as cheaply as what is cut allows', () => {
    const dear = { length: 1200, spans: [{ from: 0, to: 1200 }], count: 5, price: 9 };
    const plan = cut({
      stock: [...stock, dear],
      pieces: [
        { length: 500, count: 4 },
        { length: 1500, count: 1 },
      ],
      kerf: 0,
    });
    expect(plan).toMatchObject({ cost: 2, short: [{ piece: 1, count: 1 }], proven: true });
  });
});

describe('a search that is stopped', () => {
  it('gives its best plan and a true bound at once', async () => {
    const { problem } = makeInstances(3, 1).find(({ set }) => set === 'pile of lengths')!;
    let asked = 0;
    const spent = await ownTime(() => {
      const plan = cut(problem, { effort: 1e9, shouldStop: () => ++asked > 5 });
      expect(plan.ended).toBe('stopped');
      expect(plan.bound).toBeLessThanOrEqual(plan.cost);
    });
    expect(spent).toBeLessThan(5000);
  });

  it('tells plans that cost less and less, and bounds that rise', () => {
    const { problem } = makeInstances(3, 1).find(({ set }) => set === 'pile of lengths')!;
    const told: CutProgress[] = [];
    cut(problem, { effort: 200, onProgress: (progress) => told.push(progress) });
    expect(told.length).toBeGreaterThan(1);
    told.slice(1).forEach((now, k) => {
      expect(now.cost).toBeLessThanOrEqual(told[k]!.cost);
      expect(now.bound).toBeGreaterThanOrEqual(told[k]!.bound);
    });
  });
});
