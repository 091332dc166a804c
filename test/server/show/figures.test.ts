/** Figures in what is said beside a picture, for those who hear it read: no more of them than can be measured, and one of a thing is one. */
import { expect, test } from 'vitest';
import { sketchLot } from '../../../server/form/sketchLot.ts';
import { drawChoice } from '../../../server/show/choice.ts';

test.each([
  [{ shape: 'deformed', nominal: 27 }, '31.1 across and 31.1 up as it lies'],
  [{ shape: 'hexagon', acrossFlats: 20.6375 }, '23.8 across and 20.6 up as it lies'],
  [{ shape: 'flat', width: 50, thickness: 12.5 }, '50 across and 12.5 up as it lies'],
])('the size of a section is told to a tenth of a millimetre: %o', (section, words) => {
  expect(sketchLot({ pile: [{ lot: 'A', section, length: 2000 }] }, 0).section).toContain(words);
});

test('a choice of one stop is told as one', () => {
  const choice = [1, 2].map((stops) => {
    const worth = 90 + stops;
    return { stops, value: worth, placedMass: worth, scrapMass: 0, minutes: 10, chosen: stops === 1 };
  });
  const curve = drawChoice(choice);
  expect(curve).toContain('aria-label="1 stop, worth 91\u00a0kg, this plan"');
  expect(curve).toContain('aria-label="2 stops, worth 92\u00a0kg"');
});
