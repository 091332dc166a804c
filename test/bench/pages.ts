/**
 * What pages cost: how long the server takes to make one, what it weighs compressed with its style and scripts, and when
 * it can be used on a slow machine over a slow line (CPU ÷ 4, 1.6 Mbit/s, 150 ms), in a real browser.
 *
 *     npm run bench -- pages [--times 5]
 */

import { parseArgs } from 'node:util';
import type { Browser } from 'playwright-core';
import { addDraft, demonstration } from '../../server/routes/jobs.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { planJob } from '../../src/plan/planner.ts';
import { openOwnBrowser } from '../browser/launch.ts';
import { weighPage } from '../browser/weight.ts';
import { keepPlan } from '../server/keepPlan.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';
import { openWorld, type World } from '../server/world.ts';
import { scaledJob } from './jobs.ts';

const SLOW = { latency: 150, downloadThroughput: 1_600_000 / 8, uploadThroughput: 1_600_000 / 8, offline: false };
const CPU = 4;
/** A machine that others use takes its time, ms. */
const PATIENCE = 120_000;

export async function run(args: string[]): Promise<void> {
  const { values } = parseArgs({ args, options: { times: { type: 'string', default: '5' } } });
  const times = Number(values.times);
  const world = await openWorld();
  const browser = await openOwnBrowser();
  try {
    console.log(
      'page                         server ms (first, least)   kB with drawings   kB without   ready ms (least, all)',
    );
    for (const [name, path] of await pagesOf(world)) {
      const server: number[] = [];
      for (let n = 0; n < times; n++) server.push(await timeServer(world, path));
      const weight = await weighPage(world.address, path);
      const seen: Ready[] = [];
      for (let n = 0; n < times; n++) seen.push(await timeReady(browser, world.address + path));
      const least = (pick: (one: Ready) => number): number => Math.round(Math.min(...seen.map(pick)));
      console.log(
        [
          name,
          `${Math.round(server[0] ?? 0)} the first time, then ${Math.round(Math.min(...server))}`,
          kB(weight.whole),
          kB(weight.withoutDrawings),
          `${least(({ ready }) => ready)} (${seen.map(({ ready }) => Math.round(ready)).join(' ')})`,
          least(({ busy }) => busy) * CPU,
        ].join(' | '),
      );
    }
  } finally {
    await browser.close();
    await world.close();
  }
}

async function pagesOf(world: World): Promise<[string, string][]> {
  const demo = demonstration();
  const job = addDraft({ store: world.store, clock: () => new Date() }, demo);
  const large = scaledJob({ voids: 60, sections: 12, lots: 40, bars: 2000 });
  const largeJob = addDraft(
    { store: world.store, clock: () => new Date() },
    large as unknown as Record<string, unknown>,
  );
  const read = readJobValue(demo);
  if (!read.ok) throw new Error('the demonstration has faults');
  const planned = await planJob(read.value.job, { effort: 'quick', seed: 1, jobDigest: read.value.digest });
  if (planned.kind !== 'plan') throw new Error('the demonstration could not be planned');
  const stacked = stackedPair({ voids: 60, runs: 2, tiers: 4, across: 5 });
  return [
    ['all jobs', '/'],
    ['job, demonstration', `/jobs/${job}`],
    ['plan, demonstration', `/plans/${keepPlan(world.store, job, demo, planned.plan, new Date().toISOString())}`],
    ['job of 60 voids', `/jobs/${largeJob}`],
    [
      'plan of 60 voids',
      `/plans/${keepPlan(world.store, largeJob, stacked.job, stacked.plan, new Date().toISOString())}`,
    ],
    ['manual', '/help'],
  ];
}

/** Of the process's own time, which does not grow where others use the machine. */
async function timeServer(world: World, path: string): Promise<number> {
  const begun = process.cpuUsage();
  const response = await world.get(path);
  await response.arrayBuffer();
  const { user, system } = process.cpuUsage(begun);
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  return (user + system) / 1000;
}

interface Ready {
  /** Until the page's scripts have run, ms by the clock. */
  ready: number;
  /** What the page's main thread worked for it, ms of its own time, as if the machine were not slowed. */
  busy: number;
}

/** With an empty cache. */
async function timeReady(browser: Browser, address: string): Promise<Ready> {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', SLOW);
  await session.send('Emulation.setCPUThrottlingRate', { rate: CPU });
  await page.goto(address, { waitUntil: 'load', timeout: PATIENCE });
  // As text, since this file knows no browser.
  const ready = await page.evaluate<number>("performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd");
  await context.close();

  const plain = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
  const meter = await plain.context().newCDPSession(plain);
  await meter.send('Performance.enable', { timeDomain: 'threadTicks' });
  await plain.goto(address, { waitUntil: 'load', timeout: PATIENCE });
  const { metrics } = await meter.send('Performance.getMetrics');
  await plain.context().close();
  const busy = (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? Number.NaN) * 1000;
  return { ready, busy };
}

function kB(bytes: number): string {
  return (bytes / 1000).toFixed(1);
}
