/** What the job page asks of a void: first what every void needs, then what is folded away until it is used. */
import type { Field, Group, RowList } from './field.ts';
import { BARS_ACROSS, HOLD_FIELDS, STRAPS } from './holdFields.ts';
import { LIFT_FIELDS } from './liftFields.ts';

const YES_NO = [
  ['', 'as usual'],
  ['true', 'yes'],
  ['false', 'no'],
] as const;

export const VOID_FIELDS: readonly Field[] = [
  { path: 'void', label: 'Void', kind: 'text', help: 'A short mark: V1.' },
  { path: 'name', label: 'Where it is', kind: 'text', wide: true },
  { path: 'length', label: 'Length', kind: 'mm', unit: 'mm', help: 'Clear, to the faces of the frames.' },
  { path: 'width', label: 'Width', kind: 'mm', unit: 'mm' },
  { path: 'height', label: 'Height', kind: 'mm', unit: 'mm' },
  {
    path: 'axis',
    label: 'Bars lie',
    kind: 'choice',
    usual: 'fore-and-aft',
    options: [
      ['', 'as usual'],
      ['fore-and-aft', 'fore-and-aft'],
      ['athwartships', 'athwartships'],
      ['either', 'either way'],
    ],
  },
  {
    path: 'limit',
    label: 'Lift limit here',
    kind: 'kg',
    unit: 'kg',
    usual: 'as under Bundles',
    help: 'What one person may lower at this reach.',
  },
  { path: 'target', label: 'Wanted here', kind: 'kg', unit: 'kg', usual: 'as much as fits' },
  {
    path: 'most',
    label: 'No more than',
    kind: 'kg',
    unit: 'kg',
    help: 'What the structure under it may carry. Ask whoever answers for her structure.',
  },
  { path: 'rank', label: 'Rank', kind: 'number', usual: '1', help: 'Filled by preference: 1 before 2.' },
];

const KEEP_OUT_FIELDS: readonly Field[] = [
  { path: 'what', label: 'Stay off', kind: 'text', help: 'A keel bolt, a pipe, a strum box.' },
  {
    path: 'along',
    label: 'Along',
    kind: 'range',
    unit: 'mm',
    help: '600 to 660, from the after end (or the port end).',
    example: '600 to 660',
  },
  {
    path: 'across',
    label: 'Across',
    kind: 'range',
    unit: 'mm',
    help: '-40 to 40, from the middle.',
    example: '-40 to 40',
  },
  { path: 'up', label: 'Up', kind: 'range', unit: 'mm', help: '0 to 70, from the bottom.', example: '0 to 70' },
  { path: 'access', label: 'Keep reachable', kind: 'choice', usual: 'yes: nothing above it', options: YES_NO },
  {
    path: 'mass',
    label: 'It weighs',
    kind: 'kg',
    unit: 'kg',
    help: 'Only of what lies there to stay, an old pig or a tank: it counts as a weight in her, never as ballast wanted.',
  },
  {
    path: 'aboard',
    label: 'Was it in her when she was weighed',
    kind: 'choice',
    usual: 'no: it is added to her figures',
    options: YES_NO,
    help: 'Yes where displacement, draughts and GM were taken with it aboard, so that it is not counted twice.',
  },
  {
    path: 'bears',
    label: 'May a chock stand against it',
    kind: 'choice',
    usual: 'no',
    options: YES_NO,
    help: 'Yes of what gives way to nothing: bars that are stowed, a floor. Never of a bolt, a pipe or a cable.',
  },
];

const STATION_FIELDS: readonly Field[] = [
  { path: 'along', label: 'Station at', kind: 'mm', unit: 'mm', help: 'The first at 0, the last at the length.' },
  {
    path: 'at',
    label: 'Readings',
    kind: 'readings',
    unit: 'mm',
    help: 'A sloping side is typed as the second line: how wide it is at the top. One a line, height then sides: 0: -70 to 70. The same half-breadth on both sides: 165: 160',
    example: '0: -70 to 70',
  },
  {
    path: 'batten.up',
    label: 'Or: underside of a level batten at',
    kind: 'mm',
    unit: 'mm up',
    help: 'A batten laid level across the void; how high its underside is over the bottom. The readings above are then worked out.',
  },
  {
    path: 'batten.readings',
    label: 'Down from the batten',
    kind: 'taped',
    unit: 'mm',
    help: 'One a line, how far across (to port is minus), then how far down to the hull: -160: 20',
    example: '-160: 20',
  },
];

const BEARERS: RowList = {
  list: 'bearers',
  title: 'Bearers',
  add: 'Add a bearer',
  remove: 'Take this bearer out',
  fields: [
    { path: 'along', label: 'Its middle at', kind: 'mm', unit: 'mm', help: 'From the after end (or the port end).' },
    { path: 'width', label: 'Width', kind: 'mm', unit: 'mm', small: true },
    {
      path: 'most',
      label: 'It may carry',
      kind: 'kg',
      unit: 'kg',
      usual: 'not said',
      help: 'Ask whoever answers for her structure.',
    },
  ],
};

const OPENING_FIELDS: readonly Field[] = [
  { path: 'along', label: 'Opening along', kind: 'mm', unit: 'mm' },
  { path: 'across', label: 'Opening across', kind: 'mm', unit: 'mm' },
  { path: 'endFirst', label: 'End first', kind: 'choice', usual: 'no', options: YES_NO },
  { path: 'deck', label: 'Deck thickness', kind: 'mm', unit: 'mm', small: true, usual: '0' },
  {
    path: 'at.along',
    label: 'Its middle, along',
    kind: 'mm',
    unit: 'mm',
    usual: 'the middle of the void',
    help: 'What lies under it goes in last and comes out first. Bundles that go in end first need room under the deck beside it.',
  },
  { path: 'at.across', label: 'Its middle, across', kind: 'mm', unit: 'mm', usual: '0' },
];

const OTHER_OPENINGS: RowList = {
  list: 'otherOpenings',
  title: 'Other openings: a bundle passes whichever lets it',
  add: 'Another opening',
  remove: 'Take this opening out',
  fields: OPENING_FIELDS,
};

/** The lists of a void that are always in sight; the others stand in their groups. */
export const VOID_LISTS: readonly RowList[] = [
  {
    list: 'stations',
    title: 'Stations, from one end to the other',
    add: 'Another station',
    remove: 'Take this station out',
    fields: STATION_FIELDS,
  },
  {
    list: 'keepOut',
    title: 'Stay off',
    add: 'Something to stay off',
    remove: 'Take this out',
    fields: KEEP_OUT_FIELDS,
  },
];

export const VOID_MORE: readonly Group[] = [
  {
    title: 'Where it lies in her, and room to leave',
    fields: [
      {
        path: 'origin.x',
        label: 'Forward of the after end',
        kind: 'metres',
        unit: 'm',
        usual: '0',
        help: 'Of its after end, from the after end of the waterline; where its bars lie athwartships, of its middle.',
      },
      {
        path: 'origin.y',
        label: 'To starboard',
        kind: 'offset',
        unit: 'm',
        usual: '0',
        help: 'Of its middle; where its bars lie athwartships, of its port end. To port is minus, or in words: 0.9 to port.',
      },
      { path: 'origin.z', label: 'Up from under the keel', kind: 'metres', unit: 'm', usual: '0' },
      { path: 'clear.ends', label: 'Clear at the ends', kind: 'mm', unit: 'mm', small: true, usual: '8' },
      { path: 'clear.sides', label: 'Clear at the sides', kind: 'mm', unit: 'mm', small: true, usual: '5' },
      { path: 'clear.top', label: 'Clear at the top', kind: 'mm', unit: 'mm', small: true, usual: '12' },
      {
        path: 'dunnage',
        label: 'Dunnage',
        kind: 'mm',
        unit: 'mm',
        small: true,
        usual: '12',
        help: 'Matting and notched battens under the ground tier, kept free for water.',
      },
      { path: 'gap.runs', label: 'Between runs', kind: 'mm', unit: 'mm', small: true, usual: '8' },
      {
        path: 'gap.across',
        label: 'Between neighbours',
        kind: 'mm',
        unit: 'mm',
        small: true,
        usual: '4',
        help: 'Finger room, or the last bundle of a tier will not go down.',
      },
    ],
  },
  {
    title: 'What it rests on, and where water runs',
    fields: [
      {
        path: 'mostPerMetre',
        label: 'No more for each metre',
        kind: 'number',
        unit: 'kg/m',
        usual: 'not said',
        help: 'What the structure under it may carry along its length. Ask whoever answers for her structure.',
      },
      {
        path: 'drain.where',
        label: 'Water runs',
        kind: 'choice',
        wide: true,
        usual: 'under the dunnage',
        options: [
          ['', 'as usual'],
          ['middle', 'in a channel along the middle'],
          ['sides', 'in a channel at either side'],
        ],
        help: 'A channel along the floor that is kept free, so that water runs to the limber holes and the pump.',
      },
      { path: 'drain.width', label: 'Width of the channel', kind: 'mm', unit: 'mm', small: true },
      { path: 'drain.height', label: 'Height of the channel', kind: 'mm', unit: 'mm', small: true },
    ],
    rows: [BEARERS],
  },
  {
    title: 'The opening everything passes',
    fields: OPENING_FIELDS.map((field) => ({ ...field, path: `opening.${field.path}` })),
    rows: [OTHER_OPENINGS],
  },
  {
    title: 'How it is lifted there',
    part: 'lift',
    fields: [
      ...LIFT_FIELDS.map((field) => ({ ...field, path: `handling.${field.path}` })),
      {
        path: 'route',
        label: 'Legs before it',
        kind: 'names',
        help: 'Names of ways that are told under Carrying, in order: quay to deck; deck to cabin.',
      },
      {
        path: 'limitByGuide',
        label: 'Limit follows the guide',
        kind: 'choice',
        usual: 'no',
        options: YES_NO,
        help: 'No bundle here over the suggested limit, however the reach changes; none at all where it leaves no load.',
      },
    ],
  },
  { title: 'What holds it down', part: 'hold', fields: HOLD_FIELDS, rows: [BARS_ACROSS, STRAPS] },
];

/** All lists of a void, in the order of the page. */
export const VOID_ROWS: readonly RowList[] = [...VOID_LISTS, ...VOID_MORE.flatMap((group) => group.rows ?? [])];
