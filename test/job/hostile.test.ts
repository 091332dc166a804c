import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readJob, readJobValue } from '../../src/job/readJob.ts';
import { trialJobInput } from '../plan/trialPlan.ts';

/** Every path to a value inside a JSON value. */
function pathsOf(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return [path];
  const keys = Array.isArray(value) ? value.map((_, i) => i) : Object.keys(value);
  return [path, ...keys.flatMap((key) => pathsOf((value as Record<string | number, unknown>)[key], [...path, key]))];
}

function replaced(path: (string | number)[], by: unknown): unknown {
  if (path.length === 0) return by;
  const job = JSON.parse(JSON.stringify(trialJobInput()));
  let at = job;
  for (const key of path.slice(0, -1)) at = at[key];
  at[path.at(-1)!] = by;
  return job;
}

describe('whatever stands in a job file', () => {
  const paths = pathsOf(JSON.parse(JSON.stringify(trialJobInput())));

  it('it is read or refused in plain words, and nothing is thrown', () => {
    fc.assert(
      fc.property(fc.constantFrom(...paths), fc.jsonValue(), (path, value) => {
        const read = readJobValue(replaced(path, value));
        if (read.ok) return;
        expect(read.faults.length).toBeGreaterThan(0);
        for (const fault of read.faults) {
          expect(fault.message).toMatch(/\.$/);
          expect(fault.remedy).toMatch(/[.?]$/);
          expect(`${fault.message} ${fault.remedy}`).not.toMatch(/undefined|NaN|Invalid|\[object/);
        }
      }),
      { seed: 5, numRuns: 300 },
    );
  });

  it('a fault in one place names that place, or one that has to do with it', () => {
    const wrong: [path: (string | number)[], value: unknown][] = paths
      .filter((path) => path.length > 0)
      .map((path) => [path, [[]]]);
    for (const [path, value] of wrong) {
      const read = readJobValue(replaced(path, value));
      if (read.ok) throw new Error(`${path.join('.')} took a list in a list`);
      const text = path
        .map((key) => (typeof key === 'number' ? `[${key}]` : `.${key}`))
        .join('')
        .slice(1);
      expect(read.faults.some((fault) => fault.path.startsWith(text))).toBe(true);
    }
  });

  it('bytes that are no JSON are refused with a place, never thrown', () => {
    const text = JSON.stringify(trialJobInput(), null, 1);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: text.length - 1 }), fc.string({ maxLength: 3 }), (at, by) => {
        const read = readJob(text.slice(0, at) + by + text.slice(at + 1));
        if (!read.ok && read.faults[0]!.code === 'not-json')
          expect(read.faults[0]!.message).toMatch(/^Line \d+, column \d+: /);
      }),
      { seed: 5, numRuns: 300 },
    );
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        expect(readJob(bytes).ok).toBe(false);
      }),
      { seed: 5, numRuns: 200 },
    );
  });
});
