import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test, vi } from 'vitest';
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
