/** The order in which bundles come out for a survey and go back, over all voids or some. */
import { describe, expect, test } from 'vitest';
import { type BreakOut, breakOutOf } from '../../src/balance/breakOut.ts';
import { effectOf, marksOf } from '../../src/balance/float.ts';
import { hydrostaticsOf } from '../../src/balance/hydrostatics.ts';
import { sumMoments, weightsByVoid } from '../../src/balance/moments.ts';
import type { Job } from '../../src/job/job.ts';
import { liesOver } from '../../src/plan/access.ts';
import { type Entry, recordOf } from '../../src/plan/record.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { vessel } from './knownVessel.ts';

const AT = '2026-05-04T10:00:00.000Z';
const pair = stackedPair({ voids: 4, runs: 2, tiers: 3, across: 3 });
const job: Job = { ...pair.job, vessel };
const { plan } = pair;
const marks = plan.bundles.map(({ bundle }) => bundle);
const written = (...acts: [what: 'in' | 'out', marks: readonly string[]][]) =>
  recordOf(acts.flatMap(([what, some]) => some.map((bundle): Entry => ({ bundle, what, note: '', at: AT }))));
const all = written(['in', marks]);
const none = new Map<string, number>();
const orderOf = (told: Pick<BreakOut, 'steps'>) => told.steps.map(({ bundle }) => bundle.bundle);
const weightsOf = (some: readonly string[], masses = none) => {
  const bundles = plan.bundles
    .filter(({ bundle }) => some.includes(bundle))
    .map((one) => ({ ...one, mass: masses.get(one.bundle) ?? one.mass }));
  return [...weightsByVoid(job, { ...plan, bundles }).values()].flat();
};

describe('breaking out', () => {
  test('a void is empty with the last of it that comes out, of all voids or of one', () => {
    const emptied = (told: BreakOut) => told.steps.flatMap(({ bundle, empties }) => (empties ? [bundle.void] : []));
    const voids = [...new Set(plan.bundles.map((one) => one.void))];
    expect(emptied(breakOutOf(job, plan, all, none)).sort()).toEqual([...voids].sort());
    const [first] = voids;
    expect(emptied(breakOutOf(job, plan, all, none, [first!]))).toEqual([first]);
  });

  test('takes each bundle once, none before what lies on it, of every void its last in first', () => {
    const { steps, mass } = breakOutOf(job, plan, all, none);
    expect(orderOf({ steps }).sort()).toEqual([...marks].sort());
    expect(mass).toBeCloseTo(
      plan.bundles.reduce((sum, one) => sum + one.mass, 0),
      9,
    );
    for (const [i, { bundle }] of steps.entries())
      for (const later of steps.slice(i + 1))
        if (later.bundle.void === bundle.void) {
          expect(liesOver(later.bundle, bundle)).toBe(false);
          expect(later.bundle.order).toBeLessThan(bundle.order);
        }
    const opening = steps.filter(({ opens }) => opens);
    expect(opening.map(({ bundle }) => bundle.order)).toEqual([18, 18, 18, 18]);
    expect(steps.filter(({ empties }) => empties).map(({ bundle }) => bundle.order)).toEqual([1, 1, 1, 1]);
  });

  test('tells after each what she lists with what is left, by the balance and the scale', () => {
    const masses = new Map([[marks[0]!, 9]]);
    const { steps, listGreatest } = breakOutOf(job, plan, all, masses);
    const left = [...marks];
    let worst = 0;
    for (const { bundle, list, left: kept } of steps) {
      left.splice(left.indexOf(bundle.bundle), 1);
      const weights = weightsOf(left, masses);
      const { stability } = effectOf(vessel, weights);
      if (stability.kind !== 'answer') throw new Error(stability.why);
      expect(list!).toBeCloseTo(stability.list.likely, 3);
      expect(kept).toBeCloseTo(sumMoments(weights).mass, 9);
      worst = Math.max(worst, Math.abs(list!));
    }
    expect(left).toEqual([]);
    expect(listGreatest!).toBeGreaterThanOrEqual(worst);
  });

  test('tells at each quarter her marks against those before, and her list, roll and GM', () => {
    const { steps, mass } = breakOutOf(job, plan, all, none);
    const quarters = steps.filter(({ quarter }) => quarter !== null);
    expect(quarters.map(({ quarter }) => quarter)).toEqual([1, 2, 3, 4]);
    for (const { quarter, left } of quarters) {
      expect(mass - left).toBeGreaterThanOrEqual((mass * quarter!) / 4 - 1e-9);
      expect(mass - left).toBeLessThan((mass * quarter!) / 4 + plan.bundles[0]!.mass);
    }
    const half = steps.findIndex(({ quarter }) => quarter === 2);
    const out = steps.slice(0, half + 1).map(({ bundle }) => bundle.bundle);
    const moved = marksOf(hydrostaticsOf(vessel), sumMoments(weightsOf(out).map((w) => ({ ...w, mass: -w.mass }))));
    if (moved.kind !== 'answer') throw new Error(moved.why);
    expect(moved.aft.likely).toBeLessThan(-0.05);
    expect(steps[half]!.floats).toContain(`aft up ${(-moved.aft.likely).toFixed(1)} cm`);
    expect(quarters.at(-1)!.floats).toContain('GM 0.40 m');
    expect(steps.filter(({ floats }) => floats !== null)).toHaveLength(4);
  });

  test('keeps the most list that is asked for, where all over one side would not', () => {
    const listMost = 1.2 * breakOutOf(job, plan, all, none).listGreatest!;
    // The same with the starboard voids far lower in her, which alone would come out last.
    const voids = job.voids.map((space, v) => ({ ...space, origin: { ...space.origin, z: v % 2 === 0 ? 0.6 : 0.1 } }));
    const uneven = (aims: Partial<Job['aims']>) =>
      breakOutOf({ ...job, voids, aims: { ...job.aims, ...aims } }, plan, all, none).listGreatest!;
    expect(uneven({})).toBeGreaterThan(2 * listMost);
    expect(uneven({ listMost })).toBeLessThanOrEqual(listMost);
  });

  test('stays the same from the first out to the last one back', () => {
    const order = orderOf(breakOutOf(job, plan, all, none));
    for (const count of [1, 20, order.length]) {
      const { steps } = breakOutOf(job, plan, written(['in', marks], ['out', order.slice(0, count)]), none);
      expect(orderOf({ steps })).toEqual(order);
      expect(steps.map(({ isOut }) => isOut)).toEqual(order.map((_, i) => i < count));
    }
  });

  test('names what is out before its turn, and nothing where all are out or in in the order told', () => {
    const order = orderOf(breakOutOf(job, plan, all, none));
    const outOf = (out: string[], voids?: string[]) =>
      breakOutOf(job, plan, written(['in', marks], ['out', out]), none, voids).outOfTurn;
    for (const count of [0, 1, 20, order.length]) expect(outOf(order.slice(0, count))).toEqual([]);
    const late = order.slice(-3);
    expect(outOf([...order.slice(0, 4), ...late])).toEqual(late);
    // One void as a whole, as a surveyor takes it: of the other voids alone nothing is out of turn.
    const own = marks.filter((mark) => mark.startsWith('V2'));
    expect(outOf(own).length).toBeGreaterThan(0);
    expect(outOf(own, ['V1', 'V3'])).toEqual([]);
  });

  test('of some voids alone leaves the rest in her, and of what never went in nothing comes out', () => {
    const some = breakOutOf(job, plan, all, none, ['V1', 'V2']);
    expect(new Set(some.steps.map(({ bundle }) => bundle.void))).toEqual(new Set(['V1', 'V2']));
    const rest = marks.filter((mark) => /^V[34]/.test(mark));
    expect(some.steps.at(-1)!.left).toBeCloseTo(sumMoments(weightsOf(rest)).mass, 9);
    const first = marks.slice(0, 4);
    const begun = breakOutOf(job, plan, written(['in', first]), none);
    expect(orderOf(begun)).toEqual([...first].reverse());
    expect(breakOutOf(job, plan, written(), none)).toEqual({
      steps: [],
      mass: 0,
      listGreatest: 0,
      barred: [],
      outOfTurn: [],
    });
  });

  test('a void over others comes out first, and is named where it stays', () => {
    const voids = job.voids.map((space, v) =>
      v === 3 ? { ...space, origin: { ...job.voids[1]!.origin, z: job.voids[1]!.origin.z + 0.2 } } : space,
    );
    const stacked = { ...job, voids };
    const order = breakOutOf(stacked, plan, all, none).steps.map(({ bundle }) => bundle.void);
    expect(order.lastIndexOf('V4')).toBeLessThan(order.indexOf('V2'));
    expect(breakOutOf(stacked, plan, all, none, ['V2']).barred).toEqual([{ upper: 'V4', lower: ['V2'] }]);
    expect(breakOutOf(stacked, plan, all, none, ['V2', 'V4']).barred).toEqual([]);
  });

  test('without a vessel the order is told, and no list or marks', () => {
    const { vessel: _, ...bare } = job;
    const { steps, listGreatest } = breakOutOf(bare, plan, all, none);
    expect(steps).toHaveLength(marks.length);
    expect(listGreatest).toBeNull();
    expect(steps.every(({ list, floats }) => list === null && floats === null)).toBe(true);
  });
});
