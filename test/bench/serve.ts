/**
 * The server under strain: how quickly pages answer while a large job is planned, how quickly planning stops, what
 * hostile requests get, and whether a save that was answered survives a server that is killed.
 *
 *     npm run bench -- serve [--seconds 20] [--hostile 200] [--kills 50] [--seed 1]
 */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { throwDice } from './dice.ts';
import { findWrong, hostileRequests, send } from './hostile.ts';
import { scaledJob } from './jobs.ts';

const PORT = 18_017;
const ADDRESS = `http://127.0.0.1:${PORT}`;

export async function run(args: string[]): Promise<void> {
  const { values } = parseArgs({
    args,
    options: {
      seconds: { type: 'string', default: '20' },
      hostile: { type: 'string', default: '200' },
      kills: { type: 'string', default: '50' },
      seed: { type: 'string', default: '1' },
    },
  });
  const folder = mkdtempSync(join(tmpdir(), 'kentledge-serve-'));
  const servers: ChildProcess[] = [];
  const start = async (): Promise<ChildProcess> => {
    const server = startServer(folder);
    servers.push(server);
    await started(server);
    return server;
  };
  try {
    await measurePages(start, Number(values.seconds));
    await sendHostile(start, Number(values.hostile), Number(values.seed));
    await killOften(start, Number(values.kills), Number(values.seed));
  } finally {
    for (const server of servers) server.kill('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Pages while a thorough plan of 60 voids, 40 lots and 2,000 bars is worked out, then the stop. */
async function measurePages(start: Start, seconds: number): Promise<void> {
  const server = await start();
  const token = await tokenOf('/');
  await until(async () => /\/plans\/1/.test(await textOf('/')), 120);
  const job = await bring(token, JSON.stringify(scaledJob({ voids: 60, sections: 12, lots: 40, bars: 2000 })));
  const asked = await post(`${job}`, { token, revision: '1', 'wish.effort': 'thorough', do: 'plan' });
  if (!asked.headers.get('location')?.endsWith('/planning')) throw new Error(`planning was refused: ${asked.status}`);
  await new Promise((resolve) => setTimeout(resolve, 1000));
  const paths = ['/', '/jobs/1', '/plans/1', '/help', `${job}/planning`, job];
  const times = new Map<string, number[]>(paths.map((path) => [path, []]));
  const end = performance.now() + seconds * 1000;
  let planning = true;
  for (let n = 0; performance.now() < end; n++) {
    const path = paths[n % paths.length] as string;
    const begun = performance.now();
    const response = await fetch(ADDRESS + path);
    const page = await response.text();
    times.get(path)?.push(performance.now() - begun);
    if (response.status !== 200) throw new Error(`${path} answered ${response.status}`);
    if (path.endsWith('/planning')) planning = page.includes('A plan is being worked out');
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
  console.log(
    `pages while a thorough plan of 60 voids ${planning ? 'was worked out all the time' : 'was worked out, which ended before the measuring did'}:`,
  );
  for (const [path, some] of times) console.log(`  ${path.padEnd(18)} ${tell(some)}`);
  console.log(`  ${'all'.padEnd(18)} ${tell([...times.values()].flat())}`);
  const begun = performance.now();
  const stopped = await post(`${job}/stop`, { token });
  console.log(
    `stop            ${Math.round(performance.now() - begun)} ms, status ${stopped.status}; ${/plans\/\d+/.test(await textOf(`${job}/planning`)) ? 'the best plan so far was kept' : 'no plan had been found yet'}`,
  );
  await stop(server, 'SIGTERM');
}

async function sendHostile(start: Start, count: number, seed: number): Promise<void> {
  const server = await start();
  const token = await tokenOf('/');
  const statuses = new Map<number, number>();
  const wrong: string[] = [];
  for (const hostile of hostileRequests(count, seed, { job: 1, plan: 1, token })) {
    const answer = await send(ADDRESS, hostile);
    statuses.set(answer.status, (statuses.get(answer.status) ?? 0) + 1);
    const found = findWrong(answer);
    if (found) wrong.push(`${hostile.what}, ${hostile.method} ${hostile.path.slice(0, 60)}: ${found}`);
  }
  const told = [...statuses].sort(([a], [b]) => a - b).map(([status, some]) => `${some} × ${status}`);
  console.log(`hostile         ${count} requests: ${told.join(', ')}; ${wrong.length} wrong`);
  for (const line of wrong) console.log(`  ${line}`);
  await stop(server, 'SIGTERM');
}

/** Kills the server while saves come in, every second time while it plans as well, and starts it again each time. */
async function killOften(start: Start, kills: number, seed: number): Promise<void> {
  const dice = throwDice(seed);
  let server = await start();
  const token = await tokenOf('/');
  const job = await bring(token, JSON.stringify(scaledJob({ voids: 8, sections: 4, lots: 7, bars: 100 })));
  let acknowledged = '';
  let saves = 0;
  let lost = 0;
  for (let n = 0; n < kills; n++) {
    if (n % 2 === 1) await post(job, { token, revision: await revisionOf(job), 'wish.effort': 'thorough', do: 'plan' });
    const killed = new Promise<void>((resolve) => {
      setTimeout(() => void stop(server, 'SIGKILL').then(resolve), dice.whole(5, 250));
    });
    for (let turn = 0; ; turn++) {
      const name = `save ${n}.${turn}`;
      const revision = await revisionOf(job).catch(() => null);
      const saved = revision === null ? null : await post(job, { token, revision, name, do: 'save' }).catch(() => null);
      if (saved?.status !== 303) break;
      acknowledged = name;
      saves++;
    }
    await killed;
    server = await start();
    const file = JSON.parse(await textOf(`${job}/job.json`)) as { name: string };
    // The save that was on its way when the server died may or may not be there; the last answered one must be.
    const [, a = 0, b = 0] = /(\d+)\.(\d+)/.exec(file.name)?.map(Number) ?? [];
    const [, c = 0, d = 0] = /(\d+)\.(\d+)/.exec(acknowledged)?.map(Number) ?? [];
    if (a < c || (a === c && b < d)) lost++;
    if (n % 2 === 1 && (await textOf(`${job}/planning`)).includes('is being worked out'))
      throw new Error('a planning outlived its server');
  }
  console.log(
    `kill -9         ${kills} times, ${saves} saves answered, ${lost} lost; the server started again each time`,
  );
  await stop(server, 'SIGTERM');
}

type Start = () => Promise<ChildProcess>;

function startServer(folder: string): ChildProcess {
  return spawn(
    process.execPath,
    ['--import', 'tsx', 'server/cli.ts', 'serve', '--port', String(PORT), '--data', folder],
    {
      stdio: ['ignore', 'pipe', 'inherit'],
      env: { ...process.env, KENTLEDGE_LOG: 'silent' },
    },
  );
}

function started(server: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    server.stdout?.on('data', (chunk: Buffer) => chunk.toString().includes('kentledge is at') && resolve());
    server.on('exit', (code) => reject(new Error(`the server ended with status ${code} instead of starting`)));
  });
}

function stop(server: ChildProcess, signal: NodeJS.Signals): Promise<void> {
  return new Promise((resolve) => {
    server.removeAllListeners('exit');
    server.once('exit', () => resolve());
    server.kill(signal);
  });
}

function tell(times: number[]): string {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number): string =>
    `${(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0).toFixed(0)} ms`;
  return `${String(sorted.length).padStart(4)} times: median ${at(0.5)}, p95 ${at(0.95)}, most ${at(1)}`;
}

async function textOf(path: string): Promise<string> {
  return (await fetch(ADDRESS + path)).text();
}

function post(path: string, fields: Record<string, string>): Promise<Response> {
  return fetch(ADDRESS + path, { method: 'POST', redirect: 'manual', body: new URLSearchParams(fields) });
}

async function bring(token: string, text: string): Promise<string> {
  const form = new FormData();
  form.set('token', token);
  form.set('file', new Blob([text]), 'job.json');
  const response = await fetch(`${ADDRESS}/jobs/bring`, { method: 'POST', redirect: 'manual', body: form });
  return response.headers.get('location') as string;
}

async function tokenOf(path: string): Promise<string> {
  return /name="token" value="([^"]+)"/.exec(await textOf(path))?.[1] as string;
}

async function revisionOf(job: string): Promise<string> {
  return /name="revision" value="(\d+)"/.exec(await textOf(job))?.[1] as string;
}

async function until(done: () => Promise<boolean>, seconds: number): Promise<void> {
  for (let n = 0; n < seconds * 5; n++) {
    if (await done()) return;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  throw new Error(`not done in ${seconds} seconds`);
}
