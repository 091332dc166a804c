/** Lengths fitted to a whole plan: never for the worse, the same runs and bars, and whatever the checker asks is kept. */
import { describe, expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { areCapsKept, bundleMasses } from '../../src/plan/caps.ts';
import { cutFrom, cutUses } from '../../src/plan/cutting.ts';
import { Dice } from '../../src/plan/dice.ts';
import { dive } from '../../src/plan/dive.ts';
import { exchangeBars } from '../../src/plan/exchange.ts';
import { type Making, makePlan, worthOf } from '../../src/plan/finish.ts';
import { fitLengths } from '../../src/plan/fitLengths.ts';
import { barMass, problemOf } from '../../src/plan/problem.ts';
import { usesOf } from '../../src/plan/short.ts';
import { throwDice } from '../bench/dice.ts';
import { tinyJob } from './tinyJobs.ts';
import { tinyMaster } from './tinyMaster.ts';

const SEEDS = Array.from({ length: 8 }, (_, i) => i + 1);

/** A whole plan of a tiny job, roughly made, before its lengths are fitted. */
async function wholePlan(job: Job) {
  const { engine, problem, berths, lengths, master } = await tinyMaster(job);
  try {
    const start = dive(problem, master, berths, { engine, lengths, rounds: 2 });
    const { bars } = cutUses(problem, usesOf(start.fillings), { engine, effort: 5 });
    const whole = exchangeBars(problem, berths, start, bars, 10, { engine, dice: new Dice(1) });
    const cutting = cutFrom(problem, usesOf(whole.fillings), whole.bars);
    return { engine, problem, fillings: whole.fillings, cutting };
  } finally {
    master.dispose();
  }
}

/** Every third job asks for a centre, near where its voids are, and a spread. */
function jobOf(seed: number): Job {
  const dice = throwDice(seed);
  const job = tinyJob(dice);
  if (seed % 3 > 0) return job;
  const x = job.voids[0]!.origin.x + job.voids[0]!.length / 2000;
  return { ...job, aims: { ...job.aims, centre: { x: [x - 0.05, x + 0.15] }, spread: 8 } };
}

/** What the ballast is held against, kg. */
function withoutLightest(masses: number[]): number {
  return masses.reduce((sum, mass) => sum + mass, 0) - Math.min(...masses);
}

function makingOf(engine: Making['engine']): Making {
  return { engine, version: '0', jobDigest: `sha256:${'0'.repeat(64)}`, effort: 'quick', seed: 1, cuttingEffort: 5 };
}

describe('fitting lengths', () => {
  test('is never for the worse, keeps runs and bars, and pleases the checker', async () => {
    let fits = 0;
    for (const seed of SEEDS) {
      const { engine, problem, fillings, cutting } = await wholePlan(jobOf(seed));
      if (cutting.short.length > 0 || cutting.bars.length === 0) continue;
      const fitted = fitLengths(problem, fillings, cutting, engine);
      if (!fitted) continue;
      fits++;
      const before = worthOf(problem, fillings, cutting);
      expect(worthOf(problem, fitted.fillings, fitted.cutting)).toBeGreaterThan(before);
      const runs = (all: typeof fillings) =>
        all.map((filling) => filling?.runs.map(({ stack }) => [stack.bars, stack.bundles]));
      expect(runs(fitted.fillings)).toEqual(runs(fillings));
      expect(fitted.cutting.bars.map(({ kind }) => kind.index)).toEqual(cutting.bars.map(({ kind }) => kind.index));
      // A plan that the checker faults is thrown.
      expect(makePlan(problem, fitted.fillings, fitted.cutting, makingOf(engine))).not.toBeNull();
    }
    expect(fits).toBeGreaterThan(SEEDS.length / 6);
  });

  test('shortens what is over the ballast until it just keeps it', async () => {
    let fits = 0;
    for (const seed of SEEDS.filter((seed) => seed % 3 > 0)) {
      const job = tinyJob(throwDice(seed), { caps: false });
      const { engine, problem, fillings, cutting } = await wholePlan(job);
      if (cutting.short.length > 0 || cutting.bars.length === 0) continue;
      const ballast = 0.97 * withoutLightest(bundleMasses(problem, fillings));
      const capped = problemOf({ ...job, aims: { ...job.aims, ballast } });
      const fitted = fitLengths(capped, fillings, cutting, engine);
      if (!fitted) continue;
      fits++;
      expect(areCapsKept(capped, fitted.fillings)).toBe(true);
      // Every length loses less than a millimetre by rounding.
      const perMm = usesOf(fillings).reduce((sum, { steel, bars }) => sum + barMass(problem.steels[steel]!, bars), 0);
      expect(withoutLightest(bundleMasses(capped, fitted.fillings))).toBeGreaterThan(ballast - perMm);
      expect(makePlan(capped, fitted.fillings, fitted.cutting, makingOf(engine))).not.toBeNull();
    }
    expect(fits).toBeGreaterThan(2);
  });

  test('leaves alone what can not be bettered', async () => {
    const { engine, problem, fillings, cutting } = await wholePlan(jobOf(7));
    const once = fitLengths(problem, fillings, cutting, engine);
    const now = once ?? { fillings, cutting };
    const twice = fitLengths(problem, now.fillings, now.cutting, engine);
    const worth = (of: typeof now) => worthOf(problem, of.fillings, of.cutting);
    expect(twice ? worth(twice) - worth(now) : 0).toBeLessThan(0.02 * worth(now));
  });
});
