/** What the planner promises of any job: the same plan again, a checked plan when stopped, reasons where nothing is placed. */
import { describe, expect, test } from 'vitest';
import { type Job, type JobInput, jobSchema } from '../../src/job/job.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { type PlanOptions, type PlanProgress, planJob } from '../../src/plan/planner.ts';
import { throwDice } from '../bench/dice.ts';
import { randomJob } from '../bench/jobs.ts';
import { keptBy } from '../keptBy.ts';
import { tinyInput } from './tinyJobs.ts';

const DIGEST = `sha256:${'0'.repeat(64)}`;

const read = (input: JobInput): Job => jobSchema.parse(input);

const tiny = (seed: number): Job => read(tinyInput(throwDice(seed)));

async function planned(job: Job, options: Partial<PlanOptions> = {}): Promise<Plan | null> {
  const result = await planJob(job, { effort: 'quick', stops: 'free', jobDigest: DIGEST, ...options });
  return result.kind === 'plan' ? result.plan : null;
}

interface Planning {
  plan: Plan;
  told: PlanProgress[];
}

/** The plan of the tiny job of a seed and what was told on the way. */
const planning = keptBy(planningOf);

async function planningOf(seed: number): Promise<Planning> {
  const told: PlanProgress[] = [];
  const plan = await planned(tiny(seed), { onProgress: (progress) => told.push(progress) });
  return { plan: plan!, told };
}

describe('the same job, effort and seed', () => {
  test.each([1, 5])('give the same plan, byte for byte (tiny job %i)', async (seed) => {
    const { plan: first } = await planning(seed);
    expect(JSON.stringify(await planned(tiny(seed)))).toBe(JSON.stringify(first));
  });

  test('give the same plan with aims for the centre, other jobs planned in between', async () => {
    const input = tinyInput(throwDice(5));
    const x = input.voids[0]!.origin?.x ?? 0;
    const job = read({ ...input, aims: { ...input.aims, centre: { x: [x + 0.2, x + 0.4] } } });
    const first = await planned(job);
    await planned(tiny(2));
    expect(JSON.stringify(await planned(job))).toBe(JSON.stringify(first));
  });
});

test('every void weighs what its bundles are told to weigh, to the hundredth', async () => {
  const input = tinyInput(throwDice(9));
  // So that no bundle weighs a round figure.
  const pile = input.pile.map((lot) => ({ ...lot, massPerMetre: 3.3337 }));
  const job = read({ ...input, pile });
  const plan = await planned(job);
  expect(plan!.voids.some(({ bundles }) => bundles > 1)).toBe(true);
  for (const { void: name, mass } of plan!.voids) {
    const own = plan!.bundles.filter((bundle) => bundle.void === name);
    expect(mass).toBe(Math.round(own.reduce((sum, bundle) => sum + 100 * bundle.mass, 0)) / 100);
  }
  expect(checkPlan(job, plan!, DIGEST)).toEqual([]);
});

describe('a planning that is stopped', () => {
  const stop = async (at: number) => {
    const job = tiny(5);
    let polls = 0;
    const result = await planJob(job, { effort: 'steady', jobDigest: DIGEST, shouldStop: () => polls++ >= at });
    expect(result.kind).toBe('plan');
    if (result.kind === 'plan') expect(checkPlan(job, result.plan, DIGEST)).toEqual([]);
    expect(polls).toBeGreaterThan(at);
  };

  test.each([3, 10, 40])('at poll %i gives a plan that the checker passes', stop);
  test('before the first plan gives that plan', () => stop(0));

  test('ends there and then, deep in shaped voids too', async () => {
    const job = read(randomJob(1002, { shapes: true, small: true }));
    const words = async (stopAt: number): Promise<number> => {
      let polls = 0;
      let after = 0;
      const shouldStop = () => ++polls > stopAt;
      const plan = await planned(job, { shouldStop, onProgress: () => (after += polls > stopAt ? 1 : 0) });
      expect(checkPlan(job, plan!, DIGEST)).toEqual([]);
      expect(polls).toBeGreaterThan(stopAt);
      return after;
    };
    for (const at of [20, 300, 700, 1200]) expect([at, (await words(at)) <= 3]).toEqual([at, true]);
  });

  test('does less than one that is not', async () => {
    let steps = 0;
    await planned(tiny(5), { onProgress: () => steps++, shouldStop: () => steps > 0 });
    expect(steps).toBeLessThan((await planning(5)).told.length);
  });
});

describe('progress', () => {
  test('tells checked plans, each worth more, under bounds that never rise', async () => {
    for (const seed of [1, 3, 5]) {
      const job = tiny(seed);
      const { plan: last, told } = await planning(seed);
      const plans = told.flatMap((progress) => (progress.plan ? [progress.plan] : []));
      expect(plans.length).toBeGreaterThan(0);
      plans.forEach((plan, i) => {
        expect(checkPlan(job, plan, DIGEST)).toEqual([]);
        if (i > 0) expect(plan.bound.value).toBeGreaterThan(plans[i - 1]!.bound.value);
      });
      const bounds = told.flatMap((progress) => (progress.bound === null ? [] : [progress.bound]));
      bounds.forEach((bound, i) => {
        if (i > 0) expect(bound).toBeLessThanOrEqual(bounds[i - 1]! + 1e-9);
      });
      told.forEach((progress, i) => {
        expect(progress.step).toBe(i + 1);
      });
      expect(last.bound.value).toBe(plans.at(-1)!.bound.value);
    }
  });

  test('tells a plan at once, every round from it to the next, and every step towards a bound', async () => {
    const { told } = await planning(3);
    expect(told[0]!.plan).toBeDefined();
    expect(told[0]!.phase).toBe('first plan');
    const next = told.findIndex(({ plan }, step) => step > 0 && plan);
    expect(next).toBeGreaterThan(3);
    for (const { value } of told.slice(1, next)) expect(value).toBe(told[0]!.value);
    const bounds = told.map(({ bound }) => bound ?? Number.POSITIVE_INFINITY);
    expect(bounds).toEqual([...bounds].sort((a, b) => b - a));
    expect(told.filter(({ phase }) => phase === 'lengths').length).toBeGreaterThan(10);
  });
});

test('a pile much smaller than its voids, of which each run has less than a bundle by shares, is planned all the same', async () => {
  const input = tinyInput(throwDice(31));
  const fewer = await planned(read(input));
  const more = read({
    ...input,
    pile: input.pile.map((lot, i) => (i === 0 ? { ...lot, count: (lot.count ?? 0) + 1 } : lot)),
  });
  const plan = await planned(more);
  expect(checkPlan(more, plan!, DIGEST)).toEqual([]);
  expect(plan!.bound.value).toBeGreaterThan(fewer!.bound.value);
});

describe('where nothing can be placed', () => {
  const job = (parts: Partial<JobInput>, place: Partial<JobInput['voids'][number]> = {}): Job =>
    read({
      format: 'kentledge-job/1',
      name: 'Nothing',
      pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 3000, count: 6 }],
      voids: [
        { void: 'V1', length: 900, width: 260, height: 120, ...place },
        { void: 'V2', length: 600, width: 200, height: 110, ...place },
      ],
      ...parts,
    });

  const hold = async (stated: Job, words: RegExp) => {
    const result = await planJob(stated, { effort: 'quick', jobDigest: DIGEST });
    expect(result.kind).toBe('nothing');
    if (result.kind !== 'nothing') return;
    expect(result.reasons.map((reason) => reason.void)).toEqual(['V1', 'V2']);
    for (const { why, remedy } of result.reasons) {
      expect(why).toMatch(words);
      expect(remedy.length).toBeGreaterThan(10);
    }
  };

  test.each([
    ['too low a void', job({}, { height: 50 }), /height/],
    ['too narrow a void', job({}, { width: 35 }), /width/],
    ['too light a limit', job({ bundle: { limit: 0.5 } }), /limit/],
    [
      'bars all spoiled',
      job({ pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 200, squaring: 80 }] }),
      /usable/,
    ],
    ['labour too dear', job({ aims: { kgPerHour: 9000 } }), /labour/],
    ['voids that bear nothing', job({}, { most: 0 }), /./],
  ])('a reason is told for every void: %s', (_, stated, words) => hold(stated, words));

  test('a reason is told for voids too short for the shortest piece', () => hold(job({}, { length: 160 }), /mm/));
  test('a reason is told where no ballast is wanted', () => hold(job({ aims: { ballast: 0 } }), /./));
  test('a reason is told where no void is to have any', () => hold(job({}, { target: 0 }), /./));
});

test.each([
  ['target', { target: 0 }],
  ['most', { most: 0 }],
])('a void with a %s of 0 stays empty while others are filled', async (_, cap) => {
  const job = read({
    format: 'kentledge-job/1',
    name: 'One left empty',
    pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 3000, count: 6 }],
    voids: [
      { void: 'V1', length: 900, width: 260, height: 120, ...cap },
      { void: 'V2', length: 600, width: 200, height: 110 },
    ],
  });
  const plan = await planned(job);
  const masses = Object.fromEntries(plan!.voids.map(({ void: name, mass }) => [name, mass]));
  expect(masses.V1).toBe(0);
  expect(masses.V2).toBeGreaterThan(20);
  expect(checkPlan(job, plan!, DIGEST)).toEqual([]);
});

test('aims that no whole bundle comes near leave a plan that misses them, not nothing', async () => {
  const plan = await planned(read(randomJob(4103)));
  expect(plan!.bound.value).toBeGreaterThan(20);
  expect(plan!.cautions.map(({ code }) => code)).toContain('spread-missed');
});

test('a plan that misses a spread is under a bound of little more than the ballast asked for', async () => {
  // Ballast of 25 kg in bundles of up to 14.5, all of it too far from where she floats.
  const plan = await planned(read(randomJob(22)));
  expect(plan!.cautions.map(({ code }) => code)).toContain('spread-missed');
  expect(plan!.bound.valueAtMost).toBeLessThanOrEqual(25 + 14.5);
  expect(plan!.bound.value).toBeGreaterThan(25);
});

test('a plan that misses the centre is under a bound as near as though none were asked for', async () => {
  const input = tinyInput(throwDice(8), { caps: false });
  const x = input.voids[0]!.origin!.x!;
  const plan = await planned(read({ ...input, aims: { ...input.aims, centre: { x: [x + 1.5, x + 1.6] } } }));
  expect(plan!.cautions.map(({ code }) => code)).toContain('centre-missed');
  const free = await planned(read(input));
  expect(plan!.bound.valueAtMost).toBeLessThan(1.02 * free!.bound.valueAtMost!);
  expect(plan!.bound.valueAtMost).toBeGreaterThan(free!.bound.value);
});

describe('stops', () => {
  test('are at most what the job or the caller allows', async () => {
    // Free, its plan has three stops: the limits bind.
    const input = { ...tinyInput(throwDice(11)), aims: { kgPerHour: 1 } };
    const free = await planned(read(input), { effort: 'steady' });
    expect(free!.totals.stops).toBeGreaterThan(2);
    let before = 0;
    for (const most of [1, 2]) {
      const aims = { ...input.aims, stopsAtMost: most };
      const plan = await planned(read({ ...input, aims }), { effort: 'steady' });
      expect(plan!.totals.stops).toBeLessThanOrEqual(most);
      const same = await planned(read(input), { stops: most });
      expect(same!.totals.stops).toBeLessThanOrEqual(most);
      expect(plan!.bound.value).toBeLessThanOrEqual(plan!.bound.valueAtMost!);
      expect(plan!.bound.value).toBeGreaterThan(0.97 * before);
      before = Math.max(before, plan!.bound.value);
    }
    expect(free!.bound.value).toBeGreaterThan(0.97 * before);
  });

  test('asked for as one of the choice give a plan worth no less than was told of it, and the same choice', async () => {
    const job = tiny(6);
    const { choice } = (await planned(job, { stops: undefined }))!;
    expect(choice!.length).toBeGreaterThan(1);
    for (const told of choice!) {
      const plan = (await planned(job, { stops: told.stops }))!;
      expect(plan.totals.stops).toBeLessThanOrEqual(told.stops);
      expect(plan.bound.value).toBeGreaterThanOrEqual(told.value);
      for (const other of choice!.filter(({ stops }) => stops !== plan.totals.stops))
        expect(plan.choice!.find(({ stops }) => stops === other.stops)?.value).toBe(other.value);
    }
  });

  test('where none are asked for are the fewest of a plan within 3 % of the free one', async () => {
    for (const seed of [1, 6]) {
      const job = read({ ...tinyInput(throwDice(seed)), aims: { kgPerHour: 0 } });
      const [free, chosen] = [await planned(job), await planned(job, { stops: undefined })];
      expect(chosen!.bound.value).toBeGreaterThan(0.97 * free!.bound.value - 0.02);
      expect(chosen!.totals.stops).toBeLessThanOrEqual(free!.totals.stops);
    }
  });
});
