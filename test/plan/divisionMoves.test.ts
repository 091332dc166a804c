/** Divisions like another: of runs that fit, of every kind. */
import { describe, expect, test } from 'vitest';
import { jobSchema } from '../../src/job/job.ts';
import { Dice } from '../../src/plan/dice.ts';
import { lengthsIn } from '../../src/plan/division.ts';
import { DivisionMoves } from '../../src/plan/divisionMoves.ts';
import { berthsOf, type Skeleton } from '../../src/plan/pricing.ts';
import { problemOf } from '../../src/plan/problem.ts';
import { throwDice } from '../bench/dice.ts';
import { addShape } from '../bench/shapes.ts';
import { tinyInput, tinyJob } from './tinyJobs.ts';

const SEEDS = [1, 2, 3, 4, 5, 6];

/** A tiny job of some voids that are no boxes. */
function shapedJob(seed: number) {
  return jobSchema.parse(addShape(throwDice(seed), tinyInput(throwDice(seed), { voids: 4 })));
}

/** Divisions one after the other from empty voids. */
function walk(seed: number, steps: number, job = tinyJob(throwDice(seed))) {
  const problem = problemOf(job);
  const berths = berthsOf(problem);
  const moves = new DivisionMoves(problem, berths, new Dice(seed));
  let now: Skeleton[] = problem.spaces.map((space) => ({ space, berth: berths[space.index]![0]!, runs: [] }));
  const all = [now];
  for (let i = 0; i < steps; i++) {
    const next = moves.next(now);
    if (!next) continue;
    now = next;
    all.push(now);
  }
  return { job, problem, berths, all };
}

describe('divisions like another', () => {
  test.each(SEEDS)('have runs that fit their voids, none too short, job %i', (seed) => {
    const { job, problem, all } = walk(seed, 400);
    expect(all.length).toBeGreaterThan(100);
    for (const skeletons of all) {
      expect(skeletons.map(({ space }) => space)).toEqual(problem.spaces);
      for (const { berth, runs } of skeletons) {
        let from = berth.laid.clear.ends;
        for (const run of runs) {
          expect(run.from).toBeCloseTo(from, 6);
          expect(run.length).toBeGreaterThanOrEqual(job.saw.shortestPiece);
          expect(Number.isInteger(run.length)).toBe(true);
          from += berth.space(run.from, run.length).along + berth.laid.gap.runs;
        }
        expect(from - berth.laid.gap.runs).toBeLessThanOrEqual(berth.laid.length - berth.laid.clear.ends + 1e-6);
      }
    }
  });

  test.each(SEEDS)('with a length given up have those that were left, in runs that fit, job %i', (seed) => {
    const { problem, berths, all } = walk(seed, 200);
    const moves = new DivisionMoves(problem, berths, new Dice(seed));
    let given = 0;
    for (const now of all) {
      const before = lengthsIn(now);
      const next = moves.fewer(now);
      if (before.length < 2) expect(next).toBeNull();
      if (!next) continue;
      given++;
      expect(before).toEqual(expect.arrayContaining(lengthsIn(next)));
      expect(lengthsIn(next).length).toBeLessThan(before.length);
      for (const { berth, runs } of next) {
        const used = runs.reduce((sum, run) => sum + berth.space(run.from, run.length).along, 0);
        const gaps = Math.max(0, runs.length - 1) * berth.laid.gap.runs;
        expect(used + gaps).toBeLessThanOrEqual(berth.room + 1e-6);
      }
    }
    expect(given).toBeGreaterThan(0);
    expect(given).toBe(all.filter((now) => lengthsIn(now).length > 1).length);
  });

  test('where voids are no boxes have runs that fit, in any order, with room before one of them or after all', () => {
    const seen = { falling: 0, rising: 0, room: 0 };
    for (const seed of SEEDS) {
      const { all } = walk(seed, 200, shapedJob(seed));
      for (const { berth, runs } of all.flat()) {
        if (berth.uniform) continue;
        let end = berth.laid.clear.ends;
        for (const { from, length } of runs) {
          expect(from * 2).toBe(Math.round(from * 2));
          expect(from).toBeGreaterThanOrEqual(end - 1e-6);
          if (from > end + 1) seen.room++;
          end = from + berth.space(from, length).along + berth.laid.gap.runs;
        }
        expect(end - berth.laid.gap.runs).toBeLessThanOrEqual(berth.laid.length - berth.laid.clear.ends + 1e-6);
        const [first, second] = runs;
        if (second && first!.length > second.length) seen.falling++;
        if (second && first!.length < second.length) seen.rising++;
      }
    }
    for (const count of Object.values(seen)) expect(count).toBeGreaterThan(20);
  });

  test('with lengths changed leave the runs of the other voids in their places', () => {
    const { problem, berths, all } = walk(1, 100, shapedJob(1));
    const moves = new DivisionMoves(problem, berths, new Dice(1));
    const now = all.findLast((one) => lengthsIn(one).length > 2)!;
    const lengths = lengthsIn(now);
    const shorter = lengths[0]!;
    const next = moves.changed(now, new Map(lengths.map((length) => [length, length === shorter ? -1 : 0])))!;
    const had = now.map(({ runs }) => runs.some(({ length }) => length === shorter));
    expect(next.map((skeleton, i) => skeleton === now[i])).toEqual(had.map((own) => !own));
    expect(lengthsIn(next)).toContain(shorter - 1);
  });

  test('come to voids of one run and of several, and to lengths in common', () => {
    const all = SEEDS.flatMap((seed) => walk(seed, 400).all);
    const counts = new Set(all.flatMap((skeletons) => skeletons.map(({ runs }) => runs.length)));
    for (const count of [1, 2, 3]) expect(counts).toContain(count);
    const shared = all.filter(
      ([first, second]) =>
        second && first!.runs.some(({ length }) => second.runs.some((other) => other.length === length)),
    );
    expect(shared.length).toBeGreaterThan(all.length / 40);
  });

  test('come also from a pile of which some bars yield nothing', () => {
    const input = tinyInput(throwDice(1));
    const [lot] = input.pile;
    const none = { lot: 'None', section: lot!.section, length: 20, count: 2, squaring: 15 };
    const { all } = walk(1, 100, jobSchema.parse({ ...input, pile: [...input.pile, none] }));
    expect(all.length).toBeGreaterThan(20);
  });

  test('are the same from the same dice', () => {
    const lengths = () => walk(3, 100).all.map((skeletons) => skeletons.map(({ runs }) => runs));
    expect(lengths()).toEqual(lengths());
  });
});
