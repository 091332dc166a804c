import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadHighs } from '../../src/linear/highs.ts';
import type { LinearEngine, LinearModel } from '../../src/linear/model.ts';
import { loadSmall } from '../../src/linear/small.ts';

const loaders = [
  { name: 'highs', load: loadHighs },
  { name: 'small', load: loadSmall },
];

describe.each(loaders)('the $name engine', ({ load }) => {
  let engine: LinearEngine;
  beforeAll(async () => {
    engine = await load();
  });

  /** min 2x + 3y, x + y ≥ 4, x ≤ 3: x = 3, y = 1. */
  function diet(model: LinearModel): void {
    model.addRow(4, Infinity);
    model.addColumn({ cost: 2, upper: 3, rows: [0], values: [1] });
    model.addColumn({ cost: 3, rows: [0], values: [1] });
  }

  it('finds value, point and duals of a small program', () => {
    using model = engine.create();
    diet(model);
    expect(model.solve()).toMatchObject({ status: 'optimal', value: 9, bound: 9, feasible: true });
    expect([...model.values()]).toEqual([3, 1]);
    expect(model.duals()[0]).toBeCloseTo(3);
  });

  it('gives a binding upper bound a dual that is not positive when minimising', () => {
    using model = engine.create();
    model.addRow(-Infinity, 5);
    model.addColumn({ cost: -2, rows: [0], values: [1] });
    expect(model.solve().value).toBeCloseTo(-10);
    expect(model.duals()[0]).toBeCloseTo(-2);
  });

  it('gives a binding upper bound a dual that is not negative when maximising', () => {
    using model = engine.create({ sense: 'maximise' });
    model.addRow(-Infinity, 5);
    model.addColumn({ cost: 2, rows: [0], values: [1] });
    expect(model.solve().value).toBeCloseTo(10);
    expect(model.duals()[0]).toBeCloseTo(2);
  });

  it('takes columns and rows added between solves', () => {
    using model = engine.create();
    diet(model);
    model.solve();
    model.addColumns({
      cost: [1, 9],
      lower: [0, 0],
      upper: [0.5, Infinity],
      starts: [0, 1],
      rows: [0, 0],
      values: [2, 1],
    });
    expect(model.solve().value).toBeCloseTo(6.5);
    model.addRow(2, 2, [1, 3], [1, 1]);
    expect(model.solve().value).toBeCloseTo(0.5 + 2 + 6);
    expect(model.rows).toBe(2);
    expect(model.columns).toBe(4);
  });

  it('follows changed costs and bounds', () => {
    using model = engine.create();
    diet(model);
    model.solve();
    model.setCost(1, 1);
    expect(model.solve().value).toBeCloseTo(4);
    model.setColumnBounds(1, 0, 2);
    expect(model.solve().value).toBeCloseTo(6);
    model.setRowBounds(0, 3, 3);
    expect(model.solve().value).toBeCloseTo(4);
  });

  it('deletes columns and rows', () => {
    using model = engine.create();
    diet(model);
    model.addRow(1, Infinity, [1], [1]);
    model.solve();
    model.deleteRows([0]);
    expect(model.solve().value).toBeCloseTo(3);
    model.deleteColumns([0]);
    expect(model.columns).toBe(1);
    expect(model.solve().value).toBeCloseTo(3);
  });

  it('tells that a program has no solution, and solves on when it has one again', () => {
    using model = engine.create();
    diet(model);
    model.setColumnBounds(1, 0, 0.5);
    expect(model.solve()).toMatchObject({ status: 'infeasible', feasible: false });
    model.setColumnBounds(1, 0, 10);
    expect(model.solve()).toMatchObject({ status: 'optimal', value: 9 });
  });

  it('tells that a program is unbounded', () => {
    using model = engine.create();
    model.addRow(0, Infinity);
    model.addColumn({ cost: -1, rows: [0], values: [1] });
    expect(model.solve().status).toBe('unbounded');
  });

  it('solves in whole numbers and goes back to fractions', () => {
    using model = engine.create();
    model.addRow(7, Infinity);
    model.addColumn({ cost: 2, rows: [0], values: [2] });
    model.addColumn({ cost: 5, rows: [0], values: [4] });
    expect(model.solve({ wholeNumbers: 'all' })).toMatchObject({ status: 'optimal', value: 8 });
    expect(model.solve().value).toBeCloseTo(7);
    expect(model.solve({ wholeNumbers: [1] }).value).toBeCloseTo(7);
  });

  it('refuses duals after a solve in whole numbers', () => {
    using model = engine.create();
    diet(model);
    model.solve({ wholeNumbers: 'all' });
    expect(() => model.duals()).toThrow('no duals');
  });

  it('solves a program without columns', () => {
    using model = engine.create();
    expect(model.solve()).toMatchObject({ status: 'optimal', value: 0 });
    model.addRow(0, 1);
    expect(model.solve().status).toBe('optimal');
    model.addRow(1, 2);
    expect(model.solve().status).toBe('infeasible');
  });
});

describe('the two engines', () => {
  let highs: LinearEngine;
  let small: LinearEngine;
  beforeAll(async () => {
    [highs, small] = await Promise.all([loadHighs(), loadSmall()]);
  });

  interface Program {
    rows: { bound: number; least: boolean }[];
    columns: { cost: number; upper: number | undefined; values: number[] }[];
  }

  const entry = fc.integer({ min: 0, max: 9 });
  const program: fc.Arbitrary<Program> = fc.integer({ min: 1, max: 5 }).chain((rows) =>
    fc.record({
      rows: fc.array(fc.record({ bound: fc.integer({ min: 0, max: 40 }), least: fc.boolean() }), {
        minLength: rows,
        maxLength: rows,
      }),
      columns: fc.array(
        fc.record({
          cost: fc.integer({ min: 1, max: 20 }),
          upper: fc.option(fc.integer({ min: 0, max: 12 }), { nil: undefined }),
          values: fc.array(entry, { minLength: rows, maxLength: rows }),
        }),
        { minLength: 1, maxLength: 6 },
      ),
    }),
  );

  function build(engine: LinearEngine, p: Program): LinearModel {
    const model = engine.create();
    for (const { bound, least } of p.rows) model.addRow(least ? bound : -Infinity, least ? Infinity : bound);
    for (const { cost, upper, values } of p.columns) {
      model.addColumn({ cost, upper: upper ?? Infinity, rows: values.map((_, r) => r), values });
    }
    return model;
  }

  it.each([
    { what: 'fractions', whole: undefined },
    { what: 'whole numbers', whole: 'all' as const },
  ])('agree on random programs in $what', ({ whole }) => {
    fc.assert(
      fc.property(program, (p) => {
        using one = build(highs, p);
        using other = build(small, p);
        const options = whole === undefined ? {} : { wholeNumbers: whole };
        const [mine, theirs] = [one.solve(options), other.solve(options)];
        expect(theirs.status).toBe(mine.status);
        if (mine.feasible) expect(theirs.value).toBeCloseTo(mine.value, 5);
      }),
      { seed: 1, numRuns: 100 },
    );
  });

  it('each give duals whose value is the value of the program and whose reduced costs have the right sign', () => {
    fc.assert(
      fc.property(program, (p) => {
        for (const engine of [highs, small]) {
          using model = build(engine, p);
          const solved = model.solve();
          if (!solved.feasible) continue;
          const duals = model.duals();
          let dualValue = 0;
          p.rows.forEach(({ bound, least }, r) => {
            const dual = duals[r] ?? 0;
            expect(least ? dual : -dual).toBeGreaterThan(-1e-7);
            dualValue += bound * dual;
          });
          for (const { cost, upper, values } of p.columns) {
            const reduced = values.reduce((sum, v, r) => sum - v * (duals[r] ?? 0), cost);
            if (upper === undefined) expect(reduced).toBeGreaterThan(-1e-6);
            else dualValue += Math.min(0, reduced) * upper;
          }
          expect(dualValue).toBeCloseTo(solved.value, 5);
        }
      }),
      { seed: 2, numRuns: 100 },
    );
  });
});
