/** Lifting, hold-down and balance on paper. */
import { describe, expect, test } from 'vitest';
import { PAPERS } from '../../../server/paper/papers.ts';
import { amount } from '../../../src/balance/amount.ts';
import { effectOf } from '../../../src/balance/float.ts';
import { loadingOf } from '../../../src/balance/loading.ts';
import { stowedWeights } from '../../../src/balance/trial.ts';
import { holdDownSchema } from '../../../src/job/holdDown.ts';
import type { Job, KeepOut } from '../../../src/job/job.ts';
import { becketsOf } from '../../../src/lift/becket.ts';
import { addedContents } from '../../../src/plan/contents.ts';
import { firstPart } from '../../../src/plan/share.ts';
import { BAR } from '../../hold/heldJob.ts';
import { outside, overlapping, textOf } from './readPdf.ts';
import { stackedPair } from './stackedPlan.ts';
import { read, TRIAL, type write } from './writePaper.ts';

describe('lifting', () => {
  test('a bundle over the guide is called out on its tag, its bundle sheet and its stowage sheet', async () => {
    const handling = { reach: 600, start: 750, end: 0, twist: 60 };
    const voids = TRIAL.job.voids.map((space) => (space.void === 'V1' ? { ...space, handling } : space));
    const job = { ...TRIAL.job, voids };
    for (const file of ['tags.pdf', 'bundle-sheet.pdf', 'stowage.pdf']) {
      const pages = await read(file, job, TRIAL.plan);
      const text = textOf(pages).replace(/\s+/g, ' ');
      // A tag has its mass large, once, and beside it how many lift it.
      if (file === 'tags.pdf') expect(text).toContain('Two people or a mechanical aid: over the guide of');
      else expect(text).toMatch(/TWO PEOPLE or a mechanical aid: 9\.5\d? kg is over the guide of/);
      if (file === 'tags.pdf') expect([/TWO PEOPLE/.test(text), text.includes('9.5 kg')]).toEqual([true, false]);
      expect([...overlapping(pages), ...outside(pages)]).toEqual([]);
    }
  });

  test('the cord of its beckets stands on the tag, one loop or two by length', async () => {
    const bundle = { ...TRIAL.job.bundle, becket: { cord: 8, grip: 150 } };
    const bundles = TRIAL.plan.bundles.map((one) => ({ ...one, becket: becketsOf(one.size, bundle.becket).cord }));
    const text = textOf(await read('tags.pdf', { ...TRIAL.job, bundle }, { ...TRIAL.plan, bundles }));
    for (const { becket, size } of bundles)
      expect(text).toContain(
        size.along > 600 ? `2 beckets, each: ${becket! / 2} mm of 8 mm cord` : `becket: ${becket} mm of 8 mm cord`,
      );
    expect(new Set(bundles.map(({ size }) => size.along > 600)).size).toBe(2);
  });

  test('a way in that is outside the method is flagged at the foot of every framed paper, and on the tags', async () => {
    const handling = { reach: 520, start: 450, end: -200, posture: 'kneeling' as const };
    const voids = TRIAL.job.voids.map((space) => (space.void === 'V1' ? { ...space, handling } : space));
    const flag = 'Part of the way into V1 is outside the lifting method';
    for (const { file } of PAPERS) {
      const pages = await read(file, { ...TRIAL.job, voids }, TRIAL.plan);
      if (file === 'tags.pdf') expect(textOf(pages)).toContain('Part of the way is outside the lifting method');
      else expect(textOf([pages.at(-1)!]), file).toContain(flag);
      expect(overlapping(pages), file).toEqual([]);
    }
    expect(textOf(await read('ballast-register.pdf', TRIAL.job, TRIAL.plan))).not.toContain('outside the lifting');
  });
});

describe('hold-down sheets', () => {
  const withHold = (carries: number): Job => ({
    ...TRIAL.job,
    voids: TRIAL.job.voids.map((space) => {
      const by = { by: 'the floors', carries };
      const holdDown = holdDownSchema.parse({
        straps: [{ kind: 'over', count: 4, lashingCapacity: carries, angle: 60 }],
        blocked: { forward: by, aft: by, port: by, starboard: by },
      });
      return space.void === 'V1' ? { ...space, holdDown } : space;
    }),
  });

  test('say what carries each load, and NOT CARRIED where nothing does', async () => {
    const strong = textOf(await read('hold-down.pdf', withHold(50), TRIAL.plan));
    expect(strong).toContain('blocked by the floors');
    expect(strong).toContain('half or less');
    expect(strong).not.toContain('NOT CARRIED');
    const weak = textOf(await read('hold-down.pdf', withHold(0.1), TRIAL.plan));
    expect(weak).toContain('NOT CARRIED');
  });

  test('say what is alike of several loads once, each line with a capital', async () => {
    const text = textOf(await read('hold-down.pdf', withHold(0.1), TRIAL.plan)).replace(/\s+/g, ' ');
    const least = text.slice(text.indexOf('The least that would carry it'), text.indexOf('Assumed, to be confirmed'));
    expect(least).toMatch(/– Twice its weight forward, [a-z ,]+: That side blocked by what carries/);
    expect(least).not.toMatch(/– [a-z]/);
    expect(least.split('That side blocked')).toHaveLength(2);
    const stow = textOf(await read('stowage.pdf', withHold(0.1), TRIAL.plan));
    expect(stow).toContain('– Twice its weight forward,');
    expect(stow).toContain('– Upside down,');
  });

  test('tell what could slide over the run beside it, whether anything is entered for the void or not', async () => {
    const { job, plan } = stackedPair({ voids: 1, runs: 2, tiers: 2, across: 1 });
    const lower = { ...plan, bundles: plan.bundles.filter(({ run, tier }) => run === 1 || tier === 1) };
    const { holdDown } = withHold(50).voids.find((space) => space.holdDown)!;
    const held = { ...job, voids: job.voids.map((space) => ({ ...space, holdDown })) };
    for (const stated of [job, held])
      for (const [of, told] of [
        [lower, true],
        [plan, false],
      ] as const) {
        const text = textOf(await read('hold-down.pdf', stated, of)).replace(/\s+/g, ' ');
        expect(text.includes('nothing keeps it from sliding over that run')).toBe(told);
      }
  });

  test('tell to keep a bar on edge from falling over, on the stowage sheet too', async () => {
    const job = withHold(50);
    const edge = { ...BAR, width: 16, onEdge: true, span: 500 };
    const voids = job.voids.map((space) =>
      space.holdDown ? { ...space, holdDown: holdDownSchema.parse({ ...space.holdDown, bars: [edge] }) } : space,
    );
    for (const file of ['hold-down.pdf', 'stowage.pdf'])
      expect(textOf(await read(file, { ...job, voids }, TRIAL.plan)).replace(/\s+/g, ' '), file).toContain(
        'A1 to A2 stand on edge and are reckoned as kept upright. Falling over is not reckoned',
      );
  });

  test('tell what lies in the void beside the plan, and papers tell where as far as the void goes', async () => {
    const job = withHold(50);
    const [first, ...rest] = job.voids;
    const standing = {
      what: 'run 1, stowed already',
      along: [0, 60] as [number, number],
      across: [-400, first!.width / 2] as [number, number],
      up: [-50, first!.height] as [number, number],
      access: false,
      mass: 20,
    };
    const besides = { ...job, voids: [{ ...first!, keepOut: [standing] }, ...rest] };
    const text = textOf(await read('hold-down.pdf', besides, TRIAL.plan));
    expect(text).toContain('Beside this plan 20 kg lie in it that are not counted here');
    expect(textOf(await read('hold-down.pdf', job, TRIAL.plan))).not.toContain('Beside this plan');
    const half = first!.width / 2;
    const card = textOf(await read('access-cards.pdf', besides, TRIAL.plan));
    expect(card).toContain(`0 to 60 along, -${half} to ${half} across, 0 to ${first!.height} up`);
    const stow = textOf(await read('stowage.pdf', besides, TRIAL.plan));
    expect(stow).toContain(`stowed already, 20 kg, 0 to 60 along, -${half} to ${half} across`);
  });

  test('print a lighter load with its reason beside the usual one, stay NOT SECURED for it, and name what is assumed', async () => {
    const job = withHold(50);
    const [first, ...rest] = job.voids;
    const { blocked } = first!.holdDown!;
    const weak = { by: 'the floors', carries: 0.05 };
    const loads = { across: 0.1, reason: 'never leaves the lock' };
    const holdDown = { ...first!.holdDown!, blocked: { ...blocked, port: weak, starboard: weak }, loads };
    const text = textOf(await read('hold-down.pdf', { ...job, voids: [{ ...first!, holdDown }, ...rest] }, TRIAL.plan));
    expect(text).toContain('twice its weight to port');
    expect(text).toContain('Lighter than usual, because: never leaves the lock');
    expect(text).toContain('The usual ones are not: this void stays not secured.');
    expect(text).toContain('NOT SECURED, DO NOT GO TO SEA');
    expect(text).toContain('Assumed, to be confirmed');
  });

  test('hold what the scale said: a void that it makes too heavy is NOT SECURED on every paper', async () => {
    const own = TRIAL.plan.bundles.filter((bundle) => bundle.void === 'V1');
    const planned = own.reduce((sum, bundle) => sum + bundle.mass, 0);
    // Blocked by what carries 3 % more than twice the planned weight.
    const job = withHold((1.03 * 2 * 9.81 * planned) / 1000);
    const one = { ...job, voids: job.voids.filter((space) => space.void === 'V1') };
    const inV1 = <T extends { void: string }>(all: T[]) => all.filter((each) => each.void === 'V1');
    const plan = { ...TRIAL.plan, bundles: own, voids: inV1(TRIAL.plan.voids), runs: inV1(TRIAL.plan.runs) };
    const heavy = new Map(own.map((bundle) => [bundle.bundle, 1.05 * bundle.mass]));
    for (const file of ['stowage.pdf', 'hold-down.pdf', 'ballast-register.pdf']) {
      const said = async (options: Parameters<typeof write>[3]) => textOf(await read(file, one, plan, options));
      expect(await said({}), file).not.toContain('NOT SECURED');
      expect(await said({ weighed: heavy }), file).toContain('NOT SECURED, DO NOT GO TO SEA');
      expect(await said({ weighed: new Map([[own[0]!.bundle, own[0]!.mass]]) }), file).not.toContain('NOT SECURED');
    }
    const sheet = textOf(await read('hold-down.pdf', one, plan, { weighed: heavy }));
    expect(sheet).toContain(`${Math.round(1.05 * planned * 10) / 10} kg to hold`);
    expect(sheet).toContain('what the scale said where bundles were weighed');
    expect(sheet).toContain('102 %: NOT CARRIED');
  });

  test('NOT SECURED goes from the sheets of a held void alone', async () => {
    const pages = await read('stowage.pdf', withHold(50), TRIAL.plan);
    const secured = pages.map((page) => !textOf([page]).includes('NOT SECURED'));
    const named = pages.map((page) => textOf([page]).includes('V1 Abaft the mast step'));
    expect(secured[0]).toBe(false);
    expect(secured[named.indexOf(true)]).toBe(true);
    expect(secured.at(-1)).toBe(false);
  });
});

const HER = { displacement: 8000, lcf: 4.7, waterlineLength: 9, beam: 3, kgPerCm: 200, vcg: 1, gm: 0.6 };

describe('balance sheet', () => {
  test('adds up moments and says what is not known', async () => {
    const text = textOf(await read('balance.pdf', TRIAL.job, TRIAL.plan));
    const mass = TRIAL.plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
    expect(text).toContain(String(Math.round(mass * 10) / 10));
    expect(text).toContain('not known');
  });

  test('forecasts the trial with what lies in her voids for list and roll, and by the bundles alone for the marks', async () => {
    const vessel = { ...HER, kgmPerCm: 100 };
    const [first, ...rest] = TRIAL.job.voids;
    const pig = { along: [0, 10], across: [400, 410], up: [0, 10], access: false, mass: 400 };
    const voids = [{ ...first!, width: 900, keepOut: [pig as KeepOut] }, ...rest];
    const job = { ...TRIAL.job, vessel, voids };
    const text = textOf(await read('balance.pdf', job, TRIAL.plan)).replace(/\s+/g, ' ');
    const stowed = stowedWeights(job, TRIAL.plan, firstPart(job, TRIAL.plan, job.aims.fixedShare).counts);
    const { marks } = effectOf(vessel, stowed);
    const { stability } = effectOf(vessel, [...stowed, ...addedContents(job)]);
    if (marks.kind !== 'answer' || stability.kind !== 'answer') throw new Error('she is stated in full');
    expect(stability.list.likely).toBeGreaterThan(1);
    expect(text).toContain(
      `forward end down, cm ${amount(marks.forward, 1, 'cm')} after end down, cm ${amount(marks.aft, 1, 'cm')} list, to starboard where positive ${amount(stability.list, 1, '°')} one roll, s ${amount(stability.period, 1, 's')}`,
    );
  });

  test('counts what else lies in the voids, and tells what is missed of the effect wanted in centimetres', async () => {
    const vessel = { ...HER, kgmPerCm: 100 };
    const [first, ...rest] = TRIAL.job.voids;
    const lying = (mass: number, aboard: boolean) => {
      const pig = {
        what: 'old pig',
        along: [0, 10] as [number, number],
        across: [0, 10] as [number, number],
        up: [0, 10] as [number, number],
        access: false,
        mass,
        aboard,
      };
      const effect = { down: { forward: 5, aft: 5 }, upright: true };
      return {
        ...TRIAL.job,
        vessel,
        aims: { ...TRIAL.job.aims, effect },
        voids: [{ ...first!, keepOut: [pig] }, ...rest],
      };
    };
    const added = textOf(await read('balance.pdf', lying(400, false), TRIAL.plan));
    expect(added).toContain('old pig, lying in V1');
    expect(added).toMatch(/The marks wanted are missed: \d+\.\d cm too/);
    const aboard = textOf(await read('balance.pdf', lying(400, true), TRIAL.plan));
    expect(aboard).toContain('is in her own figures already and is not counted again');
    expect(aboard).not.toContain('old pig, lying in V1');
    const total = TRIAL.plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 400);
    for (const [inHer, words] of [
      [false, 'V1, beside this plan: old pig'],
      [true, '(in her own figures)'],
    ] as const) {
      const register = textOf(await read('ballast-register.pdf', lying(400, inHer), TRIAL.plan));
      expect(register).toContain(words);
      expect(register).toContain('it has to be held, too');
      expect(register).toContain(`${total.toFixed(2)} kg`);
    }
  });

  test('counts the list that she has, and the loading sequence begins with it', async () => {
    const vessel = { ...HER, list: -1 };
    const job = { ...TRIAL.job, vessel };
    const pages = await read('balance.pdf', job, TRIAL.plan);
    const text = textOf(pages);
    // 8000 kg × 0.6 m × tan 1° = 83.8 kg·m to port.
    expect(text).toContain('her list now, 1° to port');
    expect(text).toContain('-83.8');
    expect(text).toContain('all, with her list');
    expect(text).toContain('list before, to starboard where positive');
    expect(text).toContain('a moment of 84 kg·m');
    expect(text).toContain('before: 1.0° to port');
    expect(overlapping(pages)).toEqual([]);
    const stow = textOf(await read('stowage.pdf', job, TRIAL.plan));
    expect(stow).toContain('Before the first bundle she lists 1° to port: every moment and list below counts it.');
    const { gm: _, ...unknown } = vessel;
    // GM from a roll of 3 s: (0.8 × 3 / 3)² = 0.64 m; 8000 × 0.64 × tan 1° = 89.4 kg·m.
    const timed = { ...unknown, rollPeriod: 3 };
    const estimated = textOf(await read('stowage.pdf', { ...job, vessel: timed }, TRIAL.plan));
    expect(estimated).toContain('a moment of about 89 kg·m (79 to 101): every moment below counts it.');
    const last = loadingOf({ ...job, vessel: timed }, TRIAL.plan).at(-1)!;
    const without = loadingOf({ ...job, vessel: { ...timed, list: 0 } }, TRIAL.plan).at(-1)!;
    expect([last.list, without.list]).toEqual([null, null]);
    expect(last.moment - without.moment).toBeCloseTo(-89.37, 1);
    const leftOut = textOf(await read('stowage.pdf', { ...job, vessel: unknown }, TRIAL.plan));
    expect(leftOut).toContain('that is NOT COUNTED below');
    expect(textOf(await read('balance.pdf', { ...job, vessel: { list: -1 } }, TRIAL.plan))).toContain('NOT COUNTED');
    const upright = textOf(await read('balance.pdf', TRIAL.job, TRIAL.plan));
    for (const words of ['her list', 'list before']) expect(upright).not.toContain(words);
  });

  test('names a limit that is passed on the stowage sheets too', async () => {
    const vessel = {
      displacement: 8000,
      displacementMost: 8010,
      lcf: 4.7,
      waterlineLength: 9,
      beam: 3,
      kgPerCm: 200,
      kgmPerCm: 100,
    };
    const job = { ...TRIAL.job, vessel };
    for (const file of ['balance.pdf', 'stowage.pdf', 'ballast-register.pdf']) {
      expect(textOf(await read(file, job, TRIAL.plan)), file).toContain('TOO HEAVY');
    }
  });

  test('what the scale said counts in the moments, the effect and the limits', async () => {
    const planned = TRIAL.plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
    const vessel = { ...HER, kgmPerCm: 100, displacementMost: HER.displacement + planned + 1 };
    const job = { ...TRIAL.job, vessel };
    const weighed = new Map(TRIAL.plan.bundles.map((bundle) => [bundle.bundle, 1.1 * bundle.mass]));
    const said = async (file: string, options: Parameters<typeof write>[3]) =>
      textOf(await read(file, job, TRIAL.plan, options)).replace(/\s+/g, ' ');
    expect(await said('balance.pdf', {})).toContain('What she may still carry: 1 kg.');
    const over = `What she may still carry: nothing, she is ${(0.1 * planned - 1).toFixed(0)} kg over: TOO HEAVY`;
    const sheet = await said('balance.pdf', { weighed });
    expect(sheet).toContain(over);
    expect(sheet).toContain('Where bundles were weighed they are what the scale said.');
    expect(sheet).toContain(`all ${(1.1 * planned).toFixed(1)} `);
    expect(await said('stowage.pdf', { weighed })).toContain(over);
    expect(await said('stowage.pdf', {})).not.toContain('TOO HEAVY');
  });
});

describe('places that nobody stated', () => {
  test('every paper that tells what hangs on them says so, and none does where they are stated', async () => {
    const voids = TRIAL.job.voids.map((space) => ({ ...space, origin: { x: 0, y: 0, z: 0 } }));
    for (const file of ['ballast-register.pdf', 'balance.pdf', 'stowage.pdf', 'breaking-out.pdf']) {
      const pages = await read(file, { ...TRIAL.job, voids }, TRIAL.plan);
      expect(textOf(pages), file).toMatch(/lies? in her is not stated/);
      expect(overlapping(pages), file).toEqual([]);
      const stated = TRIAL.job.voids.map((space) => ({ ...space, origin: { x: 2, y: 0, z: 0.3 } }));
      const placed = await read(file, { ...TRIAL.job, voids: stated }, TRIAL.plan);
      expect(textOf(placed), file).not.toMatch(/in her is not stated/);
    }
  });
});
