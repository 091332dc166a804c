import { spawn } from 'node:child_process';
import { expect, test } from 'vitest';
import { type Child, type Ending, launchProcess } from '../../../server/planning/launch.ts';
import type { Word } from '../../../server/planning/message.ts';
import { planSchema } from '../../../src/plan/plan.ts';
import { scaledJob } from '../../bench/jobs.ts';

const WISH = { effort: 'quick', seed: 1, stops: null } as const;
const LARGE = JSON.stringify(scaledJob({ voids: 60, sections: 12, lots: 40, bars: 2000 }));

test('a child plans a job, says so, and ends', async () => {
  const { words, ending } = await runChild(JSON.stringify(scaledJob({ voids: 1, sections: 1, lots: 1, bars: 6 })));
  const last = words.at(-1);
  expect(last?.kind).toBe('plan');
  if (last?.kind === 'plan') expect(planSchema.safeParse(JSON.parse(last.plan)).success).toBe(true);
  expect(ending).toMatchObject({ code: 0, signal: null });
});

test('a job that can not be planned is refused in words', async () => {
  const { words } = await runChild('{"format":"kentledge-job/1","name":"","pile":[],"voids":[]}');
  expect(words).toMatchObject([{ kind: 'refused', why: expect.stringContaining('pile') }]);
});

test('a child tells its memory and is ended at once', async () => {
  let bytes: number | null = null;
  const begun = performance.now();
  const { ending } = await runChild(LARGE, async (child) => {
    await pause(700);
    bytes = await child.memory();
    child.kill();
  });
  expect(ending.signal).toBe('SIGKILL');
  expect(performance.now() - begun).toBeLessThan(4000);
  if (process.platform === 'linux') expect(bytes).toBeGreaterThan(10 * 2 ** 20);
});

test.runIf(process.platform === 'linux')(
  'a child whose server was killed ends by itself, deep in a computation as it is',
  async () => {
    const script = `
    import { launchProcess } from './server/planning/launch.ts';
    launchProcess({ body: ${JSON.stringify(LARGE)}, wish: ${JSON.stringify(WISH)} }, () => {}, () => {});
    import { readFileSync } from 'node:fs';
    setTimeout(() => console.log(readFileSync('/proc/' + process.pid + '/task/' + process.pid + '/children', 'utf8')), 1500);
    setInterval(() => {}, 1000);
  `;
    const server = spawn(process.execPath, ['--import', 'tsx', '--input-type=module', '-e', script], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    const child = await new Promise<number>((resolve) =>
      server.stdout.once('data', (chunk: Buffer) => resolve(Number(chunk.toString().trim().split(' ').at(-1)))),
    );
    expect(isRunning(child)).toBe(true);
    server.kill('SIGKILL');
    await expect.poll(() => isRunning(child), { timeout: 5000, interval: 100 }).toBe(false);
  },
);

async function runChild(
  body: string,
  during?: (child: Child) => Promise<void>,
): Promise<{ words: Word[]; ending: Ending }> {
  const words: Word[] = [];
  const ended = new Promise<Ending>((resolve) => {
    const child = launchProcess({ body, wish: WISH }, (word) => words.push(word), resolve);
    void during?.(child);
  });
  return { ending: await ended, words };
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
