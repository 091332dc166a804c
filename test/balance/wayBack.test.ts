/** What goes back next after a survey: never under what is in, and there is always a next thing to do. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { breakOutOf } from '../../src/balance/breakOut.ts';
import { wayBack } from '../../src/balance/wayBack.ts';
import { liesOver } from '../../src/plan/access.ts';
import { type Entry, recordOf } from '../../src/plan/record.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';

const { job, plan } = stackedPair({ voids: 2, runs: 2, tiers: 4, across: 2 });
const marks = plan.bundles.map(({ bundle }) => bundle);
const put = (bundle: string, what: Entry['what']): Entry => ({ bundle, what, note: '', at: '2026-05-04T10:00:00Z' });
const stepsOf = (out: ReadonlySet<string>) =>
  breakOutOf(
    job,
    plan,
    recordOf([...marks.map((mark) => put(mark, 'in')), ...[...out].map((mark) => put(mark, 'out'))]),
    new Map(),
  ).steps;
const overOf = (mark: string) => {
  const low = plan.bundles.find(({ bundle }) => bundle === mark)!;
  return plan.bundles.filter((one) => one.void === low.void && liesOver(one, low)).map(({ bundle }) => bundle);
};

test('whatever is out, nothing goes back under what is in, and by what is told all is back in the end', () => {
  fc.assert(
    fc.property(fc.subarray(marks), (some) => {
      const out = new Set(some);
      let turns = 0;
      while (out.size > 0) {
        const { back, covered } = wayBack(stepsOf(out));
        for (const { bundle } of back) expect(overOf(bundle.bundle).filter((mark) => !out.has(mark))).toEqual([]);
        for (const { bundle, over } of covered) {
          expect(out.has(bundle)).toBe(true);
          // Those directly over its place are among what comes out, and the first has nothing on it.
          expect(over).toEqual(expect.arrayContaining(overOf(bundle).filter((mark) => !out.has(mark))));
          expect(overOf(over[0]!).filter((mark) => !out.has(mark))).toEqual([]);
        }
        const first = covered[0];
        if (first) out.add(first.over[0]!);
        else out.delete(back[0]!.bundle.bundle);
        expect(++turns).toBeLessThanOrEqual(2 * marks.length);
      }
    }),
    { seed: 1, numRuns: 20 },
  );
});

test('what is out over a place that waits is not put back before it', () => {
  const low = plan.bundles.find(({ tier }) => tier === 1)!;
  const over = stepsOf(new Set()).filter(({ bundle }) => overOf(low.bundle).includes(bundle.bundle));
  expect(over.length).toBeGreaterThan(2);
  const [top, ...others] = over.map(({ bundle }) => bundle.bundle);
  const { back, covered } = wayBack(stepsOf(new Set([low.bundle, top!])));
  expect(back).toEqual([]);
  expect(covered).toEqual([{ bundle: low.bundle, over: others }]);
});
