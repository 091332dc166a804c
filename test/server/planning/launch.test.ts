import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { afterAll, expect, test, vi } from 'vitest';
import { type Child, type Ending, openLauncher } from '../../../server/planning/launch.ts';
import type { Word } from '../../../server/planning/message.ts';
import type { JobInput } from '../../../src/job/job.ts';
import { planSchema } from '../../../src/plan/plan.ts';
import { scaledJob } from '../../bench/jobs.ts';

const WISH = { effort: 'quick', seed: 1, stops: null } as const;
/** Far less than the work at the large job takes, and enough where other work holds the machine up, ms. */
const PATIENCE = 20_000;

/** More work than the better part of a minute on a quiet machine: nobody sees its end. Its plan is large for the names in it. */
const LARGE = { body: JSON.stringify(longNames(scaledJob({ voids: 12, sections: 1, lots: 4, bars: 300 }))) };
const LARGE_ORDER = { ...LARGE, wish: { ...WISH, effort: 'thorough' } } as const;

/** A child that is done takes the next test's order. */
const launcher = openLauncher();
afterAll(() => launcher.close());

/** Planned in a blink: what is looked at are the children. */
const SMALL = JSON.stringify({
  format: 'kentledge-job/1',
  name: 'Small',
  pile: [{ lot: 'A', section: { shape: 'square', side: 25 }, length: 1000, count: 3 }],
  voids: [{ void: 'V1', length: 500, width: 120, height: 70 }],
});

test('a child plans a job and says so; it waits for the next order, which it plans as a new child would', async () => {
  const before = childrenOf(process.pid);
  const first = await runChild(SMALL);
  const last = first.at(-1);
  expect(last?.kind).toBe('plan');
  if (last?.kind === 'plan') expect(planSchema.safeParse(JSON.parse(last.plan)).success).toBe(true);
  const own = () => childrenOf(process.pid).filter((one) => !before.includes(one));
  const pids = own();
  if (process.platform === 'linux') expect(pids).toHaveLength(1);
  const again = await runChild(SMALL);
  expect(again.at(-1)).toEqual(last);
  expect(own()).toEqual(pids);
});

test('an order that is over can not end the child at the next one', async () => {
  let stale: Child | null = null;
  await runChild(SMALL, async (child) => {
    stale = child;
  });
  const words = await runChild(SMALL, async () => stale!.kill());
  expect(words.at(-1)?.kind).toBe('plan');
});

test('a job that can not be planned is refused in words', async () => {
  const words = await runChild('{"format":"kentledge-job/1","name":"","pile":[],"voids":[]}');
  expect(words).toMatchObject([{ kind: 'refused', why: expect.stringContaining('pile') }]);
});

test.each(['stray', 'null', '{"half":'])(
  'a child that says %s is ended, and its order told as broken off',
  async (line) => {
    const words = `import { writeSync } from 'node:fs'; writeSync(1, ${JSON.stringify(`${line}\n`)});`;
    const script = `data:text/javascript,${encodeURIComponent(words).replaceAll("'", '%27')}`;
    vi.stubEnv('NODE_OPTIONS', `--import ${script}`);
    const own = openLauncher();
    try {
      const ending = await new Promise<Ending>((resolve, reject) =>
        own.launch({ body: SMALL, wish: WISH }, () => reject(new Error('heard')), resolve),
      );
      expect(ending).toMatchObject({ code: null, signal: null });
    } finally {
      vi.unstubAllEnvs();
      own.close();
    }
  },
);

test('a plan too large for a pipe is told while the child plans on, which tells its memory and is ended at once', async () => {
  let bytes: number | null = null;
  let plan = '';
  const words: Word[] = [];
  const ending = await new Promise<Ending>((resolve) => {
    const told = async (word: Word): Promise<void> => {
      words.push(word);
      if (plan !== '' || word.kind !== 'progress' || word.plan === null) return;
      plan = word.plan;
      bytes = await child.memory();
      child.kill();
    };
    const child = launcher.launch(LARGE_ORDER, (word) => void told(word), resolve);
  });
  expect(ending.signal).toBe('SIGKILL');
  expect(words.filter(({ kind }) => kind !== 'progress')).toEqual([]);
  if (process.platform === 'linux') expect(bytes).toBeGreaterThan(10 * 2 ** 20);
  expect(plan.length).toBeGreaterThan(2 ** 19);
  expect(planSchema.safeParse(JSON.parse(plan)).success).toBe(true);
}, 300_000);

test.runIf(process.platform === 'linux')('a child that waits ends with the launcher', async () => {
  const before = childrenOf(process.pid);
  const own = openLauncher();
  await runChild(SMALL, undefined, own);
  const [pid] = childrenOf(process.pid).filter((one) => !before.includes(one));
  expect(isRunning(pid!)).toBe(true);
  own.close();
  await expect.poll(() => isRunning(pid!), { timeout: PATIENCE, interval: 50 }).toBe(false);
});

test.runIf(process.platform === 'linux')(
  'a child whose server was killed ends by itself, deep in a computation as it is',
  async () => {
    const script = `
    import { openLauncher } from './server/planning/launch.ts';
    openLauncher().launch(${JSON.stringify(LARGE_ORDER)}, () => {}, () => {});
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
    await expect.poll(() => isRunning(child), { timeout: PATIENCE, interval: 100 }).toBe(false);
  },
);

/** The words of a child up to its last. */
function runChild(body: string, during?: (child: Child) => Promise<void>, by = launcher): Promise<Word[]> {
  const words: Word[] = [];
  return new Promise((resolve, reject) => {
    const onWord = (word: Word) => {
      words.push(word);
      if (word.kind !== 'progress') resolve(words);
    };
    const child = by.launch({ body, wish: WISH }, onWord, ({ words: why }) => reject(new Error(why)));
    void during?.(child);
  });
}

/** A job that makes a large plan with few bundles: each of them bears the mark of its void, each piece that of its lot. */
function longNames(job: JobInput): JobInput {
  const pile = job.pile.map((own) => ({ ...own, lot: `${own.lot}${' of the old pile'.repeat(5)}` }));
  const voids = job.voids.map((own) => ({ ...own, void: `${own.void}${' abaft the mast step'.repeat(5)}` }));
  return { ...job, pile, voids };
}

/** None where the system does not tell. */
function childrenOf(pid: number): number[] {
  if (process.platform !== 'linux') return [];
  const text = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim();
  return text === '' ? [] : text.split(' ').map(Number);
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}
