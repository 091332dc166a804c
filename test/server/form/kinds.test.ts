/** Bars measured one by one: how many of them a form takes. */
import { expect, test } from 'vitest';
import { applyForm } from '../../../server/form/apply.ts';
import { readField, showField } from '../../../server/form/kinds.ts';
import { listAt, valueAt } from '../../../server/form/path.ts';
import { plainFault } from '../../../server/form/plainFault.ts';
import type { Fault } from '../../../src/fault.ts';

test('lengths of more bars than a pile takes stay as they were typed, and that is told', () => {
  const many = Array.from({ length: 2000 }, () => '3000x9999').join('; ');
  const draft = { pile: [{ lot: 'A' }, { lot: 'B' }] };
  const typed = new Map([
    ['pile[0].lengths', '3000 × 9000'],
    ['pile[1].lengths', many],
    ...Array.from({ length: 499 }, (_, n): [string, string] => [
      `pile[${n + 2}].lengths`,
      Array.from({ length: 9 }, () => '3000x9999').join('; '),
    ]),
  ]);
  const pile = listAt(applyForm(draft, typed), ['pile']);
  const lengths = pile.map((lot) => valueAt(lot, ['lengths']));
  expect(lengths[0]).toHaveLength(9000);
  expect(lengths[1]).toBe(many);
  expect(lengths[2]).toHaveLength(89_991);
  expect(lengths.slice(3).every((value) => typeof value === 'string')).toBe(true);
  const fault: Fault = { path: 'pile[1].lengths', code: 'wrong-type', message: 'This is no list.', remedy: '' };
  expect(plainFault(fault, many, { kind: 'lengths', example: '1; 2' }).message).toBe(
    'A pile takes 100000 bars measured one by one, and these are 19998000 more.',
  );
});

test('a list of measured bars that fills the pile can be shortened and typed anew', () => {
  const full = { pile: [{ lot: 'A', lengths: new Array<number>(100_000).fill(3000) }] };
  const typed = new Map([['pile[0].lengths', '3000 × 9999; 2990 × 9999']]);
  expect(valueAt(applyForm(full, typed), ['pile', 0, 'lengths'])).toHaveLength(19_998);
});

test('bars alike that were measured one by one are shown with their count, and read back as they were', () => {
  expect(showField('lengths', [5480, 5475, 5210, 5210, 5210, 5480])).toBe('5480; 5475; 5210 × 3; 5480');
  expect(showField('lengths', [2400, 2400])).toBe('2400; 2400');
  const alike = (length: number, bars: number) => new Array<number>(bars).fill(length);
  for (const lengths of [
    alike(3000, 25_000),
    alike(5475.5, 4),
    alike(19, 25),
    [...alike(25, 19), ...alike(20, 3), 20.5, ...alike(0.1, 5)],
    [200, 200, 200, 580],
  ])
    expect(readField('lengths', showField('lengths', lengths))).toEqual(lengths);
  expect(showField('lengths', alike(3000, 25_000)).length).toBeLessThan(50);
  // What could not be read stays as it is.
  expect(showField('lengths', ['about 3 m', 'about 3 m', 'about 3 m'])).toBe('about 3 m; about 3 m; about 3 m');
});

test('a place to either side is read with its side in words, too', () => {
  const read = (text: string) => readField('offset', text);
  expect(read('0.21 to port')).toBe(-0.21);
  expect(read('0.9 to starboard')).toBe(0.9);
  expect(read("2' to port")).toBeCloseTo(-0.61, 2);
  expect(read('900 mm port')).toBe(-0.9);
  expect(read('-0.9')).toBe(-0.9);
  expect(read('0 to port')).toBe(0);
  for (const neither of ['-0.9 to port', 'to port', 'port', '0.9 transport', '0.9 to windward'])
    expect(read(neither)).toBe(neither);
  // Only there: forward and up have no sides.
  expect(readField('metres', '0.9 to port')).toBe('0.9 to port');
  for (const value of [-0.21, 0, 1.5]) expect(read(showField('offset', value))).toBe(value);
});
