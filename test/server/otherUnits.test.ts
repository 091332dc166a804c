import { expect, test } from 'vitest';
import { tellIn } from '../../server/otherUnits.ts';

test.each([
  ['Down 3.4 cm, 1.2 cm more by the head.', 'Down 1.3 in (3.4 cm), 0.5 in (1.2 cm) more by the head.'],
  ['Down about 1.9 cm (1.6 to 2.3), no list.', 'Down about 0.7 in (0.6 to 0.9; 1.9 cm), no list.'],
  ['What she may still carry: 500 kg.', 'What she may still carry: 1102 lb (500 kg).'],
  ['At most 8 kg, 46 kg in all.', 'At most 17.6 lb (8 kg), 101 lb (46 kg) in all.'],
  [
    '“exhaust” above the water: 0.28 to 0.40 m: MAY NOT BE ENOUGH.',
    '“exhaust” above the water: 0.92 to 1.31 ft (0.28 to 0.40 m): MAY NOT BE ENOUGH.',
  ],
  ['60 kg·m, 150 kg per cm, 8.2 metres, 3.1 s, 12 cm³', '60 kg·m, 150 kg per cm, 8.2 metres, 3.1 s, 12 cm³'],
  [
    'At 787.4 mm nothing is measured above 8 to 12 mm.',
    `At 2' 7" (787.4 mm) nothing is measured above 5/16" to 1/2" (8 to 12 mm).`,
  ],
  ['An opening of 700 × 340 mm, an axis in mm', 'An opening of 700 × 340 mm, an axis in mm'],
  ['-0.05 m', '-0.16 ft (-0.05 m)'],
])('%s', (metric, inches) => {
  expect(tellIn('inches', metric)).toBe(inches);
  expect(tellIn('metric', metric)).toBe(metric);
});
