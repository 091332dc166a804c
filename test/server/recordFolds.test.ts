/** What the pages of the record fold, what is done and what can not come out, and what is next, which they never do. */
import { afterEach, beforeEach, expect, test } from 'vitest';
import { NOTE_LONGEST } from '../../server/form/recordFields.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, type World } from './world.ts';

const { plan } = trialPair();
const ofVoid = (name: string) =>
  plan.bundles.filter((bundle) => bundle.void === name).sort((p, q) => p.order - q.order);
const numberOf = (bundle: string) => plan.bundles.findIndex((own) => own.bundle === bundle);
const voidNumber = (name: string) => String(plan.voids.findIndex((own) => own.void === name));
const first = ofVoid('V1')[0]!.bundle;
let world: World;
let serial = 0;

beforeEach(async () => {
  world = await openWorld();
  const job = world.store.jobs.add('Trial', JSON.stringify(trialJobInput()), '2026-05-04T10:00:00.000Z');
  world.planning.ask(job, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(plan) });
  world.children.at(-1)?.end();
  serial = world.store.plannings.latest(job)?.plan ?? 0;
});
afterEach(() => world.close());

const tick = (fields: Record<string, string>) => world.post(`/plans/${serial}/stowed`, fields);
const survey = (fields: Record<string, string>) =>
  world.post(`/plans/${serial}/survey`, { entries: String(world.store.records.of(serial).length), ...fields });

test('has one button for what goes in next, which leads back to what is next then', async () => {
  const page = await world.text(`/plans/${serial}/stowed`);
  const next = /data-next="([^"]+)"/.exec(page)![1]!;
  const button = /<button class="strong" form="ticks" name="(in\.\d+)" value="on">([^<]*)<\/button>/.exec(page)!;
  expect(button.slice(1)).toEqual([`in.${numberOf(next)}`, `${next} is in`]);
  expect(page).toContain('id="ticks" data-ticks');
  const location = (await tick({ [button[1]!]: 'on' })).headers.get('location')!;
  expect(location).toBe(`/plans/${serial}/stowed?void=1&saved=#next`);
  expect(world.store.records.of(serial).map(({ bundle, what }) => `${bundle} ${what}`)).toEqual([`${next} in`]);
  const then = await world.text(location);
  expect(/id="next">(?:(?!<h2)[\s\S])*Kept\./.test(then)).toBe(true);
  expect(then).not.toContain(`data-next="${next}"`);
});

test('stowed so far folds what is in once there is more of it, and never what is next', async () => {
  const marks = ofVoid('V1').map(({ bundle }) => bundle);
  const part = async () => {
    const page = await world.text(`/plans/${serial}/stowed`);
    const own = page.slice(page.indexOf(`<section id="void-${voidNumber('V1')}"`));
    const [, done = '', open = ''] =
      /<details><summary>3 of them in already<\/summary>([\s\S]*?)<\/ol><\/details>([\s\S]*)/.exec(own) ?? [];
    const told = (text: string) => marks.filter((mark) => text.includes(`<strong>${mark}</strong>`));
    return [told(done), told(open)];
  };
  await tick(Object.fromEntries(marks.slice(0, 2).map((mark) => [`in.${numberOf(mark)}`, 'on'])));
  expect(await part()).toEqual([[], []]);
  await tick({ [`in.${numberOf(marks[3]!)}`]: 'on' });
  expect(await part()).toEqual([
    [marks[0], marks[1], marks[3]],
    [marks[2], marks[4], marks[5]],
  ]);
  // What is to be mended is in no shut fold.
  const refused = await tick({ [`lies.${numberOf(first)}`]: 'x'.repeat(NOTE_LONGEST + 1) });
  expect(await refused.text()).toContain('<details open><summary>3 of them in already');
  await tick({ whole: voidNumber('V1') });
  expect(await world.text(`/plans/${serial}/stowed`)).not.toContain('in already');
});

test('a void that is not begun is folded until its turn comes, or what is to be mended stands in it', async () => {
  // V2 lies higher, so that all of V1 goes in before it.
  const input = trialJobInput();
  const body = JSON.stringify({
    ...input,
    voids: input.voids.map((space) => (space.void === 'V2' ? { ...space, origin: { x: 4, y: 0, z: 3 } } : space)),
  });
  const job = world.store.jobs.add('Higher', body, '2026-05-04T10:00:00.000Z');
  world.planning.ask(job, { effort: 'quick', seed: 1, stops: null }, body);
  world.children.at(-1)?.say({ kind: 'plan', plan: JSON.stringify(plan) });
  serial = world.store.plannings.latest(job)?.plan ?? 0;
  const folds = async () =>
    [
      ...(await world.text(`/plans/${serial}/stowed`)).matchAll(/data-fold="(\w+)"( open)?><summary[^>]*>([^<]*)</g),
    ].map(([, name, open, words]) => `${name}${open ?? ''}: ${words}`);
  const [low, high] = [ofVoid('V1'), ofVoid('V2')];
  expect(await folds()).toEqual([
    'V1 open: Its bundles, in loading order',
    `V2: Its ${high.length} bundles: none is in yet`,
  ]);
  const refused = await tick({ [`lies.${numberOf(high[0]!.bundle)}`]: 'x'.repeat(NOTE_LONGEST + 1) });
  expect(await refused.text()).toContain('data-fold="V2" open');
  await tick(Object.fromEntries(low.slice(0, -2).map(({ bundle }) => [`in.${numberOf(bundle)}`, 'on'])));
  expect((await folds())[1]).toBe('V2 open: Its bundles, in loading order');
});

test('a survey of a void stowed in part begins with what can come out; the rest is folded', async () => {
  await tick({ whole: voidNumber('V1') });
  const page = await world.text(`/plans/${serial}/survey`);
  expect(page.match(/not in by the record<\/summary>/g)).toEqual(['not in by the record</summary>']);
  expect(page).toContain(`<details><summary>All ${ofVoid('V2').length} not in by the record</summary>`);
  await tick({ [`in.${numberOf(ofVoid('V2')[0]!.bundle)}`]: 'on' });
  const half = await world.text(`/plans/${serial}/survey`);
  const [before, after] = half.split('<summary>1 not in by the record</summary>');
  expect(before).toContain(`<strong>${ofVoid('V2')[0]!.bundle}</strong>`);
  expect(after).toContain(`<strong>${ofVoid('V2')[1]!.bundle}</strong>`);
  const refused = await survey({ [`pick.${numberOf(ofVoid('V2')[1]!.bundle)}`]: 'on', do: 'out', on: '2026-05-04' });
  expect(await refused.text()).toContain('<details open><summary>1 not in by the record</summary>');
});

test('a survey tells before a void is lifted out what comes off and how she floats meanwhile, only where something is in', async () => {
  await tick({ whole: voidNumber('V1') });
  const page = (await world.text(`/plans/${serial}/survey`)).replace(/\s+/g, ' ');
  expect(page.match(/<summary>Before /g)).toHaveLength(1);
  expect(page).toContain('<summary>Before all of it comes out</summary>');
  expect(page).toContain('No hold-down is entered for it');
  expect(page).toMatch(/Then 6 bundles from V1-06 on, [\d.]+ kg, each after the chocks that hold it/);
  expect(page).toContain('Nothing of this plan is in her then.');
  await tick({ [`in.${numberOf(ofVoid('V2')[0]!.bundle)}`]: 'on' });
  const more = await world.text(`/plans/${serial}/survey`);
  expect(more.match(/<summary>Before /g)).toHaveLength(2);
  expect(more).toContain('Before what is in of it comes out');
  expect(more).toContain('While it is out: ');
});
