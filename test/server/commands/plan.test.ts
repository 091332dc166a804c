import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type PlanCommandOptions, type PlanCommandWorld, runPlan } from '../../../server/commands/plan.ts';
import { EXIT } from '../../../server/exit.ts';
import { PAPERS } from '../../../server/paper/papers.ts';
import { withSecuring } from '../../../src/hold/securing.ts';
import { planSchema } from '../../../src/plan/plan.ts';
import type { PlanOptions, PlanResult } from '../../../src/plan/planner.ts';
import { Capture } from '../capture.ts';
import { stackedPair } from '../paper/stackedPlan.ts';

const NAME = 'Бобовник & <b>"Wœrt"</b> 水';
const { job, plan } = stackedPair({ voids: 2, runs: 1, tiers: 1, across: 2, job: NAME });
const { keepOut: _, ...plainVoid } = job.voids[0]!;
/** As it leaves for the world: with its caution about securing. */
const told = withSecuring(job, plan);
const JOB = { ...job, aims: { kgPerHour: 0 }, voids: [plainVoid, { ...job.voids[1]!, keepOut: [] }] };

let folder = '';
let out: Capture;
let err: Capture;
beforeEach(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'kentledge-'));
  await writeFile(path.join(folder, 'job.json'), JSON.stringify(JOB));
  [out, err] = [new Capture(), new Capture()];
});
afterEach(() => rm(folder, { recursive: true, force: true }));

interface Run {
  options?: Partial<PlanCommandOptions>;
  result?: PlanResult;
  plan?: (options: PlanOptions) => Promise<PlanResult>;
  onInterrupt?: PlanCommandWorld['onInterrupt'];
}

function run({ options, result, plan: planner, onInterrupt }: Run = {}): Promise<number> {
  const answer = result ?? { kind: 'plan', plan };
  return runPlan(
    path.join(folder, 'job.json'),
    { effort: 'quick', seed: 1, ...options },
    {
      out,
      err,
      plan: (_job, planOptions) => (planner ? planner(planOptions) : Promise.resolve(answer)),
      now: () => new Date('2026-04-01T12:00:00Z'),
      onInterrupt: onInterrupt ?? (() => () => {}),
    },
  );
}

describe('what it prints', () => {
  test('what the job says and hardly means, before it is planned and beside the plan file', async () => {
    const voids = JOB.voids.map((space) => ({ ...space, origin: { x: 3, y: 0, z: 0 } }));
    await writeFile(path.join(folder, 'job.json'), JSON.stringify({ ...JOB, voids }));
    let before = '';
    const planner = () => {
      before = err.text;
      return Promise.resolve<PlanResult>({ kind: 'plan', plan });
    };
    expect(await run({ plan: planner, options: { json: true } })).toBe(EXIT.done);
    expect(before).toContain('says what is hardly meant, and is planned as it stands:');
    expect(before).toMatch(/voids\[1\]\.origin\.x: By this place and its sizes it lies, in part at least, where/);
    expect(() => JSON.parse(out.text)).not.toThrow();
    err.text = '';
    await writeFile(path.join(folder, 'job.json'), JSON.stringify(JOB));
    await run();
    expect(err.text).not.toContain('hardly meant');
  });

  test('a summary: every void, what is in it, scrap, stops, value, cautions, and that it approves nothing', async () => {
    expect(await run()).toBe(EXIT.done);
    for (const void_ of plan.voids) expect(out.text).toContain(`${void_.void} `);
    expect(out.text).toContain(NAME);
    expect(out.text).toMatch(/of square 25, 300 mm/);
    expect(out.text).toMatch(/\d scrap|scrap/);
    expect(out.text).toMatch(/\d stops?, \d+ cuts?/);
    expect(out.text).toContain(`${plan.totals.placedMass.toFixed(1)} kg of steel placed`);
    expect(out.text).toMatch(/void +name +with bands/);
    expect(out.text).toContain('Value:');
    for (const caution of plan.cautions) expect(out.text).toContain(`[${caution.code}`);
    expect(out.text).toContain('not approval');
    expect(out.text).toContain('Nothing was written');
    expect(err.text).toBe('');
  });

  test('with --json the plan file and nothing else', async () => {
    await run({ options: { json: true } });
    expect(planSchema.parse(JSON.parse(out.text))).toEqual(told);
  });

  test('a progress line on a terminal, cleared at the end; none elsewhere', async () => {
    const telling = async (options: PlanOptions): Promise<PlanResult> => {
      options.onProgress?.({ phase: 'lengths', step: 3, value: 12.34, bound: 20 });
      return { kind: 'plan', plan };
    };
    await run({ plan: telling });
    expect(err.text).toBe('');
    err.isTTY = true;
    await run({ plan: telling });
    expect(err.text).toContain('lengths, step 3, best so far 12.3 kg, at most 20.0 kg');
    expect(err.text.endsWith('\r\x1b[K')).toBe(true);
  });

  test('effort, seed and stops reach the planner, with the digest of the job as written', async () => {
    let asked: PlanOptions | null = null;
    await run({
      options: { effort: 'thorough', seed: 7, stops: 3 },
      plan: async (options) => {
        asked = options;
        return { kind: 'plan', plan };
      },
    });
    expect(asked).toMatchObject({
      effort: 'thorough',
      seed: 7,
      stops: 3,
      jobDigest: expect.stringMatching(/^sha256:/),
    });
  });

  test('stopped at the keyboard, the best plan so far is told', async () => {
    let stop = () => {};
    let undone = false;
    const status = await run({
      onInterrupt: (asked) => {
        stop = asked;
        return () => {
          undone = true;
        };
      },
      plan: async (options) => {
        expect(options.shouldStop?.()).toBe(false);
        stop();
        expect(options.shouldStop?.()).toBe(true);
        return { kind: 'plan', plan };
      },
    });
    expect(status).toBe(EXIT.done);
    expect(err.text).toContain('best plan so far');
    expect(err.text).toContain('There is no plan yet');
    expect(undone).toBe(true);
  });

  test('stopped at the keyboard once there is a plan, nothing is said of waiting for one', async () => {
    let stop = () => {};
    await run({
      onInterrupt: (asked) => {
        stop = asked;
        return () => {};
      },
      plan: async (options) => {
        options.onProgress?.({ phase: 'better', step: 1, value: 3, bound: null });
        stop();
        return { kind: 'plan', plan };
      },
    });
    expect(err.text).toContain('best plan so far');
    expect(err.text).not.toContain('There is no plan yet');
  });
});

describe('where no bundle can be placed', () => {
  test('exit 3: which void, why, what to change; nothing written', async () => {
    const reasons = [
      { void: 'V1', why: 'It is 20 mm high and the lowest bundle needs 31.', remedy: 'Take a flatter bar.' },
    ];
    const options = { out: path.join(folder, 'out') };
    expect(await run({ options, result: { kind: 'nothing', reasons } })).toBe(EXIT.nothing);
    expect(err.text).toMatch(/V1: It is 20 mm high.*Take a flatter bar\./);
    expect(out.text).toBe('');
    expect(await readdir(folder)).toEqual(['job.json']);
  });
});

describe('what it writes', () => {
  const wanted = ['plan.json', ...PAPERS.map((paper) => paper.file)].sort();

  test('the plan and every paper of the list, whole', async () => {
    const to = path.join(folder, 'deep', 'out');
    await run({ options: { out: to } });
    expect((await readdir(to)).sort()).toEqual(wanted);
    expect(planSchema.parse(JSON.parse(await readFile(path.join(to, 'plan.json'), 'utf8')))).toEqual(told);
    for (const { file } of PAPERS) {
      const pdf = await readFile(path.join(to, file));
      expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
      expect(pdf.subarray(-7).toString()).toContain('%%EOF');
    }
    expect(await readdir(path.join(folder, 'deep'))).toEqual(['out']);
  });

  test('into a folder that is there: its files are renewed, others left alone', async () => {
    const to = path.join(folder, 'out');
    await mkdir(to);
    await writeFile(path.join(to, 'plan.json'), 'old');
    await writeFile(path.join(to, 'notes.txt'), 'mine');
    await run({ options: { out: to } });
    expect((await readdir(to)).sort()).toEqual([...wanted, 'notes.txt'].sort());
    expect(await readFile(path.join(to, 'notes.txt'), 'utf8')).toBe('mine');
    expect(await readFile(path.join(to, 'plan.json'), 'utf8')).not.toBe('old');
    const broken = { ...plan, bundles: [{ ...plan.bundles[0]!, void: 'no such void' }] };
    await expect(run({ options: { out: to }, result: { kind: 'plan', plan: broken } })).rejects.toThrow();
    expect((await readdir(to)).sort()).toEqual([...wanted, 'notes.txt'].sort());
    expect(planSchema.parse(JSON.parse(await readFile(path.join(to, 'plan.json'), 'utf8')))).toEqual(told);
  });

  test('nothing at all where a paper fails half way', async () => {
    const to = path.join(folder, 'out');
    const broken = { ...plan, bundles: [{ ...plan.bundles[0]!, void: 'no such void' }] };
    await expect(run({ options: { out: to }, result: { kind: 'plan', plan: broken } })).rejects.toThrow();
    expect(await readdir(folder)).toEqual(['job.json']);
  });

  test('nothing where the folder is lost while it is planned, but the plan is told', async () => {
    const above = path.join(folder, 'above');
    await mkdir(above);
    const losing = async () => {
      await rm(above, { recursive: true });
      await writeFile(above, 'mine');
      return { kind: 'plan' as const, plan };
    };
    const options = { out: path.join(above, 'out') };
    await expect(run({ options, plan: losing })).rejects.toMatchObject({ code: 'ENOTDIR' });
    expect(out.text).toContain('V1');
    expect(out.text).toContain('Nothing was written.');
    expect((await readdir(folder)).sort()).toEqual(['above', 'job.json']);
  });

  test('nothing at all where the planner fails', async () => {
    const to = path.join(folder, 'out');
    await expect(run({ options: { out: to }, plan: () => Promise.reject(new Error('no')) })).rejects.toThrow('no');
    expect(await readdir(folder)).toEqual(['job.json']);
  });

  test('a file where the folder should be is left as it is, and nothing is planned first', async () => {
    const to = path.join(folder, 'taken');
    await writeFile(to, 'mine');
    const planner = vi.fn(() => Promise.reject(new Error('planned for nothing')));
    for (const out of [to, path.join(to, 'below')])
      await expect(run({ options: { out }, plan: planner })).rejects.toMatchObject({ code: 'ENOTDIR', path: out });
    expect(planner).not.toHaveBeenCalled();
    expect((await readdir(folder)).sort()).toEqual(['job.json', 'taken']);
    expect(await readFile(to, 'utf8')).toBe('mine');
  });
});
