/** A time is written as the clock and the day of the place where the server stands. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { localTime } from '../../server/localTime.ts';
import { dayOf } from '../../src/plan/history.ts';

test('early on a day in the far east, and late on one in the west, it is that day there', () => {
  expect(localTime(new Date('2027-03-01T19:05:00.000Z'), 13 * 60)).toBe('2027-03-02T08:05:00.000+13:00');
  expect(localTime(new Date('2027-03-02T02:30:00.000Z'), -(3 * 60 + 30))).toBe('2027-03-01T23:00:00.000-03:30');
  expect(dayOf(localTime(new Date('2027-03-01T19:05:00.000Z'), 13 * 60))).toBe('2027-03-02');
});

test('it is the same moment, at any offset', () => {
  const years = { min: new Date('1990-01-01'), max: new Date('2090-01-01'), noInvalidDate: true };
  fc.assert(
    fc.property(fc.date(years), fc.integer({ min: -14 * 60, max: 14 * 60 }), (at, offset) => {
      expect(Date.parse(localTime(at, offset))).toBe(at.getTime());
    }),
  );
});
