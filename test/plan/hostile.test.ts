import fc from 'fast-check';
import { expect, it } from 'vitest';
import { PLAN_FAULTS } from '../../src/plan/check/planFault.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { readPlan } from '../../src/plan/readPlan.ts';
import { trialPair } from './trialPlan.ts';

/** Every path to a number or text inside a plan. */
function leavesOf(value: unknown, path: (string | number)[] = []): (string | number)[][] {
  if (typeof value !== 'object' || value === null) return [path];
  const keys = Array.isArray(value) ? value.map((_, i) => i) : Object.keys(value);
  return keys.flatMap((key) => leavesOf((value as Record<string | number, unknown>)[key], [...path, key]));
}

const { job, plan: right } = trialPair();
const text = JSON.stringify(right);
const leaves = leavesOf(right);
const numbers = fc.oneof(fc.integer({ min: -3, max: 9 }), fc.double({ noDefaultInfinity: true, noNaN: true }));
const texts = fc.constantFrom('V1', 'A', 'p0001', 'grid', 'nested', 'keep', '', '__proto__');

it('a plan with anything anywhere is refused or checked to the end, in sentences', () => {
  let checked = 0;
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.constantFrom(...leaves), numbers, texts), { minLength: 1, maxLength: 3 }),
      (changes) => {
        const plan = JSON.parse(text);
        for (const [path, number, text] of changes) {
          let at = plan;
          for (const key of path.slice(0, -1)) at = at[key];
          at[path.at(-1)!] = typeof at[path.at(-1)!] === 'number' ? number : text;
        }
        const read = readPlan(JSON.stringify(plan));
        if (!read.ok) return;
        checked++;
        for (const fault of checkPlan(job, read.value)) {
          expect(Object.keys(PLAN_FAULTS)).toContain(fault.code);
          expect(fault.text).toMatch(/\.$/);
          expect(fault.text).not.toMatch(/\[object|Invalid/);
        }
      },
    ),
    { seed: 9, numRuns: 250 },
  );
  expect(checked).toBeGreaterThan(75);
});
