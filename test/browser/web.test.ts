import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest';
import { launchProcess } from '../../server/planning/launch.ts';
import type { Word } from '../../server/planning/message.ts';
import { LIMITS } from '../../server/planning/planning.ts';
import { addDraft, demonstration } from '../../server/routes/jobs.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';
import { openWorld, type World } from '../server/world.ts';
import { collectComplaints, findOverflow, findSmallTargets } from './chromium.ts';
import { openBrowser } from './launch.ts';
import { weighPage } from './weight.ts';

/** Put in by the driver itself: the pages' policy lets no other script in. */
const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const PHONE: BrowserContextOptions = { viewport: { width: 390, height: 844 }, hasTouch: true };
const DESK: BrowserContextOptions = { viewport: { width: 1280, height: 900 } };

/** A plan takes its time where other tests run beside it. */
const PATIENCE = 90_000;
vi.setConfig({ testTimeout: PATIENCE, hookTimeout: PATIENCE });

let browser: Browser;
let world: World;
beforeAll(async () => {
  browser = await openBrowser();
  world = await openWorld(LIMITS, launchProcess);
}, 60_000);
afterAll(async () => {
  await browser?.close();
  await world?.close();
});

describe('from nothing to printed tags', () => {
  test.each([
    ['at a desk', DESK],
    ['on a phone', PHONE],
    ['with scripts off', { ...DESK, javaScriptEnabled: false }],
  ] as const)('%s', async (_name, how) => {
    const page = await openPage(how);
    const complaints = collectComplaints(page);
    await page.goto(world.address);
    await page.getByLabel('Name of the job').fill('First boat');
    await page.getByRole('button', { name: 'New job' }).click();
    await typeJob(page);
    await page.getByRole('button', { name: 'Save and plan' }).click();
    await waitForPlan(page);
    expect(await page.getByText('NOT SECURED, DO NOT GO TO SEA').count()).toBeGreaterThan(0);
    for (const paper of ['Saw sheet', 'Tags', 'Stowage sheets']) {
      const address = await page.getByRole('link', { name: paper, exact: true }).getAttribute('href');
      const response = await page.request.get(world.address + address);
      expect((await response.body()).subarray(0, 5).toString()).toBe('%PDF-');
    }
    await page.getByText('Its bundles, in loading order').first().click();
    const mark = (await page.locator('.bundles th a').first().textContent()) ?? '';
    await page.goto(`${world.address}/b/${page.url().split('/').at(-1)}/${mark}`);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe(mark);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('with the keyboard alone', async () => {
    const page = await openPage(DESK);
    await page.goto(world.address);
    await tabTo(page, '#new-name');
    await page.keyboard.type('Keyboard boat');
    await page.keyboard.press('Enter');
    await page.waitForURL(/\/jobs\/\d+/);
    await tabTo(page, '[name="pile[0].section.shape"]');
    await page.keyboard.type('square');
    for (const text of ['20', '3 m', '8']) {
      await page.keyboard.press('Tab');
      await page.keyboard.type(text);
    }
    await page.keyboard.press('Enter');
    expect(await focused(page)).toBe('pile[1].lot');
    await tabTo(page, '[name="voids[0].length"]');
    for (const text of ['900', '240', '120']) {
      await page.keyboard.type(text);
      await page.keyboard.press('Tab');
    }
    await tabTo(page, '#wish-effort');
    await page.keyboard.type('quickly');
    await tabTo(page, 'button[value="plan"]');
    await page.keyboard.press('Enter');
    await waitForPlan(page);
    await page.context().close();
  });
});

describe('typing', () => {
  let page: Page;
  beforeEach(async () => {
    page = await openPage(DESK);
    await page.goto(
      `${world.address}/jobs/${addDraft({ store: world.store, clock: () => new Date() }, trialJobInput() as Record<string, unknown>)}`,
    );
    return () => page.context().close();
  });

  test('feet and inches, a decimal comma and a bare number are read and told in millimetres', async () => {
    const length = page.locator('[name="voids[0].length"]');
    for (const [typed, told] of [
      [`3' 4 1/2"`, '= 1028.7 mm'],
      ['1,05 m', '= 1050 mm'],
      ['98,5 cm', '= 985 mm'],
      ['1,280', 'Not read as a number'],
    ]) {
      await length.fill(typed as string);
      await page.locator('#voids-0-length-echo', { hasText: told as string }).waitFor();
    }
    await length.fill('1010');
    await page.locator('#voids-0-length-echo').waitFor({ state: 'detached' });
    await page.locator('#voids-0 svg', { hasText: '260' }).first().waitFor();
  });

  test('the drawing follows the reading, from each side', async () => {
    await page.getByRole('button', { name: 'from above' }).first().click();
    await page.locator('[name="voids[0].length"]').fill('1234');
    await page.locator('#voids-0 [data-view="above"] svg', { hasText: '1234' }).waitFor();
    expect(await page.locator('#voids-0 [data-view="aft"]').isVisible()).toBe(false);
  });

  test('something to stay off is moved by dragging, and its numbers follow', async () => {
    const along = page.locator('[name="voids[0].keepOut[0].along"]');
    expect(await along.inputValue()).toBe('560 to 600');
    await page.getByRole('button', { name: 'from above' }).first().click();
    const bolt = page.locator('#voids-0 [data-view="above"] .handle.of-keepOut').first();
    const drawn = page.locator('#voids-0 [data-view="above"] [data-name="keepOut[0]"]');
    const scale = Number(await page.locator('#voids-0 [data-view="above"]').getAttribute('data-scale'));
    const perPixel = await drawn.evaluate((shape) => {
      const { ownerSVGElement: picture } = shape as SVGGElement;
      return picture!.viewBox.baseVal.width / picture!.getBoundingClientRect().width;
    });
    await bolt.scrollIntoViewIfNeeded();
    const box = (await bolt.boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 60, y, { steps: 4 });
    await page.mouse.up();
    const by = Math.round((60 * perPixel * scale) / 5) * 5;
    expect(by).toBeGreaterThan(0);
    expect(await along.inputValue()).toBe(`${560 + by} to ${600 + by}`);
    await expect.poll(async () => (await bolt.boundingBox())!.x).toBeGreaterThan(box.x + 40);

    // And with the arrow keys, while its handle has the focus; the drawing follows a number that is typed.
    const across = page.locator('[name="voids[0].keepOut[0].across"]');
    const [, from] = /^(-?\d+) to/.exec(await across.inputValue()) ?? [];
    await bolt.focus();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Shift+ArrowLeft');
    expect(await across.inputValue()).toMatch(new RegExp(`^${Number(from) + 5} to`));
    expect(await along.inputValue()).toBe(`${510 + by} to ${550 + by}`);
    await expect.poll(() => bolt.getAttribute('aria-label')).toContain(`${510 + by} to ${550 + by} along`);
    await along.fill('100 to 140');
    await expect.poll(async () => (await bolt.boundingBox())!.x).toBeLessThan(box.x);
  });

  test('a station taken down from a level batten gives its readings, and the drawing follows', async () => {
    await page.locator('button[value="shape voids[0]"]').click();
    await page.waitForURL(/#voids-0-stations/);
    await page.locator('[name="voids[0].stations[0].batten.up"]').fill('100');
    await page.locator('[name="voids[0].stations[0].batten.readings"]').fill('-120: 10\n0: 100\n130: 20');
    const at = page.locator('[name="voids[0].stations[0].at"]');
    await expect.poll(() => at.inputValue()).toBe('0: 0 to 0\n80: -106.6 to 130\n90: -120 to 130');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.waitForURL(/saved=1/);
    expect(await at.inputValue()).toBe('0: 0 to 0\n80: -106.6 to 130\n90: -120 to 130');
    expect(await page.locator('[name="voids[0].stations[0].batten.readings"]').inputValue()).toBe(
      '-120: 10\n0: 100\n130: 20',
    );
  });

  test('a line typed below the last lot is weighed at once, another stands ready, and both are kept', async () => {
    await page.locator('[name="pile[4].section.shape"]').selectOption('round');
    await page.locator('[name="pile[4].section.sizes"]').fill('20');
    await page.locator('[name="pile[4].length"]').fill('2000');
    await page.locator('[data-sum="pile-4"]', { hasText: '4.93 kg' }).waitFor();
    await page.locator('[name="pile[5].lot"]').fill('X');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.waitForURL(/saved=1/);
    expect(await page.locator('[name="pile[4].lot"]').inputValue()).toBe('E');
    expect(await page.locator('[name="pile[5].lot"]').inputValue()).toBe('X');
  });

  test('of two windows the second to save is told, and chooses', async () => {
    const other = await page.context().newPage();
    await other.goto(page.url());
    await page.locator('[name="voids[0].name"]').fill('Under the stove');
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.waitForURL(/saved=1/);
    await other.locator('[name="voids[0].name"]').fill('Under the sink');
    await other.getByRole('button', { name: 'Save', exact: true }).click();
    await other.getByRole('heading', { name: 'This job was changed in another window' }).waitFor();
    expect(await other.locator('[name="voids[0].name"]').inputValue()).toBe('Under the stove');
    await other.getByRole('button', { name: 'Use the text kept beside' }).click();
    await other.locator('[name="voids[0].name"]').waitFor();
    expect(await other.locator('[name="voids[0].name"]').inputValue()).toBe('Under the sink');
    expect(await other.getByText('Under the stove').count()).toBe(1);
  });
});

describe('a plan being worked out', () => {
  test('is told as it gets better, and stopped with the best kept', async () => {
    const other = await openWorld();
    const job = addDraft({ store: other.store, clock: () => new Date() }, trialJobInput() as Record<string, unknown>);
    other.planning.ask(job, { effort: 'thorough', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
    const page = await openPage(PHONE);
    await page.goto(`${other.address}/jobs/${job}/planning`);
    const plan = JSON.stringify(trialPair().plan);
    const step = (value: number, bound: number): void =>
      other.children[0]?.say({ kind: 'progress', phase: 'filling voids', step: 1, value, bound, plan });
    step(20, 60);
    await page.getByText('worth 20 kg after scrap and labour; no plan is worth more than 60 kg').waitFor();
    step(30, 40);
    await page.getByText('worth 30 kg').waitFor();
    expect(await page.locator('[data-worth]').getAttribute('width')).toBe('750');
    await page.getByRole('button', { name: 'Enough, keep the best' }).waitFor();
    await page.evaluate(AXE);
    expect(await violations(page)).toEqual([]);
    await page.reload();
    await page.getByRole('button', { name: 'Enough, keep the best' }).click();
    await page.getByRole('link', { name: 'Look at plan 1' }).click();
    await page.getByRole('heading', { name: 'Plan 1' }).waitFor();

    // And its other ends.
    for (const [title, end] of [
      ['No bundle can be placed', (): void => other.children.at(-1)?.say(NOTHING)],
      ['The plan was not finished', (): void => other.children.at(-1)?.end({ code: 1 })],
    ] as const) {
      other.planning.ask(job, { effort: 'quick', seed: 1, stops: null }, JSON.stringify(trialJobInput()));
      await page.goto(`${other.address}/jobs/${job}/planning`);
      end();
      await page.getByRole('heading', { name: title }).waitFor();
      await page.evaluate(AXE);
      expect(await violations(page)).toEqual([]);
    }
    await page.context().close();
    await other.close();
  });
});

describe('a plan on its page', () => {
  test('bundles are lifted out and put back in breaking-out order, and a touched one tells its pieces', async () => {
    const plan = { ...trialPair().plan, choice: CHOICE };
    const job = addDraft({ store: world.store, clock: () => new Date() }, trialJobInput() as Record<string, unknown>);
    const serial = world.store.plans.add(planRow(job, plan, trialJobInput()));
    const page = await openPage(PHONE);
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
    await page.getByRole('link', { name: `Lift out ${others[0]?.bundle}` }).waitFor();
    expect(new URL(page.url()).search).toBe('');
    await page.getByRole('link', { name: first?.replace('Lift out', 'Put back') }).click();
    await page.getByRole('link', { name: first ?? '' }).waitFor();
    const bundle = others.at(-1)?.bundle ?? '';
    await page.locator(`.stow [data-name="${bundle}"]`).first().dispatchEvent('click');
    const slip = page.locator('.touched-bundle', { hasText: bundle });
    await slip.locator('li').first().waitFor();

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
    await page.locator(`tr#at-${goes}`).waitFor();
    expect(await page.locator(`.stow [data-name="${goes}"]`).first().getAttribute('class')).toContain('touched');

    // A point of the curve leads to its line.
    await page.getByRole('link', { name: '7 stops' }).click();
    await page.locator('#stops-7').getByRole('button', { name: 'Plan it so' }).waitFor();
    expect(new URL(page.url()).hash).toBe('#stops-7');
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
    const broken = addDraft({ store: world.store, clock }, {
      ...job,
      pile: [{ lot: 'A', length: 'long', colour: 'red' }],
      extra: 1,
    } as Record<string, unknown>);
    const oneMore = [{ what: 'height V1', worth: 1.3, text: '10 mm more height in V1 would be worth about 1.3 kg.' }];
    const plan = { ...trialPair().plan, choice: CHOICE, oneMore, binds: ['V1 has its target of 75 kg.'] };
    const row = planRow(trial, plan, job);
    const serial = world.store.plans.add(row);
    const second = world.store.plans.add(row);
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
      `/plans/${serial}/tags`,
      `/plans/${serial}/trial`,
      `/jobs/${demo}/afloat`,
      `/plans/${serial}/weighed`,
      `/plans/${serial}/tags`,
      `/jobs/${trial}/lift`,
      `/jobs/${trial}/hold`,
      '/help',
      '/nowhere',
    ];
  });

  test('fits a phone, with targets for gloved fingers', async () => {
    const page = await openPage(PHONE);
    await visitAll(page, (path) => expectFit(page, path));
    await page.context().close();
  });

  test(
    'fits a desk, and is accessible by day and by night',
    async () => {
      const page = await openPage(DESK);
      await visitAll(page, async (path) => {
        await expectFit(page, path);
        // The demonstration has the kinds of fields that the trial job has, only more of them.
        if (path === large) return;
        await page.evaluate(AXE);
        expect(await violations(page), path).toEqual([]);
        // By night only the colours are others.
        await page.emulateMedia({ colorScheme: 'dark' });
        expect(await violations(page, true), path).toEqual([]);
        await page.emulateMedia({ colorScheme: 'light' });
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

  /** Folded and unfolded; leaves it unfolded. */
  async function expectFit(page: Page, path: string): Promise<void> {
    expect(await findOverflow(page), path).toEqual([]);
    await unfold(page);
    expect(await findOverflow(page), path).toEqual([]);
    expect(await findSmallTargets(page), path).toEqual([]);
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
    await page.getByRole('heading', { name: 'A list of bars' }).waitFor();
    await look('a list of bars');
  }
});

function unfold(page: Page): Promise<void> {
  return page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
}

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

async function openPage(how: BrowserContextOptions): Promise<Page> {
  const context = await browser.newContext(how);
  context.setDefaultNavigationTimeout(PATIENCE);
  return context.newPage();
}

/** Waits for the page of the plan; a planning that ended otherwise is told as what its page says. */
async function waitForPlan(page: Page): Promise<void> {
  const told = page.getByRole('heading', { name: /^(Plan \d+|The plan was not finished|No bundle can be placed)$/ });
  await told.waitFor({ timeout: PATIENCE - 10_000 });
  expect(await page.locator('main').textContent()).toContain('What it comes to');
}

async function typeJob(page: Page): Promise<void> {
  await page.locator('[name="pile[0].section.shape"]').selectOption('square');
  await page.locator('[name="pile[0].section.sizes"]').fill('20');
  await page.locator('[name="pile[0].length"]').fill('3 m');
  await page.locator('[name="pile[0].count"]').fill('12');
  await page.locator('[name="voids[0].length"]').fill(`3' 4"`);
  await page.locator('[name="voids[0].width"]').fill('260');
  await page.locator('[name="voids[0].height"]').fill('12,5 cm');
  await page.locator('#wish-effort').selectOption('quick');
}

/** Presses Tab until the element has the focus. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let n = 0; n < 150; n++) {
    if (await page.evaluate((wanted) => document.activeElement?.matches(wanted) ?? false, selector)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`${selector} can not be reached by Tab`);
}

function focused(page: Page): Promise<string | null> {
  return page.evaluate(() => document.activeElement?.getAttribute('name') ?? null);
}

/** What axe finds against WCAG 2.2 A and AA. */
async function violations(page: Page, coloursAlone = false): Promise<string[]> {
  return page.evaluate(async (colours) => {
    const { axe } = window as unknown as {
      axe: { run(where: Document, how: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const found = await axe.run(document, {
      runOnly: colours ? ['color-contrast'] : ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'],
    });
    return found.violations.map(
      ({ id, nodes }) =>
        `${id}: ${nodes
          .slice(0, 3)
          .map((node) => node.html.slice(0, 160))
          .join(' | ')} (${nodes.length})`,
    );
  }, coloursAlone);
}
