import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { closeSync, existsSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { type AddressInfo, connect, createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { logTo } from '../../server/logTo.ts';
import { serve } from '../../server/serve.ts';
import { openStore } from '../../server/store/store.ts';

let data = '';

beforeEach(() => {
  vi.stubEnv('KENTLEDGE_LOG', 'silent');
  data = mkdtempSync(join(tmpdir(), 'kentledge-serve-'));
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(data, { recursive: true });
});

test('at the first start the demonstration is there and being planned; at the next it is not brought again', async () => {
  const first = await serve({ port: 0, host: '127.0.0.1', data });
  const page = await (await fetch(`${first.addresses[0]}/`)).text();
  expect(page).toContain('Bogbean');
  expect(page).toContain('A plan is being worked out');
  await first.close();
  const second = await serve({ port: 0, host: '127.0.0.1', data });
  expect((await (await fetch(`${second.addresses[0]}/`)).text()).match(/href="\/jobs\/\d+"/g)).toHaveLength(1);
  expect(await (await fetch(`${second.addresses[0]}/jobs/1/planning`)).text()).toContain('The plan was not finished');
  await second.close();
});

test('a second server on the same data is refused, and a port that is taken lets the folder go', async () => {
  const first = await serve({ port: 0, host: '127.0.0.1', data });
  await expect(serve({ port: 0, host: '127.0.0.1', data })).rejects.toThrow(/Another kentledge server/);
  const other = mkdtempSync(join(tmpdir(), 'kentledge-serve-'));
  const port = Number(new URL(first.addresses[0] ?? '').port);
  await expect(serve({ port, host: '127.0.0.1', data: other })).rejects.toThrow(/EADDRINUSE/);
  await (await serve({ port: 0, host: '127.0.0.1', data: other })).close();
  await first.close();
  rmSync(other, { recursive: true });
});

test('a signal ends the server cleanly, with a planning under way', async () => {
  const { server } = await startServer();
  server.kill('SIGTERM');
  const code = await new Promise((resolve) => server.once('exit', resolve));
  expect(code).toBe(0);
  const store = openStore(data);
  expect(store.plannings.unfinished()).toEqual([]);
  // It has not waited for the plan.
  expect(store.plannings.latest(1)).toMatchObject({
    state: 'failed',
    note: expect.stringMatching(/server was stopped/),
  });
  store.close();
});

test('a second signal of another kind ends at once a server that still waits for a request', async () => {
  const { server, port } = await startServer();
  const ended = new Promise((resolve) => server.once('exit', (_, signal) => resolve(signal)));
  // Begun and never finished: the server waits for its rest.
  const slow = connect(port, '127.0.0.1', () => slow.write('POST /jobs/new HTTP/1.1\r\nHost: localhost\r\n'));
  slow.on('error', () => {});
  await new Promise<void>((resolve) => slow.once('connect', () => resolve()));
  server.kill('SIGTERM');
  // It has heard the first once it takes no more connections.
  while (await canConnect(port)) await new Promise((resolve) => setTimeout(resolve, 5));
  server.kill('SIGHUP');
  expect(await ended).toBe('SIGHUP');
  slow.destroy();
});

test('a log that can not be written loses its lines, and nothing else', () => {
  const path = join(data, 'log');
  writeFileSync(path, '');
  const unwritable = openSync(path, 'r');
  expect(() => logTo(unwritable).write('lost\n')).not.toThrow();
  closeSync(unwritable);
  const file = openSync(path, 'a');
  logTo(file).write('kept\n');
  closeSync(file);
  expect(readFileSync(path, 'utf8')).toBe('kept\n');
});

test.runIf(existsSync('/dev/full'))(
  'a full disk under the log stops neither answers nor the end',
  async () => {
    const full = openSync('/dev/full', 'w');
    const port = await freePort();
    const order = ['--import', 'tsx', 'server/cli.ts', 'serve', '--port', String(port), '--data', data];
    const server = spawn(process.execPath, order, {
      stdio: ['ignore', full, 'inherit'],
      env: { ...process.env, KENTLEDGE_LOG: 'info' },
    });
    const ended = new Promise((resolve) => server.once('exit', (code, signal) => resolve(code ?? signal)));
    try {
      await expect.poll(() => canConnect(port), { timeout: 20_000, interval: 50 }).toBe(true);
      for (let n = 0; n < 3; n++) {
        const page = await fetch(`http://127.0.0.1:${port}/`, { signal: AbortSignal.timeout(5000) });
        expect(page.status).toBe(200);
      }
      server.kill('SIGTERM');
      expect(await Promise.race([ended, wait(5000)])).toBe(0);
    } finally {
      server.kill('SIGKILL');
      closeSync(full);
    }
  },
  40_000,
);

async function freePort(): Promise<number> {
  const server = createServer().listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  server.close();
  return port;
}

async function startServer(): Promise<{ server: ChildProcess; port: number }> {
  const server = spawn(process.execPath, ['--import', 'tsx', 'server/cli.ts', 'serve', '--port', '0', '--data', data], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const port = await new Promise<number>((resolve) =>
    server.stdout.on('data', (chunk: Buffer) => {
      const [, told] = /kentledge is at http:\S+:(\d+)/.exec(chunk.toString()) ?? [];
      if (told) resolve(Number(told));
    }),
  );
  return { server, port };
}

function canConnect(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1');
    socket.once('error', () => resolve(false));
    socket.once('connect', () => {
      socket.destroy();
      resolve(true);
    });
  });
}
