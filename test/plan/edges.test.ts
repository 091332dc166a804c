/** Jobs at the edge of the rules: each is planned so that the checker passes it, or a true reason is told. */
import { describe, expect, test } from 'vitest';
import { type Job, type JobInput, jobSchema } from '../../src/job/job.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { whyShut } from '../../src/plan/nothing.ts';
import { planJob } from '../../src/plan/planner.ts';
import { problemOf } from '../../src/plan/problem.ts';
import { restOf } from '../../src/stow/rest.ts';

const DIGEST = `sha256:${'0'.repeat(64)}`;
const FLAT = { shape: 'flat', width: 50, thickness: 20 } as const;

const jobOf = (parts: Partial<JobInput>): Job =>
  jobSchema.parse({
    format: 'kentledge-job/1',
    name: 'Edge',
    pile: [{ lot: 'A', section: FLAT, length: 2100, count: 12 }],
    voids: [],
    aims: { kgPerHour: 0 },
    ...parts,
  });

async function planned(job: Job) {
  const result = await planJob(job, { effort: 'quick', jobDigest: DIGEST });
  if (result.kind !== 'plan') return null;
  expect(checkPlan(job, result.plan, DIGEST)).toEqual([]);
  return result.plan;
}

describe('a bearer under the end of two runs that touch', () => {
  const bearers = [50, 450, 500, 550, 950].map((along) => ({
    along,
    width: 40,
    ...(along === 500 ? { most: 5 } : {}),
  }));
  const place = { void: 'V', length: 1000, width: 200, height: 150, clear: { ends: 0, sides: 0, top: 0 }, bearers };

  test.each([0, 10])('bears no more than it may, runs %i mm apart', async (runs) => {
    const voids = [{ ...place, gap: { runs, across: 0 } }];
    expect(await planned(jobOf({ saw: { tolerance: 0 }, bundle: { endCover: 0, limit: 7 }, voids }))).not.toBeNull();
  });
});

describe('bundles no higher than what counts as the bottom', () => {
  const thin = (maxBars: number) =>
    jobOf({
      pile: [{ lot: 'A', section: { shape: 'flat', width: 40, thickness: 2 }, length: 2000, count: 20, bow: 0 }],
      bundle: { wrap: 0, maxBars },
      voids: [{ void: 'V', length: 500, width: 100, height: 60 }],
    });

  test('are tied of more bars', async () => {
    const plan = await planned(thin(2));
    expect(plan!.bundles.every(({ size }) => size.up > 2)).toBe(true);
  });

  test('are why a void stays empty where no more may be tied', () => {
    const problem = problemOf(thin(1));
    expect(whyShut(problem, problem.spaces[0]!)?.why).toContain('no more than 2 mm high');
  });
});

test('a lot that a small void has no use for does not keep another out of it', async () => {
  const lots = [
    { lot: 'S', section: { shape: 'flat', width: 100, thickness: 6 }, length: 3300, count: 3 },
    { lot: 'D', section: { shape: 'deformed', nominal: 16 }, length: 4800, count: 4, bow: 5 },
  ] as const;
  const voids = [{ void: 'W', length: 318, width: 300, height: 190, most: 3 }];
  const value = async (pile: JobInput['pile']) =>
    (await planned(jobOf({ pile, voids, bundle: { limit: 10 }, aims: { kgPerHour: 3 } })))?.bound.value ?? 0;
  const alone = await value([lots[1]]);
  expect(alone).toBeGreaterThan(1);
  expect(await value([...lots])).toBeGreaterThanOrEqual(alone);
});

describe('a void with bearers', () => {
  /** By trying every whole millimetre. */
  const standsByTrying = ({ laid, along }: { laid: Parameters<typeof restOf>[0]; along: number[] }) =>
    along.some((long) => {
      for (let from = 0; from + long <= laid.length; from++) if (restOf(laid, from, from + long).stands) return true;
      return false;
    });

  test('is shut where no bundle stands anywhere on them, and only there', () => {
    const seen = new Set<boolean>();
    for (let seed = 0; seed < 60; seed++) {
      const length = 300 + ((seed * 37) % 200);
      const apart = 40 + ((seed * 53) % 300);
      const at = 20 + ((seed * 29) % 60);
      const bearers = [at, at + apart].map((along) => ({ along, width: 30 }));
      const clear = { ends: 0, sides: 0, top: 0 };
      const job = jobOf({
        saw: { shortestPiece: 190 },
        voids: [{ void: 'V', length, width: 200, height: 150, clear, bearers }],
      });
      const problem = problemOf(job);
      const space = problem.spaces[0]!;
      const along = Array.from({ length: length - 195 }, (_, n) => 196 + n);
      const stands = standsByTrying({ laid: space.laid[0]!, along });
      expect(whyShut(problem, space) === null, `seed ${seed}`).toBe(stands);
      seen.add(stands);
    }
    expect(seen.size).toBe(2);
  });

  test('of six metres, on which only its longest bundles stand, is judged at once', () => {
    const bearers = [10, 5990].map((along) => ({ along, width: 40 }));
    const problem = problemOf(jobOf({ voids: [{ void: 'W', length: 6000, width: 200, height: 150, bearers }] }));
    const asked = performance.now();
    expect(whyShut(problem, problem.spaces[0]!)).toBeNull();
    expect(performance.now() - asked).toBeLessThan(500);
  });
});
