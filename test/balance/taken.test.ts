/** What was read afloat: in which order it counts, what of a plan was in her then, and which readings a trial is made of. */
import { expect, test } from 'vitest';
import {
  aboardThen,
  inOrderTaken,
  type Reading,
  timeOf,
  trialPairOf,
  underLeast,
  type Written,
} from '../../src/balance/taken.ts';
import type { Entry } from '../../src/plan/record.ts';
import { trialPair } from '../plan/trialPlan.ts';

const NOTHING = { mass: 0, alongMoment: 0, acrossMoment: 0, heightMoment: 0 };
const READ: Reading = {
  on: '2026-05-04',
  at: '',
  who: '',
  note: '',
  forward: 0.8,
  aft: 1,
  list: null,
  period: null,
  freeboards: { forward: null, aft: null, port: null, starboard: null },
  aboard: { plan: 1, bundles: [], moments: NOTHING },
  struck: false,
};

const written = (number: number, reading: Partial<Reading>): Written => ({
  id: number,
  number,
  writtenAt: '',
  reading: { ...READ, ...reading },
});
const laden = (plan = 1) => ({ plan, bundles: ['V1-01'], moments: NOTHING });

test('a reading without a time that was written on another day counts after all that were read on its day', () => {
  const texts = [
    written(1, {}),
    written(2, { at: '23:59' }),
    written(3, { on: '2026-05-05', at: '00:01' }),
    written(4, { at: '06:00' }),
  ];
  expect(inOrderTaken(texts).map(({ number }) => number)).toEqual([4, 2, 1, 3]);
});

test('a reading without a time counts as when it was first written, where that was on its day', () => {
  const texts = [
    { ...written(1, { at: '10:00' }), writtenAt: '2026-05-04T15:00:00.000+02:00' },
    { ...written(2, {}), writtenAt: '2026-05-04T09:30:00.000+02:00' },
    { ...written(3, { at: '09:00' }), writtenAt: '2026-05-04T09:10:00.000+02:00' },
    // Corrected in the evening: its place is that of its first text.
    { ...written(2, { forward: 0.9 }), id: 4, writtenAt: '2026-05-04T20:00:00.000+02:00' },
    { ...written(5, {}), writtenAt: '2026-05-05T00:10:00.000+02:00' },
  ];
  expect(inOrderTaken(texts).map(({ number }) => number)).toEqual([3, 2, 1, 5]);
  expect(timeOf({ on: '2026-05-04', at: '' }, texts[1]!.writtenAt)).toBe('09:30');
  expect(timeOf({ on: '2026-05-04', at: '08:00' }, texts[1]!.writtenAt)).toBe('08:00');
  expect(timeOf({ on: '2026-05-03', at: '' }, texts[1]!.writtenAt)).toBe('');
});

test('what was stowed up to the minute of a reading was in her then, and what is dated alone from its day on', () => {
  const { job, plan } = trialPair();
  const [p, q, r] = plan.bundles.map(({ bundle }) => bundle);
  const entries = [
    [p, '2026-05-04T10:30'],
    [q, '2026-05-04T10:31'],
    [r, '2026-05-04'],
  ].map(([bundle, at]): Entry => ({ bundle: bundle!, what: 'in', note: '', at: at! }));
  const inThen = (on: string, at: string) => aboardThen(job, plan, 7, entries, new Map(), { on, at }).bundles;
  expect(inThen('2026-05-04', '10:29')).toEqual([r]);
  expect(inThen('2026-05-04', '10:30')).toEqual([p, r]);
  expect(inThen('2026-05-04', '')).toEqual([p, q, r]);
  expect(inThen('2026-05-03', '')).toEqual([]);
  const { moments } = aboardThen(job, plan, 7, entries, new Map([[r!, 5]]), { on: '2026-05-04', at: '09:00' });
  expect(moments.mass).toBe(5);
});

test('a freeboard of the very least that is allowed is not under it', () => {
  const reading = { ...READ, freeboards: { forward: 0.5, aft: 0.499, port: null, starboard: 0.6 } };
  expect(underLeast({ freeboardLeast: 0.5 }, reading)).toEqual(['aft']);
  expect(underLeast({}, reading)).toEqual([]);
});

test('a trial is the last reading with some of the plan in her, and the last before that with nothing of a plan', () => {
  const texts = [
    written(1, { at: '08:00' }),
    written(2, { at: '09:00' }),
    written(3, { at: '10:00', aboard: laden() }),
    written(4, { at: '11:00' }),
    written(5, { at: '12:00', aboard: laden(2) }),
    written(6, { at: '10:30', aboard: laden(), forward: null }),
    written(7, { at: '10:40', aboard: laden(), struck: true }),
  ];
  const numbers = (plan: number) => {
    const { before, after } = trialPairOf(texts, plan);
    return [before?.number, after?.number];
  };
  expect([numbers(1), numbers(2), numbers(3)]).toEqual([
    [2, 3],
    [4, 5],
    [4, undefined],
  ]);
});
