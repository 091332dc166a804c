import { expect, test } from 'vitest';
import type { Job, KeepOut } from '../../src/job/job.ts';
import { chocksOf, looseness } from '../../src/plan/chocks.ts';
import { openEndCautions, openEnds } from '../../src/plan/openEnds.ts';
import { layVoid } from '../../src/stow/laid.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';

const { job, plan } = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 2 });
const v1 = { ...layVoid(job.voids[0]!)[0]!, keepOut: [] };
const end = Math.max(...plan.runs.filter((run) => run.void === 'V1').map(({ to }) => to));
const bolt = (more: Partial<KeepOut> = {}): KeepOut => ({
  what: 'keel bolt',
  along: [end + 60, end + 80],
  across: [-v1.width / 2, v1.width / 2],
  up: [0, 40],
  access: true,
  ...more,
});
const told = (...keepOut: KeepOut[]) =>
  openEnds({ ...v1, keepOut }, plan).map((open) => ({ ...open, bundles: open.bundles.map(({ bundle }) => bundle) }));
const ofTier = (tier: number) =>
  plan.bundles.filter((own) => own.void === 'V1' && own.run === 2 && own.tier === tier).map(({ bundle }) => bundle);

test('where chocks of the list fill every end nothing is told', () => {
  expect(chocksOf(v1, plan).some(({ side }) => side === 'last end')).toBe(true);
  expect(told()).toEqual([]);
});

test('a bolt over the whole breadth takes the place of the chock: what could slide is told, how far and up to what', () => {
  const open = { run: 2, end: 'last end', taken: ['keel bolt'] };
  expect(told(bolt())).toEqual([
    { ...open, bundles: ofTier(1), room: 60, against: 'keel bolt' },
    { ...open, bundles: ofTier(2), room: v1.length - end, against: null },
  ]);
  // Not to stay reachable, it leaves room for a chock above it.
  expect(told(bolt({ access: false })).map(({ bundles }) => bundles)).toEqual([ofTier(1)]);
});

test('what bears keeps a run by a chock, and without one where it is close', () => {
  const floor = bolt({ what: 'floor', access: false, bears: true, up: [0, v1.height] });
  expect(told(floor)).toEqual([]);
  const near = (gap: number) => told({ ...floor, along: [end + gap, end + gap + 10] }, bolt({ along: [end, end + 1] }));
  const least = 15 + looseness(v1);
  expect(near(least - 1)).toEqual([]);
  expect(near(least)).toMatchObject([
    { bundles: ofTier(1), against: 'keel bolt', room: 0 },
    { bundles: ofTier(2), against: 'floor', room: least, taken: ['keel bolt'] },
  ]);
});

test('between runs both are told where neither has a chock', () => {
  const [first, second] = plan.runs.filter((run) => run.void === 'V1');
  const apart = { ...plan, runs: plan.runs.map((run) => (run === second ? { ...run, from: run.from + 90 } : run)) };
  const between = bolt({ along: [first!.to + 30, first!.to + 50], access: false, up: [0, v1.height] });
  const ends = openEnds({ ...v1, keepOut: [between] }, apart);
  expect(ends.map(({ run, end: which, against }) => [run, which, against])).toEqual([
    [1, 'last end', 'keel bolt'],
    [2, 'first end', 'keel bolt'],
  ]);
});

test('is a caution of its void, with what to do', () => {
  const voids = job.voids.map((space) => ({ ...space, keepOut: space.void === 'V1' ? [bolt()] : [] })) as Job['voids'];
  const [caution, ...more] = openEndCautions({ ...job, voids }, plan);
  expect(more).toEqual([]);
  expect(caution).toMatchObject({ code: 'slides-along', about: 'void V1' });
  expect(caution!.text).toContain(
    `${ofTier(1).join(', ')} of run 2 may slide 60 mm forward, up to keel bolt: no chock of the list fits there.`,
  );
  expect(caution!.text).toContain(
    `mm forward, up to the end of the void: no chock of the list fits there; kept clear there: keel bolt.`,
  );
  const close = [{ ...job.voids[0]!, keepOut: [bolt({ along: [end, end + 20] })] }, voids[1]!] as Job['voids'];
  expect(openEndCautions({ ...job, voids: close }, plan)[0]!.text).toContain(
    `${ofTier(1).join(', ')} of run 2 bear forward on keel bolt: no chock`,
  );
  expect(caution!.text).toMatch(/never on what is kept clear; or .* and plan again\.$/);
});
