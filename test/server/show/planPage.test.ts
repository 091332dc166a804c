/** What a plan's page and a bundle's page tell of the saw and of what can slide is what the papers tell. */
import { expect, test } from 'vitest';
import { recordPlan } from '../../../server/planning/record.ts';
import { showBars, showBundle } from '../../../server/show/planPage.ts';
import { alikeBars } from '../../../src/plan/stops.ts';
import { trialPair } from '../../plan/trialPlan.ts';
import { bringPlanned } from '../keepPlan.ts';
import { stackedPair } from '../paper/stackedPlan.ts';
import { openWorld } from '../world.ts';

const { job, plan } = trialPair();
/** What is squared off each end of a bar of lot A, mm. */
const SQUARED = 5;

test('pieces are cut from the squared end of their bar, or from where it is parted, as on the saw sheet', () => {
  const bar = plan.bars.find(({ lot }) => lot === 'A')!;
  // What is spoiled ends before 1450: what lies behind is cut from there.
  const expected = bar.pieces.map(({ from, to }) => (from < 1450 ? [0, to - SQUARED] : [1450 - SQUARED, to - 1450]));
  expect(new Set(expected.map(([behind]) => behind)).size).toBe(2);
  const [group] = showBars(job, alikeBars(job, plan), { first: 0, count: 1 });
  expect(group!.pieces.map(({ behind, to }) => [behind, to])).toEqual(expected);
  const bundle = plan.bundles.find(({ slots }) => slots.flat().includes(bar.pieces[0]!.piece))!;
  const shown = showBundle(job, plan, bundle, bundle.mass).pieces.flat();
  expect(shown.find((piece) => piece.bar === bar.bar)).toMatchObject({ from: 0, to: expected[0]![1] });
});

test('the bars of a page are drawn to one scale, the longest full width, and what is left of each is told', () => {
  const groups = alikeBars(job, plan);
  const shown = showBars(job, groups, { first: 0, count: groups.length });
  const lengths = groups.map(([bar]) => bar!.length);
  expect(new Set(lengths).size).toBeGreaterThan(1);
  const sizes = shown.map(({ svg }) => /^<svg[^>]* width="([\d.]+)rem" viewBox="0 0 ([\d.]+) [\d.]+"/.exec(svg)!);
  // What a millimetre of drawing is on the page, and what a millimetre of bar is in the drawing, is one for all.
  expect(Math.max(...sizes.map(([, rem, wide]) => Math.abs(Number(rem) / Number(wide) - 40 / 125)))).toBeLessThan(
    0.001,
  );
  for (const [n, { svg, left }] of shown.entries()) {
    const drawn = Number(/<rect class="k-hollow"[^>]* width="([\d.]+)"/.exec(svg)![1]);
    expect(drawn).toBeCloseTo((125 * lengths[n]!) / Math.max(...lengths), 1);
    expect(left.map(({ length }) => length)).toEqual(groups[n]![0]!.remainders.map(({ from, to }) => to - from));
  }
});

test('bundles that nothing keeps from sliding over the run beside theirs are told once, with their void', async () => {
  const stacked = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 2 });
  const less = stacked.plan.bundles.filter(({ void: name, run, tier }) => name === 'V1' || run === 1 || tier === 1);
  const body = JSON.stringify(stacked.job);
  const world = await openWorld();
  const id = Number((await world.bring(body)).split('/').at(-1));
  const page = async (bundles: typeof less) => {
    const text = JSON.stringify({ ...stacked.plan, bundles });
    return world.text(
      `/plans/${recordPlan(world.store, { job: id, body }, text, null, false, '2026-05-04T10:00:00Z')}`,
    );
  };
  const whole = await page(stacked.plan.bundles);
  const told = await page(less);
  await world.close();
  expect(whole).not.toContain('from sliding over that run');
  const parts = told.split(/<article class="stow"/).map((part) => part.split('from sliding over that run').length - 1);
  expect(parts).toEqual([0, 0, 1]);
  const high = less.filter(({ void: name, tier }) => name === 'V2' && tier === 2).map(({ bundle }) => bundle);
  expect(told).toContain(`${high.join(', ')} of run 1 stand higher than run 2 beside them`);
});

test('a run that may slide along, up to what is kept clear, is told with its void, on the page of its hold-down too', async () => {
  const { job, plan } = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 2 });
  const end = Math.max(...plan.runs.filter((run) => run.void === 'V2').map(({ to }) => to));
  const world = await openWorld();
  const pages = async (kept: boolean) => {
    const keepOut = [{ what: 'keel bolt', along: [end + 60, end + 80], across: [-500, 500], up: [0, 40] }];
    const voids = job.voids.map((own) => (kept && own.void === 'V2' ? { ...own, keepOut } : own));
    const { id, serial } = await bringPlanned(world, { ...job, voids }, plan);
    return [await world.text(`/plans/${serial}`), await world.text(`/jobs/${id}/hold?void=2`)];
  };
  for (const page of await pages(false)) expect(page).not.toContain('may slide');
  const [plain, hold] = await pages(true);
  await world.close();
  const parts = plain!.split(/<article class="stow"/).map((part) => part.split('may slide 60 mm forward').length - 1);
  expect(parts.slice(1)).toEqual([0, 1]);
  expect(hold).toMatch(/of run 2 may slide 60 mm forward, up to keel bolt/);
});
