/** Jobs so small that trying everything is possible: one void that takes one row of squares. */
import { describe, expect, test } from 'vitest';
import { type Job, jobSchema } from '../../src/job/job.ts';
import { sectionKey } from '../../src/job/section.ts';
import type { Effort, Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import { throwDice } from '../bench/dice.ts';
import { gainsOf } from './oneLength.ts';
import { tinyInput } from './tinyJobs.ts';

const DIGEST = `sha256:${'0'.repeat(64)}`;

/** One run and one tier of one row: the best of one length is the best there is. */
function oneRowJob(seed: number): Job {
  const dice = throwDice(seed);
  const side = dice.whole(20, 36);
  const columns = dice.whole(1, 4);
  return jobSchema.parse({
    format: 'kentledge-job/1',
    name: `One row ${seed}`,
    pile: [
      {
        lot: 'A',
        section: { shape: 'square', side },
        length: dice.whole(600, 2200),
        count: dice.whole(1, 3),
        squaring: dice.pick([0, 5]),
        bow: 0,
      },
    ],
    saw: { kerf: dice.pick([0, 2.5, 3]), keepFrom: dice.pick([300, 900]), shortestPiece: 180 },
    bundle: { limit: dice.stepped(4, 14, 0.5), wrap: 3, maxBars: dice.pick([2, 3, 30]) },
    voids: [
      {
        void: 'V1',
        length: dice.whole(280, 385),
        width: columns * side + 6 + 10 + 3,
        height: side + 6 + 24 + 3,
        rank: dice.whole(1, 3),
      },
    ],
    aims: { kgPerHour: dice.pick([0, 2, 5]) },
  });
}

/** The best of every length and every number of bars, in as few bundles as the limit and the width allow. */
function exactOf(job: Job): number {
  const [place, lot] = [job.voids[0]!, job.pile[0]!];
  if (lot.section.shape !== 'square') throw new Error('squares only');
  const { side } = lot.section;
  let best = 0;
  for (let length = job.saw.shortestPiece; length <= place.length - 22; length++) {
    const mass = side * side * 7850e-9 * length;
    const most = Math.min(job.bundle.maxBars, Math.floor(job.bundle.limit / mass + 1e-9));
    if (most < 1) continue;
    gainsOf(job, place, sectionKey(lot.section), length).forEach((gain, bars) => {
      const bundles = Math.ceil(bars / most);
      if (bars * side + 6 * bundles + place.gap.across * (bundles - 1) > place.width - 2 * place.clear.sides) return;
      const minutes = job.saw.minutesPerStop + bundles * job.bundle.minutesPerBundle;
      if (bars > 0) best = Math.max(best, gain.value - (job.aims.kgPerHour * minutes) / 60);
    });
  }
  return best;
}

async function planned(job: Job, effort: Effort): Promise<Plan | null> {
  const result = await planJob(job, { effort, stops: 'free', jobDigest: DIGEST });
  return result.kind === 'plan' ? result.plan : null;
}

describe('the plan of a void that takes one row of bars', () => {
  test('is worth what trying every length and every number of bars finds, under a bound that is not less', async () => {
    let filled = 0;
    const short: string[] = [];
    for (let seed = 1; seed <= 9; seed++) {
      const job = oneRowJob(seed);
      const exact = exactOf(job);
      const plan = await planned(job, 'quick');
      const value = plan?.bound.value ?? 0;
      if (value > exact + 0.011) short.push(`seed ${seed}: ${value} is more than there is, ${exact}`);
      if (value < exact - 0.011 - 0.005 * exact) short.push(`seed ${seed}: ${value} for ${exact}`);
      if (plan && plan.bound.valueAtMost! < exact - 0.011) short.push(`seed ${seed}: bound ${plan.bound.valueAtMost}`);
      if (plan) filled++;
    }
    expect(short).toEqual([]);
    expect(filled).toBeGreaterThan(5);
  });
});

describe('the bound of an effort', () => {
  test('is not under the value of another effort or another number of stops', async () => {
    for (const seed of [5]) {
      const job = jobSchema.parse(tinyInput(throwDice(seed)));
      const plans = [await planned(job, 'quick'), await planned(job, 'steady')];
      const few = await planJob(job, { effort: 'quick', stops: 1, jobDigest: DIGEST });
      if (few.kind === 'plan') plans.push(few.plan);
      const values = plans.flatMap((plan) => (plan ? [plan.bound.value] : []));
      const bounds = plans.flatMap((plan) => (plan ? [plan.bound.valueAtMost!] : []));
      expect([seed, Math.min(...bounds) > Math.max(...values) - 0.011]).toEqual([seed, true]);
    }
  });
});
