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
  await bring(vessel);
});
afterEach(() => world.close());

async function bring(vessel: object): Promise<void> {
  const pair = stackedPair({ voids: 6, runs: 2, tiers: 3, across: 1 });
  const body = JSON.stringify({ ...pair.job, vessel });
  job = await world.bring(body);
  const made = { job: Number(job.split('/').at(-1)), body };
  const serial = recordPlan(world.store, made, JSON.stringify(pair.plan), null, false, '2026-05-04T10:00:00Z');
  plan = `/plans/${serial}`;
}

test('what marks moved too little to tell is told with its range, and not put into the job', async () => {
  // Of so little weight only a light vessel's marks can tell anything that agrees with what is stated of her.
  const light = { ...vessel, kgPerCm: 30 };
  await bring(light);
  const readings = { beforeForward: '0.86', beforeAft: '1.12', afterForward: '0.87', afterAft: '1.14' };
  const page = await world.text(`${plan}/trial?${new URLSearchParams(readings)}`);
  expect(page).toContain('Forecast and read');
  expect(page).toMatch(/kg per cm could be anything from \d+ to \d+ kg, as each mark is read to half a centimetre/);
  expect(page).toContain('Moment to trim 1 cm: the marks moved too little to tell it');
  expect(page).not.toMatch(/into the job( all the same)?<\/button>/);
  await world.post(`${plan}/trial`, { ...readings, revision: '1' });
  expect(JSON.parse(await world.text(`${job}/job.json`)).vessel).toEqual(light);
  const deeper = await world.text(
    `${plan}/trial?${new URLSearchParams({ ...readings, afterForward: '0.875', afterAft: '1.155' })}`,
  );
  expect(deeper).not.toContain('Read otherwise than reckoned');
  expect(deeper).toContain('Put her kg per cm into the job</button>');
});

test('what goes in weighs what the scale says: the forecast, and her figures from the marks', async () => {
  const serial = Number(plan.split('/').at(-1));
  const readings = { beforeForward: '0.86', beforeAft: '1.12', afterForward: '0.90', afterAft: '1.16' };
  const asked = `${plan}/trial?${new URLSearchParams(readings)}`;
  const told = async () => {
    const page = await world.text(asked);
    const wanted = [...page.matchAll(/name="want(?:Forward|Aft)" value="([^"]*)"/g)].map(([, text]) => text);
    return {
      page,
      wanted,
      mass: Number(/With these ([\d.]+) kg/.exec(page)?.[1]),
      perCm: Number(/kg per cm[^:]*: ([\d,]+) kg/.exec(page)?.[1]?.replace(',', '')),
    };
  };
  const before = await told();
  expect(before.page).not.toContain('the scale</a>');
  const { bundles } = JSON.parse(await world.text(`${plan}/plan.json`)) as {
    bundles: { bundle: string; mass: number }[];
  };
  world.store.weighed.set(
    serial,
    new Map(bundles.map(({ bundle, mass }) => [bundle, mass * 1.1])),
    '2026-05-04T10:00:00Z',
  );
  const after = await told();
  expect(after.page).toContain('the scale</a>');
  expect(after.mass / before.mass).toBeCloseTo(1.1, 1);
  expect(after.perCm / before.perCm).toBeCloseTo(1.1, 1);
  // What is wanted in the end is what the plan was made for.
  expect(after.wanted).toEqual(before.wanted);
});

test('a record that tells otherwise of what is in is told beside the forecast', async () => {
  const serial = Number(plan.split('/').at(-1));
  const { bundles } = JSON.parse(await world.text(`${plan}/plan.json`)) as {
    bundles: { bundle: string; void: string; order: number }[];
  };
  const put = (some: typeof bundles) =>
    world.store.records.add(
      serial,
      some.map(({ bundle }) => ({ bundle, what: 'in' as const, note: '', at: '2026-05-04T10:00:00Z' })),
    );
  const first = bundles.filter(({ order }) => order <= 3);
  const asked = `${plan}/trial?share=50`;
  expect(await world.text(asked)).not.toContain('By the record');
  put(first.slice(1));
  expect(await world.text(asked)).not.toContain('By the record');
  const read = '&beforeForward=0.86&beforeAft=1.12&afterForward=0.9&afterAft=1.16';
  expect(await world.text(asked + read)).toContain(`counted here and not in: ${first[0]!.bundle}.`);
  const extra = bundles.find(({ order }) => order === 4)!;
  put([first[0]!, extra]);
  expect(await world.text(asked + read)).toContain(`are in, too, and are not counted here: ${extra.bundle}.`);
  expect(await world.text(asked + read)).not.toContain('and not in');
});
