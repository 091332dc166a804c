import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
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
  const server = spawn(process.execPath, ['--import', 'tsx', 'server/cli.ts', 'serve', '--port', '0', '--data', data], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  await new Promise<void>((resolve) =>
    server.stdout.on('data', (chunk: Buffer) => chunk.toString().includes('kentledge is at') && resolve()),
  );
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
