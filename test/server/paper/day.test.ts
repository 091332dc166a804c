/** The day on a paper is the day where the machine stands, as in the record that the register quotes. */
import { afterEach, expect, test } from 'vitest';
import { dayHere } from '../../../server/paper/figures.ts';

const zone = process.env.TZ;
afterEach(() => {
  if (zone === undefined) delete process.env.TZ;
  else process.env.TZ = zone;
});

test('early in the far east and late in the west', () => {
  const at = new Date('2027-03-01T19:05:00.000Z');
  process.env.TZ = 'Pacific/Auckland';
  expect(dayHere(at)).toBe('2027-03-02');
  process.env.TZ = 'America/St_Johns';
  expect(dayHere(at)).toBe('2027-03-01');
  expect(dayHere(new Date('2027-03-02T02:30:00.000Z'))).toBe('2027-03-01');
});
