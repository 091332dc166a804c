/** What the job page asks of a lot of the pile. */
import type { Field } from './field.ts';

export const SHAPES = [
  ['', 'choose'],
  ['round', 'round'],
  ['square', 'square'],
  ['flat', 'flat'],
  ['hexagon', 'hexagon'],
  ['deformed', 'ribbed (deformed)'],
  ['angle', 'angle'],
  ['tube', 'tube'],
  ['box', 'box (hollow)'],
  ['other', 'other'],
] as const;

export const LOT_FIELDS: readonly Field[] = [
  {
    path: 'lot',
    label: 'Lot',
    kind: 'text',
    help: 'A short mark for bars alike in section and state. Chalk it on them.',
  },
  {
    path: 'length',
    label: 'Length of a bar',
    kind: 'mm',
    unit: 'mm',
    help: 'Where each bar has its own, all of them under “Each bar as measured”.',
  },
  {
    path: 'count',
    label: 'Bars',
    kind: 'number',
    usual: '1, or all measured',
    help: 'Left empty it is one bar, and of bars measured each for itself as many as there are lengths.',
  },
  {
    path: 'coating',
    label: 'Coating',
    kind: 'choice',
    usual: 'not known: the worst of them',
    options: [
      ['', 'not known'],
      ['bare', 'bare'],
      ['zinc', 'zinc'],
      ['paint', 'paint'],
    ],
    asBlank: 'unknown',
    help: 'Zinc and old paint give off poisonous fume when cut or ground. What is not known is treated as both.',
  },
  {
    path: 'lengths',
    label: 'Each bar as measured',
    kind: 'lengths',
    unit: 'mm',
    help: 'Odd lengths, in place of length and bars: 5480; 5475; 5210 × 3',
    example: '5480; 5475; 5210 × 3',
  },
];

export const LOT_MORE: readonly Field[] = [
  {
    path: 'massPerMetre',
    label: 'Weighed',
    kind: 'kgPerMetre',
    unit: 'kg/m',
    help: 'One bar on a scale, its mass over its length: 12.3 kg / 3200 mm. Or kg/m at once. Wins over the computed figure.',
  },
  {
    path: 'spoiled',
    label: 'Spoiled',
    kind: 'spans',
    unit: 'mm',
    help: 'Stretches of every bar of the lot that no piece may touch: holes, welds, kinks. From the end where cutting begins, so chalk that end: 1200 to 1290; 2400 to 2420. The far end, where all bars have one length: last 60',
    example: '1200 to 1290; 2400 to 2420',
  },
  {
    path: 'squaring',
    label: 'Squaring',
    kind: 'mm',
    unit: 'mm',
    small: true,
    usual: 'as under The saw',
    help: 'Cut off each end of a bar to true it.',
  },
  {
    path: 'bow',
    label: 'Bow',
    kind: 'number',
    unit: 'mm in 1 m',
    usual: '2',
    help: 'How far a bar is out of straight.',
  },
  { path: 'note', label: 'Note', kind: 'note' },
];
