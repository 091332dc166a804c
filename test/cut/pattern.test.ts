import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PatternTable } from '../../src/cut/pattern.ts';

interface Knapsack {
  pieces: { size: number; value: number; bound: number }[];
  capacity: number;
}

const knapsack = (largest: number): fc.Arbitrary<Knapsack> =>
  fc.record({
    pieces: fc
      .array(
        fc.record({
          size: fc.integer({ min: Math.ceil(largest / 20), max: largest }),
          value: fc.integer({ min: 0, max: 1000 }),
          bound: fc.integer({ min: 0, max: 9 }),
        }),
        { minLength: 1, maxLength: 5 },
      )
      .map((pieces) => pieces.sort((a, b) => b.size - a.size)),
    capacity: fc.integer({ min: 0, max: 2 * largest }),
  });

function tryAll({ pieces, capacity }: Knapsack, k = 0): number {
  const piece = pieces[k];
  if (piece === undefined) return 0;
  let best = 0;
  for (let q = 0; q <= piece.bound && q * piece.size <= capacity; q++) {
    const rest = tryAll({ pieces, capacity: capacity - q * piece.size }, k + 1);
    best = Math.max(best, q * piece.value + rest);
  }
  return best;
}

function tableFor({ pieces }: Knapsack, most: number): PatternTable {
  const table = new PatternTable(
    Int32Array.from(pieces, (p) => p.size),
    most,
  );
  table.fill(
    Float64Array.from(pieces, (p) => p.value),
    Int32Array.from(pieces, (p) => p.bound),
  );
  return table;
}

describe.each([
  { what: 'small capacities', largest: 40, most: 80, runs: 100 },
  // Their tables have millions of cells, filled anew every time.
  { what: 'capacities of millions, scaled down', largest: 2_000_000, most: 4_000_000, runs: 20 },
])('pricing with $what', ({ largest, most, runs }) => {
  it('finds the best filling, and no more than its upper bound', () => {
    fc.assert(
      fc.property(knapsack(largest), (problem) => {
        const table = tableFor(problem, most);
        const best = tryAll(problem);
        expect(table.atMost(problem.capacity)).toBeGreaterThanOrEqual(best);
        const { fill, exhausted } = table.best(problem.capacity, 0, 1e6);
        expect(exhausted).toBe(false);
        expect(fill?.value ?? 0).toBe(best);
        if (fill === null) return;
        const size = fill.rows.reduce((sum, row, k) => sum + fill.counts[k]! * problem.pieces[row]!.size, 0);
        expect(size + fill.left).toBe(problem.capacity);
        fill.rows.forEach((row, k) => {
          expect(fill.counts[k]).toBeLessThanOrEqual(problem.pieces[row]!.bound);
        });
      }),
      { seed: 7, numRuns: runs },
    );
  });

  it('lists every filling above a floor', () => {
    fc.assert(
      fc.property(knapsack(largest), fc.integer({ min: 0, max: 3000 }), (problem, floor) => {
        const fills = tableFor(problem, most).all(problem.capacity, floor, 1e6, 1e5);
        let count = 0;
        const walk = (k: number, capacity: number, value: number): void => {
          const piece = problem.pieces[k];
          if (piece === undefined) {
            if (value > floor) count++;
            return;
          }
          for (let q = 0; q <= piece.bound && q * piece.size <= capacity; q++) {
            walk(k + 1, capacity - q * piece.size, value + q * piece.value);
          }
        };
        walk(0, problem.capacity, 0);
        expect(fills?.length).toBe(count);
      }),
      { seed: 8, numRuns: runs },
    );
  });
});
