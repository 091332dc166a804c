/** Cutting bundles that a pile yields with joints better than without; the plan is checked as every plan is. */
import { describe, expect, test } from 'vitest';
import { type Job, jobSchema } from '../../src/job/job.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import type { LinearEngine } from '../../src/linear/model.ts';
import type { Filling } from '../../src/plan/caps.ts';
import { dive } from '../../src/plan/dive.ts';
import { cutFillings, type Making, makePlan, worthOf } from '../../src/plan/finish.ts';
import { generate } from '../../src/plan/generate.ts';
import { Master } from '../../src/plan/master.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import { berthsOf } from '../../src/plan/pricing.ts';
import { problemOf } from '../../src/plan/problem.ts';
import { stretchPile } from '../../src/plan/stretch.ts';
import { throwDice } from '../bench/dice.ts';

const SEEDS = Array.from({ length: 4 }, (_, i) => i + 1);
const DIGEST = `sha256:${'0'.repeat(64)}`;
const RULES = { shortest: 160, share: 0.3 };

/** Voids as long as a bundle and bars of about so many and a half of it: `times` as many as one and a half would do. */
function jobOf(seed: number, times: number, joints: typeof RULES | null, stopsAtMost?: number): Job {
  const dice = throwDice(seed);
  const length = dice.whole(380, 640);
  const count = dice.whole(9, 16);
  return jobSchema.parse({
    format: 'kentledge-job/1',
    name: 'Light bars',
    pile: [
      {
        lot: 'A',
        section: dice.pick([
          { shape: 'square', side: 16 },
          { shape: 'flat', width: 30, thickness: 8 },
          { shape: 'round', diameter: 16 },
        ]),
        lengths: Array.from({ length: count }, () => dice.pick([1.5, 2.5]) * length + dice.whole(4, 30)).flatMap(
          (bar) => new Array<number>(times).fill(bar),
        ),
        bow: 0,
      },
    ],
    saw: { kerf: 2.5 },
    bundle: { limit: 9, joints },
    voids: [
      { void: 'V1', length: length + 25, width: 300, height: 110, gap: { runs: 400 } },
      { void: 'V2', length: length + 25, width: 150, height: 90, gap: { runs: 400 }, rank: 2 },
    ],
    aims: { kgPerHour: dice.pick([0, 2]), stopsAtMost },
  });
}

/** Light bars of eight lengths, more than three voids hold. */
function pileOf(seed: number): Job {
  const dice = throwDice(seed);
  const sections = [
    { shape: 'round', diameter: 14 },
    { shape: 'flat', width: 25, thickness: 6 },
  ];
  return jobSchema.parse({
    format: 'kentledge-job/1',
    name: 'Light bars of many lengths',
    pile: Array.from({ length: 8 }, (_, i) => ({
      lot: `A${i}`,
      section: sections[i % 2],
      length: dice.whole(1100, 3000),
      count: dice.whole(8, 20),
    })),
    bundle: { limit: 9, joints: { shortest: 200, share: 0.3 } },
    voids: Array.from({ length: 3 }, (_, i) => ({
      void: `V${i}`,
      length: dice.whole(500, 1100),
      width: dice.whole(180, 300),
      height: dice.whole(70, 130),
    })),
  });
}

const known = new Map<number, Filling[]>();

/** What would fill the voids from ten times the bars, worked out once. */
function wanted(engine: LinearEngine, seed: number): Filling[] {
  const fillings = known.get(seed) ?? fill(engine, seed);
  known.set(seed, fillings);
  return fillings;
}

function fill(engine: LinearEngine, seed: number): Filling[] {
  const problem = problemOf(jobOf(seed, 10, null));
  const { length } = problem.spaces[0]!.stated;
  const lengths = problem.steels.map(() => [length - 25 - 2]);
  const master = new Master(engine, problem);
  try {
    master.addLength(0, lengths[0]![0]!);
    const berths = berthsOf(problem);
    generate(problem, master, berths, { lengths, rounds: 20, tolerance: 1e-3 });
    return dive(problem, master, berths, { engine, lengths, rounds: 3 }).fillings;
  } finally {
    master.dispose();
  }
}

interface Cut {
  plan: Plan;
  worth: number;
  jointed: number;
}

function cut(engine: LinearEngine, job: Job, wishes: Filling[]): Cut {
  const problem = problemOf(job);
  const making: Making = {
    engine,
    version: '0.1.0',
    jobDigest: DIGEST,
    effort: 'quick',
    seed: 1,
    cuttingEffort: 40,
    stopsAtMost: job.aims.stopsAtMost,
  };
  const fillings = [...wishes];
  const cutting = cutFillings(problem, fillings, making);
  const plan = makePlan(problem, fillings, cutting, making)!;
  return { plan, worth: worthOf(problem, fillings, cutting), jointed: jointedIn(plan) };
}

function jointedIn({ bundles }: Plan): number {
  return bundles.flatMap(({ slots }) => slots).filter((slot) => slot.length > 1).length;
}

describe('cutting with joints', () => {
  test('comes to whole plans, where scrap is what bars leave', async () => {
    const result = await planJob(pileOf(8), { effort: 'quick', stops: 'free', jobDigest: DIGEST });
    expect(result.kind === 'plan' && jointedIn(result.plan)).toBeGreaterThan(0);
  });

  test('is worth no less than without, and stretches piles that are short', async () => {
    const engine = await loadHighs();
    let stretched = 0;
    for (const seed of SEEDS) {
      const wishes = wanted(engine, seed);
      const whole = cut(engine, jobOf(seed, 1, null), wishes);
      const jointed = cut(engine, jobOf(seed, 1, RULES), wishes);
      expect([seed, whole.jointed]).toEqual([seed, 0]);
      expect([seed, jointed.worth >= whole.worth - 1e-6]).toEqual([seed, true]);
      expect(jointed.plan.bound.value).toBeCloseTo(jointed.worth, 1);
      if (jointed.jointed > 0 && jointed.plan.totals.placedMass > 1.03 * whole.plan.totals.placedMass) stretched++;
    }
    expect(stretched).toBeGreaterThan(1);
  });

  test('cuts no more lengths than it may', async () => {
    const engine = await loadHighs();
    for (const seed of SEEDS.slice(0, 2)) {
      for (const stops of [1, 2]) {
        const { plan } = cut(engine, jobOf(seed, 1, RULES, stops), wanted(engine, seed));
        expect(plan.totals.stops).toBeLessThanOrEqual(stops);
      }
    }
  });

  test('lets a pile that is used up be planned as joints might stretch it, by its scrap and no more', async () => {
    const engine = await loadHighs();
    let stretched = 0;
    for (const seed of SEEDS) {
      const whole = cut(engine, jobOf(seed, 1, null), wanted(engine, seed)).plan;
      const problem = problemOf(jobOf(seed, 1, RULES));
      const { scrapMass, stockMass } = whole.totals;
      const longer = stretchPile(problem, whole);
      const bars = (of: typeof problem) => of.barKinds.reduce((sum, kind) => sum + kind.count * kind.length, 0);
      expect(stretchPile(problemOf(jobOf(seed, 1, null)), whole)).toBeNull();
      if (!longer) continue;
      stretched++;
      expect(bars(longer) / bars(problem)).toBeCloseTo(1 + scrapMass / (stockMass - scrapMass), 2);
    }
    expect(stretched).toBeGreaterThan(1);
  });
});
