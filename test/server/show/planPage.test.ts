/** What a plan's page and a bundle's page tell of the saw is what the saw sheet tells. */
import { expect, test } from 'vitest';
import { showBars, showBundle } from '../../../server/show/planPage.ts';
import { alikeBars } from '../../../src/plan/stops.ts';
import { trialPair } from '../../plan/trialPlan.ts';

const { job, plan } = trialPair();
/** What is squared off each end of a bar of lot A, mm. */
const SQUARED = 5;

test('pieces lie from the squared end of their bar, as on the saw sheet', () => {
  const bar = plan.bars.find(({ lot }) => lot === 'A')!;
  const expected = bar.pieces.map(({ from, to }) => [from - SQUARED, to - SQUARED]);
  expect(expected[0]![0]).toBe(0);
  const [group] = showBars(job, plan, alikeBars(job, plan), { first: 0, count: 1 });
  expect(group!.pieces.map(({ from, to }) => [from, to])).toEqual(expected);
  const bundle = plan.bundles.find(({ slots }) => slots.flat().includes(bar.pieces[0]!.piece))!;
  const shown = showBundle(job, plan, bundle, bundle.mass).pieces.flat();
  expect(shown.find((piece) => piece.bar === bar.bar)).toMatchObject({ from: 0, to: expected[0]![1] });
});
