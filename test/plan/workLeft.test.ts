/** What is left of a job once some voids, or runs of them, are stowed: nothing lost, nothing twice, and the whole comes to what was asked. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Job, type JobInput, jobSchema } from '../../src/job/job.ts';
import { pileMass } from '../../src/job/lot.ts';
import { readJob, readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { contentsOf } from '../../src/plan/contents.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { workLeft } from '../../src/plan/workLeft.ts';
import { ALL_CUT, plannedDemonstration, planOf } from './demonstration.ts';
import { trialPair } from './trialPlan.ts';

const NONE = new Map<string, number>();
let job: Job;
let plan: Plan;

/** Marks of the bundles of some voids. */
function marksIn(voids: Iterable<string>): Set<string> {
  const wanted = new Set(voids);
  return new Set(plan.bundles.filter((bundle) => wanted.has(bundle.void)).map(({ bundle }) => bundle));
}

/** The job of what is left, read as every job is. */
function read(stowed: string[], allCut: boolean, weighed: ReadonlyMap<string, number> = NONE) {
  return readLeft(marksIn(stowed), allCut, weighed);
}

/** The same where these bundles are in. */
function readLeft(
  marks: Set<string>,
  allCut: boolean,
  weighed: ReadonlyMap<string, number> = NONE,
  of: Job = job,
  by: Plan = plan,
) {
  const left = workLeft(of, by, { ...ALL_CUT, stowed: marks, cut: { by: allCut ? 'all' : 'stowed' }, weighed });
  if (!left) throw new Error('nothing is left');
  const result = readJobValue(JSON.parse(JSON.stringify(left)));
  if (!result.ok) throw new Error(JSON.stringify(result.faults));
  return result.value;
}

/** A job of the fixtures. */
function fixture(name: string) {
  const result = readJob(readFileSync(new URL(`../../fixtures/${name}.json`, import.meta.url)));
  if (!result.ok) throw new Error(`${name} does not read`);
  return result.value;
}

beforeAll(async () => {
  ({ job, plan } = await plannedDemonstration('first'));
});

/** Mass of the steel of the bundles of some voids, kg. */
function steelIn(stowed: string[], of: Plan): number {
  return of.bundles
    .filter((bundle) => stowed.includes(bundle.void))
    .reduce((sum, bundle) => sum + bundle.mass - job.bundle.wrapping, 0);
}

describe('the work left', () => {
  test('has all steel that is neither stowed nor lost to the saw, once', () => {
    const { scrapMass, kerfMass, squaringMass, spoiledMass } = plan.totals;
    const lost = scrapMass + kerfMass + squaringMass + spoiledMass;
    expect(pileMass(read(['V4', 'V1'], true).job)).toBeCloseTo(pileMass(job) - lost - steelIn(['V4', 'V1'], plan), 0);
    const some = pileMass(read(['V4', 'V1'], false).job);
    expect(some).toBeLessThanOrEqual(pileMass(job) - steelIn(['V4', 'V1'], plan) + 0.1);
    expect(some).toBeGreaterThanOrEqual(pileMass(read(['V4', 'V1'], true).job) - 0.1);
  });

  test('is planned anew: nothing more in what is stowed, and cut pieces are used as they are', async () => {
    const { job: left, digest } = read(['V4', 'V1'], true);
    const next = await planOf(left, digest, 'first');
    expect(checkPlan(left, next, digest)).toEqual([]);
    expect(next.bundles.filter((bundle) => ['V4', 'V1'].includes(bundle.void))).toEqual([]);
    const asTheyAre = next.bars.filter(
      (bar) => bar.lot.endsWith(' cut') && bar.pieces[0]!.to - bar.pieces[0]!.from > bar.length - 0.1,
    );
    expect(asTheyAre.length).toBeGreaterThan(15);
    const placed = (of: Plan) => of.bundles.reduce((sum, { mass }) => sum + mass, 0);
    const stowed = plan.bundles.filter((bundle) => ['V4', 'V1'].includes(bundle.void));
    expect(placed(next)).toBeLessThan(left.aims.ballast! + 15);
    expect(placed(next) + stowed.reduce((sum, { mass }) => sum + mass, 0)).toBeGreaterThan(0.9 * placed(plan));
  });

  test('asks of the rest what makes the whole come to the aims', () => {
    const { job: left } = read(['V4'], true);
    const told = plan.voids.find((own) => own.void === 'V4')!;
    const ballast = job.aims.ballast!;
    expect(left.aims.ballast).toBeCloseTo(ballast - told.mass, 0);
    const [least, most] = left.aims.centre!.x!;
    const whole = (x: number) => (x * (ballast - told.mass) + told.centre!.x * told.mass) / ballast;
    expect(whole(least)).toBeCloseTo(job.aims.centre!.x![0], 2);
    expect(whole(most)).toBeCloseTo(job.aims.centre!.x![1], 2);
    const weight = left.voids.find((own) => own.void === 'V4')!.keepOut.at(-1)!;
    expect(weight.mass).toBeCloseTo(told.mass, 1);
    const v4 = job.voids.find((own) => own.void === 'V4')!;
    expect(v4.origin.x + (weight.along[0] + weight.along[1]) / 2000).toBeCloseTo(told.centre!.x, 3);
    expect(v4.origin.y + (weight.across[0] + weight.across[1]) / 2000).toBeCloseTo(told.centre!.y, 3);
    expect(v4.origin.z + (weight.up[0] + weight.up[1]) / 2000).toBeCloseTo(told.centre!.z, 3);
  });

  test('asks no place of a rest that could not bring the whole to it', () => {
    const most = job.voids.map((own) => own.void).filter((name) => name !== 'V1');
    const heavy = new Map(plan.bundles.map(({ bundle, mass }) => [bundle, 1.2 * mass]));
    const { aims } = read(most, true, heavy).job;
    expect(aims.ballast).toBe(0);
    expect(aims.centre).toBeUndefined();
    expect(aims.spread).toBeUndefined();
  });

  test('takes the mass off the scale where there is one', () => {
    const { bundle, mass } = plan.bundles.find((own) => own.void === 'V4')!;
    const { job: left } = read(['V4'], true, new Map([[bundle, mass + 1]]));
    expect(read(['V4'], true).job.aims.ballast! - left.aims.ballast!).toBeCloseTo(1, 6);
  });

  test('is none where nothing is stowed or cut, or where all steel is stowed', () => {
    expect(workLeft(job, plan, { ...ALL_CUT, cut: { by: 'stowed' } })).toBeNull();
    const all = marksIn(job.voids.map((own) => own.void));
    const noRest = { ...plan, bars: plan.bars.map((bar) => ({ ...bar, remainders: [] })) };
    const used = new Set(plan.bars.map((bar) => bar.lot));
    const onlyUsed = {
      ...job,
      pile: job.pile
        .filter(({ lot }) => used.has(lot))
        .map((lot) => ({
          ...lot,
          length: undefined,
          count: undefined,
          lengths: plan.bars.filter((bar) => bar.lot === lot.lot).map(({ length }) => length),
        })),
    };
    expect(workLeft(onlyUsed, noRest, { ...ALL_CUT, stowed: all })).toBeNull();
  });
});

describe('of a void stowed in part', () => {
  const massOf = (bundles: Plan['bundles']) => bundles.reduce((sum, { mass }) => sum + mass, 0);

  test('runs of which something is in stand: nothing is lost and nothing there twice, whatever is in', () => {
    const { scrapMass, kerfMass, squaringMass, spoiledMass } = plan.totals;
    const lost = scrapMass + kerfMass + squaringMass + spoiledMass;
    const goesTo = new Map(plan.bundles.map((bundle) => [bundle.bundle, bundle]));
    const before = contentsOf(job).reduce((sum, content) => sum + content.mass, 0);
    fc.assert(
      fc.property(fc.array(fc.nat(plan.bundles.length - 1), { minLength: 1, maxLength: 12 }), (picked) => {
        const begun = new Set(picked.map((n) => `${plan.bundles[n]!.void} ${plan.bundles[n]!.run}`));
        const stands = (bundle: Plan['bundles'][number]) => begun.has(`${bundle.void} ${bundle.run}`);
        const standing = plan.bundles.filter(stands);
        const { job: left } = readLeft(new Set(picked.map((n) => plan.bundles[n]!.bundle)), true);
        // Each piece is either in a run that stands or in the new pile, as long as it was cut.
        const rest = plan.bars
          .flatMap((bar) => bar.pieces.filter((piece) => !stands(goesTo.get(piece.bundle)!)))
          .map(({ from, to }) => Math.round((to - from) * 100) / 100);
        const cut = left.pile.filter((lot) => / cut( \d+)?$/.test(lot.lot)).flatMap((lot) => lot.lengths ?? []);
        const sorted = (lengths: number[]) => [...lengths].sort((p, q) => p - q);
        expect(sorted(cut)).toEqual(sorted(rest));
        const steel = standing.reduce((sum, bundle) => sum + bundle.mass - job.bundle.wrapping, 0);
        expect(Math.abs(pileMass(left) + steel + lost - pileMass(job))).toBeLessThan(1);
        // And the weight of what stands is in the voids once.
        const weights = contentsOf(left).reduce((sum, content) => sum + content.mass, 0);
        expect(weights - before).toBeCloseTo(massOf(standing), 0);
        if (left.aims.ballast! > 0) expect(left.aims.ballast! + massOf(standing)).toBeCloseTo(job.aims.ballast!, 0);
      }),
      { numRuns: 40, seed: 7 },
    );
  });

  test('is planned anew: no bundle overlaps a run that stands, complete or begun', async () => {
    const rounds = fixture('all-rounds').job;
    const one = { ...rounds, voids: rounds.voids.filter((own) => own.void === 'W2') };
    const before = await planOf(one, plan.jobDigest, 'first');
    const ofRun = (run: number) => before.bundles.filter((bundle) => bundle.void === 'W2' && bundle.run === run);
    const [first, second] = [ofRun(1), ofRun(2)];
    expect(Math.min(first.length, second.length, ofRun(3).length)).toBeGreaterThan(1);
    const isIn = new Set([...first, second[0]!].map(({ bundle }) => bundle));
    const { job: left, digest } = readLeft(isIn, true, NONE, one, before);
    const space = left.voids.find((own) => own.void === 'W2 rest')!;
    const lacking = second.slice(1).map(({ bundle }) => bundle);
    expect(space.keepOut.map(({ what }) => what)).toEqual([
      'run 1 of plan 7, stowed already',
      'room above run 1 of plan 7',
      `run 2 of plan 7, to be finished: ${lacking[0]} to ${lacking.at(-1)}`,
      'room above run 2 of plan 7',
    ]);
    for (const [i, bundles] of [first, second].entries()) {
      const [kept, above] = [space.keepOut[2 * i]!, space.keepOut[2 * i + 1]!];
      // A chock may stand against the bars, and not against what is left empty above them.
      expect([kept.bears, above.bears]).toEqual([true, undefined]);
      expect(above).toMatchObject({ along: kept.along, across: kept.across, up: [kept.up[1], space.height] });
      expect(kept.mass).toBeCloseTo(massOf(bundles), 1);
      for (const axis of ['along', 'across', 'up'] as const) {
        const centre = bundles.reduce((sum, own) => sum + own.mass * (own.at[axis] + own.size[axis] / 2), 0);
        const [from, to] = kept[axis];
        expect((from + to) / 2).toBeCloseTo(centre / massOf(bundles), 1);
        for (const { at, size } of bundles) {
          expect(from).toBeLessThanOrEqual(at[axis] + 0.01);
          expect(to).toBeGreaterThanOrEqual(at[axis] + size[axis] - 0.01);
        }
      }
    }
    const next = await planOf(left, digest, 'best');
    expect(checkPlan(left, next, digest)).toEqual([]);
    const fresh = next.bundles.filter((bundle) => bundle.void === 'W2 rest');
    expect(fresh.length).toBeGreaterThan(0);
    const marks = new Set(before.bundles.map(({ bundle }) => bundle));
    expect(fresh.filter(({ bundle }) => marks.has(bundle))).toEqual([]);
    const isBefore = (p: Plan['bundles'][number], q: Plan['bundles'][number]) =>
      p.at.along + p.size.along + space.gap.runs <= q.at.along + 0.02;
    for (const stands of [...first, ...second])
      for (const bundle of fresh) expect(isBefore(stands, bundle) || isBefore(bundle, stands)).toBe(true);
    expect(massOf(next.bundles) + massOf([...first, ...second])).toBeGreaterThan(0.9 * massOf(before.bundles));
  });

  test('a begun run that is not finished stands with what is in, and what lacks of it is steel again', () => {
    const own = plan.bundles.filter(({ void: of }) => of === 'V4');
    const [first, ...rest] = own.filter(({ run }) => run === own[0]!.run);
    expect(rest.length).toBeGreaterThan(0);
    const stowed = new Set([first!.bundle]);
    const made = (unfinished: string[]) =>
      workLeft(job, plan, { ...ALL_CUT, stowed, unfinished: new Set(unfinished) })!;
    const [finished, leftSo] = [jobSchema.parse(made([])), jobSchema.parse(made(['V4']))];
    const steel = rest.reduce((sum, { mass }) => sum + mass - job.bundle.wrapping, 0);
    expect(pileMass(leftSo) - pileMass(finished)).toBeCloseTo(steel, 0);
    const weightIn = (of: Job) => contentsOf(of).find(({ what }) => what.includes('run '))!;
    expect(weightIn(leftSo).mass).toBeCloseTo(first!.mass, 1);
    expect(weightIn(leftSo).what).toMatch(/^run \d+ of plan 7, stowed in part and left so, without V4-/);
    const space = (of: Job) => of.voids.find((one) => one.void === 'V4 rest')!;
    expect(space(leftSo).keepOut.at(-1)!.along).toEqual(space(finished).keepOut.at(-1)!.along);
    expect(leftSo.aims.ballast! - finished.aims.ballast!).toBeCloseTo(massOf(rest), 0);
    expect(made(['V1'])).toEqual(made([]));
  });

  test('takes what is left of its caps, and nothing where its target is reached', () => {
    const inV4 = plan.bundles.filter((bundle) => bundle.void === 'V4');
    const first = inV4.filter((bundle) => bundle.run === 1);
    expect(first.length).toBeLessThan(inV4.length);
    const marks = new Set(first.map(({ bundle }) => bundle));
    const leftOf = (caps: { target?: number; most?: number }) => {
      const capped = { ...job, voids: job.voids.map((own) => (own.void === 'V4' ? { ...own, ...caps } : own)) };
      const { target, most } = readLeft(marks, true, NONE, capped).job.voids.find((own) => own.void === 'V4 rest')!;
      return { target, most };
    };
    const mass = massOf(first);
    const free = leftOf({});
    expect([free.target, free.most]).toEqual([undefined, undefined]);
    // What holds the whole would be reckoned as having the rest alone to hold.
    const blocked = { by: 'floor timbers', carries: 30 };
    const held = {
      ...job,
      voids: job.voids.map((own) => ({ ...own, holdDown: { ...own.holdDown!, blocked: { forward: blocked } } })),
    };
    const { voids } = readLeft(marks, true, NONE, held).job;
    expect(voids.filter((own) => !own.holdDown).map((own) => own.void)).toEqual(['V4 rest']);
    const some = leftOf({ target: mass + 20, most: mass + 30 });
    expect(some.target).toBeCloseTo(20, 1);
    expect(some.most).toBeCloseTo(30, 1);
    expect(leftOf({ target: mass - 1, most: mass + 30 })).toEqual({ target: 0, most: 0 });
  });
});

test('a void laid athwartships that could lie either way stays as it lies, with the weight where the bundles are', () => {
  const { job: trial, plan: laid } = trialPair();
  const own = laid.bundles.filter((bundle) => bundle.void === 'V2');
  const moved = own.map((bundle, i) => ({ ...bundle, run: i === 0 ? 1 : 2 }));
  const stated = trial.voids.find((space) => space.void === 'V2')!;
  expect(stated.axis).toBe('athwartships');
  // The same void as it is given where bars may lie either way: from its after end and its middle line.
  const either = {
    ...stated,
    axis: 'either' as const,
    length: stated.width,
    width: stated.length,
    origin: {
      x: stated.origin.x - stated.width / 2000,
      y: stated.origin.y + stated.length / 2000,
      z: stated.origin.z,
    },
    opening: undefined,
    keepOut: [],
    bearers: undefined,
    drain: undefined,
  };
  const asEither = { ...trial, voids: trial.voids.map((space) => (space.void === 'V2' ? either : space)) };
  const asLaid = {
    ...laid,
    bundles: [...laid.bundles.filter((bundle) => bundle.void !== 'V2'), ...moved],
    voids: laid.voids.map((told) => (told.void === 'V2' ? { ...told, axis: 'athwartships' as const } : told)),
  };
  const first = moved[0]!;
  const left = workLeft(asEither, asLaid, { ...ALL_CUT, stowed: new Set([first.bundle]) })!;
  const space = jobSchema.parse(left).voids.find((one) => one.void === 'V2 rest')!;
  expect(space.axis).toBe('athwartships');
  expect([space.length, space.width]).toEqual([stated.length, stated.width]);
  const [weight] = contentsOf(jobSchema.parse(left)).filter(
    (content) => content.what === 'run 1 of plan 7, stowed already',
  );
  expect(weight!.y).toBeCloseTo(stated.origin.y + (first.at.along + first.size.along / 2) / 1000, 3);
  expect(weight!.x).toBeCloseTo(stated.origin.x + (first.at.across + first.size.across / 2) / 1000, 3);
});

const BARS: JobInput['pile'] = [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 1010, count: 12 }];

/** Bars about 1010 mm long, each cut to one piece for either of two voids, what is left of it kept however short. */
async function twoVoids(name: string, aims: JobInput['aims'] = {}, pile: JobInput['pile'] = BARS) {
  const input: JobInput = {
    format: 'kentledge-job/1',
    name,
    pile,
    saw: { keepFrom: 0, shortestPiece: 900 },
    voids: ['V1', 'V2'].map((own) => ({ void: own, length: 1016, width: 130, height: 60, origin: { x: 1, y: 0.3 } })),
    vessel: { lcf: 4 },
    aims: { kgPerHour: 0, ...aims },
  };
  const stated = readJobValue(input);
  if (!stated.ok) throw new Error(JSON.stringify(stated.faults));
  const before = await planOf(stated.value.job, stated.value.digest, 'best');
  const isIn = new Set(before.bundles.filter((own) => own.void === 'V1').map(({ bundle }) => bundle));
  expect([isIn.size > 0, isIn.size < before.bundles.length]).toEqual([true, true]);
  return { before, isIn, job: stated.value.job };
}

describe('a rest job can be read', () => {
  test('where stubs were kept that are no bars: they are let go', async () => {
    const { before, isIn, job: of } = await twoVoids('Stubs');
    const kept = before.bars.flatMap((bar) => bar.remainders.map(({ from, to }) => to - from));
    expect(Math.min(...kept)).toBeLessThan(20);
    const left = readLeft(isIn, true, NONE, of, before);
    expect(left.job.pile.map(({ lot }) => lot)).toContain('A cut');
    expect(left.job.pile.map(({ lot }) => lot)).not.toContain('A left over');
  });

  test('where all that is left of a lot is shorter than what squaring takes off: it is let go', async () => {
    const pile: JobInput['pile'] = [
      { lot: 'A', section: { shape: 'square', side: 25 }, length: 1014, count: 5, squaring: 2 },
      { lot: 'B', section: { shape: 'square', side: 25 }, lengths: [1030, 24], squaring: 13 },
    ];
    const { before, isIn, job: of } = await twoVoids('Squared', {}, pile);
    expect(before.bars.filter(({ lot }) => lot === 'B').map(({ length }) => length)).toEqual([1030]);
    const lots = readLeft(isIn, true, NONE, of, before).job.pile.map(({ lot }) => lot);
    expect(lots).not.toContain('B');
  });

  test('where less is left of the ballast than is read as kilograms: no more is asked for', async () => {
    const { before, isIn, job: of } = await twoVoids('Nearly all');
    const mass = before.bundles.filter(({ bundle }) => isIn.has(bundle)).reduce((sum, own) => sum + own.mass, 0);
    const askedFor = (ballast: number) => {
      const { job: left } = readLeft(isIn, true, NONE, { ...of, aims: { ...of.aims, ballast } }, before);
      return left.aims.ballast;
    };
    expect(askedFor(mass + 1.5)).toBe(0);
    expect(askedFor(mass + 2.5)).toBeCloseTo(2.5, 2);
  });

  test('where the rest would have to lie further up than any vessel reaches: no height is asked of it', async () => {
    const aims = { centre: { x: [1.4, 1.6], z: [12, 12.5] } } satisfies JobInput['aims'];
    const { before, isIn, job: of } = await twoVoids('Too high', aims);
    const { centre } = readLeft(isIn, true, NONE, of, before).job.aims;
    expect(Object.keys(centre!)).toEqual(['x']);
  });

  test('and the places that it asks for are told to a tenth of a millimetre', async () => {
    const aims = { centre: { x: [1.4, 1.6], y: [0.29, 0.37] }, spread: 2.2 } satisfies JobInput['aims'];
    const { before, isIn, job: of } = await twoVoids('Places', aims);
    const { centre, spread } = readLeft(isIn, true, NONE, of, before).job.aims;
    const told = [...centre!.x!, ...centre!.y!, spread!];
    expect(told).toEqual(told.map((place) => Number(place.toFixed(4))));
  });
});
