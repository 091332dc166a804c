/** The plan that is there at once: made of what the pile has, clean, within the stops, near the aims. */
import { describe, expect, it } from 'vitest';
import type { JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import { timesOf } from '../../src/plan/barPattern.ts';
import { BarsLeft } from '../../src/plan/barsLeft.ts';
import { cutFrom } from '../../src/plan/cutting.ts';
import { makePlan } from '../../src/plan/finish.ts';
import { fillPlainly } from '../../src/plan/plainFill.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { berthsOf } from '../../src/plan/pricing.ts';
import { type Problem, problemOf } from '../../src/plan/problem.ts';
import { usesOf } from '../../src/plan/short.ts';
import { throwDice } from '../bench/dice.ts';
import { randomJob } from '../bench/jobs.ts';
import { tinyInput } from './tinyJobs.ts';

const engine = await loadHighs();

function read(input: JobInput): { problem: Problem; jobDigest: string } {
  const value = readJobValue(input);
  if (!value.ok) throw new Error(JSON.stringify(value.faults));
  return { problem: problemOf(value.value.job), jobDigest: value.value.digest };
}

/** The plan of a job filled plainly, which `makePlan` has checked; null where nothing is placed. */
function plainPlan(input: JobInput, stops = Number.POSITIVE_INFINITY): Plan | null {
  const { problem, jobDigest } = read(input);
  const filled = fillPlainly(problem, berthsOf(problem), engine, stops);
  if (!filled) return null;
  const { fillings, patterns } = filled;
  const cutting = cutFrom(problem, usesOf(fillings), patterns);
  expect(cutting.short).toEqual([]);
  const making = { engine, version: 'test', jobDigest, effort: 'quick' as const, seed: 1, cuttingEffort: 1 };
  return makePlan(problem, fillings, cutting, { ...making, known: new Map() });
}

const seeds = (from: number, count: number) => Array.from({ length: count }, (_, n) => from + n);

describe('what is left of a pile', () => {
  it.each(seeds(1, 12))('no bar yields more than its spans hold, and what is lacking is told (pile %i)', (seed) => {
    const dice = throwDice(seed);
    const { problem } = read(tinyInput(dice));
    const { kerf } = problem.job.saw;
    const pile = new BarsLeft(problem);
    const before = pile.copy();
    const asked = Array.from({ length: 6 }, () => ({
      steel: dice.whole(0, problem.steels.length - 1),
      length: dice.whole(160, 700),
      bars: dice.whole(1, 12),
    }));
    const lacking = pile.take(asked);
    const sum = (uses: { bars: number }[]) => uses.reduce((bars, use) => bars + use.bars, 0);
    const patterns = pile.patterns();
    expect(patterns.flatMap(({ spans }) => spans.flat())).toHaveLength(sum(asked) - sum(lacking));
    const cut = problem.barKinds.map(() => 0);
    for (const { pattern, count } of timesOf(patterns)) {
      cut[pattern.kind.index]! += count;
      pattern.spans.forEach((pieces, span) => {
        const used = pieces.reduce((mm, length) => mm + length + kerf, 0) - kerf;
        expect(used).toBeLessThanOrEqual(pattern.kind.spans[span]!.to - pattern.kind.spans[span]!.from + 1e-6);
      });
    }
    for (const { index, count } of problem.barKinds) expect(cut[index]).toBeLessThanOrEqual(count);
    // What is lacking is not there: no bar has room for it, begun or whole.
    for (const use of lacking) expect(pile.take([use])).toEqual([use]);
    // And a copy knows nothing of what was taken from the other.
    expect(before.patterns()).toEqual([]);
    expect(before.take(asked)).toEqual(lacking);
  });
});

describe('a plan at once', () => {
  it.each(seeds(900, 8))('of a random job of boxes %i is clean', (seed) => {
    expect(plainPlan(randomJob(seed, { small: true }))?.totals.placedMass ?? 0).toBeGreaterThanOrEqual(0);
  });

  it.each(seeds(1203, 4))('of a random job of shapes %i is clean', (seed) => {
    expect(plainPlan(randomJob(seed, { small: true, shapes: true }))?.totals.placedMass ?? 0).toBeGreaterThanOrEqual(0);
  });

  it.each([1, 2])('has no more than %i stops where no more are allowed', (most) => {
    const plans = seeds(700, 12).map((seed) => plainPlan(tinyInput(throwDice(seed)), most));
    for (const plan of plans) expect(plan?.totals.stops ?? 0).toBeLessThanOrEqual(most);
    expect(plans.filter((plan) => plan?.totals.stops === most).length).toBeGreaterThan(2);
  });

  it('takes steel out again that would lie off the centre asked for', () => {
    const box = { length: 800, width: 200, height: 120 };
    const side = (y: number) => ({ ...box, void: y < 0 ? 'P' : 'S', origin: { x: 1, y, z: 0 } });
    const job: JobInput = {
      format: 'kentledge-job/1',
      name: 'Two wells',
      pile: [{ lot: 'A', section: { shape: 'square', side: 30 }, length: 2400, count: 40 }],
      voids: [side(-0.6), { ...side(0.6), width: 120 }],
    };
    const off = ({ centre }: Plan) => Math.abs(centre!.y);
    const free = plainPlan(job)!;
    const kept = plainPlan({ ...job, aims: { centre: { y: [-0.06, 0.06] } } })!;
    expect(off(free)).toBeGreaterThan(0.1);
    expect(off(kept)).toBeLessThanOrEqual(0.061);
    expect(kept.totals.placedMass).toBeGreaterThan(free.totals.placedMass / 2);
  });

  it('is not emptied for aims that nothing can keep', () => {
    const plan = plainPlan({
      format: 'kentledge-job/1',
      name: 'Far off',
      pile: [{ lot: 'A', section: { shape: 'square', side: 30 }, length: 2400, count: 10 }],
      voids: [{ void: 'P', length: 800, width: 200, height: 120, origin: { x: 1, y: -0.6, z: 0 } }],
      aims: { centre: { y: [0.5, 0.6] } },
    });
    expect(plan!.totals.placedMass).toBeGreaterThan(50);
  });
});
