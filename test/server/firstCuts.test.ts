/** The first cuts measured: what they say goes into the job, where that still is of the steel that was planned with. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { addDraft } from '../../server/routes/jobs.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, plainSpaces, type World } from './world.ts';

const clock = (): Date => new Date('2026-05-04T10:00:00Z');
const { plan } = trialPair();
let world: World;
let id = 0;
let serial = 0;

beforeEach(async () => {
  world = await openWorld();
  id = addDraft({ store: world.store, clock }, trialJobInput() as Record<string, unknown>);
  world.planning.ask(id, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(plan) });
  serial = world.store.plannings.latest(id)?.plan ?? 0;
});
afterEach(() => world.close());

const measure = (fields: Record<string, string>) => world.post(`/plans/${serial}/first-cuts`, fields);
const jobNow = async () => (await world.get(`/jobs/${id}/job.json`)).json() as Promise<Record<string, unknown>>;

test('the first cuts correct the job, once they make sense', async () => {
  const measured = {
    ordered: '470',
    piece1: '470',
    piece2: '471',
    bar: '3000',
    remained: '2053',
    bundle: '',
    weighed: '',
  };
  expect(plainSpaces(await (await measure({ ...measured, do: 'work out' })).text())).toContain(
    '<strong>3 mm</strong>, planned with',
  );
  const refused = await measure({ ...measured, remained: 'much', do: 'apply' });
  expect(refused.status).toBe(200);
  const page = await refused.text();
  expect(page).toContain('What remained of it: This is no number.');
  expect(page).toMatch(/name="remained" value="much"[^>]* aria-invalid="true" aria-describedby="remained-fault"/);
  const applied = await measure({ ...measured, do: 'apply' });
  const corrected = await world.text(applied.headers.get('location') ?? '');
  expect(corrected).toContain('The plan should be worked out again');
  // Pieces of ten bars are cut by then.
  expect(corrected).toContain(
    `<a href="/plans/${serial}/left">plan what is left</a> instead: these figures come along`,
  );
  const { saw } = await jobNow();
  expect(saw).toMatchObject({ kerf: 3, tolerance: 1 });
});

test('a bundle weighed at the first cuts is kept with what the scale says, put into the job or not, and not where it is far off', async () => {
  const { bundle, mass } = plan.bundles[0]!;
  const heavier = Math.round(mass * 1030) / 1000;
  const weighed = { ordered: '470', piece1: '471', bundle, weighed: String(heavier) };
  const kept = () => [...world.store.weighed.of(serial)];
  const offered = await (await measure({ ...weighed, do: 'work out' })).text();
  expect(offered).toContain('Keep only the weight</button>');
  expect(kept()).toEqual([]);
  const far = await (await measure({ ...weighed, weighed: String(mass * 3), do: 'keep' })).text();
  expect(far).toContain('is it the right bundle');
  expect(far).not.toContain('Keep only the weight</button>');
  expect(kept()).toEqual([]);
  const alone = await (await measure({ ...weighed, do: 'keep' })).text();
  expect(alone).toContain(`${bundle} is kept with`);
  expect(alone).toContain('name="piece1" value="471"');
  expect(alone).not.toContain('Keep only the weight</button>');
  expect(kept()).toEqual([[bundle, heavier]]);
  const { revision } = world.store.jobs.find(id)!;
  world.store.weighed.set(serial, new Map([[bundle, null]]), '');
  expect((await measure({ ...weighed, do: 'apply' })).status).toBe(303);
  expect(world.store.jobs.find(id)!.revision).toBe(revision + 1);
  expect(kept()).toEqual([[bundle, heavier]]);
  expect(await world.text(`/plans/${serial}/weighed`)).toContain(`value="${heavier}"`);
});

test('what a bundle weighed is put into the lot that its bars came from, and into no other steel under the same mark', async () => {
  const bundle = plan.bundles[0]!;
  const from = new Set(
    plan.bars.filter((bar) => bar.pieces.some(({ bundle: own }) => own === bundle.bundle)).map(({ lot }) => lot),
  );
  expect(from.size).toBe(1);
  const [lot] = from;
  const weighed = { ordered: '470', bundle: bundle.bundle, weighed: String(bundle.mass * 1.03) };
  expect(await (await measure({ ...weighed, do: 'work out' })).text()).not.toContain('not put in');
  const massOf = async () => ((await jobNow()).pile as Record<string, unknown>[]).find((one) => one.lot === lot)!;

  // The pile was sorted anew since: other steel has that mark now.
  const draft = trialJobInput() as { pile: Record<string, unknown>[] };
  const other = draft.pile.map((one) =>
    one.lot === lot ? { ...one, section: { shape: 'round', diameter: 12 } } : one,
  );
  world.store.jobs.save(id, 1, 'Trial', JSON.stringify({ ...draft, pile: other }), clock().toISOString());
  const before = (await massOf()).massPerMetre;
  expect(await (await measure({ ...weighed, do: 'work out' })).text()).toContain('not put in');
  // Nothing is said to have been put in where nothing was.
  expect((await measure({ ...weighed, do: 'apply' })).status).toBe(200);
  expect((await massOf()).massPerMetre).toBe(before);

  world.store.jobs.save(id, 2, 'Trial', JSON.stringify(draft), clock().toISOString());
  await measure({ ...weighed, do: 'apply' });
  expect((await massOf()).massPerMetre).not.toBe(before);
});

test('a short bar, a bundle over its limit and lots left as they were are remarked, and keep nothing from being put in', async () => {
  const fields = { ordered: '500', piece1: '500', bar: '2900', remained: '2397', bundle: 'V1-01', weighed: '14.8' };
  const told = plainSpaces(await (await measure({ ...fields, do: 'work out' })).text());
  expect(told).toContain('<p class="caution">The bar measured has 2900 mm, and by the job it should have 2995 mm');
  expect(told).toContain('<p class="caution">V1-01 weighs 14.8 kg: 2.8 kg over the lift limit of void V1');
  expect(told).toContain('<p class="caution">Of the same section stay as stated: lot D');
  expect(told).toContain('value="apply"');
  const fine = plainSpaces(
    await (await measure({ ...fields, bar: '2995', remained: '2492', weighed: '', do: '' })).text(),
  );
  expect(fine).toContain('Kerf: <strong>3 mm');
  expect(fine.match(/class="caution"/g)).toHaveLength(1);
  expect((await measure({ ...fields, do: 'apply' })).status).toBe(303);
  expect((await jobNow()).saw).toMatchObject({ kerf: 3 });
});
