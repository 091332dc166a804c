/** The breaking-out sheet read back and held against the record. */
import { expect, test } from 'vitest';
import { breakOutOf } from '../../../src/balance/breakOut.ts';
import { type Entry, recordOf } from '../../../src/plan/record.ts';
import { textOf } from './readPdf.ts';
import { stackedPair } from './stackedPlan.ts';
import { counts, read } from './writePaper.ts';

const FILE = 'breaking-out.pdf';
const pair = stackedPair({ voids: 4, runs: 2, tiers: 3, across: 3 });
const job = {
  ...pair.job,
  vessel: { displacement: 900, gm: 0.4, vcg: 0.5, waterlineLength: 8, beam: 2.4, lcf: 4, kgPerCm: 60, kgmPerCm: 9 },
  aims: { ...pair.job.aims, listMost: 2 },
};
const { plan } = pair;
const marks = plan.bundles.map(({ bundle }) => bundle);
const entries = (what: Entry['what'], some: readonly string[], at: string): Entry[] =>
  some.map((bundle) => ({ bundle, what, note: '', at }));
const put = entries('in', marks, '2026-05-04T10:00:00.000Z');
const told = (pages: Awaited<ReturnType<typeof read>>) => textOf(pages).replace(/\s+/g, ' ');

test('has each bundle once, in the order out, with boxes of marks at the quarters and what is foretold of them', async () => {
  const pages = await read(FILE, job, plan, { record: put });
  const found = counts(pages);
  for (const mark of marks) expect(found.get(mark), mark).toBe(1);
  const words = pages.flatMap((page) => page.words.map(({ text }) => text));
  const { steps, listGreatest } = breakOutOf(job, plan, recordOf(put), new Map());
  expect(words.filter((word) => marks.includes(word))).toEqual(steps.map(({ bundle }) => bundle.bundle));
  const text = told(pages);
  expect(text).toContain('By the record of 2026-05-04 72 of 72 bundles are in, 216 kg.');
  expect(text).toContain(`Greatest list on the way about ${Number(listGreatest!.toFixed(1))}°, the most allowed 2°.`);
  for (const { floats } of steps.filter(({ quarter }) => quarter !== null)) expect(text).toContain(floats);
  const quarters = ['A quarter is out', 'Half is out', 'Three quarters are out', 'All of it is out'];
  const places = quarters.map((quarter) => words.indexOf(`${quarter}: read the marks.`));
  expect(places).toEqual([...places].sort((p, q) => p - q));
  expect(places[0]).toBeGreaterThan(0);
  expect(text.match(/what holds it( and chocks)? first/g)).toHaveLength(4);
  expect(text.match(/V\d is then empty/g)!.sort()).toEqual(['V1', 'V2', 'V3', 'V4'].map((v) => `${v} is then empty`));
});

test('of some voids, with what is out already; as planned without a record, and nothing where nothing is in', async () => {
  const out = marks.filter((mark) => /^V1-1/.test(mark));
  const record = [...put, ...entries('out', out, '2026-06-01')];
  const some = told(await read(FILE, job, plan, { record, breakOut: ['V1'] }));
  expect(some).toContain('V1 out, and back By the record of 2026-06-01');
  expect(some.match(/out since 2026-06-01/g)).toHaveLength(out.length);
  expect(some).not.toContain('V2-01');
  const planned = told(await read(FILE, job, plan));
  expect(planned).toContain('Nothing is recorded of what is in: this takes all as in, as planned.');
  const taken = [...put, ...put.map((entry): Entry => ({ ...entry, what: 'undone' }))];
  expect(told(await read(FILE, job, plan, { record: taken }))).toContain('there is nothing to break out');
});

test('says so where some are out before their turn, for what is told as left in her is then not so', async () => {
  const own = marks.filter((mark) => mark.startsWith('V1'));
  const text = told(await read(FILE, job, plan, { record: [...put, ...entries('out', own, '2026-06-01')] }));
  expect(text).toMatch(/Out before their turn: V1-\d+.*is not hers: put back what is out first/);
  expect(told(await read(FILE, job, plan, { record: put }))).not.toContain('before their turn');
});

test('goes by the scale', async () => {
  const weighed = new Map(marks.map((mark) => [mark, 4]));
  expect(told(await read(FILE, job, plan, { record: put, weighed }))).toContain('72 bundles, 288 kg by the scale.');
});
