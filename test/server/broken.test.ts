/** What breaks inside kentledge is told on a page of its own, and the server goes on. */
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { openPaper } from '../../server/paper/page.ts';
import { PAPERS } from '../../server/paper/papers.ts';
import { recordPlan } from '../../server/planning/record.ts';
import { addDraft } from '../../server/routes/jobs.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, type World } from './world.ts';

/** As the framework loads it. */
const ejs = createRequire(import.meta.url)('ejs') as typeof import('ejs');
const PAPER = PAPERS[0]!;
let world: World;
let serial: number;

beforeEach(async () => {
  world = await openWorld();
  const job = addDraft({ store: world.store, clock: () => new Date(0) }, { ...trialJobInput() });
  const body = JSON.stringify(trialJobInput());
  serial = recordPlan(
    world.store,
    { job, body },
    JSON.stringify(trialPair().plan),
    null,
    false,
    '2026-05-04T10:00:00Z',
  );
});
afterEach(async () => {
  vi.restoreAllMocks();
  ejs.clearCache();
  await world.close();
});

test('a paper that can not be made is told on a page, not as a file', async () => {
  vi.spyOn(PAPER, 'write').mockRejectedValue(new Error('no such paper'));
  const answer = await world.get(`/plans/${serial}/papers/${PAPER.file}`);
  expect(answer.status).toBe(500);
  expect(answer.headers.get('content-type')).toBe('text/html; charset=utf-8');
  expect(answer.headers.get('content-disposition')).toBeNull();
  expect(await answer.text()).toContain('Something in kentledge itself went wrong');
});

test('an archive whose paper breaks comes to an end, and is told as a defect', async () => {
  vi.spyOn(PAPER, 'write').mockRejectedValue(new Error('no such paper'));
  await expect(wholeOf('papers.zip')).rejects.toThrow('terminated');
  expect(world.log.filter(({ what }) => what === 'defect')).toHaveLength(1);
});

test.each([`papers/${PAPER.file}`, 'papers.zip'])('%s breaks off where a paper breaks once begun', async (file) => {
  vi.spyOn(PAPER, 'write').mockImplementation(async (job, plan, options, out) => {
    openPaper('broken', job, plan, options, out);
    throw new Error('no further');
  });
  await expect(wholeOf(file)).rejects.toThrow('terminated');
  expect(world.log.filter(({ what }) => what === 'defect')).toHaveLength(1);
});

test('a part of a page that can not be written is a defect told while typing, and ends nothing', async () => {
  const part = fileURLToPath(new URL('../../views/partials/wanted.ejs', import.meta.url));
  ejs.cache.set(part, () => {
    throw new Error('no such part');
  });
  const { job } = world.store.plans.find(serial)!;
  const answer = await world.post(`/jobs/${job}/sketch`, {}, { signal: AbortSignal.timeout(4000) });
  expect(answer.status).toBe(500);
  ejs.clearCache();
  expect((await world.post(`/jobs/${job}/sketch`)).status).toBe(200);
});

/** All of a file of the plan; given up where it never ends. */
async function wholeOf(file: string): Promise<ArrayBuffer> {
  const answer = await world.get(`/plans/${serial}/${file}`, { signal: AbortSignal.timeout(4000) });
  return answer.arrayBuffer();
}
