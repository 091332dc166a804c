import { describe, expect, it } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { lotMassPerMetre } from '../../src/job/lot.ts';
import { readJob } from '../../src/job/readJob.ts';
import { heaviestBundle } from '../../src/lift/limit.ts';
import { checkJoints } from '../../src/plan/check/joints.ts';
import { PLAN_FAULTS } from '../../src/plan/check/planFault.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { readPlan } from '../../src/plan/readPlan.ts';
import { exampleNames, exampleText } from '../examples.ts';
import { carriedPair } from './carriedPlan.ts';
import { CARRYING } from './mutations/carrying.ts';
import { CUTTING } from './mutations/cutting.ts';
import { mutate } from './mutations/mutation.ts';
import { STOWING } from './mutations/stowing.ts';
import { SUMMING } from './mutations/summing.ts';
import { TYING } from './mutations/tying.ts';
import { TRIAL_DIGEST, trialPair } from './trialPlan.ts';

const MUTATIONS = [...CUTTING, ...TYING, ...STOWING, ...CARRYING, ...SUMMING];

interface Pair {
  job: Job;
  plan: Plan;
  digest: string;
}

/** A pair of its own each time, of files that are read once. */
function examplePair(name: string): Pair {
  const known = examples.get(name) ?? readExample(name);
  examples.set(name, known);
  return structuredClone(known);
}

const examples = new Map<string, Pair>();

function readExample(name: string): Pair {
  const job = readJob(exampleText(`${name}.job.json`), { toCheck: true });
  const plan = readPlan(exampleText(`${name}.plan.json`));
  if (!job.ok || !plan.ok) throw new Error(`${name} can not be read`);
  return { job: job.value.job, digest: job.value.digest, plan: plan.value };
}

const PAIRS = new Map<string, () => Pair>([
  ['our own', () => ({ ...trialPair(), digest: TRIAL_DIGEST })],
  ['our own, on bearers', () => ({ ...carriedPair(), digest: TRIAL_DIGEST })],
]);
for (const name of exampleNames()) PAIRS.set(name, () => examplePair(name));

/** What every bundle weighs by its pieces and its wrapping, unrounded, kg. */
function massesOf(job: Job, plan: Plan): Map<string, number> {
  const masses = new Map(plan.bundles.map(({ bundle }) => [bundle, job.bundle.wrapping]));
  for (const bar of plan.bars) {
    const perMetre = lotMassPerMetre(job.pile.find(({ lot }) => lot === bar.lot)!, job.steel.density);
    for (const { bundle, from, to } of bar.pieces)
      masses.set(bundle, masses.get(bundle)! + ((to - from) * perMetre) / 1000);
  }
  return masses;
}

function codesOf({ job, plan, digest }: Pair): string[] {
  return checkPlan(job, plan, digest).map((fault) => fault.code);
}

describe('a right plan', () => {
  it.each([...PAIRS.keys()])('%s passes', (name) => {
    const { job, plan, digest } = PAIRS.get(name)!();
    expect(checkPlan(job, plan, digest)).toEqual([]);
  });

  it.each([...PAIRS.keys()])('%s is left as it was', (name) => {
    const pair = PAIRS.get(name)!();
    const before = JSON.stringify(pair);
    checkPlan(pair.job, pair.plan, pair.digest);
    expect(JSON.stringify(pair)).toBe(before);
  });

  it('passes with its bars, bundles, runs, voids and fields in any order', () => {
    const pair = PAIRS.get('our own')!();
    for (const list of [
      pair.plan.bars,
      pair.plan.bundles,
      pair.plan.runs,
      pair.plan.voids,
      pair.job.pile,
      pair.job.voids,
    ])
      list.reverse();
    for (const bar of pair.plan.bars) bar.pieces.reverse();
    for (const bundle of pair.plan.bundles) bundle.section = reversed(bundle.section);
    expect(checkPlan(pair.job, pair.plan, pair.digest)).toEqual([]);
  });
});

function reversed<T extends object>(value: T): T {
  return Object.fromEntries(Object.entries(value).reverse()) as T;
}

describe('with one thing changed', () => {
  const pairs = [...PAIRS.values()];
  /** Our own two, then the examples, begun with another one each time. */
  const inTurn = (n: number) => [
    ...pairs.slice(0, 2),
    ...pairs.slice(2).map((_, i, examples) => examples[(i + n) % examples.length]!),
  ];

  /** By what a text names the thing that a fault is about; nothing where that is the plan as a whole. */
  const nameOf = (about: string) => about.replace(/^(plan|totals|bound)$|^(\w+ (?=.)|totals\.|bound\.)/, '');

  it.each(MUTATIONS.map((own, n) => [own[0], own[1], own, n] as const))(
    '%s gives %s, told by name',
    (_, code, own, n) => {
      let applied = 0;
      for (const make of inTurn(n)) {
        const pair = make();
        if (!mutate(own, pair.plan, pair.job)) continue;
        const faults = checkPlan(pair.job, pair.plan, pair.digest);
        expect(faults.map((fault) => fault.code)).toContain(code);
        expect(faults.filter(({ about, text }) => !text.includes(nameOf(about)))).toEqual([]);
        // Of so many the others show nothing new.
        if (++applied === 3) break;
      }
      expect(applied).toBeGreaterThan(0);
    },
  );

  it('the table has sixty changes and more, and nearly every code', () => {
    expect(MUTATIONS.length).toBeGreaterThanOrEqual(60);
    const covered = new Set<string>(MUTATIONS.map(([, code]) => code));
    const elsewhere = ['overhang', 'joint-beside-joint'];
    expect(Object.keys(PLAN_FAULTS).filter((code) => !covered.has(code) && !elsewhere.includes(code))).toEqual([]);
  });
});

describe('a bundle carried at one side only', () => {
  it('gives overhang, even where enough area is told twice', () => {
    const { job, plan } = trialPair();
    const [under, twin, upper] = ['V1-04', 'V1-05', 'V1-06'].map(
      (name) => plan.bundles.find((b) => b.bundle === name)!,
    );
    twin!.at.across = under!.at.across;
    upper!.at.across = under!.at.across + under!.size.across - 16;
    expect(codesOf({ job, plan, digest: TRIAL_DIGEST })).toEqual(expect.arrayContaining(['overlap', 'overhang']));
  });
});

describe('a text', () => {
  const textsOf = ({ job, plan }: { job: Job; plan: Plan }) =>
    checkPlan(job, plan, TRIAL_DIGEST).map(({ text }) => text);

  it('tells a centre that is not there once', () => {
    const pair = trialPair();
    pair.plan.centre = null;
    pair.plan.voids[0]!.centre = null;
    expect(textsOf(pair)).toEqual(['void V1: its centre is not told.', 'plan: its centre is not told.']);
  });

  it('is right for one thing as for several', () => {
    const pair = carriedPair();
    pair.job.bundle.joints = null;
    pair.job.voids[0]!.bearers = [{ along: 130, width: 40 }];
    pair.plan.voids[0]!.bundles = 1;
    expect(textsOf(pair)).toEqual([
      'bundle V2-01 has 1 of 3 bars jointed, and joints are not allowed.',
      ...['V1-01', 'V1-02'].map((bundle) => `${bundle} rests on one bearer, not on two.`),
      ...['V1-04', 'V1-05'].map((bundle) => `${bundle} rests on no bearer, not on two.`),
      'void V1: bundles is told 1, it is 6.',
    ]);
  });
});

describe('joints side by side', () => {
  const bundle = trialPair().plan.bundles[0]!;
  const job = trialPair().job;
  job.bundle.joints = { shortest: 100, share: 1 };
  /** Codes for rows of bars; a bar is the lengths of its pieces. */
  function told(arrangement: 'grid' | 'nested', ...rows: number[][][]): string[] {
    const codes: string[] = [];
    const columns = rows.map((row) => row.length);
    checkJoints(job, { ...bundle, arrangement, columns }, rows.flat(), (code) => codes.push(code));
    return codes.filter((code) => code === 'joint-beside-joint');
  }
  const whole = [500];

  it('in one row lie 50 mm apart', () => {
    expect(told('grid', [whole, [200, 300], [249, 251], whole])).toHaveLength(1);
    expect(told('grid', [whole, [200, 300], [250, 250], whole])).toEqual([]);
    expect(told('grid', [whole, [200, 300], whole, [200, 300], whole])).toEqual([]);
  });

  it('in rows on a grid count one above the other', () => {
    expect(told('grid', [whole, [200, 300], whole], [whole, [200, 300], whole])).toHaveLength(1);
    expect(told('grid', [whole, [200, 300], whole, whole], [whole, whole, [200, 300], whole])).toEqual([]);
  });

  it('in nested rows count where the bars touch, either way where rows are equal', () => {
    const below = [whole, [200, 300], whole, whole];
    expect(told('nested', below, [whole, whole, [200, 300], whole, whole])).toHaveLength(1);
    expect(told('nested', below, [whole, whole, whole, [200, 300], whole])).toEqual([]);
    expect(told('nested', below, [whole, [200, 300], whole])).toHaveLength(1);
    expect(told('nested', below, [[200, 300], whole, whole])).toHaveLength(1);
    expect(told('nested', below, [whole, whole, [200, 300]])).toEqual([]);
    expect(told('nested', below, [whole, whole, [200, 300], whole])).toHaveLength(1);
  });
});

describe('the figures of a fault', () => {
  const textsOf = ({ job, plan }: { job: Job; plan: Plan }, code: string) =>
    checkPlan(job, plan, TRIAL_DIGEST).flatMap((fault) => (fault.code === code ? [fault.text] : []));
  it('of a size are those it should have, in half millimetres, however little it is told too small', () => {
    const { job, plan } = trialPair();
    job.saw.tolerance += 0.002;
    expect(textsOf({ job, plan }, 'bundle-size')[0]).toBe('bundle V1-01: size.along is told 506 mm; it is 506.5.');
    job.saw.tolerance += 0.5;
    expect(textsOf({ job, plan }, 'bundle-size')[0]).toBe('bundle V1-01: size.along is told 506 mm; it is 507.');
  });

  it('are as fine as a mass differs from its limit, from the guide or from a most', () => {
    const { job, plan } = trialPair();
    const [space, square] = [job.voids[0]!, job.pile[0]!];
    // V1-01 is three metres of it, and its wrapping.
    square.massPerMetre = 3.14001;
    space.limit = 9.47;
    expect(textsOf({ job, plan }, 'over-limit')).toContain('bundle V1-01 is 9.47003 kg, the limit 9.47 kg.');
    Object.assign(space, { limit: 12, limitByGuide: true, handling: { reach: 400, start: 600, end: 400 } });
    square.massPerMetre = (heaviestBundle(job, space) + 0.00002 - job.bundle.wrapping) / 3;
    const byGuide = textsOf({ job, plan }, 'over-limit').find((text) => text.startsWith('bundle V1-01 '));
    const [, mass, most] = /is ([\d.]+) kg; .* leaves ([\d.]+) kg\.$/.exec(byGuide!)!;
    expect(Number(mass) - Number(most)).toBeCloseTo(0.00002, 5);
    space.most = 30;
    const inV1 = plan.bundles.filter((bundle) => bundle.void === 'V1').map(({ bundle }) => bundle);
    const held = inV1.reduce((sum, bundle) => sum + massesOf(job, plan).get(bundle)!, 0);
    // V1-01 and V1-02 are five metres and a half of it.
    square.massPerMetre -= (held - 30.00002) / 5.5;
    expect(textsOf({ job, plan }, 'over-most')).toEqual(['void V1 holds 30.00002 kg, its most is 30.']);
  });
});

describe('the edges of the rules', () => {
  it('a cut through a spoiled span no wider than the kerf counts as one or as two', () => {
    const { job, plan } = trialPair();
    const at = plan.bars.find((bar) => bar.lot === 'C')!.pieces[0]!.to;
    job.pile[2]!.spoiled = [{ from: at, to: at + 1 }];
    const { cuts } = plan.totals;
    const right = [-1, 0, 1, 2].map((more) => {
      plan.totals.cuts = cuts + more;
      return checkPlan(job, plan).every((fault) => fault.about !== 'totals.cuts');
    });
    expect(right).toEqual([false, true, true, false]);
    // The saw runs in it: the next span begins a kerf behind it.
    expect(checkPlan(job, plan).filter((fault) => fault.about.startsWith('bar '))).toEqual([]);
  });

  it('a keep-out of no thickness may touch a bundle, and no more', () => {
    const { job, plan } = trialPair();
    const { at, size, void: name } = plan.bundles.find((bundle) => bundle.bundle === 'V1-01')!;
    const space = job.voids.find((own) => own.void === name)!;
    const isClear = (along: number): boolean => {
      space.keepOut = [{ along: [along, along], across: [-500, 500], up: [0, 500], access: true }];
      return !codesOf({ job, plan, digest: TRIAL_DIGEST }).includes('keep-out');
    };
    const ends = [at.along, at.along + size.along] as const;
    expect([ends[0], ends[0] + 0.5, ends[1] - 0.5, ends[1]].map(isClear)).toEqual([true, false, false, true]);
  });

  it('six tenths of the area of a bundle must be carried, and no less', () => {
    const { job, plan } = trialPair();
    const [under, twin, upper] = ['V1-04', 'V1-05', 'V1-06'].map(
      (name) => plan.bundles.find((b) => b.bundle === name)!,
    );
    // Across it lies on one alone, along it is moved until its share is as wanted.
    twin!.at.across += 500;
    const carriedAt = (share: number): boolean => {
      const wide = Math.min(under!.size.across, upper!.size.across);
      upper!.at.across = under!.at.across + (under!.size.across - upper!.size.across) / 2;
      const long = (share * upper!.size.along * upper!.size.across) / wide;
      upper!.at.along = under!.at.along + under!.size.along - long;
      return !codesOf({ job, plan, digest: TRIAL_DIGEST }).includes('not-carried');
    };
    expect([0.57, 0.59, 0.61].map(carriedAt)).toEqual([false, false, true]);
  });

  it('a most is not passed by a gram, and a target and the ballast not by all of the lightest bundle', () => {
    const { job, plan } = trialPair();
    const space = job.voids.find(({ void: name }) => name === 'V1')!;
    const masses = massesOf(job, plan);
    const own = plan.bundles.filter((bundle) => bundle.void === 'V1').map(({ bundle }) => masses.get(bundle)!);
    const sum = (some: Iterable<number>) => [...some].reduce((total, mass) => total + mass, 0);
    const least = Math.min(...own);
    const isKept = (code: string, most: number, target: number, ballast: number): boolean => {
      Object.assign(space, { most, target });
      job.aims.ballast = ballast;
      return !codesOf({ job, plan, digest: TRIAL_DIGEST }).includes(code);
    };
    const kept = (code: string, whole: number) =>
      [0.001, 0.00001, 0, -0.00001, -0.001].map((more) => isKept(code, whole + more, whole + more, whole + more));
    expect(kept('over-most', sum(own))).toEqual([true, true, true, false, false]);
    expect(kept('over-target', sum(own) - least)).toEqual([true, true, false, false, false]);
    expect(kept('over-ballast', sum(masses.values()) - least)).toEqual([true, true, false, false, false]);
  });

  it('a bearer and the floor of a run bear their most, and not a gram more', () => {
    const { job, plan } = trialPair();
    const space = job.voids.find(({ void: name }) => name === 'V1')!;
    const masses = massesOf(job, plan);
    const run = plan.runs.find((told) => told.void === 'V1' && told.run === 2)!;
    const own = plan.bundles.filter((bundle) => bundle.void === 'V1' && bundle.run === 2);
    const mass = own.reduce((sum, { bundle }) => sum + masses.get(bundle)!, 0);
    const [from, to] = [run.from, run.to];
    const isBorne = (code: string, more: number): boolean => {
      // Two bearers, each as far from the middle.
      space.bearers = [from + 40, to - 40].map((along) => ({ along, width: 20, most: mass / 2 + more }));
      space.mostPerMetre = (1000 * (mass + more)) / (to - from);
      return checkPlan(job, plan).every((fault) => fault.code !== code || fault.about.startsWith('run 1 '));
    };
    for (const code of ['over-bearer', 'over-metre'])
      expect([code, ...[0.00001, 0, -0.00001].map((more) => isBorne(code, more))]).toEqual([code, true, true, false]);
  });

  it('a rank takes a hundredth off for each step, and at most a tenth', () => {
    const { job, plan } = trialPair();
    const space = job.voids.find(({ void: name }) => name === 'V1')!;
    const steel = plan.bundles
      .filter((bundle) => bundle.void === 'V1')
      .reduce((sum, bundle) => sum + bundle.mass - job.bundle.wrapping, 0);
    const { value } = plan.bound;
    const isRight = (rank: number, weight: number): boolean => {
      const before = 1 - 0.01 * (trialPair().job.voids[0]!.rank - 1);
      Object.assign(space, { rank });
      plan.bound = { value: value + (weight - before) * steel, valueAtMost: null, gap: null };
      return !codesOf({ job, plan, digest: TRIAL_DIGEST }).includes('value');
    };
    expect([isRight(2, 0.99), isRight(10, 0.91), isRight(11, 0.9), isRight(40, 0.9)]).toEqual([true, true, true, true]);
    expect([isRight(10, 0.9), isRight(40, 0.89)]).toEqual([false, false]);
  });

  it('an opening lets a bundle through end first by the height that is free over what it lies on', () => {
    const { job, plan } = trialPair();
    const space = job.voids.find(({ void: name }) => name === 'V1')!;
    const needed = plan.bundles
      .filter((bundle) => bundle.void === 'V1')
      .map(({ size, at }) => {
        const ratio = size.along / (space.height - at.up);
        return size.up * ratio + space.opening!.deck * Math.sqrt(ratio ** 2 - 1);
      });
    const isOpen = (along: number): boolean => {
      space.opening!.along = along;
      return !codesOf({ job, plan, digest: TRIAL_DIGEST }).includes('opening');
    };
    const most = Math.max(...needed);
    expect(most).toBeLessThan(space.opening!.along);
    expect([isOpen(most + 0.1), isOpen(most - 0.1)]).toEqual([true, false]);
  });
});
