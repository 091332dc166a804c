import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { Word } from '../../server/planning/message.ts';
import { addDraft, demonstration } from '../../server/routes/jobs.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, type World } from '../server/world.ts';
import { findOverflow, findSmallTargets, findUneven } from './chromium.ts';
import { closeWindows, openBrowser } from './launch.ts';
import { weighPage } from './weight.ts';
import { DESK, openPage, PATIENCE, PHONE, seen, unfold, violations } from './window.ts';

vi.setConfig({ testTimeout: PATIENCE, hookTimeout: PATIENCE });

let browser: Browser;
let world: World;
beforeAll(async () => {
  browser = await openBrowser();
  world = await openWorld();
}, PATIENCE);
afterAll(async () => {
  await closeWindows(browser);
  await world?.close();
});

describe('a plan being worked out', () => {
  test('is told as it gets better, and stopped with the best kept', async () => {
    const other = await openWorld();
    const job = addDraft({ store: other.store, clock: () => new Date() }, trialJobInput() as Record<string, unknown>);
    other.planning.ask(job, { effort: 'thorough', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
    const page = await openPage(browser, PHONE);
    await page.goto(`${other.address}/jobs/${job}/planning`);
    const plan = JSON.stringify(trialPair().plan);
    const step = (value: number, bound: number): void =>
      other.children[0]?.say({ kind: 'progress', phase: 'filling voids', step: 1, value, bound, plan });
    step(20, 60);
    await page.getByText('worth 20 kg after scrap and labour; no plan is worth more than 60 kg').waitFor();
    step(30, 40);
    await seen(page.getByText('worth 30 kg'));
    expect(await page.locator('[data-worth]').getAttribute('width')).toBe('750');
    await seen(page.getByRole('button', { name: 'Enough, keep the best' }));
    expect(await violations(page)).toEqual([]);
    await page.reload();
    await page.getByRole('button', { name: 'Enough, keep the best' }).click();
    await page.getByRole('link', { name: 'Look at plan 1' }).click();
    await seen(page.getByRole('heading', { name: 'Plan 1' }));

    // And its other ends.
    for (const [title, end] of [
      ['No bundle can be placed', (): void => other.children.at(-1)?.say(NOTHING)],
      ['The plan was not finished', (): void => other.children.at(-1)?.end({ code: 1 })],
    ] as const) {
      other.planning.ask(job, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
      await page.goto(`${other.address}/jobs/${job}/planning`);
      end();
      await seen(page.getByRole('heading', { name: title }));
      expect(await violations(page)).toEqual([]);
    }
    await page.context().close();
    await other.close();
  });

  test('a line that is lost is told, and found again by itself', async () => {
    const other = await openWorld();
    const job = addDraft({ store: other.store, clock: () => new Date() }, trialJobInput() as Record<string, unknown>);
    other.planning.ask(job, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
    const page = await openPage(browser, PHONE);
    const events = '**/progress';
    const lost = page.getByRole('alert').filter({ hasText: 'No connection' });
    // Nobody answers; then something on the way does, with an answer of its own.
    for (const answer of ['none', 'another'] as const) {
      await page.route(events, (route) =>
        answer === 'none' ? route.abort() : route.fulfill({ status: 502, body: '' }),
      );
      if (answer === 'another') await page.clock.install();
      await page.goto(`${other.address}/jobs/${job}/planning`);
      await seen(lost);
      expect(await violations(page)).toEqual([]);
      await page.unroute(events);
      // Where nobody answers it is the browser that asks again, by a clock of its own.
      if (answer === 'another') await page.clock.fastForward(5000);
      await lost.waitFor({ state: 'hidden' });
    }
    other.children.at(-1)?.say(NOTHING);
    await seen(page.getByRole('heading', { name: 'No bundle can be placed' }));
    await page.context().close();
    await other.close();
  });
});

describe('a plan on its page', () => {
  test('bundles are lifted out and put back in breaking-out order, and a touched one tells its pieces', async () => {
    const plan = { ...trialPair().plan, choice: CHOICE };
    const job = addDraft({ store: world.store, clock: () => new Date() }, trialJobInput() as Record<string, unknown>);
    const serial = world.store.plans.add(planRow(job, plan, trialJobInput()));
    const page = await openPage(browser, PHONE);
    await page.goto(`${world.address}/plans/${serial}`);
    const [, ...others] = plan.bundles.filter((bundle) => bundle.void === 'V1').sort((p, q) => q.order - p.order);
    const first = await page
      .getByRole('link', { name: /^Lift out/ })
      .first()
      .textContent();
    await page
      .getByRole('link', { name: /^Lift out/ })
      .first()
      .click();
    await seen(page.getByRole('link', { name: `Lift out ${others[0]?.bundle}` }));
    expect(new URL(page.url()).search).toBe('');
    await page.getByRole('link', { name: first?.replace('Lift out', 'Put back') }).click();
    await seen(page.getByRole('link', { name: first ?? '' }));
    const bundle = others.at(-1)?.bundle ?? '';
    await page.locator(`.stow [data-name="${bundle}"]`).first().dispatchEvent('click');
    const slip = page.locator('.touched-bundle', { hasText: bundle });
    await seen(slip.locator('li').first());

    // On to a bar that it comes from, and from a piece of that bar back to the bundle.
    await slip
      .getByRole('link', { name: plan.bars[0]?.lot ?? 'A' })
      .first()
      .waitFor({ state: 'attached' });
    const bar = slip.locator('li a').first();
    const mark = (await bar.textContent()) ?? '';
    await bar.click();
    await page.waitForURL(/#cut-\d+$/);
    const cutting = page.locator(new URL(page.url()).hash);
    expect(await cutting.locator('h3').textContent()).toContain(mark.split('-')[0]);
    await cutting.locator('[data-name="1"]').dispatchEvent('click');
    const piece = cutting.locator('li.touched');
    const goes = (await piece.locator('a').first().textContent()) ?? '';
    await piece.locator('a').first().click();
    await seen(page.locator(`tr#at-${goes}`));
    expect(await page.locator(`.stow [data-name="${goes}"]`).first().getAttribute('class')).toContain('touched');

    // A point of the curve leads to its line.
    await page.getByRole('link', { name: '7 stops' }).click();
    await seen(page.locator('#stops-7').getByRole('button', { name: 'Plan it so' }));
    expect(new URL(page.url()).hash).toBe('#stops-7');

    // Printed, it has nothing that only leads on, and a sentence keeps the plan that it is about.
    await page.emulateMedia({ media: 'print' });
    for (const name of ['Papers', 'As the work goes'])
      expect(await page.getByRole('heading', { name, exact: true }).isVisible()).toBe(false);
    expect(await page.getByRole('heading', { name: 'What it comes to' }).isVisible()).toBe(true);
    await page.goto(`${world.address}/jobs/${job}`);
    expect(await page.getByRole('link', { name: `Plan ${serial}`, exact: true }).isVisible()).toBe(true);
    await page.context().close();
  });
});

describe('every page', () => {
  const hostile = `<img src=x onerror="document.title='broken in'">${'Very long name '.repeat(10)}`;
  let paths: string[] = [];
  let large = '';

  beforeAll(async () => {
    const clock = (): Date => new Date();
    const demo = addDraft({ store: world.store, clock }, demonstration());
    const input = trialJobInput();
    const job = { ...input, name: hostile, voids: input.voids.map((space) => ({ ...space, name: hostile })) };
    const trial = addDraft({ store: world.store, clock }, job as Record<string, unknown>);
    // One void: those of the page before stand on it as they are.
    const broken = addDraft({ store: world.store, clock }, {
      ...job,
      voids: job.voids.slice(0, 1),
      pile: [{ lot: 'A', length: 'long', colour: 'red' }],
      extra: 1,
    } as Record<string, unknown>);
    const oneMore = [{ what: 'height V1', worth: 1.3, text: '10 mm more height in V1 would be worth about 1.3 kg.' }];
    const plan = { ...trialPair().plan, choice: CHOICE, oneMore, binds: ['V1 has its target of 75 kg.'] };
    const row = planRow(trial, plan, job);
    const serial = world.store.plans.add(row);
    const second = world.store.plans.add(row);
    const marks = plan.bundles.map(({ bundle }) => bundle);
    const at = clock().toISOString();
    world.store.records.add(serial, [
      ...marks.slice(1).map((bundle) => ({ bundle, what: 'in' as const, note: '', at })),
      { bundle: marks[1]!, what: 'lies', note: hostile, at },
      ...marks.slice(-2).map((bundle) => ({ bundle, what: 'out' as const, note: hostile, at })),
    ]);
    const moments = { mass: 12, alongMoment: 40, acrossMoment: 1, heightMoment: 3 };
    const freeboards = { forward: 0.7, aft: null, port: 0.5, starboard: null };
    const aboard = { plan: serial, bundles: marks.slice(1), moments };
    const reading = {
      on: '2026-05-04',
      at: '',
      who: hostile,
      note: hostile,
      forward: 0.8,
      aft: 1,
      list: -1,
      period: 3,
    };
    for (const [number, struck] of [
      [null, false],
      [1, false],
      [null, true],
    ] as const) {
      const seen = number === null ? 0 : 1;
      const told = { ...reading, forward: struck ? 1 : 0.8 + seen / 100, freeboards, aboard, struck };
      world.store.taken.add(trial, { number, seen, form: '', reading: told }, at);
    }
    world.store.jobs.save(trial, 0, 'x', '{"name":"beside"}', clock().toISOString());
    large = `/jobs/${demo}`;
    paths = [
      '/',
      `/jobs/${demo}`,
      `/jobs/${trial}`,
      `/jobs/${broken}`,
      `/jobs/${demo}/planning`,
      `/plans/${serial}`,
      `/plans/${serial}/beside/${second}`,
      `/b/${serial}/${plan.bundles[0]?.bundle}`,
      `/plans/${serial}/first-cuts`,
      `/plans/${serial}/weighed`,
      `/plans/${serial}/stowed`,
      `/plans/${serial}/survey`,
      `/plans/${serial}/left`,
      `/plans/${serial}/tags`,
      `/plans/${serial}/trial`,
      `/plans/${serial}/read`,
      `/plans/${serial}/read?correct=1`,
      `/plans/${serial}/moves?list=2+to+port&wantForward=1`,
      `/jobs/${demo}/afloat`,
      `/jobs/${trial}/lift`,
      `/jobs/${trial}/hold`,
      '/help',
      '/nowhere',
    ];
  });

  test(
    'fits a phone, with targets for gloved fingers, and a desk, and is accessible by day and by night',
    async () => {
      const page = await openPage(browser, PHONE);
      const device = await page.context().newCDPSession(page);
      const turnInto = async (how: typeof PHONE | typeof DESK): Promise<void> => {
        await device.send('Emulation.setTouchEmulationEnabled', { enabled: how === PHONE });
        await page.setViewportSize(how.viewport!);
      };
      await visitAll(page, async (path) => {
        await expectFit(page, path);
        await turnInto(DESK);
        await expectFit(page, path);
        // The demonstration has the kinds of fields that the trial job has, only more of them.
        if (path !== large) {
          expect(await violations(page), path).toEqual([]);
          // By night only the colours are others.
          await page.emulateMedia({ colorScheme: 'dark' });
          expect(await violations(page, true), path).toEqual([]);
          await page.emulateMedia({ colorScheme: 'light' });
        }
        await turnInto(PHONE);
      });
      await page.context().close();
    },
    2 * PATIENCE,
  );

  test('weighs no more than 150 kB compressed, with its style and scripts and without its drawings', async () => {
    const weighed = new Map<string, number>();
    for (const path of paths.filter((path) => path !== '/nowhere')) {
      const { withoutDrawings } = await weighPage(world.address, path, weighed);
      expect(withoutDrawings, path).toBeLessThan(150_000);
    }
  });

  /** As it is folded, and unfolded; leaves it unfolded. */
  async function expectFit(page: Page, path: string): Promise<void> {
    await page.evaluate(() => {
      for (const details of document.querySelectorAll<HTMLElement>('[data-was-folded]'))
        details.removeAttribute('open');
      for (const details of document.querySelectorAll('details:not([open])'))
        details.setAttribute('data-was-folded', '');
    });
    expect(await findOverflow(page), path).toEqual([]);
    await unfold(page);
    expect(await findOverflow(page), path).toEqual([]);
    expect(await findSmallTargets(page), path).toEqual([]);
    expect(await findUneven(page), path).toEqual([]);
    expect(await page.title(), path).not.toBe('broken in');
  }

  /** Every page, the one of a list of bars with them. */
  async function visitAll(page: Page, look: (path: string) => Promise<void>): Promise<void> {
    for (const path of paths) {
      await page.goto(world.address + path);
      await look(path);
    }
    await page.goto(world.address);
    const list = `Mark;Profile;Length;Remark\nA;round 32;5480;${hostile.replaceAll('"', '')}\nA;flat;about 3 m;`;
    await page.setInputFiles('#bring-file', { name: 'yard.csv', mimeType: 'text/csv', buffer: Buffer.from(list) });
    await page.getByRole('button', { name: 'Bring it in' }).click();
    await seen(page.getByRole('heading', { name: 'A list of bars' }));
    await look('a list of bars');
  }
});

const NOTHING: Word = {
  kind: 'nothing',
  reasons: [{ void: 'V1', why: 'No bar fits.', remedy: 'Measure again.' }],
};

const CHOICE = [2, 3, 7].map((stops) => ({
  stops,
  value: 25 + stops,
  placedMass: 40,
  scrapMass: 1,
  minutes: 90,
  chosen: stops === 3,
}));

function planRow(job: number, plan: Plan, jobInput: object): Parameters<World['store']['plans']['add']>[0] {
  const { totals, bound, effort, jobDigest } = plan;
  return {
    job,
    jobDigest,
    digest: jobDigest,
    jobBody: JSON.stringify(jobInput),
    body: JSON.stringify(plan),
    summary: { totals, bound, effort },
    stoppedEarly: false,
    madeAt: new Date().toISOString(),
  };
}
