import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bearerLoads, runLoads } from '../../src/plan/bearing.ts';
import type { Tied } from '../../src/plan/check/bundles.ts';
import { checkCarry } from '../../src/plan/check/carry.ts';
import { layVoid as layToCheck } from '../../src/plan/check/space.ts';
import type { PlanBundle } from '../../src/plan/plan.ts';
import { layVoid } from '../../src/stow/laid.ts';
import { carriedPair } from './carriedPlan.ts';

const { job, plan } = carriedPair();
const [space] = job.voids;
const like = plan.bundles[0]!;

/** Loads of bundles [from, length, mass] of one run on bearers at these places. */
function loads(bundles: [from: number, length: number, mass: number][], ...places: number[]): number[] {
  const laid = { ...layVoid(space!)[0]!, bearers: places.map((along) => ({ along, width: 10 })) };
  const lying = bundles.map(
    ([along, length, mass], i): PlanBundle => ({
      ...like,
      run: 1,
      tier: i + 1,
      mass,
      at: { ...like.at, along },
      size: { ...like.size, along: length },
    }),
  );
  return bearerLoads(laid, { bundles: lying }).map((bearer) => Number(bearer.load.toFixed(9)));
}

describe('the load on bearers', () => {
  it('on two is that of the lever, whatever overhangs', () => {
    expect(loads([[0, 1000, 10]], 250, 750)).toEqual([5, 5]);
    expect(loads([[0, 1000, 10]], 100, 600)).toEqual([2, 8]);
    expect(
      loads(
        [
          [0, 1000, 10],
          [1, 998, 6],
        ],
        250,
        750,
      ),
    ).toEqual([8, 8]);
  });

  it('on three puts a quarter more on the inner one', () => {
    const [first, middle, last] = loads([[0, 1000, 16]], 0, 500, 1000);
    expect([first, middle, last]).toEqual([4, 10, 4]);
  });

  it('leaves out a bearer whose middle the run does not cover', () => {
    expect(loads([[0, 1000, 10]], 250, 750, 1001)).toEqual([5, 5, 0]);
  });

  it('on two bearers is in balance with the weight: forces and moments', () => {
    const any = fc.tuple(fc.integer({ min: 100, max: 2000 }), fc.double({ min: 1, max: 20, noNaN: true }));
    fc.assert(
      fc.property(
        any,
        fc.double({ min: 0, max: 0.45, noNaN: true }),
        fc.double({ min: 0.55, max: 1, noNaN: true }),
        ([length, mass], p, q) => {
          const [first, last] = loads([[0, length, mass]], p * length, q * length);
          expect(first! + last!).toBeCloseTo(mass, 6);
          expect(first! * p + last! * q).toBeCloseTo(mass / 2, 6);
        },
      ),
    );
  });

  it('is the same that the checker counts, each by its own code', () => {
    const laid = layVoid(space!)[0]!;
    const told = bearerLoads(laid, plan);
    const tied = plan.bundles
      .filter((bundle) => bundle.void === space!.void)
      .map((bundle) => ({
        bundle,
        mass: bundle.mass,
        along: [bundle.at.along, bundle.at.along + bundle.size.along],
      })) as unknown as Tied[];
    const faultsAt = (more: number) => {
      const bearers = told.map(({ along, width, load }) => ({ along, width, most: Math.max(0, load + more) }));
      const codes: string[] = [];
      checkCarry(layToCheck({ ...space!, bearers }, undefined), tied, (code) => codes.push(code));
      return codes.filter((code) => code === 'over-bearer').length;
    };
    expect(faultsAt(0)).toBe(0);
    expect(faultsAt(-0.02)).toBe(told.filter((bearer) => bearer.load > 0).length);
    expect(told.every((bearer) => bearer.runs.length === 1)).toBe(true);
  });
});

it('the load for the length is mass over length, run by run', () => {
  const [first, second] = runLoads(layVoid(space!)[0]!, plan);
  expect(first!.perMetre).toBeCloseTo((9.47 + 7.9 + 8.78) / 0.506, 2);
  expect(second!.run).toBe(2);
});
