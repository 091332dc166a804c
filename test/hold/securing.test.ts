import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { withSecuring } from '../../src/hold/securing.ts';
import { holdDownSchema } from '../../src/job/holdDown.ts';
import type { Job } from '../../src/job/job.ts';
import { lotMassPerMetre } from '../../src/job/lot.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { heavierMasses } from '../../src/plan/massTolerance.ts';
import { trialPair } from '../plan/trialPlan.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';

const { job, plan } = trialPair();
const by = (carries: number) => ({ by: 'the floors, with chocks', carries });
const holdDown = (carries: number) =>
  holdDownSchema.parse({
    straps: [{ kind: 'over', count: 4, lashingCapacity: carries, angle: 60 }],
    blocked: { forward: by(carries), aft: by(carries), port: by(carries), starboard: by(carries) },
  });

/** The job with a hold-down in the voids named. */
function jobHeld(voids: string[], carries = 50): Job {
  return {
    ...job,
    voids: job.voids.map((space) => (voids.includes(space.void) ? { ...space, holdDown: holdDown(carries) } : space)),
  };
}

const filled = plan.voids.filter((space) => space.bundles > 0).map((space) => space.void);
const securing = (stated: Job, what = plan) =>
  withSecuring(stated, what).cautions.filter(({ code }) => code === 'not-secured' || code === 'held-on-paper');

describe('the caution about securing', () => {
  test('says NOT SECURED of the voids for which nothing is entered, and names those carried on paper', () => {
    expect(filled).toHaveLength(2);
    expect(securing(jobHeld([]))[0]).toMatchObject({ code: 'not-secured', about: `voids ${filled.join(', ')}` });
    const [caution, ...more] = securing(jobHeld([filled[0]!]));
    expect(more).toEqual([]);
    expect(caution).toMatchObject({ code: 'not-secured', about: `void ${filled[1]}` });
    expect(caution!.text).toMatch(/^No hold-down is worked out for/);
    expect(caution!.text).toContain(`Carried on paper in ${filled[0]}.`);
    expect(caution!.text).toContain('NOT SECURED, DO NOT GO TO SEA');
  });

  test('says NOT SECURED where what is entered does not carry', () => {
    const [caution] = securing(jobHeld(filled, 0.01));
    expect(caution!.code).toBe('not-secured');
    expect(caution!.text).toContain(`does not carry every assumed load in ${filled.join(', ')}`);
  });

  test('goes where every void carries, and says that it is neither fitted nor approved', () => {
    const [caution, ...more] = securing(jobHeld(filled));
    expect(more).toEqual([]);
    expect(caution!.code).toBe('held-on-paper');
    expect(caution!.text).not.toContain('NOT SECURED');
    expect(caution!.text).toMatch(/fitted.*approve/);
  });

  test('says of what lies in a void already that it is not counted', () => {
    const pig = { what: 'old pig', along: [0, 1], across: [-1, 1], up: [0, 1], access: false, mass: 120 };
    const stated = jobHeld(filled);
    const [first, ...others] = stated.voids;
    const withPig = { ...stated, voids: [{ ...first!, keepOut: [pig] }, ...others] } as Job;
    expect(securing(withPig)[0]!.text).toContain(`What lies in ${first!.void} already is not counted here`);
    expect(securing(stated)[0]!.text).not.toContain('not counted here');
  });

  test('stands once however often it is asked for, leaves the others alone, and is none of an empty plan', () => {
    const once = withSecuring(job, plan);
    expect(withSecuring(job, once)).toEqual(once);
    const others = (cautions: typeof plan.cautions) => cautions.filter(({ code }) => code !== 'not-secured');
    expect(others(once.cautions)).toEqual(others(plan.cautions));
    expect(securing(job, { ...plan, bundles: [] })).toEqual([]);
  });
});

describe('bars heavier than reckoned', () => {
  const name = filled[0]!;
  const mass = plan.bundles.reduce((sum, one) => (one.void === name ? sum + one.mass : sum), 0);
  /** The void held by blocks and straps strong enough, but for a side blocked forward that is used to `share` by planned masses. */
  const usedTo = (share: number): Job => {
    const hold = holdDown(50);
    hold.blocked.forward = by((2 * mass * 9.80665) / 1000 / share);
    return { ...job, voids: job.voids.map((space) => (space.void === name ? { ...space, holdDown: hold } : space)) };
  };
  const doubts = (stated: Job, weighed?: Map<string, number>) =>
    withSecuring(stated, plan, weighed).cautions.filter(({ code }) => code === 'hold-if-heavier');
  const scale = (some: typeof plan.bundles) => new Map(some.map((one) => [one.bundle, one.mass]));

  test('a hold-down used to 97 % is told with the load that they would take past it, by how much, and what to do', () => {
    const [doubt, ...more] = doubts(usedTo(0.97));
    expect(more).toEqual([]);
    expect(doubt!.about).toBe(`void ${name}`);
    expect(doubt!.text).toContain('Nobody has weighed some of these bars: should they be 5 % heavier than reckoned');
    // Bands are no heavier, nor are bars of a lot that was weighed: less than 97 % of 1.05.
    const most = heavierMasses(job, plan);
    const heavy = plan.bundles.reduce((sum, one) => (one.void === name ? sum + most.get(one.bundle)! : sum), 0);
    expect(heavy).toBeLessThan(1.05 * mass);
    expect(doubt!.text).toContain(
      `no longer carries: twice its weight forward (${Math.ceil((97 * heavy) / mass)} %). Weigh a bar`,
    );
    expect(doubt!.text).not.toContain('aft');
  });

  test('one used to 94 % is not, nor one that does not carry as it is, which is NOT SECURED', () => {
    expect(doubts(usedTo(0.94))).toEqual([]);
    expect(doubts(usedTo(1.01))).toEqual([]);
    expect(securing(usedTo(1.01))[0]!.text).toContain(`does not carry every assumed load in ${name}`);
  });

  test('nothing is in doubt of bars that were weighed by the metre, nor of bundles off the scale', () => {
    const stated = usedTo(0.99);
    const pile = stated.pile.map((lot) => ({ ...lot, massPerMetre: lotMassPerMetre(lot, stated.steel.density) }));
    expect(doubts({ ...stated, pile })).toEqual([]);
    const own = plan.bundles.filter((one) => one.void === name);
    expect(doubts(stated, scale(own))).toEqual([]);
    expect(doubts(stated, scale(own.slice(0, 1)))).toHaveLength(1);
  });

  test('stands once however often it is asked for, and goes with the doubt', () => {
    const once = withSecuring(usedTo(0.97), plan);
    expect(withSecuring(usedTo(0.97), once)).toEqual(once);
    expect(withSecuring(usedTo(0.94), once).cautions.map(({ code }) => code)).not.toContain('hold-if-heavier');
  });
});

test('the demonstration has a hold-down for two voids, each with every side blocked and a bar across', () => {
  const text = readFileSync(new URL('../../fixtures/bogbean.json', import.meta.url), 'utf8');
  const read = readJobValue(JSON.parse(text));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const entered = read.value.job.voids.filter((space) => space.holdDown);
  expect(entered.map((space) => space.void)).toEqual(['V2', 'V4']);
  for (const { holdDown: hold } of entered) {
    expect(Object.keys(hold!.blocked)).toEqual(['forward', 'aft', 'port', 'starboard']);
    expect(hold!.bars.length).toBeGreaterThan(0);
  }
});

test('bundles that could slide over the run beside them are a caution, void by void, also where all is held', () => {
  const { job: stacked, plan: even } = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 2 });
  const slides = (what: typeof even) =>
    withSecuring(stacked, what).cautions.filter(({ code }) => code === 'slides-over');
  expect(slides(even)).toEqual([]);
  const lower = even.bundles.filter(({ void: name, run, tier }) => !(name === 'V1' && run === 2 && tier > 1));
  const told = slides({ ...even, bundles: lower });
  expect(told).toHaveLength(1);
  expect(told[0]!.about).toBe('void V1');
  expect(told[0]!.text).toMatch(/of run 1 stand higher than run 2 beside them.*before she goes to sea\.$/);
  expect(slides({ ...even, cautions: told })).toEqual([]);
});

test('an end of a run that no chock keeps is a caution, told anew each time it is asked for', () => {
  const { job: stacked, plan: even } = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 2 });
  const slides = (keepOut: Job['voids'][number]['keepOut'], cautions: typeof even.cautions = []) => {
    const voids = stacked.voids.map((space) => ({ ...space, keepOut }));
    return withSecuring({ ...stacked, voids }, { ...even, cautions }).cautions.filter(
      ({ code }) => code === 'slides-along',
    );
  };
  const { length, width, height } = stacked.voids[0]!;
  const bolt = {
    along: [length - 60, length - 40] as [number, number],
    across: [-width / 2, width / 2] as [number, number],
    up: [0, height] as [number, number],
    access: false,
  };
  const told = slides([bolt]);
  expect(told.map(({ about }) => about)).toEqual(['void V1', 'void V2']);
  expect(slides([], told)).toEqual([]);
});
