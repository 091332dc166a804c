import { expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { lotMassPerMetre } from '../../src/job/lot.ts';
import { heavierMasses, massTolerances } from '../../src/plan/massTolerance.ts';
import { trialPair } from './trialPlan.ts';

const { job, plan } = trialPair();

/** kg of the steel of a bundle, each bar so much longer and so much heavier, by its lot. */
function steelOf(of: Job, bundle: string, longer: number, share: (weighed: boolean) => number): number {
  let sum = 0;
  for (const bar of plan.bars) {
    const lot = of.pile.find((own) => own.lot === bar.lot)!;
    const perMetre = lotMassPerMetre(lot, of.steel.density) / 1000;
    for (const piece of bar.pieces.filter((own) => own.bundle === bundle))
      sum += ((piece.to - piece.from) * share(lot.massPerMetre !== undefined) + longer) * perMetre;
  }
  return sum;
}

test('a bundle may be off by what the saw leaves of each piece and the spread of its lot, rounded up to 0.05 kg', () => {
  const tolerances = massTolerances(job, plan);
  expect(tolerances.size).toBe(plan.bundles.length);
  for (const [bundle, tolerance] of tolerances) {
    const worst = steelOf(job, bundle, job.saw.tolerance, (weighed) => (weighed ? 0.01 : 0.05));
    expect(Math.round(tolerance * 20) / 20).toBe(tolerance);
    expect([bundle, tolerance >= worst - 1e-9, tolerance < worst + 0.05]).toEqual([bundle, true, true]);
  }
});

test('of bars that nobody weighed a bundle may be a twentieth heavier than reckoned, of others not', () => {
  for (const [bundle, mass] of heavierMasses(job, plan)) {
    const planned = plan.bundles.find((own) => own.bundle === bundle)!.mass;
    expect(mass - planned).toBeCloseTo(
      steelOf(job, bundle, 0, (weighed) => (weighed ? 0 : 0.05)),
      9,
    );
  }
});
