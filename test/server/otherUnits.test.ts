import { expect, test } from 'vitest';
import { tellIn } from '../../server/otherUnits.ts';

test.each([
  ['Down 3.4 cm, 1.2 cm more by the head.', 'Down 1.3 in (3.4 cm), 0.5 in (1.2 cm) more by the head.'],
  ['Down about 1.9 cm (1.6 to 2.3), no list.', 'Down about 0.7 in (0.6 to 0.9; 1.9 cm), no list.'],
  ['What she may still carry: 500 kg.', 'What she may still carry: 1102.3 lb (500 kg).'],
  ['At most 8 kg, 46 kg in all.', 'At most 17.64 lb (8 kg), 101.4 lb (46 kg) in all.'],
  [
    '“exhaust” above the water: 0.28 to 0.40 m: MAY NOT BE ENOUGH.',
    '“exhaust” above the water: 0.92 to 1.31 ft (0.28 to 0.40 m): MAY NOT BE ENOUGH.',
  ],
  [
    '60 kg·m, 150 kg per cm, 4 kg·m per cm, 8.2 metres, 7850 kg/m³, 3.1 s, 12 cm³',
    '434 lb·ft (60 kg·m), 840 lb per in (150 kg per cm), 4 kg·m per cm, 8.2 metres, 7850 kg/m³, 3.1 s, 12 cm³',
  ],
  [
    'At 787.4 mm nothing is measured above 8 to 12 mm.',
    `At 2' 7" (787.4 mm) nothing is measured above 5/16" to 15/32" (8 to 12 mm).`,
  ],
  [
    'An opening of 700 × 340 mm, an axis in mm, an oblong of 9.8 × 3.2 m',
    `An opening of 2' 3 9/16" × 1' 1 3/8" (700 × 340 mm), an axis in mm, an oblong of 32.15 × 10.50 ft (9.8 × 3.2 m)`,
  ],
  [
    '2 × bar across 40 × 10 flat, 360 mm between its outer bolts',
    `2 × bar across 1 9/16" × 13/32" (40 × 10 mm) flat, 1' 2 3/16" (360 mm) between its outer bolts`,
  ],
  [
    'Its 2 bolts, each 10.98 kN: 21.96 kN; 2 × 5.00 kN',
    'Its 2 bolts, each 2468 lbf (10.98 kN): 4937 lbf (21.96 kN); 2 × 1124 lbf (5.00 kN)',
  ],
  [
    'The bars across at 200 and 580 mm, runs 3 and 4 mm apart',
    `The bars across at 7 7/8" and 1' 10 27/32" (200 and 580 mm), runs 3 and 5/32" (4 mm) apart`,
  ],
  ['Forward up 0.1 cm, 0.0 cm aft', 'Forward up 0.04 in (0.1 cm), 0.0 in (0.0 cm) aft'],
  ['At x 0.110 to 0.160 m, 3.85 kg/m', 'At x 0.361 to 0.525 ft (0.110 to 0.160 m), 2.59 lb/ft (3.85 kg/m)'],
  ['-0.05 m', '-0.16 ft (-0.05 m)'],
  ['12\u202f345 kg', '12\u202f345 kg'],
])('%s', (metric, inches) => {
  expect(tellIn('inches', metric).replaceAll('\u00a0', ' ')).toBe(inches);
  expect(tellIn('metric', metric)).toBe(metric);
});

test('what is told in both is not told again', () => {
  const once = tellIn('inches', 'A bar of 5480 mm and 13.2 kg across 40 × 10 mm carries 2.5 kN at 0.3 m.');
  expect(tellIn('inches', once)).toBe(once);
});

test('no line is broken within a length', () => {
  expect(tellIn('inches', 'A bar of 470.5 mm')).toBe(`A bar of 1'\u00a06\u00a017/32" (470.5 mm)`);
});
