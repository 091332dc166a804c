import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { violatedOddSets } from '../../src/cut/oddSets.ts';

describe('cuts from odd sets', () => {
  const pairs = [
    { rows: [0, 1], counts: [1, 1] },
    { rows: [0, 2], counts: [1, 1] },
    { rows: [1, 2], counts: [1, 1] },
  ];

  it('cut off three halves that share three pieces in pairs', () => {
    const [cut, ...others] = violatedOddSets(pairs, [1, 1, 1], [0.5, 0.5, 0.5], 10, new Set());
    expect(cut).toMatchObject({ rows: [0, 1, 2], least: 2, patterns: [0, 1, 2], coefficients: [1, 1, 1] });
    expect(cut?.violation).toBeCloseTo(0.5);
    expect(others).toEqual([]);
  });

  it('are not found twice', () => {
    const known = new Set<string>();
    expect(violatedOddSets(pairs, [1, 1, 1], [0.5, 0.5, 0.5], 10, known)).toHaveLength(1);
    expect(violatedOddSets(pairs, [1, 1, 1], [0.5, 0.5, 0.5], 10, known)).toEqual([]);
  });

  it('never cut off a plan in whole numbers that yields the demand', () => {
    const row = fc.uniqueArray(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 3 });
    const pattern = row.chain((rows) =>
      fc.record({
        rows: fc.constant(rows.toSorted((a, b) => a - b)),
        counts: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: rows.length, maxLength: rows.length }),
      }),
    );
    const plan = fc.array(
      fc.record({ pattern, times: fc.integer({ min: 0, max: 3 }), x: fc.double({ min: 0, max: 1, noNaN: true }) }),
      {
        minLength: 3,
        maxLength: 10,
      },
    );
    fc.assert(
      fc.property(plan, (entries) => {
        const patterns = entries.map((entry) => entry.pattern);
        const made = [0, 0, 0, 0, 0, 0];
        for (const { pattern: cutter, times } of entries) {
          cutter.rows.forEach((r, k) => {
            made[r]! += times * cutter.counts[k]!;
          });
        }
        for (const cut of violatedOddSets(
          patterns,
          made,
          entries.map(({ x }) => x),
          50,
          new Set(),
        )) {
          const activity = cut.patterns.reduce((sum, p, k) => sum + cut.coefficients[k]! * entries[p]!.times, 0);
          expect(activity).toBeGreaterThanOrEqual(cut.least);
        }
      }),
      { seed: 9, numRuns: 200 },
    );
  });
});
