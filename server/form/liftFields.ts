/** What is asked of a way of lifting: the last one, into a void, and the legs that several voids share. */
import type { Field, RowList } from './field.ts';

export const LIFT_FIELDS: readonly Field[] = [
  {
    path: 'reach',
    label: 'Reach',
    kind: 'mm',
    unit: 'mm',
    help: 'Level, from the middle of the ankles to the middle of the hands.',
  },
  {
    path: 'start',
    label: 'Hands at the start',
    kind: 'mm',
    unit: 'mm',
    help: 'Over the ground stood on; below it is minus.',
  },
  { path: 'end', label: 'Hands at the end', kind: 'mm', unit: 'mm' },
  { path: 'reachEnd', label: 'Reach at the end', kind: 'mm', unit: 'mm', usual: 'as at the start' },
  { path: 'twist', label: 'Twist', kind: 'number', unit: 'degrees' },
  { path: 'twistEnd', label: 'Twist at the end', kind: 'number', unit: 'degrees', usual: 'as at the start' },
  { path: 'perMinute', label: 'Lifts a minute', kind: 'number' },
  {
    path: 'spell',
    label: 'Spell',
    kind: 'choice',
    options: [
      ['', 'not said'],
      ['short', 'short: up to 1 hour'],
      ['moderate', 'moderate: up to 2'],
      ['long', 'long: up to 8'],
      ['over-long', 'over-long'],
    ],
  },
  {
    path: 'grip',
    label: 'Grip',
    kind: 'choice',
    options: [
      ['', 'not said'],
      ['good', 'good'],
      ['fair', 'fair'],
      ['poor', 'poor'],
    ],
  },
  {
    path: 'posture',
    label: 'Posture',
    kind: 'choice',
    options: [
      ['', 'not said'],
      ['standing', 'standing'],
      ['kneeling', 'kneeling'],
      ['seated', 'seated'],
    ],
  },
  { path: 'hands', label: 'Hands', kind: 'number', usual: '2' },
  {
    path: 'tested',
    label: 'Tested by yourself',
    kind: 'kg',
    unit: 'kg',
    help: 'The most you have lifted this way and call easy.',
  },
];

export const LEGS: RowList = {
  list: 'lift.legs',
  title: 'Ways that several voids share',
  add: 'Add a way to carry',
  remove: 'Take this way out',
  fields: [{ path: 'leg', label: 'Way', kind: 'text', help: 'Quay to deck, deck to cabin.' }, ...LIFT_FIELDS],
};

/** The coarser table by zones, where the user's own authority has other figures. */
export const ZONES: RowList = {
  list: 'lift.zones.rows',
  title: 'Zones of your own authority, the lowest first',
  add: 'Add a zone',
  remove: 'Take this zone out',
  fields: [
    { path: 'zone', label: 'Zone', kind: 'text', help: 'Floor to mid lower leg.' },
    { path: 'upTo', label: 'Hands up to', kind: 'mm', unit: 'mm' },
    { path: 'close.women', label: 'Women, close', kind: 'kg', unit: 'kg' },
    { path: 'close.men', label: 'Men, close', kind: 'kg', unit: 'kg' },
    { path: 'armsLength.women', label: "Women, at arm's length", kind: 'kg', unit: 'kg' },
    { path: 'armsLength.men', label: "Men, at arm's length", kind: 'kg', unit: 'kg' },
  ],
};

export const LIFT_RULES: readonly Field[] = [
  {
    path: 'lift.forbidHeavy',
    label: 'Forbid heavy bundles',
    kind: 'choice',
    usual: 'no: they are called out',
    options: [
      ['', 'as usual'],
      ['true', 'yes'],
      ['false', 'no'],
    ],
    help: 'No bundle over the guide of its void, and none over 25 kg, whatever the limit.',
  },
  {
    path: 'lift.referenceMass',
    label: 'Reference mass',
    kind: 'kg',
    unit: 'kg',
    usual: 'none',
    help: 'The most that whoever lifts may handle at all, by your own authority. No suggestion goes over it.',
  },
  {
    path: 'lift.zones.person',
    label: 'Zones for',
    kind: 'choice',
    usual: 'women',
    options: [
      ['', 'as usual'],
      ['women', 'women'],
      ['men', 'men'],
    ],
    help: 'The coarser table of figures by height and reach, where the method does not cover the lift.',
  },
  {
    path: 'lift.zones.confirmed',
    label: 'Zones confirmed',
    kind: 'choice',
    usual: 'no',
    options: [
      ['', 'as usual'],
      ['true', 'yes, compared with what our own authority publishes'],
      ['false', 'no'],
    ],
  },
];
