import { expect, test } from 'vitest';
import type { Lot } from '../../src/job/job.ts';
import { cutAgain, tellCutAgain } from '../../src/plan/cutAgain.ts';
import type { PlanBar } from '../../src/plan/plan.ts';
import { trialPair } from './trialPlan.ts';

const { job, plan } = trialPair();
const [lot] = job.pile as [Lot];

function of(mark: string, bars: { length: number; pieces: number[] }[], lengths: number[]) {
  const told = bars.map(({ length, pieces }, n) => {
    let at = 0;
    const cut = pieces.map((piece) => {
      at += piece + 3;
      return { from: at - piece - 3, to: at - 3 };
    });
    const remainders = at < length ? [{ from: at, to: length, fate: 'scrap' }] : [];
    return { bar: `${mark}-0${n + 1}`, lot: mark, length, pieces: cut, remainders } as unknown as PlanBar;
  });
  const pile = [{ ...lot, lot: mark, massPerMetre: 5, length: undefined, count: undefined, lengths }];
  return cutAgain({ ...job, pile }, { ...plan, bars: told });
}

test('of pieces cut before it is told how many are tied as they are, cut again with what is lost, or not used', () => {
  const bars = [
    { length: 600, pieces: [600] },
    { length: 600, pieces: [397] },
    { length: 500, pieces: [240, 257] },
  ];
  const told = of('A cut', bars, [600, 600, 500, 450]);
  expect(told).toEqual({ pieces: 4, whole: 1, again: 2, scrap: 1 });
  expect(tellCutAgain(told!)).toBe(
    'Of 4 pieces cut before, 1 is tied as long as cut, 2 are cut again (1.0 kg of it scrap) and 1 is not used.',
  );
  expect(of('A cut 2', [], [600])).toEqual({ pieces: 1, whole: 0, again: 0, scrap: 0 });
  expect(tellCutAgain(of('A cut 2', [], [600])!)).toBe(
    'Of 1 piece cut before, 0 are tied as long as cut, 0 are cut again and 1 is not used.',
  );
});

test('nothing is told where no lot is of cut pieces', () => {
  expect(of('A begun', [], [600])).toBeNull();
  expect(cutAgain(job, plan)).toBeNull();
});
