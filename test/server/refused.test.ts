/** What a page says that did not take all of a form, before anything else: to who hears it and to who looks at its tab. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { NOTE_LONGEST } from '../../server/form/recordFields.ts';
import { recordPlan } from '../../server/planning/record.ts';
import { stackedPair } from './paper/stackedPlan.ts';
import { BOGBEAN, openWorld, type World } from './world.ts';

let world: World;
let job = '';
let plan = '';
beforeAll(async () => {
  world = await openWorld();
  const stacked = stackedPair({ voids: 2, runs: 2, tiers: 3, across: 1 });
  const body = JSON.stringify({ ...stacked.job, vessel: JSON.parse(BOGBEAN).vessel });
  job = await world.bring(body);
  const id = Number(job.split('/').at(-1));
  const at = '2026-05-04T10:00:00Z';
  plan = `/plans/${recordPlan(world.store, { job: id, body }, JSON.stringify(stacked.plan), null, false, at)}`;
});
afterAll(() => world.close());

test.each([
  ['weighed', () => world.post(`${plan}/weighed`, { 'mass.0': 'heavy', 'mass.1': '-3' }), ['mass-0', 'mass-1']],
  ['stowed', () => world.post(`${plan}/stowed`, { 'lies.2': 'x'.repeat(NOTE_LONGEST + 1) }), ['lies-2']],
  ['the trial', () => world.get(`${plan}/trial?share=half&period=slow`), ['share', 'period']],
  [
    'the trial of readings in doubt',
    () => world.get(`${plan}/trial?beforeForward=0.86&afterForward=89`),
    ['beforeForward', 'afterForward'],
  ],
  ['a job to plan', () => world.post(job, { revision: '1', do: 'plan', 'voids[0].width': 'wide' }), ['voids-0-width']],
  ['a survey', () => world.post(`${plan}/survey`, { do: 'seen' }), []],
])('%s begins with its faults, has the focus on them, leads to each, and its title says so', async (_, ask, ids) => {
  const page = await (await ask()).text();
  const [, told = ''] =
    /<div class="told loud" role="group"[^>]* tabindex="-1" autofocus>(.*?)<\/div>/s.exec(page) ?? [];
  const links = [...told.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id);
  expect(links).toEqual(ids);
  for (const id of ids) expect(page).toMatch(new RegExp(`<(input|textarea) id="${id}"[^>]* aria-invalid="true"`));
  expect(page).toMatch(ids.length === 1 ? /<title>Fault: / : /<title>Faults: /);
});

test.each(['weighed', 'stowed', 'trial', 'survey'])('%s with nothing to mend says nothing of it', async (name) => {
  const page = await world.text(`${plan}/${name}`);
  expect(page).not.toContain('autofocus');
  expect(page).not.toMatch(/<title>Fault/);
});
