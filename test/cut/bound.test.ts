import { describe, expect, it } from 'vitest';
import { chooseUnit, lagrangianBound, materialBound, roundBoundUp, stretchedMost } from '../../src/cut/bound.ts';
import { scaleProblem } from '../../src/cut/scale.ts';

describe('a bound from duals', () => {
  const values = Float64Array.from([500, 300]);
  const demand = [4, 6];

  it('is stretched to what an unlimited type allows', () => {
    const stocks = [{ price: 1000, count: Infinity, most: 800 }];
    const { bound, theta } = lagrangianBound(values, demand, stocks, true);
    expect(theta).toBe(1.25);
    expect(bound).toBe(4 * 625 + 6 * 375);
  });

  it('counts values stretched rounded down, and what a bar holds of them rounded up', () => {
    const stocks = [{ price: 1000, count: Infinity, most: 800 }];
    expect(lagrangianBound(Float64Array.from([501, 303]), demand, stocks, true).bound).toBe(4 * 626 + 6 * 378);
    expect(stretchedMost(1.1, 2000, 1001)).toBe(1102);
    expect(stretchedMost(1, 2000, 1001)).toBe(1001);
  });

  it('pays for what limited bars hold beyond their price', () => {
    const stocks = [{ price: 700, count: 3, most: 800 }];
    expect(lagrangianBound(values, demand, stocks, false).bound).toBe(4 * 500 + 6 * 300 - 3 * 100);
  });

  it('is no bound where an unlimited type holds more than its price and nothing is stretched', () => {
    const stocks = [{ price: 700, count: Infinity, most: 800 }];
    expect(lagrangianBound(values, demand, stocks, false).bound).toBe(-Infinity);
  });

  it('is rounded up to a cost that can be, but not for an error in the last place', () => {
    const unit = 2 ** 30;
    expect(roundBoundUp(13.2 * unit, unit, 1)).toBe(14);
    expect(roundBoundUp(13 * unit, unit, 1)).toBe(13);
    expect(roundBoundUp(13 * unit * (1 + 1e-15), unit, 1)).toBe(13);
    expect(roundBoundUp(13.2 * unit, unit, 5)).toBe(15);
    expect(roundBoundUp(13.2 * unit, unit, 0)).toBeCloseTo(13.2);
  });

  it('has a unit in which all pieces at the dearest value still add up exactly', () => {
    for (const [pieces, dearest] of [
      [1, 1],
      [1000, 1.5],
      [1e5, 7000],
      [10, 1e-4],
      [3, 2 ** 40],
    ] as const) {
      expect(pieces * dearest * chooseUnit(pieces, dearest)).toBeLessThanOrEqual(2 ** 51);
      expect(dearest * chooseUnit(pieces, dearest)).toBeLessThanOrEqual(2 ** 36);
    }
  });
});

describe('the bound by steel alone', () => {
  it('counts kerfs', () => {
    const stock = [{ length: 997, spans: [{ from: 0, to: 997 }], count: null, price: 1 }];
    const scaled = scaleProblem({ stock, pieces: [{ length: 247, count: 9 }], kerf: 3 });
    expect(materialBound(scaled)).toBe(3);
  });
});

it('in whole units pieces and kerfs are rounded up and spans down, so that what fits in units fits on the bar', () => {
  const stock = [{ length: 1000.06, spans: [{ from: 0, to: 1000.06 }], count: null, price: 1 }];
  const pieces = [100.04, 200.04].map((length) => ({ length, count: 1 }));
  const scaled = scaleProblem({ stock, pieces, kerf: 2.54 });
  expect([...scaled.sizes]).toEqual([2001 + 26, 1001 + 26]);
  expect(scaled.stocks[0]!.capacities).toEqual([10_000 + 26]);
});
