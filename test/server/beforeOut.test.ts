/** What a survey tells before a whole void is lifted out. */
import { expect, test } from 'vitest';
import { beforeOut } from '../../server/show/beforeOut.ts';
import { effectOf } from '../../src/balance/float.ts';
import { weightsByVoid } from '../../src/balance/moments.ts';
import { sentenceOf } from '../../src/balance/telling.ts';
import { holdDownSchema } from '../../src/job/holdDown.ts';
import { type Entry, recordOf } from '../../src/plan/record.ts';
import { trialPair } from '../plan/trialPlan.ts';

const { job, plan } = trialPair();
const AT = '2026-05-04T10:00:00.000Z';
const put = (marks: string[]) => recordOf(marks.map((bundle): Entry => ({ bundle, what: 'in', note: '', at: AT })));
const all = plan.bundles.map(({ bundle }) => bundle);

test('what comes off, what comes out, by the scale, and how she floats with the rest', () => {
  const own = plan.bundles.filter(({ void: name }) => name === 'V1');
  const told = beforeOut(job, plan, put(all), new Map([['V1-06', 9]]), 'V1')!;
  const last = own.find(({ bundle }) => bundle === 'V1-06')!;
  const reckoned = own.reduce((sum, { mass }) => sum + mass, 0);
  expect(told).toMatchObject({ held: '', bundles: own.length, first: 'V1-06', last: false });
  expect(told.mass).toBeCloseTo(reckoned - last.mass + 9, 9);
  expect(told.chocks).toBeGreaterThan(0);
  const rest = weightsByVoid(job, plan).get('V2')!;
  expect(told.effect).toBe(sentenceOf(effectOf(job.vessel!, rest)));
});

test('of a void in which not all is, and of one that holds all that is in her', () => {
  expect(beforeOut(job, plan, put(['V1-01', 'V1-02']), new Map(), 'V1')).toMatchObject({
    bundles: 2,
    first: 'V1-02',
    last: true,
  });
  expect(beforeOut(job, plan, put(['V1-01']), new Map(), 'V2')).toBeNull();
});

test('its hold-down is counted piece by piece', () => {
  const bar = { width: 60, thickness: 10, span: 300, bolts: { size: 'M10', grade: '8.8', perBar: 2, into: 'a floor' } };
  const holdDown = holdDownSchema.parse({
    bars: [
      { ...bar, count: 2 },
      { ...bar, count: 1 },
    ],
    straps: [{ kind: 'over', count: 2, lashingCapacity: 10, angle: 60 }],
  });
  const held = { ...job, voids: job.voids.map((space) => ({ ...space, holdDown })) };
  expect(beforeOut(held, plan, put(all), new Map(), 'V1')).toMatchObject({ held: '3 bars across and 2 straps' });
});
