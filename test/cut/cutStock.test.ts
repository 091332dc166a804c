import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { cutStock } from '../../src/cut/cutStock.ts';
import type { CutPlan, CutProblem, StockType } from '../../src/cut/problem.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import type { LinearEngine } from '../../src/linear/model.ts';
import { loadSmall } from '../../src/linear/small.ts';
import { recount, tryEverything } from './recount.ts';

let engine: LinearEngine;
let small: LinearEngine;
beforeAll(async () => {
  [engine, small] = await Promise.all([loadHighs(), loadSmall()]);
});

function bar(length: number, count: number | null = null, price = 1): StockType {
  return { length, spans: [{ from: 0, to: length }], count, price };
}

function cut(problem: CutProblem, options: { engine?: LinearEngine; effort?: number } = {}): CutPlan {
  const plan = cutStock(problem, { engine, ...options });
  expect(recount(problem, plan)).toEqual([]);
  return plan;
}

/** A handful of pieces, bars of up to three types, some with a spoiled middle, some with limits. */
const tiny: fc.Arbitrary<CutProblem> = fc.record({
  kerf: fc.constantFrom(0, 1, 2.5, 3, 7),
  stock: fc.array(
    fc
      .record({
        length: fc.integer({ min: 20, max: 60 }),
        count: fc.constantFrom(null, 1, 1, 2, 3),
        price: fc.integer({ min: 1, max: 9 }),
        squaring: fc.constantFrom(0, 0, 2),
        spoiled: fc.constantFrom(null, null, { at: 12, wide: 8 }),
      })
      .map(({ length, count, price, squaring, spoiled }) => {
        const spans =
          spoiled === null
            ? [{ from: squaring, to: length - squaring }]
            : [
                { from: squaring, to: spoiled.at },
                { from: spoiled.at + spoiled.wide, to: length - squaring },
              ].filter(({ from, to }) => to > from);
        return { length, count, price, spans };
      }),
    { minLength: 1, maxLength: 3 },
  ),
  pieces: fc
    .array(fc.record({ length: fc.integer({ min: 3, max: 40 }), count: fc.integer({ min: 1, max: 3 }) }), {
      minLength: 1,
      maxLength: 5,
    })
    .map((pieces) => {
      let left = 6;
      return pieces.map(({ length, count }) => {
        const taken = Math.min(count, left);
        left -= taken;
        return { length, count: taken };
      });
    }),
});

describe('cutting', () => {
  it('is as good as trying everything, with several stocks, limits, kerfs and spoiled spans', () => {
    fc.assert(
      fc.property(tiny, (problem) => {
        const plan = cut(problem, { effort: 300 });
        const best = tryEverything(problem);
        expect(plan.shortWeight).toBeCloseTo(best.short, 6);
        expect(plan.bound).toBeLessThanOrEqual(best.cost + 1e-6);
        expect(plan.shortAtLeast).toBeLessThanOrEqual(best.short + 1e-6);
        if (plan.short.length === 0) expect(plan.cost).toBeCloseTo(best.cost, 6);
      }),
      { seed: 3, numRuns: 150 },
    );
  });

  it('is as good as trying everything where scrap and cuts cost', () => {
    const rules = fc.record({
      scrapPerMm: fc.constantFrom(0.1, 0.5, 1),
      keepFrom: fc.constantFrom(10, 25, 100),
      perCut: fc.constantFrom(0, 0.4, 3),
    });
    fc.assert(
      fc.property(tiny, rules, fc.boolean(), (base, patternCost, free) => {
        const stock = base.stock.map((type) => (free ? { ...type, price: 0 } : type));
        const problem = { ...base, stock, patternCost };
        const plan = cut(problem, { effort: 300 });
        const best = tryEverything(problem);
        expect(plan.shortWeight).toBeCloseTo(best.short, 6);
        expect(plan.bound).toBeLessThanOrEqual(best.cost + 1e-6);
        if (plan.short.length === 0) expect(plan.cost).toBeCloseTo(best.cost, 5);
      }),
      { seed: 4, numRuns: 150 },
    );
  });

  it('comes to the same cost on both linear engines', () => {
    fc.assert(
      fc.property(tiny, (problem) => {
        const [mine, theirs] = [cut(problem, { effort: 300 }), cut(problem, { engine: small, effort: 300 })];
        expect(theirs.shortWeight).toBeCloseTo(mine.shortWeight, 6);
        expect(theirs.cost).toBeCloseTo(mine.cost, 6);
      }),
      { seed: 5, numRuns: 60 },
    );
  });
});

describe('one kind of bar', () => {
  it('is cut to the last millimetre, kerf and all', () => {
    const plan = cut({ stock: [bar(100)], pieces: [{ length: 31, count: 9 }], kerf: 3 });
    expect(plan).toMatchObject({ cost: 3, bound: 3, proven: true });
  });

  it('holds a piece of its own length, and no longer one', () => {
    const plan = cut({ stock: [bar(100)], pieces: [{ length: 100, count: 2 }], kerf: 3 });
    expect(plan).toMatchObject({ cost: 2, proven: true, short: [] });
    const over = cut({ stock: [bar(100)], pieces: [{ length: 101, count: 2 }], kerf: 3 });
    expect(over).toMatchObject({ cost: 0, short: [{ piece: 0, count: 2 }], shortWeight: 202, shortAtLeast: 202 });
  });

  it('is cut with a kerf wider than the pieces', () => {
    const plan = cut({ stock: [bar(100)], pieces: [{ length: 2, count: 50 }], kerf: 5 });
    expect(plan).toMatchObject({ cost: 4, proven: true });
  });

  it('is cut with a kerf of a fraction of a millimetre', () => {
    const plan = cut({ stock: [bar(100)], pieces: [{ length: 31.7, count: 3 }], kerf: 2.4 });
    expect(plan).toMatchObject({ cost: 1, proven: true });
    const over = cut({ stock: [bar(100)], pieces: [{ length: 31.8, count: 3 }], kerf: 2.4 });
    expect(over).toMatchObject({ cost: 2, proven: true });
  });

  it('is proven where demands are in the ten thousands', () => {
    const pieces = [
      { length: 370, count: 10_000 },
      { length: 230, count: 9000 },
      { length: 110, count: 7001 },
    ];
    expect(cut({ stock: [bar(1000)], pieces, kerf: 0 }).proven).toBe(true);
  });

  it('is proven where lengths are a hundred thousand units', () => {
    const pieces = [37_001, 29_017, 20_011, 41_999, 33_333].map((length, k) => ({ length, count: 5 + k }));
    expect(cut({ stock: [bar(100_000)], pieces, kerf: 0 }).proven).toBe(true);
  });
});

describe('an empty problem', () => {
  it('is answered', () => {
    expect(cut({ stock: [bar(100)], pieces: [], kerf: 3 })).toMatchObject({ cost: 0, proven: true });
    expect(cut({ stock: [], pieces: [], kerf: 3 })).toMatchObject({ cost: 0, proven: true });
    expect(cut({ stock: [], pieces: [{ length: 5, count: 1 }], kerf: 3 }).short).toEqual([{ piece: 0, count: 1 }]);
  });
});
