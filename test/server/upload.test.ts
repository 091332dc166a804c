/** Bodies of uploads that can not be read, and what is no fault of theirs. */
import { once } from 'node:events';
import { connect } from 'node:net';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { problemOf } from '../../server/problem.ts';
import { BOGBEAN, openWorld, type World } from './world.ts';

let world: World;
beforeEach(async () => {
  world = await openWorld();
});
afterEach(() => world.close());

const PART = '--edge\r\nContent-Disposition: form-data; name="file"; filename="job.json"\r\n\r\n{"name": "half';

test.each([
  ['that says no boundary', 'multipart/form-data', '{}'],
  ['of another multipart kind', 'multipart/mixed; boundary=edge', PART],
  ['that breaks off', 'multipart/form-data; boundary=edge', PART],
  ['whose part has no proper head', 'multipart/form-data; boundary=edge', '--edge\r\nno head at all\r\n\r\n'],
])('a body %s is told as one that can not be read', async (_, type, body) => {
  const answer = await world.get('/jobs/bring', { method: 'POST', headers: { 'content-type': type }, body });
  expect(answer.status).toBe(400);
  expect(await answer.text()).toContain('The request could not be read');
});

const LIST = 'lot;section;sizes;length;count;note\r\nA;round;32;5480;4;hölzern, ½ Ø\r\nB;flat;40 × 20;3000;2;\r\n';
const WITH_MARK = (text: string) => `\ufeff${text}`;

test.each([
  ['UTF-8', Buffer.from(LIST)],
  ['UTF-8 with its mark', Buffer.from(WITH_MARK(LIST))],
  ['Windows-1252', Buffer.from(LIST, 'latin1')],
  ['UTF-16, tabs between', Buffer.from(WITH_MARK(LIST.replaceAll(';', '\t')), 'utf16le')],
  ['UTF-16, the other way round', Buffer.from(WITH_MARK(LIST), 'utf16le').swap16()],
])('a list saved as %s is read letter by letter', async (_, bytes) => {
  const page = await (await send(bytes, 'list.csv')).text();
  expect(page).toContain('2 rows as read. Nothing is kept yet.');
  expect(page).toContain('<td data-label="note">hölzern, ½ Ø</td>');
  expect(page).toContain('<td data-label="section">flat 40 × 20</td>');
});

test('inch marks in a list that was written by hand are inch marks, quoted or not', async () => {
  const rows = [`A,round,3/4",12' 6"`, `B,round,"3/4""","12' 6"""`, '', `C,round,1",2 m`];
  const list = ['lot,section,sizes,length', ...rows, ''].join('\n');
  const page = await (await send(Buffer.from(list), 'list.csv')).text();
  expect(page).toContain('3 rows as read');
  expect(page.match(/<td data-label="section">round 19\.05<\/td>/g)).toHaveLength(2);
  expect(page).toContain('<td data-label="section">round 25.4</td>');
  // Rows are told by where they stand in the list, blank ones counted.
  expect([...page.matchAll(/data-label="row"[^>]*>\s*(\d+)/g)].map(([, row]) => row)).toEqual(['2', '3', '5']);
});

const ZIP = Buffer.from('PK\u0003\u0004\u0000\u0000a sheet of cells', 'latin1');

test.each([
  ['a spreadsheet', ZIP, 'bars.xlsx', 'save the sheet as CSV'],
  ['a spreadsheet named as a list', ZIP, 'bars.csv', 'save the sheet as CSV'],
  [
    'a list with a quote left open',
    Buffer.from('lot;length\r\nA;"about <b>3 m\r\n'),
    'bars.csv',
    'can not be read as CSV: a cell begins with a quotation mark that is never closed.',
  ],
  [
    'a list with a cell that goes on after its quotes',
    Buffer.from('lot;length\r\nA;3 m\r\nB;"about" 3 m\r\n'),
    'bars.csv',
    'in line 3 a cell goes on after its closing quotation mark',
  ],
  [
    'a file that nests deeper than any job',
    Buffer.from(`${'{"a":'.repeat(40)}1${'}'.repeat(40)}`),
    'job.json',
    'Line 1, column 161: more than 32 brackets are open here.',
  ],
  ['a plan', Buffer.from('{"format": "kentledge-plan/1"}'), 'plan.json', 'Bring in the job file that it was made for'],
  ['a cut list', Buffer.from('{"format": "kentledge-cutlist/1"}'), 'list.json', 'kentledge cut'],
])('%s is not taken in, with what to do', async (_, bytes, name, words) => {
  const answer = await send(bytes, name);
  expect(answer.status).toBe(422);
  const page = await answer.text();
  expect(page).toContain(words);
  expect(page).not.toContain('about');
  expect(world.store.jobs.all()).toEqual([]);
});

test('a number too large for the machine is brought in as text and told so, and never as null', async () => {
  const page = await world.text(await world.bring(BOGBEAN.replace('"ballast": 860', '"ballast": 1e400')));
  expect(page).toContain('“Ballast wanted” is too large a number.');
  expect(page).not.toContain('is null');
});

async function send(bytes: Buffer, name: string): Promise<Response> {
  const body = new FormData();
  body.set('token', world.token);
  body.set('file', new Blob([new Uint8Array(bytes)]), name);
  return world.get('/jobs/bring', { method: 'POST', body });
}

test('an upload whose sender goes away is no defect', async () => {
  const socket = connect(Number(new URL(world.address).port), '127.0.0.1');
  await once(socket, 'connect');
  const head = 'POST /jobs/bring HTTP/1.1\r\nHost: localhost\r\nContent-Length: 9999';
  socket.write(`${head}\r\nContent-Type: multipart/form-data; boundary=edge\r\n\r\n${PART}`);
  await new Promise((resolve) => setTimeout(resolve, 100));
  socket.destroy();
  await vi.waitFor(() => expect(world.log.length).toBeGreaterThan(0));
  await new Promise((resolve) => setTimeout(resolve, 100));
  expect(world.log.filter(({ what }) => what === 'defect')).toEqual([]);
});

test('a defect of our own that speaks of a boundary is told as one', () => {
  expect(problemOf(new Error('The boundary of void V1 is not closed')).code).toBe('defect');
  expect(problemOf(new TypeError('multipart is not a function')).code).toBe('defect');
});
