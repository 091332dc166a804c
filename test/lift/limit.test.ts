import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Job, type JobInput, jobSchema } from '../../src/job/job.ts';
import { becketsOf } from '../../src/lift/becket.ts';
import { calloutsOf } from '../../src/lift/callouts.ts';
import { guideLift } from '../../src/lift/equation.ts';
import { heaviestBundle, liftingIndex, suggestLimit, wholeBarLimit } from '../../src/lift/limit.ts';
import { guideRoute } from '../../src/lift/route.ts';
import { DEFAULT_ZONES, REFERENCE_MASSES, zoneFigure, zoneGuide } from '../../src/lift/zones.ts';

type VoidInput = JobInput['voids'][number];
type Handling = NonNullable<VoidInput['handling']>;

const QUAY = { leg: 'quay to deck', reach: 350, start: 300, end: 900, grip: 'fair' as const };
const CABIN = { leg: 'deck to cabin', reach: 400, start: 200, end: 1100, grip: 'fair' as const };
const BILGE: Handling = { reach: 520, start: 500, end: -200, posture: 'kneeling', grip: 'fair' };

function jobWith(space: Partial<VoidInput>, rest: Partial<JobInput> = {}): Job {
  return jobSchema.parse({
    format: 'kentledge-job/1',
    name: 'Lifts',
    pile: [{ lot: 'A', section: { shape: 'round', diameter: 20 }, length: 3000 }],
    voids: [{ void: 'V1', length: 1200, width: 300, height: 160, ...space }],
    lift: { legs: [QUAY, CABIN] },
    ...rest,
  });
}

const suggestionOf = (job: Job) => suggestLimit(job, job.voids[0]!);

describe('a route', () => {
  it('is guided by the least of its legs', () => {
    const job = jobWith({
      route: ['quay to deck', 'deck to cabin'],
      handling: { reach: 300, start: 700, end: 400, grip: 'fair' },
    });
    const { legs, guide, applies } = guideRoute(job, job.voids[0]!);
    expect(legs.map((leg) => leg.leg)).toEqual(['quay to deck', 'deck to cabin', 'into the void']);
    expect(guide).toBeCloseTo(Math.min(guideLift(QUAY).guide, guideLift(CABIN).guide), 10);
    expect(applies).toBe(true);
    expect(suggestionOf(job)).toMatchObject({ basis: 'method', limit: Math.floor(guide! * 10) / 10 });
  });

  it('reckons a tied bundle as a poor grip, and with a sleeve on its becket as a fair one', () => {
    const handling = { reach: 300, start: 700, end: 600 };
    const bare = guideRoute(jobWith({ handling }), jobWith({ handling }).voids[0]!);
    expect(bare.guide).toBeCloseTo(guideLift({ ...handling, grip: 'poor' }).guide, 10);
    const sleeved = jobWith({ handling }, { bundle: { becket: { cord: 8, grip: 150, sleeve: true } } });
    expect(guideRoute(sleeved, sleeved.voids[0]!).guide).toBeCloseTo(
      guideLift({ ...handling, grip: 'fair' }).guide,
      10,
    );
  });
});

describe('the suggested limit', () => {
  it('where a leg is outside the method is at most half the guide of the one before it, whatever came first', () => {
    const last = { ...CABIN, reach: 600, start: 100, end: 1700 };
    const job = jobWith(
      { route: ['quay to deck', 'deck to cabin'], handling: BILGE },
      { lift: { legs: [QUAY, last] } },
    );
    expect(suggestionOf(job).text).not.toContain(`is ${(guideLift(QUAY).guide / 2).toFixed(1)} kg`);
    expect(suggestionOf(job).limit).toBe(Math.floor((10 * guideLift(last).guide) / 2) / 10);
  });

  it('is rounded down, so that it is never over its guide', () => {
    for (let reach = 250; reach <= 600; reach += 7) {
      const job = jobWith({ handling: { reach, start: 700, end: 400, grip: 'fair' } });
      const { limit, route } = suggestionOf(job);
      expect([reach, limit! <= route.guide! && limit! > route.guide! - 0.1001]).toEqual([reach, true]);
    }
  });

  it('is none where nothing is stated, and says what to state', () => {
    expect(suggestionOf(jobWith({}))).toMatchObject({ limit: null, basis: 'none' });
    expect(suggestionOf(jobWith({ handling: { reach: 300 } })).text).toContain('State reach, start and end');
  });

  it('in a bilge is the least of three figures, and says that it is a default of this project', () => {
    const job = jobWith({ route: ['quay to deck', 'deck to cabin'], handling: BILGE });
    const half = guideLift(CABIN).guide / 2;
    const asIf = guideLift(BILGE as Parameters<typeof guideLift>[0]).finish.rwl;
    const found = suggestionOf(job);
    expect(found.basis).toBe('project-default');
    expect(found.limit).toBeCloseTo(Math.floor(Math.min(half, asIf, 3) * 10) / 10, 10);
    expect(found.limit).toBe(3);
    expect(found.text).toMatch(/table of zones has 3 kg.*default of this project, not a published limit/);
  });

  it('in a bilge follows the zones of the job', () => {
    const zones = { person: 'men' as const, confirmed: true };
    const job = jobWith({ route: ['quay to deck'], handling: BILGE }, { lift: { legs: [QUAY], zones } });
    expect(suggestionOf(job).limit).toBe(5);
  });

  it('in a bilge is the person’s own tested figure where there is one', () => {
    const job = jobWith({ route: ['quay to deck'], handling: { ...BILGE, tested: 4.5 } });
    expect(suggestionOf(job)).toMatchObject({ limit: 4.5, basis: 'tested' });
  });

  it('never goes over a lower figure of the person’s own, nor over the method for a higher one', () => {
    const handling = { reach: 300, start: 700, end: 600, grip: 'fair' as const };
    expect(suggestionOf(jobWith({ handling: { ...handling, tested: 5 } }))).toMatchObject({
      limit: 5,
      basis: 'tested',
    });
    const over = suggestionOf(jobWith({ handling: { ...handling, tested: 40 } }));
    expect(over.basis).toBe('method');
    expect(over.limit).toBeLessThan(23);
  });

  it.each<[string, Handling]>([
    ['the reach is beyond the method', { ...BILGE, reach: 700 }],
    ['the reach is beyond it at the start alone', { reach: 640, reachEnd: 400, start: 750, end: 200 }],
    ['the body twists too far', { reach: 400, start: 750, end: 200, twist: 140 }],
    ['lifts follow each other too fast', { reach: 400, start: 750, end: 200, perMinute: 16 }],
  ])('is no load where %s, and says what to change', (_, handling) => {
    const job = jobWith({ handling, limitByGuide: true });
    expect(suggestionOf(job)).toMatchObject({ limit: 0, text: expect.stringContaining('leaves no load. Come nearer') });
    expect(heaviestBundle(job, job.voids[0]!)).toBe(0);
  });

  it('beyond the method is the person’s own tested figure where there is one', () => {
    const job = jobWith({ handling: { ...BILGE, reach: 700, tested: 3.5 }, limitByGuide: true });
    expect(heaviestBundle(job, job.voids[0]!)).toBe(3.5);
  });

  it('where too little is stated is the least of what is known, and says what is missing', () => {
    const lift = { legs: [QUAY], referenceMass: 5 };
    for (const space of [{}, { handling: { reach: 300 } }, { route: [QUAY.leg], handling: { reach: 300 } }]) {
      const job = jobWith({ ...space, limit: 12, limitByGuide: true }, { lift });
      expect(suggestionOf(job)).toMatchObject({ limit: 5, basis: 'none', text: expect.stringContaining('State ') });
      expect(heaviestBundle(job, job.voids[0]!)).toBe(5);
    }
    const open = jobWith({ limit: 12, limitByGuide: true });
    expect(heaviestBundle(open, open.voids[0]!)).toBe(12);
    const beyond = jobWith(
      { route: [QUAY.leg], handling: { reach: 300 } },
      { lift: { legs: [{ ...QUAY, twist: 140 }] } },
    );
    expect(suggestionOf(beyond).limit).toBe(0);
  });

  it('standing, falls when the reach grows from 300 to 600 mm', () => {
    const at = (reach: number) => suggestionOf(jobWith({ handling: { reach, start: 750, end: 200 } })).limit!;
    expect(at(600)).toBeLessThan(at(300));
  });

  it('never rises with reach', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 200, max: 620 }),
        fc.integer({ min: 0, max: 300 }),
        fc.integer({ min: -400, max: 900 }),
        fc.constantFrom('standing' as const, 'kneeling' as const),
        (reach, more, end, posture) => {
          const of = (far: number) =>
            suggestionOf(jobWith({ route: ['quay to deck'], handling: { reach: far, start: 700, end, posture } }))
              .limit ?? 0;
          return of(reach + more) <= of(reach);
        },
      ),
      { seed: 3, numRuns: 300 },
    );
  });
});

describe('the table of zones', () => {
  it('takes the smallest of the zones passed through', () => {
    expect(zoneFigure(undefined, 800, 900, 300)).toBe(16);
    expect(zoneFigure(undefined, 800, 100, 300)).toBe(7);
    expect(zoneFigure(undefined, 800, 100, 600)).toBe(3);
    expect(zoneFigure({ confirmed: false, person: 'men' }, 800, 3000, 300)).toBe(10);
  });

  it('is not confirmed until the user says so, and each row is lower at arm’s length', () => {
    for (const row of DEFAULT_ZONES) {
      expect(row.armsLength.women).toBeLessThan(row.close.women);
      expect(row.armsLength.men).toBeLessThan(row.close.men);
    }
    const job = jobWith({}, { lift: { zones: {} } });
    expect(job.lift?.zones?.confirmed).toBe(false);
  });
});

describe('the zones for a whole lift', () => {
  const lift = { reach: 300, start: 800, end: 800 };
  it('are cut for pace and twist, and never rise with either', () => {
    expect(zoneGuide(undefined, lift)).toBe(16);
    expect(zoneGuide(undefined, { ...lift, perMinute: 1 })).toBeCloseTo(11.2, 10);
    expect(zoneGuide(undefined, { ...lift, perMinute: 6, twist: 60 })).toBeCloseTo(7.2, 10);
    const paces = [0, 0.5, 0.6, 2, 3, 8, 9, 20].map((perMinute) => zoneGuide(undefined, { ...lift, perMinute })!);
    const twists = [0, 45, 46, 90, 91, 180].map((twist) => zoneGuide(undefined, { ...lift, twist })!);
    for (const figures of [paces, twists]) expect(figures).toEqual([...figures].sort((p, q) => q - p));
    // A cut counts up to its pace and angle.
    expect(paces.map((figure) => figure / 16)).toEqual(
      [1, 1, 0.7, 0.7, 0.5, 0.5, 0.2, 0.2].map((cut) => expect.closeTo(cut, 10)),
    );
    expect(twists.map((figure) => figure / 16)).toEqual(
      [1, 1, 0.9, 0.9, 0.8, 0.8].map((cut) => expect.closeTo(cut, 10)),
    );
  });

  it('say nothing of kneeling, sitting or one hand', () => {
    expect(zoneGuide(undefined, { ...lift, posture: 'kneeling' })).toBeNull();
    expect(zoneGuide(undefined, { ...lift, posture: 'seated' })).toBeNull();
    expect(zoneGuide(undefined, { ...lift, hands: 1 })).toBeNull();
  });
});

it('no suggestion goes over the reference mass that is stated of who lifts', () => {
  const handling = { reach: 250, start: 750, end: 700, grip: 'good' as const };
  const [lift, most] = [{ legs: [] }, REFERENCE_MASSES.at(-1)!.kg];
  expect(suggestionOf(jobWith({ handling }, { lift })).limit).toBeGreaterThan(most);
  const found = suggestionOf(jobWith({ handling }, { lift: { ...lift, referenceMass: most } }));
  expect(found).toMatchObject({ limit: most, text: expect.stringContaining('reference mass') });
});

describe('bundles', () => {
  const job = jobWith({ limit: 40, handling: { reach: 400, start: 700, end: 600, grip: 'fair' } });
  const { guide } = guideRoute(job, job.voids[0]!);

  it('have a lifting index where the method covers the way', () => {
    expect(liftingIndex(guide! * 1.5, guideRoute(job, job.voids[0]!))).toBeCloseTo(1.5, 10);
    const bilge = jobWith({ handling: BILGE });
    expect(liftingIndex(5, guideRoute(bilge, bilge.voids[0]!))).toBeNull();
  });

  it('over 25 kg or over the guide are called out', () => {
    const called = calloutsOf(job, [
      { bundle: 'a', void: 'V1', mass: guide! - 0.1 },
      { bundle: 'b', void: 'V1', mass: guide! + 0.1 },
      { bundle: 'c', void: 'elsewhere', mass: 25.1 },
    ]);
    expect(called.map((each) => each.twoPeople)).toEqual([false, true, true]);
    expect(called.map((each) => each.text?.includes('TWO PEOPLE') ?? false)).toEqual([false, true, true]);
    expect(called.some((each) => each.tackle)).toBe(false);
  });

  it('over 50 kg are for a hoist or tackle, and never for two people', () => {
    const [two, more] = calloutsOf(job, [
      { bundle: 'a', void: 'elsewhere', mass: 50 },
      { bundle: 'b', void: 'elsewhere', mass: 50.1 },
    ]);
    expect(two).toMatchObject({ tackle: false, heavy: expect.stringMatching(/^TWO PEOPLE/) });
    expect(more).toMatchObject({
      tackle: true,
      heavy: expect.stringMatching(/^HOIST OR TACKLE, not by hand.* 50\.1 kg is over 25 kg/),
    });
  });

  it('over the lift limit of the void by the scale, though under every guide, are called out', () => {
    const own = jobWith({ limit: 6 });
    const calls = [6, 6.005, 6.1].map((mass) => calloutsOf(own, [{ bundle: 'a', void: 'V1', mass }])[0]!);
    expect(calls.map(({ twoPeople }) => twoPeople)).toEqual([false, false, true]);
    expect(calls[2]!.heavy).toBe('TWO PEOPLE or a mechanical aid: 6.1 kg is over the lift limit of 6 kg.');
    // By how little it is over is never rounded away.
    const [little] = calloutsOf(job, [{ bundle: 'd', void: 'V1', mass: 25.02 }]);
    expect(little!.heavy).toMatch(/: 25\.02 kg is over/);
    expect(calls[0]!.heavy).toBeNull();
  });

  it('over the lift limit of the void are told so first, whatever else they are over, and once where that follows the way', () => {
    const own = jobWith({ limit: 15, handling: BILGE });
    const { limit: suggested } = suggestionOf(own);
    expect(suggested).toBeLessThan(15);
    const heavyAt = (job: Job, mass: number) => calloutsOf(job, [{ bundle: 'a', void: 'V1', mass }])[0]!.heavy;
    expect(heavyAt(own, 15.2)).toMatch(
      `15.2 kg is over the lift limit of 15 kg, and over ${suggested} kg, a default of this project`,
    );
    expect(heavyAt(own, 15)).toMatch(/15.0 kg is over [\d.]+ kg, a default of this project/);
    expect(heavyAt(jobWith({ limit: 40 }), 41)).toContain('is over the lift limit of 40 kg, and over 25 kg.');
    expect(heavyAt(jobWith({ limit: 40, handling: BILGE, limitByGuide: true }), suggested! + 0.5)).not.toContain(
      'lift limit',
    );
  });

  it('on a way outside the method are called out, and none is called safe', () => {
    const bilge = jobWith({ handling: BILGE });
    const [called] = calloutsOf(bilge, [{ bundle: 'a', void: 'V1', mass: 1 }]);
    expect(called).toMatchObject({ outside: true, index: null });
    expect(called!.text).toContain('outside the lifting method');
  });

  it('beyond the method are for two people over what is suggested there, the worst way loudest', () => {
    const calledAt = (handling: object, mass: number) => {
      const job = jobWith({ handling: { ...BILGE, ...handling } });
      const [called] = calloutsOf(job, [{ bundle: 'a', void: 'V1', mass }]);
      return { limit: suggestionOf(job).limit!, called: called! };
    };
    const { limit } = calledAt({}, 1);
    expect(limit).toBeGreaterThan(0);
    expect(calledAt({}, limit).called.twoPeople).toBe(false);
    expect(calledAt({}, limit + 0.1).called).toMatchObject({
      twoPeople: true,
      text: expect.stringMatching(/^TWO PEOPLE .* a default of this project .*lighter weight/),
    });
    const nothing = calledAt({ reach: 1200 }, 2);
    expect(nothing).toMatchObject({ limit: 0, called: { twoPeople: true, text: expect.stringContaining('no load') } });
    const own = calledAt({ tested: limit + 3 }, limit + 2);
    expect(own.called.twoPeople).toBe(false);
    expect(calledAt({ tested: 4 }, 4.5).called.text).toContain('over your own figure of 4 kg');
    // A figure of one's own over the guide of a leg before: the guide decides, and is called one.
    const strong = jobWith({ handling: { ...BILGE, tested: 60 }, route: ['quay to deck'] });
    const quay = guideRoute(strong, strong.voids[0]!).guide!;
    const [heavy] = calloutsOf(strong, [{ bundle: 'a', void: 'V1', mass: quay + 1 }]);
    expect(heavy!.text).toContain(`over the guide of ${quay.toFixed(1)} kg`);
  });

  it('over a figure that whoever lifts has stated are called out on a way that the method covers, too', () => {
    const handling = { reach: 300, start: 750, end: 600, tested: 5 };
    const called = (lift: object, mass: number, way: object = { handling }) =>
      calloutsOf(jobWith(way, { lift: { legs: [], ...lift } }), [{ bundle: 'a', void: 'V1', mass }])[0]!;
    expect(guideRoute(jobWith({ handling }), jobWith({ handling }).voids[0]!)).toMatchObject({ applies: true });
    expect(called({ referenceMass: 7 }, 5).twoPeople).toBe(false);
    expect(called({ referenceMass: 7 }, 5.2).text).toContain('5.2 kg is over your own figure of 5 kg for the way');
    expect(called({ referenceMass: 4 }, 4.5).text).toContain('over the reference mass of 4 kg of who lifts');
    // Also where no way is stated at all.
    expect(called({ referenceMass: 4 }, 4.5, {}).twoPeople).toBe(true);
    expect(called({}, 4.5, {}).twoPeople).toBe(false);
    // One that is over the guide is no reason to lift more.
    const strong = jobWith({ handling: { ...handling, tested: 60 } });
    const { guide } = guideRoute(strong, strong.voids[0]!);
    expect(calloutsOf(strong, [{ bundle: 'a', void: 'V1', mass: guide! + 1 }])[0]!.text).toContain('over the guide');
  });

  it('over the guide can be forbidden', () => {
    const lift = { legs: [], forbidHeavy: true };
    const handling = { reach: 600, start: 750, end: 200, grip: 'fair' as const };
    const strict = jobWith({ limit: 40, handling }, { lift });
    expect(heaviestBundle(strict, strict.voids[0]!)).toBe(suggestionOf(strict).limit);
    expect(heaviestBundle(jobWith({ limit: 40, handling }), jobWith({ limit: 40, handling }).voids[0]!)).toBe(40);
    const unstated = jobWith({ limit: 40 }, { lift });
    expect(heaviestBundle(unstated, unstated.voids[0]!)).toBe(25);
  });

  it('have one becket, or two where they are long, each round the girth', () => {
    const rules = { cord: 8, grip: 150 };
    expect(becketsOf({ along: 500, across: 54.5, up: 66.5 }, rules)).toEqual({ count: 1, each: 630, cord: 630 });
    expect(becketsOf({ along: 900, across: 54.5, up: 66.5 }, rules)).toEqual({ count: 2, each: 630, cord: 1260 });
  });
});

it('whole bars are carried by the guide of the first shared leg, else by the limit of the job', () => {
  expect(wholeBarLimit(jobWith({ route: ['quay to deck'] }))).toBeCloseTo(guideLift(QUAY).guide, 10);
  expect(wholeBarLimit(jobWith({ handling: BILGE }))).toBe(8);
  const both = jobWith({ route: ['quay to deck'] });
  both.voids.push({ ...both.voids[0]!, void: 'V2', route: ['deck to cabin'] });
  expect(wholeBarLimit(both)).toBeCloseTo(Math.min(guideLift(QUAY).guide, guideLift(CABIN).guide), 10);
  // A bar has no becket to hold it by, and whoever lifts may have stated less.
  const bare = { leg: 'quay to deck', reach: 350, start: 300, end: 900 };
  const sleeved = (leg: object, lift: object = {}) =>
    jobWith(
      { route: ['quay to deck'] },
      { lift: { legs: [{ ...bare, ...leg }], ...lift }, bundle: { becket: { cord: 8, grip: 150, sleeve: true } } },
    );
  expect(wholeBarLimit(sleeved({}))).toBeCloseTo(guideLift({ ...bare, grip: 'poor' }).guide, 10);
  expect(wholeBarLimit(sleeved({ tested: 6 }, { referenceMass: 7 }))).toBe(6);
  expect(wholeBarLimit(sleeved({}, { referenceMass: 7 }))).toBe(7);
  expect(wholeBarLimit(jobWith({ handling: BILGE }, { lift: { legs: [], referenceMass: 7 } }))).toBe(7);
});
