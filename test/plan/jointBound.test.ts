/** With joints allowed the bound is never under a plan that joints its bars, at whatever prices it is taken. */
import { describe, expect, test } from 'vitest';
import { type Job, jobSchema } from '../../src/job/job.ts';
import { sectionKey } from '../../src/job/section.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import type { LinearEngine } from '../../src/linear/model.ts';
import { Bounder } from '../../src/plan/bound.ts';
import { generate } from '../../src/plan/generate.ts';
import { firstLengths } from '../../src/plan/lengths.ts';
import { Master } from '../../src/plan/master.ts';
import { berthsOf } from '../../src/plan/pricing.ts';
import { problemOf } from '../../src/plan/problem.ts';
import { type Dice, throwDice } from '../bench/dice.ts';
import { bestJointed } from './jointedPlan.ts';

const SEEDS = Array.from({ length: 14 }, (_, i) => i + 1);

/**
 * One void for one bundle of a length, and bars of about one and a half of it, one fewer than the bundle holds: only with a
 * joint is it full.
 */
function throwJob(dice: Dice): { job: Job; length: number } {
  const length = dice.whole(310, 520);
  const kerf = dice.pick([0, 1.3, 3]);
  const width = dice.whole(4, 6);
  const from = dice.whole(50, 250);
  const job = jobSchema.parse({
    format: 'kentledge-job/1',
    name: 'Jointed',
    pile: [
      {
        lot: 'A',
        section: { shape: 'square', side: 16 },
        lengths: Array.from(
          { length: width - dice.pick([1, 1, 1, 2]) },
          () => length + kerf + Math.ceil(length / 2) + dice.whole(0, 15),
        ),
        bow: 0,
        ...(dice.chance(0.15) ? { spoiled: [{ from, to: from + 20 }] } : {}),
      },
    ],
    saw: { kerf, tolerance: dice.pick([0, 2, 3]), shortestPiece: 150, minutesPerCut: 0.5 },
    bundle: { limit: 25, minutesPerBundle: 1, joints: { shortest: 150, share: dice.pick([0.25, 0.34, 1]) } },
    voids: [
      {
        void: 'V1',
        length: length + dice.whole(22, 40),
        width: 16 * width + 16 + dice.whole(0, 4),
        height: 46 + dice.whole(0, 4),
        gap: { runs: 300 },
        rank: dice.whole(1, 3),
      },
    ],
    aims: { kgPerHour: dice.pick([0, 1]), ...(dice.chance(0.3) ? { ballast: dice.whole(2, 5) } : {}) },
  });
  return { job, length };
}

/** The best of many jointings of the length the pile was made for. */
function planted(job: Job, length: number): number {
  const [place] = job.voids;
  const key = sectionKey(job.pile[0]!.section);
  let best = 0;
  for (const whole of [length - job.saw.tolerance, length]) {
    for (let first = 150; 2 * first <= whole; first += 19)
      best = Math.max(best, bestJointed(job, place!, key, { length, parts: [first, whole - first] }));
  }
  return best;
}

/** The lowest bound at the master's own prices and at many random ones. */
function lowestBound(engine: LinearEngine, job: Job, dice: Dice): number {
  const problem = problemOf(job);
  const master = new Master(engine, problem);
  try {
    const lengths = firstLengths(problem, 50);
    lengths.forEach((own, steel) => {
      for (const length of own) master.addLength(steel, length);
    });
    const { prices } = generate(problem, master, berthsOf(problem), { lengths, rounds: 40, tolerance: 1e-3 });
    const bounder = new Bounder(problem);
    let least = bounder.at(master.loadRows, prices).value;
    for (let i = 0; i < 12; i++) {
      const own = [...new Set(Array.from({ length: dice.whole(1, 6) }, () => dice.whole(150, 560)))].sort(
        (a, b) => a - b,
      );
      const worth = own.map((each) => (problem.steels[0]!.heaviest * each * dice.stepped(0.6, 1.1, 0.01)) / 1000);
      const loads = Float64Array.from(master.loadRows, () => dice.pick([0, dice.stepped(0, 0.3, 0.01)]));
      least = Math.min(
        least,
        bounder.at(master.loadRows, { ...prices, pieces: [{ lengths: own, worth }], loads }).value,
      );
    }
    return least;
  } finally {
    master.dispose();
  }
}

describe('the bound with joints', () => {
  test('is not under plans of jointed bars, of which some pass the bound without joints', async () => {
    const engine = await loadHighs();
    let beyond = 0;
    for (const seed of SEEDS) {
      const { job, length } = throwJob(throwDice(seed));
      const value = planted(job, length);
      expect([seed, lowestBound(engine, job, throwDice(seed)) > value - 1e-6]).toEqual([seed, true]);
      const whole = { ...job, bundle: { ...job.bundle, joints: null } };
      if (lowestBound(engine, whole, throwDice(seed)) < value - 1e-6) beyond++;
    }
    expect(beyond).toBeGreaterThan(2);
  });
});
