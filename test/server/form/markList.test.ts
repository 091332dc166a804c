/** Marks and lengths typed as the papers print them. */
import { describe, expect, test } from 'vitest';
import { readLengths, readMarks } from '../../../server/form/markList.ts';

const KNOWN = ['A-01', 'A-02', 'A-03', 'A-04', 'B-01', 'A cut-09', 'A cut-10'];
const marksIn = (text: string) => [...readMarks(text, KNOWN).marks];
const lengthsIn = (text: string) => Object.fromEntries(readLengths(text, KNOWN).lengths);

describe('marks', () => {
  test('stand singly and from one to another, as the saw sheet has them, in any letters', () => {
    expect(marksIn('A-01 to A-03, B-01')).toEqual(['A-01', 'A-02', 'A-03', 'B-01']);
    expect(marksIn('a-02; b-01\na cut-09 to a cut-10')).toEqual(['A-02', 'B-01', 'A cut-09', 'A cut-10']);
    expect(marksIn('A-01–A-02')).toEqual(['A-01', 'A-02']);
    expect(marksIn('')).toEqual([]);
    expect(readMarks('', KNOWN).faulty).toBe(false);
    expect(readMarks('a-01 to a-03', KNOWN).echo).toBe('= A-01 to A-03');
  });

  test('that the plan has not are told, all of them at once, and a range of two lots is none', () => {
    const read = readMarks('A-01, Q-1, A-03 to B-01', KNOWN);
    expect(read.faulty).toBe(true);
    expect(read.fault).toBe('The plan has no “Q-1”, “A-03 to B-01”.');
    expect(read.remedy).not.toBe('');
    expect([...read.marks]).toEqual(['A-01']);
  });

  test('of any size are read in no time', () => {
    const started = performance.now();
    expect(readMarks(`${' '.repeat(200_000)}to${'-'.repeat(200_000)}`, KNOWN).faulty).toBe(true);
    expect(readLengths(`${':'.repeat(200_000)}=`, KNOWN).faulty).toBe(true);
    expect(performance.now() - started).toBeLessThan(5000);
  });
});

describe('lengths by mark', () => {
  test('are read in any unit, for one bar or several', () => {
    expect(lengthsIn('A-01: 3530; B-01 = 2.31 m\nA-02 to A-03: 3,4 m')).toEqual({
      'A-01': 3530,
      'B-01': 2310,
      'A-02': 3400,
      'A-03': 3400,
    });
    expect(lengthsIn('A-04 3530, a cut-09 450')).toEqual({ 'A-04': 3530, 'A cut-09': 450 });
  });

  test.each([
    ['A-01', 'A-01: its length is missing.'],
    ['A-01: long', 'A-01: This is no number.'],
    [`A-01: 9' 14"`, 'A-01: This has a foot or more in its inches.'],
    ['A-01: 3.5', 'A-01: This is less than 20 mm.'],
    ['A-01: 1,280', 'A-01: “1,280” could be a thousand or a little over one.'],
    ['Q-1: 3530', 'The plan has no “Q-1”.'],
    ['3530', 'The plan has no “3530”.'],
  ])('that can not be read are told: %s', (text, fault) => {
    const read = readLengths(text, KNOWN);
    expect([read.faulty, read.fault]).toEqual([true, fault]);
    expect(read.remedy).not.toBe('');
  });
});
