/** The list that she has before anything is added. Figures are reckoned by hand: 2600 kg, GM 0.9 m, 1° to port. */
import { describe, expect, test } from 'vitest';
import { aimsFor } from '../../src/balance/aims.ts';
import { effectOf, type Stability } from '../../src/balance/float.ts';
import { marginsOf } from '../../src/balance/limits.ts';
import { missLines } from '../../src/balance/miss.ts';
import type { Weight } from '../../src/balance/moments.ts';
import { presentList } from '../../src/balance/present.ts';
import { questionsOf } from '../../src/balance/questions.ts';
import { known } from '../../src/balance/range.ts';
import { targetsFor } from '../../src/balance/targets.ts';
import { listWords, sentenceOf } from '../../src/balance/telling.ts';
import { placeRest } from '../../src/balance/trialRest.ts';
import { AFLOAT_WORDS } from '../../src/drawing/afloatWords.ts';
import type { Job, Vessel } from '../../src/job/job.ts';
import { loadSmall } from '../../src/linear/small.ts';
import { smallJob, stow } from './stowed.ts';

/** 2600 kg × 0.9 m × tan 1° = 2340 × 0.0174551 = 40.845 kg·m. */
const MOMENT = 40.845;
const VESSEL: Vessel = { displacement: 2600, vcg: 0.8, gm: 0.9, beam: 2.4, waterlineLength: 7, lcf: 3.4, list: -1 };

function stabilityOf(vessel: Vessel, added: Weight[]): Stability {
  const { stability } = effectOf(vessel, added);
  if (stability.kind !== 'answer') throw new Error(stability.why);
  return stability;
}

describe('her list now', () => {
  test('is a moment of displacement, GM and its tangent', () => {
    expect(presentList(VESSEL)?.moment?.likely).toBeCloseTo(-MOMENT, 3);
    expect(presentList({ ...VESSEL, list: undefined })).toBeNull();
  });

  test('stays where nothing is added, and where weight is added low on the centreline gets less', () => {
    expect(stabilityOf(VESSEL, []).list.likely).toBeCloseTo(-1, 9);
    // 300 kg at 0.2 m: KG 2140/2900 = 0.73793, GM 0.96207; tan = 40.845/(2900 × 0.96207) = 0.014640, 0.8387°.
    expect(stabilityOf(VESSEL, [{ mass: 300, x: 3.4, y: 0, z: 0.2 }]).list.likely).toBeCloseTo(-0.8387, 4);
  });

  test('is taken out by 300 kg at 40.845/300 = 0.13615 m on the other side', () => {
    expect(stabilityOf(VESSEL, [{ mass: 300, x: 3.4, y: 0.13615, z: 0.2 }]).list.likely).toBeCloseTo(0, 4);
  });

  test('is told with the one after it, and no longer as upright among what was assumed', () => {
    const effect = effectOf(VESSEL, [{ mass: 300, x: 3.4, y: 0, z: 0.2 }]);
    expect(sentenceOf(effect)).toContain('lists 0.8° to port instead of 1° to port');
    expect(effect.assumed.join(' ')).toContain('lists 1° to port before anything is added: a moment of 41 kg·m');
    expect(effect.assumed.join(' ')).not.toContain('upright');
  });

  test('that prints alike before and after is as before, and none is told where nought prints', () => {
    const nothing = effectOf(VESSEL, []);
    expect(sentenceOf(nothing)).toContain('lists 1.0° to port as before');
    const at = (degrees: number) => listWords(known(degrees));
    expect([at(0.04), at(0.06), at(-0.06)]).toEqual(['no list', 'lists 0.1° to starboard', 'lists 0.1° to port']);
    // As the drawing beside it tells it.
    for (const degrees of [-0.2, -0.06, -0.04, 0, 0.04, 0.06, 1.5])
      expect(at(degrees).replace('lists ', '')).toBe(AFLOAT_WORDS.list(degrees));
  });

  test('has the range that an estimated GM gives it', () => {
    const timed = { ...VESSEL, gm: undefined, rollPeriod: 2 };
    // GM = (f × 2.4 / 2)² with f 0.75, 0.80 and 0.85: 0.81, 0.9216 and 1.0404 m; times 2600 × 0.0174551 = 45.383.
    const { low, likely, high } = presentList(timed)!.moment!;
    expect([high, likely, low].map((moment) => Math.round(moment * 100) / 100)).toEqual([-36.76, -41.83, -47.22]);
    const evened = stabilityOf(timed, [{ mass: 300, x: 3.4, y: 0.14, z: 0.2 }]);
    expect(evened.list.low).toBeLessThan(0);
    expect(evened.list.high).toBeGreaterThan(0);
    expect(sentenceOf(effectOf(timed, [{ mass: 300, x: 3.4, y: 0.14, z: 0.2 }]))).toMatch(
      /list from 0\.\d° to port to 0\.\d° to starboard instead of 1° to port/,
    );
  });

  test('over 7° is a reason instead of a number', () => {
    const { stability } = effectOf({ ...VESSEL, list: 8 }, []);
    expect(stability.kind === 'none' && stability.why).toContain('lists more than 7° now');
  });

  test('lifts an opening on the high side, whose height was read so, and the balance takes that back', () => {
    const vessel = { ...VESSEL, kgPerCm: 100, kgmPerCm: 30, openings: [{ name: 'drain', height: 0.3, x: 3.4, y: 1 }] };
    const evening = [{ mass: 300, x: 3.4, y: 0.13615, z: 0.2 }];
    const drain = marginsOf(vessel, effectOf(vessel, evening)).margins.at(-1)!;
    // 0.30 m less tan 1° × 1 m = 0.0175, less 3 cm.
    expect(drain.left.likely).toBeCloseTo(0.2525, 4);
    expect(drain.listed!.likely).toBeCloseTo(0.2525, 4);
    const untouched = marginsOf(vessel, effectOf(vessel, [])).margins.at(-1)!;
    expect(untouched.listed!.likely).toBeCloseTo(0.3, 9);
  });
});

describe('no list wanted', () => {
  test('asks for a centre that makes up for the list now, and says so', () => {
    const { centre, working, impossible } = aimsFor(VESSEL, { ballast: 300, upright: true });
    expect(impossible).toEqual([]);
    expect((centre.y![0] + centre.y![1]) / 2).toBeCloseTo(0.13615, 4);
    expect(working.join(' ')).toContain('She lists 1° to port now: a moment of 41 kg·m that the ballast makes up for.');
    expect(working.join(' ')).toContain('0.136 m to starboard');
    for (const y of centre.y!)
      expect(Math.abs(stabilityOf(VESSEL, [{ mass: 300, x: 3.4, y, z: 0.2 }]).list.likely)).toBeLessThan(0.5);
  });

  test('is impossible without her GM, without an amount, and where the centre would be over the side', () => {
    const unknown = { displacement: 2600, list: -1 };
    expect(aimsFor(unknown, { ballast: 300, upright: true }).impossible.join(' ')).toContain('GM are needed');
    expect(aimsFor(VESSEL, { upright: true }).impossible.join(' ')).toContain('how much ballast');
    // 40.845 kg·m with 30 kg is 1.36 m; she is 1.2 m to either side.
    expect(aimsFor(VESSEL, { ballast: 30, upright: true }).impossible.join(' ')).toContain('outside her sides');
    expect(aimsFor({ ...VESSEL, list: 0 }, { ballast: 30, upright: true }).impossible).toEqual([]);
  });

  test('shares the ballast out to the side that is high', async () => {
    const job = smallJob();
    // 4900 kg × 0.66 m × tan 0.5° = 28.22 kg·m, to be made up for by P and S, 0.6 m to either side; F and A lie amidships.
    const vessel = { ...job.vessel!, list: -0.5 };
    const aims = aimsFor(vessel, { ballast: 200, upright: true });
    expect((aims.centre.y![0] + aims.centre.y![1]) / 2).toBeCloseTo(28.22 / 200, 3);
    const targets = targetsFor(job, { ...aims, centre: { y: [0.14, 0.142] } }, await loadSmall())!;
    // To a kilogram in every void.
    expect(Math.abs(0.6 * (targets.get('S')! - targets.get('P')!) - 28.22)).toBeLessThan(1.2);
  });

  test('in a trial has the rest go in on the side that is high', () => {
    const job = smallJob();
    const plan = stow({ P: 4, S: 4 });
    const stowed = new Map([
      ['P', 2],
      ['S', 2],
    ]);
    const down = { forward: 60 / 150, aft: 60 / 150 };
    const rest = (list: number) => placeRest(job, plan, { ...job.vessel!, list }, stowed, down)!.counts;
    expect(rest(-0.5).get('S')! - rest(-0.5).get('P')!).toBeGreaterThan(0);
    expect(rest(0.5).get('S')! - rest(0.5).get('P')!).toBeLessThan(0);
  });
});

describe('a list that can not be counted', () => {
  const job = smallJob();
  const listing = (vessel: Vessel): Job => ({ ...job, vessel });

  test('is asked about, with what is wanted for it', () => {
    expect(questionsOf(listing({ displacement: 2600, list: 1.5 }), stow({})).join(' ')).toMatch(
      /She lists 1\.5° to starboard now, and that is NOT COUNTED: .*GM/,
    );
    expect(questionsOf(listing({ displacement: 2600, gm: 0.9, list: 1.5 })).join(' ')).toContain('can not be told');
    expect(questionsOf(listing(VESSEL), stow({ F: 2, P: 2, S: 2, A: 2 }))).toEqual([]);
    expect(questionsOf(listing({ displacement: 2600, list: 0 }), stow({}))).toEqual([]);
  });

  test('is told where no list was wanted', () => {
    const aims = { ...job.aims, effect: { upright: true } };
    expect(missLines({ ...listing({ displacement: 2600, list: 1.5 }), aims }, stow({ P: 1 }))).toEqual([
      expect.stringContaining('can not be told'),
    ]);
  });

  test('ballast all on the side that is high is not asked about, on the low side it is', () => {
    expect(questionsOf(listing({ ...VESSEL, list: -1 }), stow({ S: 2 }))).toEqual([]);
    expect(questionsOf(listing({ ...VESSEL, list: 1 }), stow({ S: 2 })).join(' ')).toContain('that way already');
  });
});

describe('no list missed', () => {
  const job = smallJob();
  const withAims = (centre: Job['aims']['centre']): Job => ({
    ...job,
    aims: { ...job.aims, centre, effect: { upright: true } },
  });
  const plan = (counts: Record<string, number>, short: string[] = []) => ({
    ...stow(counts, 20),
    cautions: short.map((name) => ({ code: 'void-short', about: `void ${name}`, text: '' })),
  });

  test('by a centre asked for on one side: the two aims are told to contradict each other', () => {
    // 400 kg at about 0.6 m: she leans; with 5300 kg and a GM near 0.7 m, tan 0.5° leaves about 8 cm either way.
    const [line] = missLines(withAims({ y: [0.5, 0.65] }), plan({ S: 20 }));
    expect(line).toContain('contradict each other');
    expect(line).toMatch(/no list takes a centre from 0\.0[789]\d m to port to 0\.0[789]\d m to starboard/);
    expect(line).not.toContain('short');
  });

  test('by no centre asked for of a vessel that lists already: the one that it takes', () => {
    const listing = withAims(undefined);
    // 4900 kg × 0.66 m × tan 1.5° = 84.7 kg·m: 0.847 m with 100 kg; tan 0.5° × 5000 kg × 0.66 m = 28.8 kg·m either way.
    const [line] = missLines({ ...listing, vessel: { ...listing.vessel!, list: -1.5 } }, plan({ P: 2, S: 3 }));
    expect(line).toMatch(/lists 1\.\d° to port\. “No list” is wanted, and no centre to starboard or port is asked for/);
    expect(line).toMatch(/No list takes one 0\.5\d\d to 1\.1\d\d m to starboard/);
  });

  test('by a void that is short on the other side: that void', () => {
    expect(missLines(withAims({ y: [-0.02, 0.02] }), plan({ S: 20 }, ['P', 'F']))[0]).toContain(
      'to starboard: P on the other side is short.',
    );
  });

  test('by no centre asked for, though she is upright now: the same', () => {
    const [line] = missLines(withAims(undefined), plan({ S: 20 }));
    expect(line).toContain('a plan is held against the list, and steered by the centre alone.');
    expect(line).toMatch(/No list takes one from 0\.0[789]\d m to port to 0\.0[789]\d m to starboard/);
  });

  test('by neither: what would take it out', () => {
    expect(missLines(withAims({ y: [-0.02, 0.02] }), plan({ S: 20 }))[0]).toContain(
      'more of it to port, or less on the other side, would take that out',
    );
  });
});
