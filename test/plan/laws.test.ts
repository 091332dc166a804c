/** Laws of more: with more limit, height, bars or stops no plan is lost, so that the bound is never under what less gave. */
import { describe, expect, test } from 'vitest';
import { type Job, type JobInput, jobSchema } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { type PlanOptions, planJob } from '../../src/plan/planner.ts';
import { throwDice } from '../bench/dice.ts';
import { keptBy } from '../keptBy.ts';
import { bestOfOneLength } from './oneLength.ts';
import { tinyInput } from './tinyJobs.ts';

const DIGEST = `sha256:${'0'.repeat(64)}`;
const SEEDS = [1, 2, 5];

const read = (input: JobInput): Job => jobSchema.parse(input);

async function planned(input: JobInput, options: Partial<PlanOptions> = {}): Promise<Plan | null> {
  const result = await planJob(read(input), { effort: 'quick', stops: 'free', jobDigest: DIGEST, ...options });
  return result.kind === 'plan' ? result.plan : null;
}

/** A tiny job without caps: there more of anything can only help. */
const freeInput = (seed: number): JobInput => tinyInput(throwDice(seed), { caps: false, voids: 1 });

const everyVoid = (input: JobInput, change: (place: JobInput['voids'][number]) => object): JobInput => ({
  ...input,
  voids: input.voids.map((place) => ({ ...place, ...change(place) })),
});

const MORE: [string, (input: JobInput) => JobInput][] = [
  [
    'a kilogram more of lift limit',
    (input) => ({ ...input, bundle: { ...input.bundle, limit: input.bundle!.limit! + 1 } }),
  ],
  ['10 mm more of height', (input) => everyVoid(input, ({ height }) => ({ height: height + 10 }))],
  ['10 mm more of width', (input) => everyVoid(input, ({ width }) => ({ width: width + 10 }))],
  [
    'one more bar of the first lot',
    (input) => ({ ...input, pile: input.pile.map((lot, i) => (i === 0 ? { ...lot, count: lot.count! + 1 } : lot)) }),
  ],
  ['less labour', (input) => ({ ...input, aims: { ...input.aims, kgPerHour: input.aims!.kgPerHour! / 2 } })],
];

/** The plan of the tiny job of a seed as it stands. */
const plain = keptBy((seed: number) => planned(freeInput(seed)));

describe.each(MORE)('%s', (_, more) => {
  test('leaves the bound at or over the value there was, and hardly ever lowers the value', async () => {
    let before = 0;
    let after = 0;
    for (const seed of SEEDS) {
      const [less, plan] = [await plain(seed), await planned(more(freeInput(seed)))];
      if (!less) continue;
      expect([seed, plan!.bound.valueAtMost! > less.bound.value - 0.011]).toEqual([seed, true]);
      before += less.bound.value;
      after += plan!.bound.value;
    }
    expect(after).toBeGreaterThan(0.98 * before);
  });
});

describe('a mirrored vessel', () => {
  test('is filled with the same value', async () => {
    for (const seed of SEEDS) {
      const input = freeInput(seed);
      const mirror = (y: number): number => 0 - y;
      const mirrored = everyVoid(input, ({ origin }) => ({ origin: { ...origin, y: mirror(origin?.y ?? 0) } }));
      const [plan, other] = [await plain(seed), await planned(mirrored)];
      expect(other?.bound.value).toBe(plan?.bound.value);
      expect(other?.totals).toEqual(plan?.totals);
    }
  });
});

describe('the order of lots and voids', () => {
  test('changes the bound and the value by little', async () => {
    let value = 0;
    let turned = 0;
    for (const seed of [2, 3]) {
      const input = tinyInput(throwDice(seed), { caps: false });
      const other = { ...input, pile: [...input.pile].reverse(), voids: [...input.voids].reverse() };
      const [plan, back] = [await planned(input), await planned(other)];
      if (!plan || !back) {
        expect(back).toBe(plan);
        continue;
      }
      expect(back.bound.valueAtMost!).toBeGreaterThan(plan.bound.value - 0.011);
      expect(plan.bound.valueAtMost!).toBeGreaterThan(back.bound.value - 0.011);
      value += plan.bound.value;
      turned += back.bound.value;
    }
    expect(Math.abs(turned / value - 1)).toBeLessThan(0.08);
  });
});

describe('a plan', () => {
  test('is worth as much as the best of one section and one length, or nearly, and under the bound', async () => {
    let told = 0;
    let known = 0;
    for (const seed of [11, 12, 13]) {
      const input = tinyInput(throwDice(seed));
      const one = bestOfOneLength(read(input), 3);
      const plan = await planned(input);
      if (!one || !plan) {
        expect([seed, one === null || one.value < 0.02]).toEqual([seed, true]);
        continue;
      }
      expect([seed, plan.bound.valueAtMost! > one.value - 0.011]).toEqual([seed, true]);
      expect([seed, plan.bound.value > 0.9 * one.value]).toEqual([seed, true]);
      told += plan.bound.value;
      known += one.value;
    }
    expect(told).toBeGreaterThan(known);
  });
});
