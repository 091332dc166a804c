/** Moves that trim her: each better than nothing, right by the checker, and none better of one or two left out. */
import { describe, expect, test } from 'vitest';
import { marksOf } from '../../src/balance/float.ts';
import { hydrostaticsOf } from '../../src/balance/hydrostatics.ts';
import { sumMoments, weightsByVoid } from '../../src/balance/moments.ts';
import type { Miss } from '../../src/balance/trialRest.ts';
import { type Act, type Proposal, trimMoves, trimOn } from '../../src/balance/trimMoves.ts';
import type { Job } from '../../src/job/job.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { movedPlan, placeOf } from '../../src/plan/moved.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { vessel } from './knownVessel.ts';

const pair = stackedPair({ voids: 4, runs: 2, tiers: 2, across: 2 });
/** Two bundles of room over all that is stowed in V1 and V2. */
const job: Job = {
  ...pair.job,
  vessel,
  voids: pair.job.voids.map((space, n) => (n < 2 ? { ...space, height: space.height + 60 } : space)),
};
/** One side as heavy again by the scale. */
const plan: Plan = pair.plan;
const all = new Set(plan.bundles.map(({ bundle }) => bundle));
const some = (is: (one: PlanBundle) => boolean) => new Set(plan.bundles.filter(is).map(({ bundle }) => bundle));

const shiftsOf = (acts: readonly Act[]) =>
  acts.flatMap((act) => (act.kind === 'move' ? [act.shift] : act.kind === 'exchange' ? act.shifts : []));
const scoreOf = ({ forward, aft, list }: Miss) => forward ** 2 + aft ** 2 + list ** 2;

/** How far she is from what is wanted once these are done, by the weights in her before and after. */
function missAfter(now: Miss, isIn: ReadonlySet<string>, acts: readonly Act[]): Miss {
  const lying = movedPlan(job, plan, shiftsOf(acts));
  const then = new Set(isIn);
  for (const act of acts) {
    if (act.kind === 'ashore') then.delete(act.bundle.bundle);
    if (act.kind === 'in') then.add(act.bundle.bundle);
  }
  const weightsOf = (whole: Plan, marks: ReadonlySet<string>) =>
    sumMoments(
      [
        ...weightsByVoid(job, { ...whole, bundles: whole.bundles.filter(({ bundle }) => marks.has(bundle)) }).values(),
      ].flat(),
    );
  const [p, q] = [weightsOf(plan, isIn), weightsOf(lying, then)];
  const hydro = hydrostaticsOf(vessel);
  const marks = marksOf(hydro, {
    mass: q.mass - p.mass,
    alongMoment: q.alongMoment - p.alongMoment,
    acrossMoment: 0,
    heightMoment: 0,
  });
  if (marks.kind !== 'answer') throw new Error(marks.why);
  return {
    forward: now.forward + marks.forward.likely,
    aft: now.aft + marks.aft.likely,
    list: now.list + (q.acrossMoment - p.acrossMoment) / hydro.kgmPerCm!.likely,
  };
}

function expectRight(proposals: Proposal[], now: Miss, isIn: ReadonlySet<string>): void {
  expect(proposals.length).toBeGreaterThan(0);
  let last = 0;
  for (const { acts, miss, outside } of proposals) {
    const counted = missAfter(now, isIn, acts);
    for (const of of ['forward', 'aft', 'list'] as const) expect(miss[of]).toBeCloseTo(counted[of], 6);
    const rank = scoreOf(miss) + 0.03 * scoreOf(now) * acts.length;
    expect(rank).toBeLessThan(scoreOf(now));
    expect(rank).toBeGreaterThanOrEqual(last - 1e-9);
    last = rank;
    const codes = checkPlan(job, movedPlan(job, plan, shiftsOf(acts))).map(({ code }) => code);
    expect(codes.filter((code) => code !== 'run-length' && code !== 'over-target')).toEqual([]);
    if (codes.length === 0) expect(outside).toEqual([]);
  }
}

const listing: Miss = { forward: 0, aft: 0, list: -0.6 };

describe('moves that trim her', () => {
  test('with a list to port bundles go over to starboard where there is room, and the whole plan still checks clean', () => {
    const proposals = trimMoves(job, plan, all, listing)!;
    expectRight(proposals, listing, all);
    const [first] = proposals;
    expect(first!.acts.map(({ kind }) => kind)).toEqual(['move', 'move']);
    // V1 and V3 are to port, and V2 to starboard has room.
    for (const act of first!.acts) {
      if (act.kind !== 'move') throw new Error('moved');
      expect(['V1', 'V3']).toContain(act.bundle.void);
      expect(act.shift.to.void).toBe('V2');
      expect(act.bundle.tier).toBe(2);
      expect(act.shift.to.tier).toBe(3);
    }
    expect(Math.abs(first!.miss.list)).toBeLessThan(0.6);
  });

  test('none of one move or of two comes nearer than the best given', () => {
    const isIn = some(({ order, void: name }) => order <= (name === 'V4' ? 6 : 8));
    const now: Miss = { forward: 0.2, aft: -0.1, list: -0.3 };
    const proposals = trimMoves(job, plan, isIn, now)!;
    expectRight(proposals, now, isIn);
    // Every other bundle of a second tier to every place over one of those in V1 and V2, ashore, or in: by the checker alone.
    const tops = plan.bundles.filter((one) => isIn.has(one.bundle) && one.tier === 2).filter((_, i) => i % 2 === 0);
    const acts: Act[] = [
      ...tops.map((bundle): Act => ({ kind: 'ashore', bundle })),
      ...plan.bundles.filter((one) => !isIn.has(one.bundle)).map((bundle): Act => ({ kind: 'in', bundle })),
      ...tops.flatMap((bundle) =>
        tops
          .filter((low) => low.void !== bundle.void && ['V1', 'V2'].includes(low.void))
          .map((low): Act => {
            const at = { ...low.at, up: low.at.up + low.size.up };
            const to = { ...placeOf(low), tier: 3, order: 9, at };
            return { kind: 'move', bundle, shift: { bundle: bundle.bundle, to } };
          }),
      ),
    ];
    const rank = (those: Act[]) => scoreOf(missAfter(now, isIn, those)) + 0.03 * scoreOf(now) * those.length;
    const right = (those: Act[]) => checkPlan(job, movedPlan(job, plan, shiftsOf(those))).length === 0;
    const single = acts.map((act) => [act]);
    let least = Number.POSITIVE_INFINITY;
    for (const those of single) if (rank(those) < least && right(those)) least = rank(those);
    for (const [i, p] of acts.entries())
      for (const q of acts.slice(i + 1))
        if (p.bundle !== q.bundle && rank([p, q]) < least && right([p, q])) least = rank([p, q]);
    const [best] = proposals;
    expect(scoreOf(best!.miss) + 0.03 * scoreOf(now) * best!.acts.length).toBeLessThanOrEqual(least + 1e-9);
  });

  test('on from the best pair others follow while she comes nearer, each bundle once, and the whole checks clean', () => {
    const far: Miss = { forward: 0, aft: 0, list: -1.5 };
    const [best] = trimMoves(job, plan, all, far)!;
    const on = trimOn(job, plan, all, far)!;
    expect(on.acts.length).toBeGreaterThan(2);
    expect(on.acts.slice(0, best!.acts.length)).toEqual(best!.acts);
    expect(scoreOf(on.miss)).toBeLessThan(scoreOf(best!.miss));
    const counted = missAfter(far, all, on.acts);
    for (const of of ['forward', 'aft', 'list'] as const) expect(on.miss[of]).toBeCloseTo(counted[of], 6);
    const marks = on.acts.map(({ bundle }) => bundle.bundle);
    expect(new Set(marks).size).toBe(marks.length);
    expect(checkPlan(job, movedPlan(job, plan, shiftsOf(on.acts)))).toEqual([]);
    expect(trimOn(job, plan, all, { forward: 0, aft: 0, list: -0.05 })).toBeNull();
  });

  test('what is under another, and what has another void over it, is left where it is', () => {
    const [lower, upper] = job.voids;
    const origin = { ...lower!.origin, z: lower!.origin.z + 0.2 };
    const over = { ...job, voids: job.voids.map((space) => (space === upper ? { ...space, origin } : space)) };
    for (const { acts } of trimMoves(over, plan, all, listing)!)
      for (const act of acts) {
        expect(act.bundle.void).not.toBe('V1');
        expect(act.bundle.tier).toBe(2);
        if (act.kind === 'move') expect(act.shift.to.void).not.toBe('V1');
      }
  });

  test('two that change places do so where their lengths are of one class, and the plan checks clean', () => {
    const heavy = { ...plan, bundles: plan.bundles.map((one) => (one.void === 'V3' ? { ...one, mass: 4 } : one)) };
    const full = { ...job, voids: pair.job.voids };
    const isIn = all;
    const proposals = trimMoves(full, heavy, isIn, { forward: 0, aft: 0, list: -0.2 })!;
    const exchanges = proposals.flatMap(({ acts }) => acts.filter(({ kind }) => kind === 'exchange'));
    expect(exchanges.length).toBeGreaterThan(0);
    for (const act of exchanges) {
      if (act.kind !== 'exchange') throw new Error('exchanged');
      expect(checkPlan(full, movedPlan(full, plan, act.shifts))).toEqual([]);
    }
  });

  test('a shorter bundle on a run of longer ones is told as outside of the plan', () => {
    // The bundles of V1 as if they were cut 100 mm shorter, which the checker would fault for other things.
    const short = {
      ...plan,
      bundles: plan.bundles.map((one) =>
        one.void === 'V1'
          ? { ...one, length: one.length - 100, size: { ...one.size, along: one.size.along - 100 } }
          : one,
      ),
    };
    const proposals = trimMoves(job, short, all, listing)!;
    const moved = proposals.filter(({ acts }) => acts.some((act) => act.kind === 'move' && act.bundle.void === 'V1'));
    expect(moved.length).toBeGreaterThan(0);
    for (const { outside } of moved)
      expect(outside.join(' ')).toMatch(/Bundles of run \d of V2 differ by 100 mm in length\./);
  });

  test('nothing is proposed where nothing comes nearer, and nothing can be told without her hydrostatics', () => {
    expect(trimMoves(job, plan, all, { forward: 0, aft: 0, list: 0 })).toEqual([]);
    expect(trimMoves({ ...job, vessel: { displacement: 900 } }, plan, all, listing)).toBeNull();
  });
});
