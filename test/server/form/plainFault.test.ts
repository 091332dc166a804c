import { expect, test } from 'vitest';
import { applyForm, type Draft } from '../../../server/form/apply.ts';
import { inPageWords } from '../../../server/form/labels.ts';
import { applyOrder, parseOrder } from '../../../server/form/rows.ts';
import { type FormView, showForm } from '../../../server/form/show.ts';
import { fieldsOf } from '../../../server/form/sketchForm.ts';
import { wantedOf } from '../../../server/form/wanted.ts';

const NOTATIONS = ['lengths', 'spans', 'range', 'metreRange', 'readings', 'taped'];

/** A box that nothing is wrong with. */
function aBox(): Draft {
  return {
    format: 'kentledge-job/1',
    name: 'A job',
    pile: [{ lot: 'A', section: { shape: 'round', diameter: 32 }, length: 3000 }],
    voids: [{ void: 'V1', length: 1200, width: 300, height: 150 }],
  };
}

/** The same with rows of every kind, which are still to fill in. */
function someJob(): Draft {
  const draft = aBox();
  for (const order of ['shape voids[0]', 'add voids[0].keepOut', 'add voids[0].holdDown.bars', 'add lift.legs'])
    applyOrder(draft, parseOrder(order)!);
  return draft;
}

function typed(fields: Record<string, string>, draft = someJob()): FormView {
  const filled = applyForm(draft, new Map(Object.entries(fields)));
  return showForm(filled);
}

/** What the form tells of one field, message and remedy. */
function toldOf(form: FormView, name: string): string[] {
  const field = fieldsOf(form).find((one) => one.name === name);
  return (field?.faults ?? []).map(({ message, remedy }) => `${message} ${remedy}`);
}

test('every field with a notation of its own shows the example of its hint to who wrote it otherwise', () => {
  const shown = fieldsOf(typed({})).filter(({ kind }) => NOTATIONS.includes(kind));
  expect(new Set(shown.map(({ kind }) => kind)).size).toBe(NOTATIONS.length);
  for (const { name, example, help } of shown) {
    expect(help, name).toContain(example);
    const faults = toldOf(typed({ [name]: 'about 150' }), name);
    expect(faults, name).toHaveLength(1);
    expect(faults[0], name).toContain('“about 150” can not be read here. Write ');
    expect(faults[0], name).toContain(example);
  }
});

test('of one figure where a range is wanted that is said', () => {
  const path = 'aims.centre.y';
  expect(toldOf(typed({ [path]: '0' }, aBox()), path)).toEqual([
    '“0” is one figure, and a range is wanted. Write its least and its most: -0.02 to 0.02.',
  ]);
});

test('the far end of bars of one length is a spoiled stretch; where they differ a lot of each length is asked for', () => {
  const lot = (fields: Record<string, string>) => {
    const draft = applyForm(aBox(), new Map(Object.entries(fields)));
    return (draft.pile as Record<string, unknown>[])[0]!;
  };
  const path = 'pile[0].spoiled';
  expect(lot({ [path]: 'last 60; 100 to 120' }).spoiled).toEqual([
    { from: 2940, to: 3000 },
    { from: 100, to: 120 },
  ]);
  // By the length typed with it, or after it.
  expect(lot({ [path]: 'end 6 cm', 'pile[0].length': '2000' }).spoiled).toEqual([{ from: 1940, to: 2000 }]);
  const differing = { 'pile[0].length': '', 'pile[0].lengths': '3000; 2900', [path]: 'last 60' };
  const told = toldOf(typed(differing, aBox()), path);
  expect(told).toHaveLength(1);
  expect(told[0]).toContain(
    '“last 60” can be read where all bars of a lot have one length. Where they differ, make a lot',
  );
  const draft = applyForm(aBox(), new Map(Object.entries(differing)));
  const alike = applyForm(draft, new Map([['pile[0].lengths', '2900 × 2']]));
  expect((alike.pile as Record<string, unknown>[])[0]!.spoiled).toEqual([{ from: 2840, to: 2900 }]);
  // A page saved untouched leaves it as it was.
  expect(applyForm(draft, new Map(Object.entries(differing)))).toEqual(draft);
  expect(toldOf(typed({ [path]: '-60 to 0' }, aBox()), path)).toEqual([
    'A spoiled stretch begins or ends at -60 mm, before its bar. Measure it from the end where cutting begins; the far end is written last 60.',
  ]);
});

test('a small size is shown examples of small sizes', () => {
  const small = 'Write it as 30, 3 cm or 1 1/4".';
  expect(toldOf(typed({ 'pile[0].section.sizes': '3O' }), 'pile[0].section.sizes')[0]).toContain(small);
  expect(toldOf(typed({ 'saw.kerf': 'thin' }), 'saw.kerf')[0]).toContain(small);
  expect(toldOf(typed({ 'voids[0].height': 'low' }), 'voids[0].height')[0]).toContain('Write it as 1280, ');
});

test('an opening that lies beside its void is told of the way that is wrong', () => {
  const typedAt = (across: string) =>
    typed(
      {
        'voids[0].opening.along': '300',
        'voids[0].opening.across': '200',
        'voids[0].opening.at.across': across,
        'voids[0].opening.at.along': '600',
      },
      aBox(),
    );
  const path = 'voids[0].opening.at.across';
  expect(toldOf(typedAt('100'), path)).toEqual([]);
  expect(toldOf(typedAt('-400'), path)).toEqual([
    'The opening lies at -400 mm across, and the void reaches from -150 to 150 mm. Write the middle of the opening, measured from the middle line of the void, -150 to 150 mm; or leave out where it lies.',
  ]);
});

test('of many lengths those that can not be read are told, each as it was typed', () => {
  const told = (text: string) => toldOf(typed({ 'pile[0].lengths': text }), 'pile[0].lengths')[0];
  const most = `17' 11 3/4"; 15’ 6 ½”; 12ft 3in; 11' 8; `;
  expect(told(`${most}7-6; 8'`)).toMatch(/^“7-6” can not be read here\. Write them as /);
  expect(told(`${most}7-6; 1,280; about 8', ?, 2210`)).toMatch(/^“7-6”, “1,280”, “about 8'” and 1 more can not be/);
  expect(told(`5210; ${'long '.repeat(40)}`)).toMatch(/^“5210; long .*…” can not be read here\./);
});

test('of inches that make a foot beside feet it is told how they are written, in a field of one length and of several', () => {
  const how = `Inches beside feet go up to 11 and a fraction: 9' 14" is written 10' 2".`;
  for (const [name, text] of [
    ['pile[0].length', `9' 14"`],
    ['pile[0].section.sizes', `1' 12"`],
    ['voids[0].origin.y', `1' 13" to port`],
  ] as const)
    expect(toldOf(typed({ [name]: text }, aBox()), name)).toEqual([
      `“${text}” has a foot or more in its inches. ${how}`,
    ]);
  for (const [name, text] of [
    ['pile[0].lengths', `9' 2"; 9' 14" × 3; 7-6`],
    ['pile[0].spoiled', `1' 2" to 1' 13"`],
  ] as const) {
    const [told] = toldOf(typed({ [name]: text }, aBox()), name);
    expect(told).toContain('can not be read here. Write them as ');
    expect(told).toContain(how);
  }
  expect(toldOf(typed({ 'pile[0].lengths': `9' 2"; 7-6; 14"` }, aBox()), 'pile[0].lengths')[0]).not.toContain(how);
});

test('lengths with a space alone between them are not joined, and it is told what goes there', () => {
  for (const text of ['2400 980', '5480 475; 1200', '980 475', '2 400', '5480\u2009475']) {
    const [told] = toldOf(typed({ 'pile[0].lengths': text }), 'pile[0].lengths');
    expect(told).toContain(`“${text.split(';')[0]}” can not be read here. Write them as `);
    expect(told!.includes('A comma or a semicolon goes between two lengths'), text).toBe(text.includes(' '));
  }
  const pasted = toldOf(typed({ 'pile[0].lengths': '2\u202f400; 1200; 50 1/2 in' }), 'pile[0].lengths');
  expect(pasted.join()).not.toContain('can not be read');
});

test('a name of spaces alone is asked for like an empty one; from a file it is told as what it is', () => {
  expect(toldOf(typed({ 'voids[0].void': '   ' }, aBox()), 'voids[0].void')).toEqual(['Still to fill in. ']);
  const draft = { ...aBox(), pile: [{ lot: ' ', section: { shape: 'round', diameter: 32 }, length: 3000 }] };
  expect(toldOf(typed({}, draft), 'pile[0].lot')).toEqual(['“Lot” is only spaces. Write at least one letter.']);
});

test('several lengths in the field of one are told where they go', () => {
  for (const text of ['2210; 2190', '2210, 2190', '2210 × 3', `7' 3"; 7' 2"`, '7’ 3”, 7’ 2”']) {
    expect(toldOf(typed({ 'pile[0].length': text }, aBox()), 'pile[0].length')).toEqual([
      `“${text}” are several lengths. Put them under “Each bar as measured”: 5480; 5475; 5210 × 3.`,
    ]);
  }
  expect(toldOf(typed({ 'pile[0].length': 'long' }, aBox()), 'pile[0].length')[0]).toContain('Write it as 1280');
});

test('faults speak of fields by their labels', () => {
  expect(toldOf(typed({ 'pile[0].count': '-23' }, aBox()), 'pile[0].count')).toEqual([
    '“Bars” is -23; it must be at least 1. Write a number of at least 1.',
  ]);
  expect(
    toldOf(
      typed({ 'voids[0].origin.x': '4200', 'voids[0].origin.y': '0', 'voids[0].origin.z': '0' }, aBox()),
      'voids[0].origin.x',
    )[0],
  ).toMatch(/^“Forward of the after end” is 4200 m\./);
  expect(toldOf(typed({ 'pile[0].lengths': '3000; -5' }), 'pile[0].lengths').join()).toContain(
    'Number 2 of “Each bar as measured” is -5',
  );
  expect(toldOf(typed({ 'pile[0].spoiled': '1290 to 1200' }, aBox()), 'pile[0].spoiled')[0]).toContain(
    'Write the lesser figure first.',
  );
  expect(toldOf(typed({ 'voids[0].route': 'by crane' }, aBox()), 'voids[0].route')[0]).toContain(
    'State it under “Ways that several voids share”',
  );
  expect(toldOf(typed({ 'voids[0].holdDown.room': '20' }, aBox()), 'voids[0].holdDown.room')[0]).toContain(
    'Keep at least 20 mm clear at the top of the void (“Clear at the top”)',
  );
});

test('a name that is taken is told by the lot, void or way that has it, and stays what it is', () => {
  const twice = { ...someJob(), pile: [{ lot: 'count' }, { lot: 'count' }] };
  expect(toldOf(typed({}, twice), 'pile[1].lot')).toEqual([
    'The name “count” is taken by lot 1. Give every lot a name of its own.',
  ]);
  const draft = someJob();
  applyOrder(draft, parseOrder('copy voids[0]')!);
  expect(toldOf(typed({ 'voids[1].void': 'V1' }, draft), 'voids[1].void')[0]).toContain('is taken by void 1.');
});

test('of a group that is missing each field is still to fill in', () => {
  const form = typed({ 'voids[0].holdDown.bars[0].width': '60' });
  const empty = wantedOf(form)
    .find(({ where }) => where === 'Void V1')
    ?.empty.map(({ label }) => label);
  expect(empty).toEqual(expect.arrayContaining(['Thickness', 'Span', 'Bolts', 'Grade', 'Bolts a bar', 'Into']));
  const grade = 'voids[0].holdDown.bars[0].bolts.grade';
  expect(toldOf(form, grade)).toEqual(['Still to fill in. ']);
  const rows = form.voids.flatMap((space) => space.more.flatMap((group) => group.rows.flatMap((list) => list.rows)));
  expect(rows.flatMap((row) => row.faults)).toEqual([]);
});

test('no fault of the form asks for brackets or names a path of the file', () => {
  const form = typed({
    'pile[0].lengths': '1.9 m by 3',
    'pile[0].coating': 'rust',
    'pile[0].spoiled': '4000 to 5000',
    'saw.squaring': '2000',
    'saw.shortestPiece': '-1',
    'bundle.joints.share': '0.3',
    'voids[0].clear.top': '140',
    'voids[0].keepOut[0].along': '3.2 cm',
    'voids[0].stations[0].at': '0 70',
    'voids[0].target': '10',
    'voids[0].most': '5',
    'voids[0].drain.width': '10',
    'vessel.lcg': '4600',
    'aims.centre.y': '0.05',
    'aims.spread': '1.5',
  });
  expect(form.all.length).toBeGreaterThan(14);
  for (const { fault } of form.all) {
    const told = `${fault.message} ${fault.remedy}`;
    expect(told).not.toMatch(/[[\]{}]|“[a-z]+[A-Z]|\b[a-z]+\.[a-z]+[A-Z]?[a-z]*\b|quotation/);
  }
});

test('why nothing can be placed is told in the words of the page, too', () => {
  expect(inPageWords('Lessen clear.ends, or allow shorter pieces (saw.shortestPiece).')).toBe(
    'Lessen “Clear at the ends”, or allow shorter pieces (“Shortest piece”).',
  );
  expect(inPageWords('Lower aims.kgPerHour.')).toBe('Lower “An hour is worth”.');
});

test('a fraction without its unit, and a thousand that may be none, are told with what to write', () => {
  const told = (fields: Record<string, string>): string[] =>
    Object.keys(fields).flatMap((n) => toldOf(typed(fields), n));
  expect(told({ 'voids[0].length': '50 1/2' })).toEqual(['“50 1/2” lacks its unit. Write 50 1/2" if it is inches.']);
  expect(told({ 'aims.ballast': '1,400 lb' })).toEqual([
    '“1,400 lb” could be a thousand or a little over one. Write 1400 lb or 1.400 lb.',
  ]);
  const [readings] = told({ 'voids[0].stations[0].at': '0: 3 1/2\n9": 8 1/2"' });
  expect(readings).toMatch(/A fraction needs its unit: 3 1\/2" if it is inches\.$/);
});
