/** What the trial of a plan offers to put into the job, and what not. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { recordPlan } from '../../server/planning/record.ts';
import { stackedPair } from './paper/stackedPlan.ts';
import { BOGBEAN, openWorld, type World } from './world.ts';

const { vessel } = JSON.parse(BOGBEAN);
let world: World;
let job = '';
let plan = '';

beforeEach(async () => {
  world = await openWorld();
  const pair = stackedPair({ voids: 6, runs: 2, tiers: 3, across: 1 });
  const body = JSON.stringify({ ...pair.job, vessel });
  job = await world.bring(body);
  const made = { job: Number(job.split('/').at(-1)), body };
  const serial = recordPlan(world.store, made, JSON.stringify(pair.plan), null, false, '2026-05-04T10:00:00Z');
  plan = `/plans/${serial}`;
});
afterEach(() => world.close());

test('what marks moved too little to tell is told with its range, and not put into the job', async () => {
  const readings = { beforeForward: '0.86', beforeAft: '1.12', afterForward: '0.885', afterAft: '1.125' };
  const page = await world.text(`${plan}/trial?${new URLSearchParams(readings)}`);
  expect(page).toContain('Forecast and read');
  expect(page).toMatch(/kg per cm could be anything from \d+ to \d+ kg, as each mark is read to half a centimetre/);
  expect(page).toContain('Moment to trim 1 cm: the marks moved too little to tell it');
  expect(page).not.toContain('into the job</button>');
  await world.post(`${plan}/trial`, { ...readings, revision: '1' });
  expect(JSON.parse(await world.text(`${job}/job.json`)).vessel).toEqual(vessel);
  const deeper = await world.text(`${plan}/trial?${new URLSearchParams({ ...readings, afterAft: '1.145' })}`);
  expect(deeper).toContain('Put her kg per cm into the job</button>');
});
