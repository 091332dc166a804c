import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { applyForm, type Draft } from '../../../server/form/apply.ts';
import { readDraft } from '../../../server/form/draftRead.ts';
import type { Field } from '../../../server/form/field.ts';
import { hasLines, readField, readSection, showField, showSection } from '../../../server/form/kinds.ts';
import { setAt } from '../../../server/form/path.ts';
import { applyOrder, parseOrder } from '../../../server/form/rows.ts';
import { type FieldView, type FormView, showForm } from '../../../server/form/show.ts';
import { fieldsOf } from '../../../server/form/sketchForm.ts';
import { wantedOf } from '../../../server/form/wanted.ts';
import { readJobValue } from '../../../src/job/readJob.ts';
import { stationNotes } from '../../../src/job/stationNotes.ts';
import { exampleNames, exampleText } from '../../examples.ts';

const JOBS = [
  ...readdirSync('fixtures')
    .filter((name) => name.endsWith('.json'))
    .map((name) => [name, readFileSync(`fixtures/${name}`, 'utf8')] as const),
  ...exampleNames().map((name) => [name, exampleText(`${name}.job.json`)] as const),
];

test.each(JOBS)('a page of %s that is saved untouched leaves the job as it was', (_name, text) => {
  const draft = JSON.parse(text) as Draft;
  expect(applyForm(draft, postedOf(showForm(draft)))).toEqual(draft);
});

test('any JSON object can be shown, and saved untouched it stays what it was', () => {
  const value = fc.oneof(fc.jsonValue({ maxDepth: 4 }), fc.constantFrom('two\nlines', '\rodd\r\nends\n', ' spaced '));
  const lot = fc.record(
    { lot: value, section: value, length: value, count: value, spoiled: value, lengths: value },
    { requiredKeys: [] },
  );
  const space = fc.record(
    { void: value, length: value, keepOut: value, stations: fc.array(value), opening: value },
    { requiredKeys: [] },
  );
  const draft = fc.record(
    {
      name: value,
      pile: fc.oneof(value, fc.array(fc.oneof(lot, value))),
      voids: fc.oneof(value, fc.array(fc.oneof(space, value))),
      vessel: value,
      saw: value,
    },
    { requiredKeys: [] },
  );
  fc.assert(
    fc.property(draft, (job) => {
      const read = readDraft(job as Draft);
      const form = showForm(job as Draft, read);
      expect(applyForm(job as Draft, postedOf(form))).toEqual(job);
      expect(new Set(form.all.map(({ fault }) => fault.path))).toEqual(new Set(read.faults.map(({ path }) => path)));
    }),
    { numRuns: 150, seed: 7 },
  );
});

test('text that is not a number stays as typed and is faulted beside its field', () => {
  const draft = applyForm(
    someJob(),
    new Map([
      ['pile[0].length', 'about three metres'],
      ['voids[0].width', '1,280'],
    ]),
  );
  expect(draft.pile).toMatchObject([{ length: 'about three metres' }]);
  expect(draft.voids).toMatchObject([{ width: '1,280' }]);
  const form = showForm(draft);
  const length = form.pile[0]?.fields.find((field) => field.name === 'pile[0].length') as FieldView;
  expect(length.value).toBe('about three metres');
  expect(length.faults.length).toBeGreaterThan(0);
});

test('lengths and masses are read as people write them', () => {
  const typed = [
    ['pile[0].length', '5.48 m'],
    ['voids[0].length', `4' 2 1/2"`],
    ['bundle.limit', '31 lb'],
    ['voids[0].origin.x', '4,2'],
    ['voids[0].origin.z', '220 mm'],
  ] as const;
  const draft = applyForm(someJob(), new Map(typed));
  expect(draft).toMatchObject({
    pile: [{ length: 5480 }],
    voids: [{ length: 1282.7, origin: { x: 4.2, z: 0.22 } }],
    bundle: { limit: 14.061 },
  });
});

test('a line typed below the last lot becomes a lot with the next free letter', () => {
  const typed = [
    ['pile[2].section.shape', 'flat'],
    ['pile[2].section.sizes', '40 x 20'],
    ['pile[2].length', '3000'],
    ['pile[4].length', '1 m'],
  ] as const;
  const draft = applyForm(someJob(), new Map(typed));
  expect(draft.pile).toEqual([
    { lot: 'A', section: { shape: 'round', diameter: 32 }, length: 3000 },
    { lot: 'B', length: 3000, section: { shape: 'flat', width: 40, thickness: 20 } },
    { lot: 'C', length: 1000 },
  ]);
});

test('emptying a field takes it out, and an object that is left empty with it', () => {
  const base = { ...someJob(), vessel: { beam: 3 } };
  expect(applyForm(base, new Map([['vessel.beam', '']]))).toEqual(someJob());
});

test('what a chock may stand against is typed beside what is stayed off, and stays in the job', () => {
  const keepOut = { what: 'floor 7', along: [700, 740], across: [-100, 100], up: [0, 60] };
  const base = { ...someJob(), voids: [{ void: 'V1', length: 1100, width: 400, height: 160, keepOut: [keepOut] }] };
  const typed = (text: string) => applyForm(base, new Map([['voids[0].keepOut[0].bears', text]])).voids;
  expect(typed('true')).toMatchObject([{ keepOut: [{ ...keepOut, bears: true }] }]);
  expect(typed('')).toEqual(base.voids);
  const draft = { ...base, voids: typed('true') } as Draft;
  expect(applyForm(draft, postedOf(showForm(draft)))).toEqual(draft);
});

test('names keep whatever they hold', () => {
  const name = '<script>alert("1")</script> Ωμέγα 💡 __proto__';
  expect(applyForm(someJob(), new Map([['name', name]])).name).toBe(name);
});

test('a field that the page does not have changes nothing', () => {
  const hostile = new Map([
    ['__proto__.polluted', '1'],
    ['constructor.prototype.polluted', '1'],
    ['pile[0].__proto__', '1'],
    ['pile[999999].lot', 'x'],
    ['format', 'x'],
  ]);
  expect(applyForm(someJob(), hostile)).toEqual(someJob());
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
});

test.each([
  ['round', '32', { shape: 'round', diameter: 32 }],
  ['flat', '40 × 20', { shape: 'flat', width: 40, thickness: 20 }],
  ['angle', '50x40x5', { shape: 'angle', leg: 50, otherLeg: 40, thickness: 5 }],
  ['angle', '50 x 5', { shape: 'angle', leg: 50, thickness: 5 }],
  ['tube', '48 × thin', { shape: 'tube', diameter: 48, wall: 'thin' }],
  ['round', '32 × 3', { shape: 'round', diameter: '32 × 3' }],
])('a %s of %s is read, and shown so that it reads the same', (shape, sizes, section) => {
  expect(readSection(shape, sizes)).toEqual(section);
  const shown = showSection(section);
  expect(readSection(shown.shape, shown.sizes)).toEqual(section);
});

test.each([
  ['lengths', '5480; 5475,5; 2 m × 2', [5480, 5475.5, 2000, 2000]],
  ['lengths', '1.9 m x 3; 2.4 m x 2, 2.75 m x 2', [1900, 1900, 1900, 2400, 2400, 2750, 2750]],
  ['lengths', '1,9 m x 3', [1900, 1900, 1900]],
  ['lengths', '1,9 m x 2,2,4 m, 2,75 m', [1900, 1900, 2400, 2750]],
  ['lengths', '2x1985', [1985, 1985]],
  ['lengths', "2 × 1.985 m, 3 x 6'; 1200 x 2", [1985, 1985, 1828.8, 1828.8, 1828.8, 1200, 1200]],
  ['lengths', '2 x 1985, 2 x 1990,1200', [1985, 1985, 1990, 1990, 1200]],
  ['lengths', '2 x 1985,50', [1985.5, 1985.5]],
  ['lengths', '2 x 1985,2 x 1990', '2 x 1985,2 x 1990'],
  ['lengths', '12 x 3', [12, 12, 12]],
  ['lengths', '20 x 3', [20, 20, 20]],
  ['lengths', '2,5 x 3', [2.5, 2.5, 2.5]],
  ['lengths', '5480,5475,5210,5', [5480, 5475, 5210.5]],
  ['lengths', '2,750 m; 3 m,', [2750, 3000]],
  ['lengths', '1,280, 5475', '1,280, 5475'],
  [
    'spans',
    '12,5 to 20,5,1200 to 1290',
    [
      { from: 12.5, to: 20.5 },
      { from: 1200, to: 1290 },
    ],
  ],
  [
    'spans',
    '1200 to 1290, 2400–2410',
    [
      { from: 1200, to: 1290 },
      { from: 2400, to: 2410 },
    ],
  ],
  ['range', '-40 to 40', [-40, 40]],
  ['range', '600-660', [600, 660]],
  ['metreRange', '4,3 to 4.9', [4.3, 4.9]],
  [
    'readings',
    '0: -70 to 70\n165: 160',
    [
      { up: 0, from: -70, to: 70 },
      { up: 165, from: -160, to: 160 },
    ],
  ],
  ['kgPerMetre', '12.3 kg / 3200 mm', 3.844],
  ['kgPerMetre', `31 lb / 10' 6"`, 4.394],
  ['kgPerMetre', '4.2 lb/ft', 6.25],
  ['kN', '500 daN', 5],
  ['kN', '5 kN', 5],
  ['kN', '2500 N', 2.5],
  ['kN', '2,5', 2.5],
  ['kN', '500 kg', '500 kg'],
  ['kgPerMetre', '12 / nothing', '12 / nothing'],
  ['range', 'from here to there', 'from here to there'],
  ['spans', '1200 to', '1200 to'],
] as const)('%s: “%s”', (kind: Field['kind'], typed, value) => {
  expect(readField(kind, typed)).toEqual(value);
  expect(readField(kind, showField(kind, value))).toEqual(value);
});

test('rows are added, copied, taken out; an unknown field can be dropped', () => {
  const draft: Draft = { ...someJob(), colour: 'red' };
  const act = (order: string): string => applyOrder(draft, parseOrder(order)!);
  expect(act('copy pile[0]')).toBe('pile[1]');
  expect(act('add voids')).toBe('voids[1]');
  act('add voids[0].keepOut');
  act('add voids[0].holdDown.straps');
  act('add vessel.openings');
  act('add lift.legs');
  act('shape voids[0]');
  act('add voids[0].stations');
  act('drop colour');
  expect(draft).toMatchObject({
    pile: [{ lot: 'A' }, { lot: 'B', length: 3000 }],
    voids: [
      {
        void: 'V1',
        keepOut: [{}],
        stations: [{ along: 0 }, { along: 600 }, { along: 1200 }],
      },
      { void: 'V2' },
    ],
  });
  expect(draft.colour).toBeUndefined();
  act('unshape voids[0]');
  act('remove pile[0]');
  expect(draft).toMatchObject({ pile: [{ lot: 'B' }] });
  expect(draft.voids).toMatchObject([{ length: 1200 }, {}]);
  expect(parseOrder('burn pile[0]')).toBeNull();
  expect(parseOrder('remove ../../etc')).toBeNull();
});

function someJob(): Draft {
  return {
    format: 'kentledge-job/1',
    name: 'A job',
    pile: [{ lot: 'A', section: { shape: 'round', diameter: 32 }, length: 3000 }],
    voids: [{ void: 'V1', length: 1200, width: 300, height: 150 }],
  };
}

/** What a browser would post of the page as it is shown. */
function postedOf(form: FormView): Map<string, string> {
  const posted = new Map<string, string>();
  for (const field of fieldsOf(form))
    posted.set(field.name, field.value.replaceAll(/\r\n|\r|\n/g, hasLines(field.kind) ? '\r\n' : ''));
  return posted;
}

test('readings down from a batten become readings of height and sides, which are left alone when typed by hand', () => {
  const base = someJob();
  applyOrder(base, parseOrder('shape voids[0]')!);
  const batten = applyForm(
    base,
    new Map([
      ['voids[0].stations[0].batten.up', '15 cm'],
      ['voids[0].stations[0].batten.readings', '-140: 10\r\n0: 150\r\n140: 10'],
    ]),
  );
  const [first] = (batten.voids as { stations: { at: unknown }[] }[])[0]!.stations;
  expect(first).toEqual({
    along: 0,
    batten: {
      up: 150,
      readings: [
        { across: -140, down: 10 },
        { across: 0, down: 150 },
        { across: 140, down: 10 },
      ],
    },
    at: [
      { up: 0, from: 0, to: 0 },
      { up: 140, from: -140, to: 140 },
    ],
  });
  const typed = applyForm(batten, new Map([['voids[0].stations[0].at', '0: 10\n140: 120']]));
  const [again] = (typed.voids as { stations: { at: unknown }[] }[])[0]!.stations;
  expect(again?.at).toEqual([
    { up: 0, from: -10, to: 10 },
    { up: 140, from: -120, to: 120 },
  ]);
});

test('what is missing is told by lot and void, and an empty field is no mistake', () => {
  const draft = applyForm(
    someJob(),
    new Map([
      ['voids[0].length', ''],
      ['voids[0].width', 'wide'],
      ['pile[0].length', ''],
    ]),
  );
  const form = showForm(draft);
  const wanted = wantedOf(form);
  expect(wanted.map(({ where }) => where)).toEqual(expect.arrayContaining(['Lot A', 'Void V1']));
  expect(wanted.find(({ where }) => where === 'Void V1')).toMatchObject({
    empty: [{ to: '#voids-0-length', label: 'Length' }],
    mend: [{ to: '#voids-0-width', label: 'Width' }],
  });
  expect(form.voids[0]?.fields.find((field) => field.path === 'length')?.faults[0]?.message).toBe('Still to fill in.');
});

test('a new station stands straight between those beside it, so that nothing is doubted by it', () => {
  const draft = someJob();
  const at = (...halves: number[]) => halves.map((half, n) => ({ up: n * 150, from: -half, to: half }));
  const batten = {
    up: 150,
    readings: [-140, -61, 61, 140].map((across) => ({ across, down: across ** 2 > 10_000 ? 0 : 150 })),
  };
  const stations = [
    { along: 0, batten },
    { along: 1200, at: at(100, 240) },
  ];
  draft.voids = [{ void: 'V1', length: 1200, width: 480, height: 150, stations }];
  applyOrder(draft, parseOrder('add voids[0].stations')!);
  expect(stations[1]).toEqual({ along: 600, at: at(80.5, 190) });
  const read = readJobValue(draft);
  expect(read.ok && stationNotes(read.value.job.voids[0]!)).toEqual([]);
  // Beside one that can not be read it is left to be measured.
  draft.voids = [
    {
      void: 'V1',
      length: 1200,
      stations: [
        { along: 0, at: 'narrow' },
        { along: 1200, at: at(9, 9) },
      ],
    },
  ];
  applyOrder(draft, parseOrder('add voids[0].stations')!);
  expect(draft.voids).toMatchObject([{ stations: [{ along: 0 }, { along: 600 }, { along: 1200 }] }]);
  expect((draft.voids as { stations: object[] }[])[0]?.stations[1]).toEqual({ along: 600 });
});

test('of a place in her what is left blank is 0, as the page says', () => {
  const draft = applyForm(someJob(), new Map([['voids[0].origin.x', '4.2']]));
  const read = readJobValue(draft);
  expect(read.ok ? read.value.job.voids[0]?.origin : read.faults).toEqual({ x: 4.2, y: 0, z: 0 });
});

test('a coating not known is offered once, also where the file says so', () => {
  for (const coating of [undefined, 'unknown', 'zinc']) {
    const draft = { ...someJob(), pile: [{ lot: 'A', length: 3000, ...(coating ? { coating } : {}) }] };
    const field = showForm(draft).pile[0]?.fields.find(({ path }) => path === 'coating') as FieldView;
    expect(field.options?.map(([, label]) => label)).toEqual(['not known', 'bare', 'zinc', 'paint']);
    expect(field.options?.map(([value]) => value)).toContain(field.value);
    expect(applyForm(draft, new Map([['pile[0].coating', field.value]]))).toEqual(draft);
  }
});

test('the hint of spoiled spans says from which end they count', () => {
  const spoiled = showForm(someJob()).pile[0]?.more.fields.find(({ path }) => path === 'spoiled');
  expect(spoiled?.help).toContain('From the end where cutting begins');
});

test('a place is made on the way to it', () => {
  const draft: Draft = {};
  setAt(draft, ['voids', 0, 'origin', 'x'], 4);
  expect(draft).toEqual({ voids: [{ origin: { x: 4 } }] });
});

test('a list is written with its side, and read back as degrees to starboard', () => {
  const read = (text: string) => readField('list', text);
  for (const text of ['1 to port', '1 port', '1° to port', '1 degree to port', '-1', '−1', '-1°'])
    expect(read(text)).toBe(-1);
  for (const text of ['0.5 to starboard', '0,5 stbd', '0.5', '½ starboard', '1/2 degrees to starboard'])
    expect(read(text)).toBe(0.5);
  for (const text of ['-1 to port', 'to port', 'port', '1 to lee']) expect(read(text)).toBe(text);
  for (const list of [-1, 0.25, 0, -3.5]) expect(read(showField('list', list))).toBe(list);
  expect(showField('list', -1)).toBe('1 to port');
});

test('the list of the vessel is a field of hers, told in one line with what else is known, and faulted where it is none', () => {
  const field = (draft: Draft) => {
    const form = showForm(draft);
    return { used: form.vessel.used, list: form.vessel.fields.find((one) => one.name === 'vessel.list')! };
  };
  const port = field(applyForm(someJob(), new Map([['vessel.list', '1 to port']])));
  expect(port).toMatchObject({
    used: 'Lists now 1 to port',
    list: { label: 'Lists now', unit: 'degrees', faults: [] },
  });
  const wrong = field(applyForm(someJob(), new Map([['vessel.list', 'a little']])));
  expect(wrong.list.faults[0]!.remedy).toContain('1 to port');
  const far = field(applyForm(someJob(), new Map([['vessel.list', '45 to port']])));
  expect(far.list.faults).toHaveLength(1);
});
