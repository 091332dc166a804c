import { expect, test } from 'vitest';
import { drawChoice } from '../../../server/show/choice.ts';

test('the curve names a plan of one stop as one', () => {
  const curve = drawChoice([
    { stops: 1, value: 90, chosen: false },
    { stops: 2, value: 100, chosen: true },
  ] as never);
  expect(curve.match(/aria-label="\d[^"]*"/g)).toEqual([
    'aria-label="1 stop, worth 90\u00a0kg"',
    'aria-label="2 stops, worth 100\u00a0kg, this plan"',
  ]);
});
