import { afterAll, beforeAll, expect, test } from 'vitest';
import { addDraft } from '../../server/routes/jobs.ts';
import { openWorld, type World } from './world.ts';

let world: World;
beforeAll(async () => {
  world = await openWorld();
});
afterAll(() => world.close());

const LIST = [
  'Mark;Profile;Bar length (mm);Bars;Wt;Colour',
  'A;round 32;5,48 m;14;6,28;rust',
  'B;flat 40 x 20;about 3 m;;;<b>red</b>',
  'C;round;2400;3;;',
].join('\n');

test('a list is shown as read, with what is wrong in each row, and nothing is kept', async () => {
  const before = world.store.jobs.all().length;
  const page = await (await bring(LIST, 'yard.csv')).text();
  expect(page).toContain('3 rows as read, 2 of them with something to mend');
  expect(page).toContain('5480');
  expect(page).toContain('about 3 m');
  expect(page).toContain('Wt: 6,28; Colour: rust');
  expect(page).toContain('value="yard"');
  expect(page).not.toContain('<b>red</b>');
  expect(page).toContain('<strong>Length of a bar</strong> “about 3 m” can not be read here.');
  expect(page).toContain('<strong>Section</strong> Still to fill in.');
  expect(world.store.jobs.all()).toHaveLength(before);
});

test('a column read otherwise is read so, and the bars become a job', async () => {
  const chosen = { text: LIST, columns: 'chosen', name: 'Yard pile', 'column.4': 'massPerMetre' };
  const again = await (await world.post('/jobs/bars', { ...chosen, do: 'read' })).text();
  expect(again).toContain('data-label="kg/m">6.28<');
  const taken = await world.post('/jobs/bars', { ...chosen, do: 'take' });
  expect(taken.status).toBe(303);
  const job = await draftAt(taken.headers.get('location') as string);
  expect(job.name).toBe('Yard pile');
  expect(job.pile).toMatchObject([
    { lot: 'A', section: { shape: 'round', diameter: 32 }, length: 5480, count: 14, massPerMetre: 6.28 },
    { lot: 'B', length: 'about 3 m' },
    { lot: 'C', length: 2400, count: 3 },
  ]);
});

test('a row that looks like a sum is left out, any row can be, and what is left out is not taken', async () => {
  const list =
    'lot,section,length,count\nA,round 32,5480,14\nfree to collect,,,\nTotal,,76720,14\nTotal,round 20,3000,2';
  const page = await (await bring(list, 'list.csv')).text();
  expect(page).toContain('4 rows as read, 1 of them left out, 1 of them with something to mend');
  expect(page.match(/name="leave\.\d+" checked/g)).toEqual(['name="leave.4" checked']);
  const chosen = { text: list, columns: 'chosen' };
  const again = await (
    await world.post('/jobs/bars', { ...chosen, do: 'read', 'leave.3': 'on', 'leave.4': 'on' })
  ).text();
  expect(again).toContain('4 rows as read, 2 of them left out. Nothing');
  const taken = await world.post('/jobs/bars', { ...chosen, do: 'take', 'leave.3': 'on', 'leave.4': 'on' });
  expect((await draftAt(taken.headers.get('location') as string)).pile).toMatchObject([
    { lot: 'A' },
    { lot: 'Total', length: 3000 },
  ]);
  // What is ticked at first is no more than offered.
  const all = await world.post('/jobs/bars', { ...chosen, do: 'take' });
  expect((await draftAt(all.headers.get('location') as string)).pile).toHaveLength(4);
});

test('a list without a length asks which column it is, and is not taken before', async () => {
  const list = 'steel,how long\nround 20,3000';
  const page = await (await bring(list, 'list.csv')).text();
  expect(page).toContain('No column is read as the length of a bar');
  const refused = await world.post('/jobs/bars', { text: list, columns: 'chosen', do: 'take' });
  expect(refused.status).toBe(200);
  const taken = await world.post('/jobs/bars', {
    text: list,
    columns: 'chosen',
    'column.0': 'shape',
    'column.1': 'length',
    do: 'take',
  });
  expect((await draftAt(taken.headers.get('location') as string)).pile).toEqual([
    { lot: 'A', section: { shape: 'round', diameter: 20 }, length: 3000 },
  ]);
});

test('bars go below the lots of a job, and a mark that is there already is told', async () => {
  const draft = { format: 'kentledge-job/1', name: 'J', pile: [{ lot: 'A', length: 1000 }], voids: [{ void: 'V1' }] };
  const id = addDraft({ store: world.store, clock: () => new Date() }, draft);
  const page = await (await bring(LIST, 'more.csv', `/jobs/${id}/bars`)).text();
  expect(page).toContain(`action="/jobs/${id}/bars"`);
  expect(page).toContain('3 of them with something to mend');
  const taken = await world.post(`/jobs/${id}/bars`, { text: LIST, columns: 'chosen', do: 'take' });
  expect(taken.headers.get('location')).toBe(`/jobs/${id}?saved=1#pile`);
  expect((await draftAt(`/jobs/${id}`)).pile).toHaveLength(4);
});

test('a list in the code pages that spreadsheets write is read as it stands there', async () => {
  const list = 'lot;section;length (m);note\nA;Ø32;3,25;Länge geprüft';
  const western = Uint8Array.from([...list].map((letter) => letter.charCodeAt(0)));
  const wide = new Uint8Array([0xff, 0xfe, ...[...list].flatMap((letter) => [letter.charCodeAt(0), 0])]);
  for (const bytes of [western, wide, new TextEncoder().encode(list)]) {
    const page = await (await bring(bytes, 'list.csv')).text();
    expect(page).toContain('Länge geprüft');
    expect(page).toContain('data-label="length, mm">3250<');
    expect(page).toContain('data-label="section">round 32<');
  }
});

test('what is no list is refused in words', async () => {
  for (const wrong of ['', 'length;count', 'length\n"open']) {
    const response = await bring(wrong, 'list.csv');
    expect(response.status).toBe(422);
    expect(await response.text()).toContain('The file was not taken in');
  }
});

function bring(content: string | Uint8Array<ArrayBuffer>, name: string, path = '/jobs/bring'): Promise<Response> {
  const form = new FormData();
  form.set('token', world.token);
  form.set('file', new Blob([content]), name);
  return world.get(path, { method: 'POST', body: form });
}

async function draftAt(path: string): Promise<{ name: string; pile: unknown[] }> {
  return (await (await world.get(`${path}/job.json`)).json()) as { name: string; pile: unknown[] };
}
