/** What is asked of what holds the ballast of a void down. Whether it carries the loads is shown on the plan's page. */
import { BOLT_GRADES, BOLT_SIZES, SIDES } from '../../src/job/holdDown.ts';
import type { Field, RowList } from './field.ts';

type Options = readonly (readonly [string, string])[];

/** The words themselves to choose from. */
function choices(words: readonly string[], none = 'choose'): Options {
  return [['', none], ...words.map((word) => [word, word] as const)];
}

const TOWARDS = { forward: 'forward', aft: 'aft', port: 'to port', starboard: 'to starboard' } as const;

export const HOLD_FIELDS: readonly Field[] = [
  {
    path: 'holdDown.friction',
    label: 'Friction',
    kind: 'number',
    usual: '0: none counted',
    help: 'Between stow and floor, dry and swept: wood on plywood 0.45, steel on steel 0.2 to 0.4. Wet or oily counts for nothing.',
  },
  { path: 'holdDown.room', label: 'Room it takes on top', kind: 'mm', unit: 'mm', small: true, usual: '0' },
  ...SIDES.flatMap((side): Field[] => [
    {
      path: `holdDown.blocked.${side}.by`,
      label: `Blocked ${TOWARDS[side]} by`,
      kind: 'text',
      pair: `What blocks it ${TOWARDS[side]}`,
      help: 'What stands against the stow on that side: a frame, a bulkhead.',
    },
    {
      path: `holdDown.blocked.${side}.carries`,
      label: 'It carries',
      kind: 'kN',
      unit: 'kN',
      pair: `What blocks it ${TOWARDS[side]}`,
    },
  ]),
  {
    path: 'holdDown.blocked.down.by',
    label: 'It stands on',
    kind: 'text',
    pair: 'What it stands on',
    help: 'Floors or bearers: only where a load down is stated.',
  },
  { path: 'holdDown.blocked.down.carries', label: 'It carries', kind: 'kN', unit: 'kN', pair: 'What it stands on' },
  { path: 'holdDown.loads.along', label: 'Load along', kind: 'number', unit: '× gravity', usual: '2' },
  { path: 'holdDown.loads.across', label: 'Load across', kind: 'number', unit: '× gravity', usual: '2' },
  { path: 'holdDown.loads.up', label: 'Load up', kind: 'number', unit: '× gravity', usual: '2' },
  {
    path: 'holdDown.loads.down',
    label: 'Load down',
    kind: 'number',
    unit: '× gravity',
    usual: 'not looked at',
    help: 'A slam or a grounding, its own weight included.',
  },
  {
    path: 'holdDown.loads.reason',
    label: 'Why other loads',
    kind: 'text',
    help: 'A lighter load than usual needs its reason, which is printed.',
  },
];

const PLACES =
  'The middle of each from the after end, or from port where bars lie athwartships, one place for each: 200; 580.';

export const STRAPS: RowList = {
  list: 'holdDown.straps',
  title: 'Straps',
  add: 'Add a strap',
  remove: 'Take this strap out',
  fields: [
    {
      path: 'kind',
      label: 'Strap',
      kind: 'choice',
      options: [
        ['', 'choose'],
        ['over', 'over the top'],
        ['direct', 'from the stow to a fixing'],
      ],
    },
    { path: 'count', label: 'How many', kind: 'number' },
    {
      path: 'lashingCapacity',
      label: 'Lashing capacity',
      kind: 'kN',
      unit: 'kN',
      help: 'Marked LC on its label, mostly in daN: type 500 daN for 5 kN.',
    },
    { path: 'breakingLoad', label: 'Breaking load', kind: 'kN', unit: 'kN' },
    { path: 'angle', label: 'Angle to the floor', kind: 'number', unit: 'degrees' },
    {
      path: 'tension',
      label: 'Tension left in it',
      kind: 'kN',
      unit: 'kN',
      usual: 'half its capacity',
      help: 'Only of a strap over the top. Marked STF on its label, mostly in daN.',
    },
    {
      path: 'against',
      label: 'Holds against',
      kind: 'choice',
      options: choices(SIDES, 'not said'),
      help: 'Only of a strap to a fixing.',
    },
    {
      path: 'at',
      label: 'Where along the void',
      kind: 'lengths',
      unit: 'mm',
      usual: 'not settled',
      help: `Only of a strap over the top. ${PLACES}`,
      example: '200; 580',
    },
    { path: 'aside', label: 'Aside in plan', kind: 'number', unit: 'degrees', usual: '0' },
  ],
};

export const BARS_ACROSS: RowList = {
  list: 'holdDown.bars',
  title: 'Bars across, bolted down',
  add: 'Add a bar across',
  remove: 'Take this bar out',
  fields: [
    { path: 'count', label: 'How many', kind: 'number' },
    {
      path: 'at',
      label: 'Where along the void',
      kind: 'lengths',
      unit: 'mm',
      usual: 'not settled',
      help: PLACES,
      example: '200; 580',
    },
    { path: 'width', label: 'Width', kind: 'mm', unit: 'mm', small: true },
    { path: 'thickness', label: 'Thickness', kind: 'mm', unit: 'mm', small: true },
    {
      path: 'onEdge',
      label: 'On edge',
      kind: 'choice',
      usual: 'no',
      options: [
        ['', 'as usual'],
        ['true', 'yes'],
        ['false', 'no'],
      ],
    },
    {
      path: 'span',
      label: 'Span',
      kind: 'mm',
      unit: 'mm',
      help: 'Between its bolts: no less than the clear width of the void.',
    },
    { path: 'yield', label: 'Yield strength', kind: 'number', unit: 'MPa', usual: '235, to be confirmed' },
    {
      path: 'load',
      label: 'Pressed on',
      kind: 'choice',
      usual: 'in the middle',
      options: [
        ['', 'as usual'],
        ['middle', 'in the middle'],
        ['spread', 'all across the stow'],
      ],
    },
    { path: 'bolts.size', label: 'Bolts', kind: 'choice', options: choices(BOLT_SIZES) },
    { path: 'bolts.grade', label: 'Grade', kind: 'choice', options: choices(BOLT_GRADES) },
    { path: 'bolts.perBar', label: 'Bolts a bar', kind: 'number' },
    {
      path: 'bolts.pull',
      label: 'Bolts pulled',
      kind: 'choice',
      usual: 'along their length',
      options: [
        ['', 'as usual'],
        ['along', 'along their length'],
        ['across', 'across it, in shear'],
      ],
      help: 'In shear are bolts through the side of a frame or a bulkhead, which the load pulls across.',
    },
    {
      path: 'bolts.into',
      label: 'Into',
      kind: 'text',
      help: 'What they go through, and how far from its edge: usually the weak part.',
    },
  ],
};
