import { setTimeout as wait } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { isNotWritten } from '../../../server/notWritten.ts';
import { LIMITS } from '../../../server/planning/planning.ts';
import { tightenBound } from '../../../server/planning/record.ts';
import { trialJobInput, trialPair } from '../../plan/trialPlan.ts';
import { openWorld, type World } from '../world.ts';

const WISH = { effort: 'steady', seed: 1, stops: null } as const;
const PLAN = JSON.stringify(trialPair().plan);
let world: World;

beforeEach(async () => {
  world = await openWorld({ ...LIMITS, seconds: { quick: 0.2, steady: 60, thorough: 60 } });
});
afterEach(() => world.close());

test('two jobs are planned at a time, the third waits its turn', () => {
  const [a, b, c] = [addJob(), addJob(), addJob()];
  for (const job of [a, b, c]) world.planning.ask(job, WISH, '{}');
  expect(world.children).toHaveLength(2);
  expect(world.planning.progress(c)).toMatchObject({ state: 'queued', ahead: 0 });
  child(0).say({ kind: 'plan', plan: PLAN });
  expect(world.children).toHaveLength(3);
  expect(world.planning.progress(a)).toBeNull();
  expect(world.store.plannings.latest(a)).toMatchObject({ state: 'done', plan: 1 });
});

test('who waits is told how many are before, anew whenever one of them goes, and never that it is none', async () => {
  const [, , c, d] = [addJob(), addJob(), addJob(), addJob()].map((job) => {
    world.planning.ask(job, WISH, '{}');
    return job;
  });
  const told: (number | undefined)[] = [];
  world.planning.listen(d!, (progress) => told.push(progress?.ahead));
  expect(world.planning.progress(d!)?.ahead).toBe(1);
  expect(await world.text(`/jobs/${d}/planning`)).toContain('Waiting: one plan is before this one.');
  const first = await world.text(`/jobs/${c}/planning`);
  expect(first).toContain('as soon as one of those under way has ended');
  expect(first).not.toMatch(/0 plans|waiting</);
  world.planning.stop(c!);
  expect(told).toEqual([0]);
});

test('a job is planned once at a time', () => {
  const job = addJob();
  expect(world.planning.ask(job, WISH, '{}')).toBe(true);
  expect(world.planning.ask(job, WISH, '{}')).toBe(false);
});

test('stopped, the best plan sent so far stands, with the bound known by then', async () => {
  const job = addJob();
  world.planning.ask(job, WISH, '{}');
  const { value } = trialPair().plan.bound;
  step({ plan: PLAN, value, bound: value + 50 });
  step({ plan: null, value, bound: value + 5 });
  expect(world.planning.stop(job)).toBe(true);
  await ended(job);
  expect(child(0).killed).toBe(true);
  expect(world.store.plannings.latest(job)).toMatchObject({ state: 'stopped', plan: 1 });
  const row = world.store.plans.find(1);
  expect(row?.stoppedEarly).toBe(true);
  expect(row?.summary.bound.valueAtMost).toBeCloseTo(value + 5, 2);
  expect(row?.summary.bound.gap).toBeCloseTo(5 / (value + 5), 4);
});

test('stopped before there was a plan, that is what the page says', async () => {
  const job = addJob();
  world.planning.ask(job, WISH, '{}');
  world.planning.stop(job);
  await ended(job);
  expect(world.store.plannings.latest(job)).toMatchObject({
    state: 'stopped',
    plan: null,
    note: expect.stringContaining('no plan yet'),
  });
});

test('stopped as its last word is on the way, a planning ends with what that word brings', async () => {
  const job = addJob();
  world.planning.ask(job, WISH, '{}');
  world.planning.stop(job);
  child(0).say({ kind: 'plan', plan: PLAN });
  expect(world.planning.progress(job)).toBeNull();
  expect(world.store.plannings.latest(job)).toMatchObject({ state: 'stopped', plan: 1 });
  await new Promise((resolve) => setImmediate(() => setImmediate(resolve)));
  expect(world.store.plannings.latest(job)).toMatchObject({ state: 'stopped', plan: 1 });
  expect(world.planning.ask(job, WISH, '{}')).toBe(true);
});

test('a child that dies is told as such; its best plan and everything else stands', async () => {
  const [a, b] = [addJob(), addJob()];
  world.planning.ask(a, WISH, '{}');
  world.planning.ask(b, WISH, '{}');
  step({ plan: PLAN });
  child(0).end({ code: 134, words: 'abort' });
  expect(world.store.plannings.latest(a)).toMatchObject({
    state: 'failed',
    plan: 1,
    note: expect.stringMatching(/134.*The best plan so far is kept\.$/),
  });
  expect(world.planning.progress(b)).toMatchObject({ state: 'running' });
});

test('a child that the system ends is told as that, with what is kept', () => {
  const job = addJob();
  world.planning.ask(job, WISH, '{}');
  step({ plan: PLAN });
  child(0).end({ code: null, signal: 'SIGKILL' });
  expect(world.store.plannings.latest(job)).toMatchObject({ state: 'failed', plan: 1 });
  const note = world.store.plannings.latest(job)?.note;
  expect(note).toMatch(/by the system.*want of memory\. The best plan so far is kept\.$/);
  expect(note).not.toContain('own mistake');
});

test('a child that takes too much memory is ended and told', async () => {
  const job = addJob();
  world.planning.ask(job, WISH, '{}');
  child(0).memory = LIMITS.memory + 1;
  await ended(job);
  expect(world.store.plannings.latest(job)).toMatchObject({
    state: 'failed',
    note: expect.stringContaining('1.5 GiB'),
  });
});

test('a child that takes too long is ended and told', async () => {
  const job = addJob();
  world.planning.ask(job, { ...WISH, effort: 'quick' }, '{}');
  await ended(job);
  expect(world.store.plannings.latest(job)).toMatchObject({
    state: 'failed',
    note: 'Planning was ended: it had not finished in 0.2 seconds. There was no plan yet to keep: plan once more, quickly, when the machine has less else to do.',
  });
});

test('the best plan of a child that takes too long is kept, and that is told', async () => {
  const job = addJob();
  world.planning.ask(job, { ...WISH, effort: 'quick' }, '{}');
  step({ plan: PLAN });
  await ended(job);
  expect(world.store.plannings.latest(job)).toMatchObject({
    state: 'failed',
    plan: 1,
    note: 'Planning was ended: it had not finished in 0.2 seconds. The best plan so far is kept.',
  });
});

test('a plan that can not be read is never kept', () => {
  const job = addJob();
  world.planning.ask(job, WISH, '{}');
  child(0).say({ kind: 'plan', plan: '{"format":"kentledge-plan/1"}' });
  expect(world.store.plannings.latest(job)).toMatchObject({ state: 'failed', plan: null });
  expect(world.store.plans.ofJob(job)).toEqual([]);
});

test('where nothing can be placed the reasons are kept', () => {
  const job = addJob();
  world.planning.ask(job, WISH, '{}');
  child(0).say({ kind: 'nothing', reasons: [{ void: 'V1', why: 'Too low.', remedy: 'Measure again.' }] });
  expect(world.store.plannings.latest(job)).toMatchObject({ state: 'nothing', note: 'V1: Too low. Measure again.' });
});

test('a looser bound than the plan already has changes nothing, a tighter one corrects its gap', () => {
  const plan = { ...trialPair().plan, bound: { value: 90, valueAtMost: 100, gap: 0.1 } };
  expect(tightenBound(plan, 120)).toBe(plan);
  expect(tightenBound(plan, null)).toBe(plan);
  expect(tightenBound(plan, 95).bound).toEqual({ value: 90, valueAtMost: 95, gap: 5 / 95 });
});

describe('a disk that is full', () => {
  const full = () => {
    throw new Database.SqliteError('database or disk is full', 'SQLITE_FULL');
  };
  afterEach(() => vi.restoreAllMocks());

  test('loses no plan and ends no server: it is written down once there is room, and the next goes on', async () => {
    await world.close();
    world = await openWorld({ ...LIMITS, children: 1, again: 0.05 });
    const [job, next] = [addJob(), addJob()];
    world.planning.ask(job, WISH, '{}');
    world.planning.ask(next, WISH, '{}');
    const spies = [
      vi.spyOn(world.store.plans, 'add').mockImplementation(full),
      vi.spyOn(world.store.plannings, 'end').mockImplementation(full),
      vi.spyOn(world.store.plannings, 'begin').mockImplementation(full),
    ];
    child(0).say({ kind: 'plan', plan: PLAN });
    child(0).end();
    expect(world.planning.progress(job)).toMatchObject({ state: 'unkept' });
    expect(await world.text(`/jobs/${job}/planning`)).toContain('can not be written down yet');
    expect(world.planning.stop(job)).toBe(false);
    expect(world.planning.ask(job, WISH, '{}')).toBe(false);
    // The plan goes in and what ends the planning does not: then the plan is not written twice.
    spies[0]!.mockRestore();
    await wait(120);
    expect(world.planning.progress(job)).toMatchObject({ state: 'unkept' });
    spies[1]!.mockRestore();
    await ended(job);
    expect(world.store.plannings.latest(job)).toMatchObject({ state: 'done', plan: 1 });
    expect(world.store.plans.find(2)).toBeNull();
    expect(world.children).toHaveLength(2);
    expect(world.planning.progress(next)).toMatchObject({ state: 'running' });
  });

  test('holds up nobody who has enough: the page says that it waits for room', async () => {
    const job = addJob();
    world.planning.ask(job, WISH, '{}');
    step({ plan: PLAN });
    vi.spyOn(world.store.plans, 'add').mockImplementation(full);
    const answer = await Promise.race([world.post(`/jobs/${job}/stop`, {}), wait(3000)]);
    expect(answer?.status).toBe(303);
    expect(world.planning.progress(job)).toMatchObject({ state: 'unkept' });
  });

  test('lets the server end all the same', async () => {
    const job = addJob();
    world.planning.ask(job, WISH, '{}');
    vi.spyOn(world.store.plannings, 'end').mockImplementation(full);
    child(0).say({ kind: 'plan', plan: PLAN });
    world.planning.close();
    expect(world.planning.progress(job)).toBeNull();
  });

  test('or another program that holds the file is the same: the plan waits, and the server goes on', async () => {
    await world.close();
    world = await openWorld({ ...LIMITS, again: 0.05 });
    const job = addJob();
    world.planning.ask(job, WISH, '{}');
    const spy = vi.spyOn(world.store.plans, 'add').mockImplementation(() => {
      throw new Database.SqliteError('database is locked', 'SQLITE_BUSY');
    });
    child(0).say({ kind: 'plan', plan: PLAN });
    expect(world.planning.progress(job)).toMatchObject({ state: 'unkept' });
    expect(await world.text(`/jobs/${job}/planning`)).toContain('another program is using');
    spy.mockRestore();
    await ended(job);
    expect(world.store.plannings.latest(job)).toMatchObject({ state: 'done', plan: 1 });
  });

  test('is told as what it is where something is saved, and nothing is changed', async () => {
    vi.spyOn(world.store.jobs, 'add').mockImplementation(full);
    const answer = await world.post('/jobs', { name: 'One more' });
    expect(answer.status).toBe(507);
    const page = await answer.text();
    expect(page).toContain('could not be written to the disk');
    expect(page).toContain('make room there');
  });
});

test.each([1, 9])(
  'what goes wrong %i times as a planning is written down ends it, and not the server',
  async (times) => {
    const [job, next] = [addJob(), addJob()];
    world.planning.ask(job, WISH, '{}');
    const spy = vi.spyOn(world.store.plannings, 'end');
    for (let n = 0; n < times; n++)
      spy.mockImplementationOnce(() => {
        throw new Database.SqliteError('no such row', 'SQLITE_CONSTRAINT_FOREIGNKEY');
      });
    child(0).say({ kind: 'plan', plan: PLAN });
    expect(world.planning.progress(job)).toBeNull();
    if (times === 1) expect(world.store.plannings.latest(job)).toMatchObject({ state: 'failed', plan: null });
    expect(world.planning.ask(next, WISH, '{}')).toBe(true);
    spy.mockRestore();
  },
);

test('what the disk does not take is known by what SQLite and the system call it', () => {
  for (const code of [
    'SQLITE_FULL',
    'SQLITE_IOERR_WRITE',
    'SQLITE_READONLY',
    'SQLITE_BUSY',
    'SQLITE_LOCKED',
    'ENOSPC',
    'EDQUOT',
    'EROFS',
  ])
    expect(isNotWritten(Object.assign(new Error(), { code }))).toBe(true);
  for (const error of [new Error('SQLITE_FULL'), { code: 'SQLITE_CONSTRAINT' }, { code: 28 }, null, 'ENOSPC'])
    expect(isNotWritten(error)).toBe(false);
});

function addJob(): number {
  const body = JSON.stringify(trialJobInput());
  return world.store.jobs.add('Trial', body, '2026-05-04T10:00:00.000Z');
}

function child(n: number) {
  const one = world.children[n];
  if (!one) throw new Error(`child ${n} was not started`);
  return one;
}

function step(word: { plan: string | null; value?: number; bound?: number }): void {
  child(0).say({
    kind: 'progress',
    phase: 'filling',
    step: 1,
    value: word.value ?? null,
    bound: word.bound ?? null,
    plan: word.plan,
  });
}

function ended(job: number): Promise<void> {
  return new Promise((resolve) => {
    if (!world.planning.progress(job)) resolve();
    world.planning.listen(job, (progress) => {
      if (!progress) resolve();
    });
  });
}
