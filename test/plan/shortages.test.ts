/** What is bought is what is lacking after the pile; where room is lacking nothing is. */
import { describe, expect, test } from 'vitest';
import { makingsOf } from '../../server/paper/makingList.ts';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { shortages } from '../../src/plan/shortages.ts';
import { parseMass, printPounds } from '../../src/units.ts';
import { trialPair } from './trialPlan.ts';

const { job, plan } = trialPair();
const massOf = (space: string | null): number =>
  plan.bundles.filter((bundle) => space === null || bundle.void === space).reduce((sum, { mass }) => sum + mass, 0);

/** The trial job, its pile without the bars that are not cut, short of targets by so much. */
function shortBy(v1: number, all: number | undefined, uncut = false): Job {
  const used = new Map(job.pile.map(({ lot }) => [lot, plan.bars.filter((bar) => bar.lot === lot)]));
  const pile = job.pile.filter(({ lot }) => used.get(lot)!.length > 0);
  const cut = pile.map((lot) => ({
    ...lot,
    count: undefined,
    lengths: used.get(lot.lot)!.map(({ length }) => length),
  }));
  const voids = job.voids.map((space) => (space.void === 'V1' ? { ...space, target: massOf('V1') + v1 } : space));
  return {
    ...job,
    pile: uncut ? job.pile : cut,
    voids,
    aims: { ...job.aims, ballast: all && massOf(null) + all },
  };
}
const usedUp: Plan = {
  ...plan,
  bars: plan.bars.map((bar) => ({ ...bar, remainders: bar.remainders.map((rest) => ({ ...rest, fate: 'scrap' })) })),
};
const steelLines = (of: Job, by: Plan, wanted?: Parameters<typeof makingsOf>[2]) =>
  makingsOf(of, by, wanted).filter(({ group }) => group === 'Steel still to buy');
/** A job whose vessel may carry so much more than what is placed. */
const carrying = (short: Job, more: number): Job => ({
  ...short,
  vessel: { ...short.vessel, displacement: 5000, displacementMost: 5000 + massOf(null) + more },
});

describe('steel to buy', () => {
  test('carries the mass that is missing where the pile is used up, and the ballast counts what a void buys', () => {
    const [v1, all] = shortages(shortBy(10, 15), usedUp);
    expect([v1!.void, v1!.lack, all!.void, all!.lack]).toEqual(['V1', 'steel', null, 'steel']);
    expect(v1!.metres * v1!.massPerMetre).toBeCloseTo(10, 6);
    expect(all!.metres * all!.massPerMetre).toBeCloseTo(15, 6);
    expect(all!.within).toBeCloseTo(10, 6);
    expect(steelLines(shortBy(10, 15), usedUp)[1]!.reckoning).toContain(
      'the 10 kg bought for voids above are part of it',
    );
  });

  test('is less by what is uncut or kept', () => {
    const [lack] = shortages(shortBy(200, undefined), plan);
    expect(lack!.left).toBeGreaterThan(0);
    expect(lack!.metres * lack!.massPerMetre).toBeCloseTo(200 - lack!.left, 6);
    const [withMore] = shortages(shortBy(200, undefined, true), plan);
    expect(withMore!.left).toBeGreaterThan(lack!.left);
  });

  test('is none where enough is uncut or kept', () => {
    const [lack] = shortages(shortBy(1, undefined, true), plan);
    expect(lack).toMatchObject({ lack: 'room or worth', metres: 0 });
    expect(steelLines(shortBy(1, undefined, true), plan)[0]!.quantity).toBe('–');
  });

  test('is none for a void whose room binds, nor for the ballast where that holds of every void', () => {
    const binds = ['Room binds in V2, V1, V3: more height, width or length would take more steel.'];
    const short = shortBy(10, 15);
    expect(shortages(short, { ...usedUp, binds }).map(({ lack, metres }) => [lack, metres])).toEqual([
      ['room', 0],
      ['room', 0],
    ]);
    expect(steelLines(short, { ...usedUp, binds })[0]!.reckoning).toContain('room is lacking');
    const others = ['Room binds in V12: more height, width or length would take more steel.'];
    expect(shortages(short, { ...usedUp, binds: others })[0]!.lack).toBe('steel');
  });

  test('is none for a void once the ballast asked for is reached', () => {
    expect(shortages(shortBy(10, -1), usedUp).map(({ lack }) => lack)).toEqual(['ballast']);
  });

  test('counts no steel that the void could not take, and is none where it takes no section of the pile', () => {
    const short = shortBy(10, undefined, true);
    const lowTo = (height: number): Job => ({ ...short, voids: short.voids.map((space) => ({ ...space, height })) });
    const [thin] = shortages(lowTo(46), plan);
    expect(thin!.lack).not.toBe('shut');
    expect(thin!.left).toBeGreaterThan(0);
    expect(thin!.left).toBeLessThan(shortages(lowTo(150), plan)[0]!.left);
    expect(shortages(lowTo(30), plan)[0]).toMatchObject({ lack: 'shut', left: 0, metres: 0 });
    expect(steelLines(lowTo(30), plan)[0]!.reckoning).toContain('no section of the pile goes in');
  });

  test('is no more than what she may still carry, for all voids together, and none where she may carry no more', () => {
    const short = shortBy(10, 15);
    const bought = (of: Job) => shortages(of, usedUp).map(({ metres, massPerMetre }) => metres * massPerMetre);
    expect(shortages(carrying(short, 100), usedUp)).toEqual(shortages(short, usedUp));
    const [v1, all] = bought(carrying(short, 12));
    expect([v1, all]).toEqual([expect.closeTo(10, 6), expect.closeTo(12, 6)]);
    expect(bought(carrying(short, 4))).toEqual([expect.closeTo(4, 6), expect.closeTo(4, 6)]);
    expect(steelLines(carrying(short, 4), usedUp)[0]!.reckoning).toContain('she may carry 4 kg more');
    expect(shortages(carrying(short, -1), usedUp).map(({ lack, metres }) => [lack, metres])).toEqual([
      ['vessel', 0],
      ['vessel', 0],
    ]);
  });

  test('is told in pounds too, and what she may carry no greater than it is', () => {
    for (const more of [4.02, 4.03]) {
      const told = printPounds(more, 'down');
      expect(parseMass(told)!).toBeLessThan(more);
      expect(told).not.toBe(printPounds(more));
      const [line] = steelLines(carrying(shortBy(10, undefined), more), usedUp, { options: { feet: true } });
      expect(line!.reckoning).toContain(`(she may carry ${told} (4 kg) more)`);
    }
  });
});
