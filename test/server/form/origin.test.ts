import { expect, test } from 'vitest';
import { VOID_MORE } from '../../../server/form/voidFields.ts';
import { inVessel, layVoid } from '../../../src/plan/check/space.ts';
import { trialPair } from '../../plan/trialPlan.ts';

const { job } = trialPair();
const help = (path: string): string =>
  VOID_MORE.flatMap((group) => group.fields).find((field) => field.path === path)?.help ?? '';

test('the form asks for the place that the checker reckons from: of an end along the bars, of the middle across them', () => {
  const spaces = job.voids.map((space) => layVoid(space, undefined));
  expect(new Set(spaces.map(({ axis }) => axis))).toEqual(new Set(['fore-and-aft', 'athwartships']));
  for (const space of spaces) expect(inVessel(space, 0, 0, 0)).toEqual(space.origin);
  expect(help('origin.x')).toMatch(/^Of its after end,.*athwartships, of its middle\.$/);
  expect(help('origin.y')).toMatch(/^Of its middle;.*athwartships, of its port end\./);
});
