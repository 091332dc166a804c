import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { FolderRefused, lockFolder, openDatabase } from '../../../server/store/database.ts';
import { REVISIONS_KEPT } from '../../../server/store/jobs.ts';
import { MIGRATIONS } from '../../../server/store/migrations.ts';
import type { NewPlan } from '../../../server/store/plans.ts';
import { openStore } from '../../../server/store/store.ts';
import type { Reading } from '../../../src/balance/taken.ts';
import type { Entry, What } from '../../../src/plan/record.ts';
import { trialPair } from '../../plan/trialPlan.ts';

const AT = '2026-05-04T10:00:00.000Z';
let folder = '';

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'kentledge-store-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

test('what was saved is there when the store is opened again', () => {
  const first = openStore(folder);
  const id = first.jobs.add('A job', '{"name":"A job"}', AT);
  first.close();
  const second = openStore(folder);
  expect(second.jobs.body(id)).toBe('{"name":"A job"}');
  second.close();
});

test('the second server on one data folder is refused until the first lets go', () => {
  const unlock = lockFolder(folder);
  expect(() => lockFolder(folder)).toThrow(FolderRefused);
  unlock();
  lockFolder(folder)();
});

test('files that are no databases are refused by name, with what to do', () => {
  mkdirSync(join(folder, 'in-use.sqlite'));
  expect(() => lockFolder(folder)).toThrow(FolderRefused);
  expect(() => lockFolder(folder)).toThrow(/in-use\.sqlite can not be used: .*--data/);
  writeFileSync(join(folder, 'kentledge.sqlite'), 'what somebody else keeps here, and is not to be written over');
  expect(() => openStore(folder)).toThrow(FolderRefused);
  expect(() => openStore(folder)).toThrow(/kentledge\.sqlite can not be used: file is not a database/);
});

test('a database of somebody else is refused by name, and left as it was', () => {
  const strange = new Database(join(folder, 'kentledge.sqlite'));
  strange.exec('CREATE TABLE job (title TEXT); INSERT INTO job VALUES (1)');
  strange.close();
  expect(() => openStore(folder)).toThrow(FolderRefused);
  expect(() => openStore(folder)).toThrow(/kentledge\.sqlite can not be used: table job already exists.*--data/);
  const left = new Database(join(folder, 'kentledge.sqlite'), { readonly: true });
  expect(left.prepare('SELECT name FROM sqlite_master').all()).toEqual([{ name: 'job' }]);
  left.close();
});

test('each later migration leaves a copy of what was there before it', () => {
  openStore(folder).jobs.add('Kept', '{}', AT);
  expect(readdirSync(folder).filter((name) => name.startsWith('before'))).toEqual([]);
  openDatabase(folder, [...MIGRATIONS, 'ALTER TABLE job ADD COLUMN colour TEXT']).close();
  const copied = `before-step-${MIGRATIONS.length + 1}.sqlite`;
  expect(readdirSync(folder)).toContain(copied);
  const copy = new Database(join(folder, copied), { readonly: true });
  expect(copy.prepare('SELECT name FROM job').all()).toEqual([{ name: 'Kept' }]);
  expect(copy.pragma('user_version', { simple: true })).toBe(MIGRATIONS.length);
  copy.close();
});

test('a migration that fails changes nothing', () => {
  openStore(folder).close();
  const broken = [...MIGRATIONS, 'CREATE TABLE extra (id INTEGER) STRICT; INSERT INTO nowhere VALUES (1)'];
  expect(() => openDatabase(folder, broken)).toThrow();
  const connection = openDatabase(folder);
  expect(connection.prepare("SELECT name FROM sqlite_master WHERE name = 'extra'").all()).toEqual([]);
  connection.close();
});

test('a folder that a newer kentledge wrote is refused and left alone', () => {
  openDatabase(folder, [...MIGRATIONS, 'CREATE TABLE later (id INTEGER) STRICT']).close();
  const before = readdirSync(folder).sort();
  expect(() => openStore(folder)).toThrow(/newer kentledge/);
  expect(readdirSync(folder).sort()).toEqual(before);
});

test('a text typed over an older revision is kept beside, and can take the place of the other', () => {
  const store = openStore(folder);
  const id = store.jobs.add('A', '{"v":1}', AT);
  expect(store.jobs.save(id, 1, 'A', '{"v":2}', AT)).toEqual({ kind: 'saved', revision: 2 });
  const late = store.jobs.save(id, 1, 'A', '{"v":3}', AT);
  expect(late).toMatchObject({ kind: 'late', revision: 2 });
  expect(store.jobs.body(id)).toBe('{"v":2}');
  const [kept] = store.jobs.beside(id);
  expect(kept?.body).toBe('{"v":3}');
  expect(store.jobs.swapBeside(id, kept?.id ?? 0, 'A', AT)).toBe(true);
  expect(store.jobs.body(id)).toBe('{"v":3}');
  expect(store.jobs.beside(id).map((text) => text.body)).toEqual(['{"v":2}']);
  store.close();
});

test('a text that comes too late twice is kept beside once', () => {
  const store = openStore(folder);
  const [id, other] = [store.jobs.add('A', '{"v":1}', AT), store.jobs.add('B', '{"v":1}', AT)];
  for (const job of [id, other]) store.jobs.save(job, 1, 'A', '{"v":2}', AT);
  const late = store.jobs.save(id, 1, 'A', '{"v":3}', AT);
  expect(store.jobs.save(id, 1, 'A', '{"v":3}', AT)).toEqual(late);
  expect(store.jobs.save(other, 1, 'B', '{"v":3}', AT)).not.toEqual(late);
  expect(store.jobs.beside(id)).toHaveLength(1);
  expect(store.jobs.beside(other)).toHaveLength(1);
  store.close();
});

test('the same text saved from an older revision is no conflict', () => {
  const store = openStore(folder);
  const id = store.jobs.add('A', '{"v":1}', AT);
  store.jobs.save(id, 1, 'A', '{"v":2}', AT);
  expect(store.jobs.save(id, 1, 'A', '{"v":2}', AT)).toEqual({ kind: 'saved', revision: 2 });
  store.close();
});

test('old revisions go, the present one and its recent forerunners stay', () => {
  const store = openStore(folder);
  const id = store.jobs.add('A', '{"v":1}', AT);
  for (let v = 1; v < REVISIONS_KEPT + 5; v++) store.jobs.save(id, v, 'A', `{"v":${v + 1}}`, AT);
  expect(store.jobs.body(id, 5)).toBeNull();
  expect(store.jobs.body(id, 6)).toBe('{"v":6}');
  store.close();
});

test('a folder of the first step is taken over with all that is in it', () => {
  const old = openDatabase(folder, MIGRATIONS.slice(0, 1));
  old.prepare('INSERT INTO job (name, revision, madeAt, savedAt) VALUES (?, 1, ?, ?)').run('Old', AT, AT);
  old.close();
  const store = openStore(folder);
  expect(store.jobs.find(1)?.name).toBe('Old');
  expect(readdirSync(folder)).toContain('before-step-2.sqlite');
  const serial = store.plans.add(somePlan(1));
  store.weighed.set(serial, new Map([['V1-01', 7.9]]), AT);
  expect([...store.weighed.of(serial)]).toEqual([['V1-01', 7.9]]);
  store.close();
});

test('a folder without a record is taken over; the record is kept in the order written, and goes with its plan', () => {
  const old = openDatabase(folder, MIGRATIONS.slice(0, 2));
  old.prepare('INSERT INTO job (name, revision, madeAt, savedAt) VALUES (?, 1, ?, ?)').run('Old', AT, AT);
  old.close();
  const store = openStore(folder);
  const [serial, other] = [store.plans.add(somePlan(1)), store.plans.add(somePlan(1))];
  const entry = (what: What, at: string): Entry => ({ bundle: 'V1-01', what, note: 'wet', at });
  store.records.add(serial, [entry('in', AT), entry('out', '2025-01-01')]);
  store.records.add(serial, [entry('in', '2024-01-01')]);
  expect(store.records.of(serial).map(({ at }) => at)).toEqual([AT, '2025-01-01', '2024-01-01']);
  expect(store.records.of(other)).toEqual([]);
  expect(store.records.ofJob(1)).toEqual([serial]);
  const broken = [entry('in', AT), { ...entry('in', AT), note: null as unknown as string }];
  expect(() => store.records.add(other, broken)).toThrow();
  expect(store.records.of(other)).toEqual([]);
  store.jobs.setDeleted(1, AT);
  store.jobs.purge('2026-07-01T00:00:00.000Z');
  expect(store.records.of(serial)).toEqual([]);
  store.close();
});

test('serials and numbers are never used again, and plans go with their job', () => {
  const store = openStore(folder);
  const first = store.jobs.add('A', '{}', AT);
  const serial = store.plans.add(somePlan(first));
  store.jobs.setDeleted(first, AT);
  expect(store.jobs.purge('2026-05-04T09:00:00.000Z')).toBe(0);
  expect(store.jobs.purge('2026-07-01T00:00:00.000Z')).toBe(1);
  expect(store.plans.find(serial)).toBeNull();
  const second = store.jobs.add('B', '{}', AT);
  expect(second).toBeGreaterThan(first);
  expect(store.plans.add(somePlan(second))).toBeGreaterThan(serial);
  store.close();
});

test('a mass written again as it is keeps the time at which it was read', () => {
  const store = openStore(folder);
  const serial = store.plans.add(somePlan(store.jobs.add('A', '{}', AT)));
  for (const [mass, at] of [
    [7.9, AT],
    [7.9, 'later'],
  ] as const)
    store.weighed.set(serial, new Map([['V1-01', mass]]), at);
  store.weighed.set(serial, new Map([['V1-02', 8]]), 'later');
  store.close();
  const connection = openDatabase(folder);
  expect(connection.prepare('SELECT weighedAt FROM weighed ORDER BY bundle').pluck().all()).toEqual([AT, 'later']);
  connection.close();
});

test('what was saved is on the disk before it is answered', () => {
  const connection = openDatabase(folder);
  expect(connection.pragma('synchronous', { simple: true })).toBe(2);
  expect(connection.pragma('journal_mode', { simple: true })).toBe('wal');
  connection.close();
});

test('the digits on a paper lead to the newest plan of a job that is not deleted', () => {
  const store = openStore(folder);
  const jobs = [store.jobs.add('A', '{}', AT), store.jobs.add('B', '{}', AT)];
  const serials = jobs.map((job) => store.plans.add(somePlan(job)));
  expect(store.plans.ofDigest('11111111')).toBe(serials[1]);
  store.jobs.setDeleted(jobs[1]!, AT);
  expect(store.plans.ofDigest('11111111')).toBe(serials[0]);
  expect(store.plans.ofDigest('22222222')).toBeNull();
  store.close();
});

test('plans of a job with a record are told without the one that asks', () => {
  const store = openStore(folder);
  const job = store.jobs.add('A', '{}', AT);
  const serials = [1, 2, 3].map(() => store.plans.add(somePlan(job)));
  for (const serial of serials.slice(1)) store.records.add(serial, [{ bundle: 'V1-01', what: 'in', note: '', at: AT }]);
  expect(store.records.ofJob(job, serials[1])).toEqual([serials[2]]);
  expect(store.records.ofJob(job, serials[0])).toEqual(serials.slice(1));
  store.close();
});

test('of the jobs of what is left of a plan a planned one goes first, then the newest', () => {
  const store = openStore(folder);
  const [whole, ...rests] = ['A', 'B', 'C', 'D'].map((name) => store.jobs.add(name, '{}', AT));
  const serial = store.plans.add(somePlan(whole!));
  for (const rest of rests) store.rests.add(rest, serial, ['V1-01']);
  expect(store.rests.ofPlan(serial)).toMatchObject({ job: rests[2], isPlanned: false });
  store.plans.add(somePlan(rests[0]!));
  expect(store.rests.ofPlan(serial)).toMatchObject({ job: rests[0], isPlanned: true });
  store.plans.add(somePlan(rests[1]!));
  expect(store.rests.ofPlan(serial)?.job).toBe(rests[1]);
  store.close();
});

test('a reading written over since its page was shown is not overwritten, and the same text is written once', () => {
  const store = openStore(folder);
  const job = store.jobs.add('A', '{}', AT);
  const reading = { on: '2026-05-04', who: 'first' } as Reading;
  const write = (number: number | null, seen: number, form: string, who: string) =>
    store.taken.add(job, { number, seen, form, reading: { ...reading, who } }, AT);
  expect(write(null, 0, 'p', 'first')).toEqual({ kind: 'kept', number: 1 });
  expect(write(null, 0, 'p', 'first')).toEqual({ kind: 'kept', number: 1 });
  const [shown] = store.taken.of(job);
  expect(write(1, shown!.id, 'q', 'second')).toEqual({ kind: 'kept', number: 1 });
  expect(write(1, shown!.id, 'r', 'third')).toEqual({ kind: 'late' });
  expect(store.taken.of(job).map((text) => text.reading.who)).toEqual(['first', 'second']);
  store.close();
});

test('what an older page says once more is late where another text stands since, and so are other figures from its form', () => {
  const store = openStore(folder);
  const job = store.jobs.add('A', '{}', AT);
  const write = (number: number | null, seen: number, form: string, struck: boolean, who = 'first') =>
    store.taken.add(job, { number, seen, form, reading: { on: '2026-05-04', who, struck } as Reading }, AT);
  const last = () => store.taken.of(job).at(-1)!;
  write(null, 0, 'p', false);
  expect(write(null, 0, 'p', false, 'second')).toEqual({ kind: 'late' });
  const shown = last().id;
  expect(write(1, shown, 'q', true)).toEqual({ kind: 'kept', number: 1 });
  expect(write(1, shown, 'q', true)).toEqual({ kind: 'kept', number: 1 });
  write(1, last().id, 'r', false);
  expect(write(1, shown, 'q', true)).toEqual({ kind: 'late' });
  expect([last().reading.struck, store.taken.of(job).length]).toEqual([false, 3]);
  // From one page two readings may be taken back.
  write(null, 0, 's', false);
  expect(write(1, store.taken.of(job)[2]!.id, 'q2', true)).toEqual({ kind: 'kept', number: 1 });
  expect(write(2, store.taken.of(job)[3]!.id, 'q2', true)).toEqual({ kind: 'kept', number: 2 });
  store.close();
});

test('a job deleted is gone for good after its day, not on it', () => {
  const store = openStore(folder);
  store.jobs.setDeleted(store.jobs.add('A', '{}', AT), AT);
  expect([store.jobs.purge(AT), store.jobs.purge('2026-05-04T10:00:00.001Z')]).toEqual([0, 1]);
  store.close();
});

test('a job stays as long as one of what was left of its plans does, also through one between that is deleted too', () => {
  const store = openStore(folder);
  const later = '2026-07-01T00:00:00.000Z';
  const [first, second, third] = ['A', 'B', 'C'].map((name) => store.jobs.add(name, '{}', AT)) as [
    number,
    number,
    number,
  ];
  store.rests.add(second, store.plans.add(somePlan(first)), []);
  store.rests.add(third, store.plans.add(somePlan(second)), []);
  for (const job of [first, second]) store.jobs.setDeleted(job, AT);
  expect(store.jobs.purge(later)).toBe(0);
  store.jobs.setDeleted(third, later);
  expect(store.jobs.purge(later)).toBe(0);
  expect(store.jobs.purge('2026-08-01T00:00:00.000Z')).toBe(3);
  store.close();
});

function somePlan(job: number): NewPlan {
  const { plan } = trialPair();
  return {
    job,
    jobDigest: plan.jobDigest,
    digest: `sha256:${'1'.repeat(64)}`,
    jobBody: '{}',
    body: JSON.stringify(plan),
    summary: { totals: plan.totals, bound: plan.bound, effort: plan.effort },
    stoppedEarly: false,
    madeAt: AT,
  };
}
