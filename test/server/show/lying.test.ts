/** Where a bundle lies is told as the plan has it, to whichever side and whichever way the bars lie. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { recordPlan } from '../../../server/planning/record.ts';
import { LYING_FROM, lyingOf, runsLying } from '../../../server/show/lying.ts';
import { wordsIn } from '../../../server/words.ts';
import type { PlanBundle } from '../../../src/plan/plan.ts';
import type { Axis } from '../../../src/stow/laid.ts';
import { trialJobInput, trialPair } from '../../plan/trialPlan.ts';
import { openWorld, plainSpaces, type World } from '../world.ts';

const { plan } = trialPair();
const metric = wordsIn('metric');

let world: World;
beforeAll(async () => {
  world = await openWorld();
});
afterAll(() => world.close());

test.each([
  ['fore-and-aft', -90, '40 mm to 90 mm to port'],
  ['fore-and-aft', 12.5, '12.5 mm to 62.5 mm to starboard'],
  ['fore-and-aft', -20, '20 mm to port and 30 mm to starboard'],
  ['athwartships', -50, '0 mm to 50 mm aft'],
  ['athwartships', 0, '0 mm to 50 mm forward'],
  ['athwartships', -49, '49 mm aft and 1 mm forward'],
] as [Axis, number, string][])('%s, from %d mm: %s', (axis, from, told) => {
  const at = { along: 8, across: from, up: 14 };
  const bundle: PlanBundle = { ...plan.bundles[0]!, at, size: { along: 452, across: 50, up: 32 } };
  expect(Object.values(lyingOf(bundle, axis, metric)).map(plainSpaces)).toEqual([
    '8 mm to 460 mm',
    told,
    '14 mm to 46 mm',
  ]);
});

test('every bundle stands once in the tiers of its run, by its loading order', () => {
  for (const { void: name } of plan.voids) {
    const bundles = plan.bundles.filter((bundle) => bundle.void === name);
    const told = runsLying(plan, bundles).flatMap(({ run, tiers }) =>
      tiers.flatMap(({ tier, bundles: numbers }) =>
        numbers.split(', ').flatMap((range) => {
          const [first = 0, last = first] = range.split(' to ').map(Number);
          return Array.from({ length: last - first + 1 }, (_, n) => `${first + n} ${run} ${tier}`);
        }),
      ),
    );
    expect(told.sort()).toEqual(bundles.map(({ order, run, tier }) => `${order} ${run} ${tier}`).sort());
  }
});

test("a plan's page tells each bundle in a folded table, and a bundle's page its own", async () => {
  const body = JSON.stringify(trialJobInput());
  const id = Number((await world.bring(body)).split('/').at(-1));
  const serial = recordPlan(world.store, { job: id, body }, JSON.stringify(plan), null, false, '2026-05-04T10:00:00Z');
  const page = await world.text(`/plans/${serial}`);
  const tables = [...page.matchAll(/<details class="where">.*?<\/details>/gs)].map(([table]) => table);
  for (const bundle of plan.bundles) {
    const axis = plan.voids.find(({ void: name }) => name === bundle.void)?.axis;
    const own = tables.find((table) => table.includes(`lies in ${bundle.void}, in words and figures`))!;
    const row = own.split('<tr').find((one) => one.includes(`>${bundle.bundle}</th>`))!;
    const from = axis ?? (own.includes(LYING_FROM.athwartships.along) ? 'athwartships' : 'fore-and-aft');
    for (const words of Object.values(lyingOf(bundle, from, metric)))
      expect(row).toContain(`>${plainSpaces(words)}</td>`);
  }
  const [first] = plan.bundles;
  const tagPage = await world.text(`/b/${serial}/${first!.bundle}`);
  expect(tagPage).toMatch(/Where it lies: [\d.]+ mm to [\d.]+ mm from the after end; .* above the bottom\./);
});
