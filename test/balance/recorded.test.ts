/** What is in her by the record: masses and centre of what is in, and nothing of what is out. */
import { expect, test } from 'vitest';
import { effectOf } from '../../src/balance/float.ts';
import { weightsAboard } from '../../src/balance/moments.ts';
import { aboardNow } from '../../src/balance/recorded.ts';
import { sentenceOf } from '../../src/balance/telling.ts';
import { type Entry, recordOf } from '../../src/plan/record.ts';
import { trialPair } from '../plan/trialPlan.ts';

const { job: bare, plan } = trialPair();
const vessel = { displacement: 4000, gm: 0.8, waterlineLength: 8, beam: 2.4, kgPerCm: 130, kgmPerCm: 60, lcf: 3.8 };
const job = { ...bare, vessel };
const NONE = new Map<string, number>();
const at = '2026-05-04T10:00:00Z';
const entries = (what: Entry['what'], bundles: string[]): Entry[] =>
  bundles.map((bundle) => ({ bundle, what, note: '', at }));
const marks = plan.bundles.map(({ bundle }) => bundle);
const all = plan.bundles.reduce((sum, { mass }) => sum + mass, 0);

test('all in is the plan: its mass, its centre and what it does to her', () => {
  const now = aboardNow(job, plan, recordOf(entries('in', marks)), NONE);
  expect(now.in).toEqual({ bundles: marks.length, mass: all });
  expect(now.out).toEqual({ bundles: 0, mass: 0 });
  for (const axis of ['x', 'y', 'z'] as const) expect(now.centre![axis]).toBeCloseTo(plan.centre![axis], 2);
  expect(now.effect).toBe(sentenceOf(effectOf(vessel, weightsAboard(job, plan))));
});

test('what is out is not in her, and counts by the scale where it was weighed', () => {
  const out = plan.bundles.filter((bundle) => bundle.void === 'V2');
  const record = recordOf([
    ...entries('in', marks),
    ...entries(
      'out',
      out.map(({ bundle }) => bundle),
    ),
  ]);
  const weighed = new Map([[out[0]!.bundle, out[0]!.mass + 1]]);
  const now = aboardNow(job, plan, record, weighed);
  const mass = out.reduce((sum, own) => sum + own.mass, 0);
  expect(now.out.bundles).toBe(out.length);
  expect(now.out.mass).toBeCloseTo(mass + 1, 9);
  expect(now.in.mass).toBeCloseTo(all - mass, 9);
  expect(now.all.mass).toBeCloseTo(all + 1, 9);
  const told = plan.voids.find((own) => own.void === 'V1')!.centre!;
  for (const axis of ['x', 'y', 'z'] as const) expect(now.centre![axis]).toBeCloseTo(told[axis], 2);
});

test('where nothing is in there is no centre, and where nothing is stated of her no effect', () => {
  expect(aboardNow(job, plan, recordOf([]), NONE).centre).toBeNull();
  const now = aboardNow({ ...bare, vessel: undefined }, plan, recordOf(entries('in', marks)), NONE);
  expect([now.centre, now.effect]).toEqual([null, null]);
  expect(now.in.mass).toBe(all);
});
