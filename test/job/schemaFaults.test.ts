import { expect, test } from 'vitest';
import { z } from 'zod';
import { readJob } from '../../src/job/readJob.ts';
import { schemaFaults } from '../../src/job/schemaFaults.ts';

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

test('a field that is known elsewhere in the file is told where it belongs', () => {
  const schema = z.strictObject({
    saw: z.strictObject({ kerf: z.number() }).optional(),
    pile: z.array(z.strictObject({ lot: z.string(), mark: z.string().optional() })).optional(),
    kind: z.enum(['kerf', 'lot']).optional(),
  });
  const remedy = (raw: object) => schemaFaults(schema, raw, 'job').map((fault) => fault.remedy);
  expect(remedy({ kerf: 3 })).toEqual(['It belongs in “saw”: move it there.']);
  expect(remedy({ lot: 'A' })).toEqual(['It belongs in “pile[]”: move it there.']);
  expect(remedy({ saw: { kerf: 3, kind: 'lot' } })).toEqual(['It belongs in “job”: move it there.']);
  expect(remedy({ pile: [{ lot: 'A', kerf: 3 }] })).toEqual(['It belongs in “saw”: move it there.']);
  expect(remedy({ blade: 3 })).toEqual(['Take it out.']);
});
