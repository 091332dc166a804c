import { expect, test } from 'vitest';
import { readJob } from '../../src/job/readJob.ts';

/** What is told of a job whose first lot has these figures, as they stand in the file. */
function toldOf(figures: { length?: string; count?: string }): string[] {
  const { length = '4000', count = '5' } = figures;
  const lot = `{"lot": "A", "section": {"shape": "round", "diameter": 20}, "length": ${length}, "count": ${count}}`;
  const space = '{"void": "V1", "length": 1200, "width": 300, "height": 160}';
  const read = readJob(`{"format": "kentledge-job/1", "name": "Trial", "pile": [${lot}], "voids": [${space}]}`);
  return read.ok ? [] : read.faults.map(({ code, message }) => `${code} ${message}`);
}

test('a number beyond what the machine holds is too large, on either side of nought, in quotation marks or not', () => {
  for (const length of ['1e999', '-1e999', '"1e999"', `"${'9'.repeat(400)}"`])
    expect(toldOf({ length }), length).toEqual(['out-of-range “length” is too large a number.']);
  expect(toldOf({ length: '"Infinity"' })[0]).toContain('is text ("Infinity")');
});

test('a whole number far past its limit is told once, by its own limit', () => {
  for (const count of ['100001', '9007199254740993', '1e30'])
    expect(toldOf({ count }), count).toEqual([expect.stringContaining('it can be at most 100000.')]);
  expect(toldOf({ count: '-1e30' })).toEqual([expect.stringContaining('it must be at least 1.')]);
});
