import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { type LeftCommandOptions, runLeft } from '../../../server/commands/left.ts';
import { digest8, planDigest } from '../../../server/planDigest.ts';
import { runProgram } from '../../../server/program.ts';
import { jobDigest } from '../../../src/job/digest.ts';
import { readJobValue } from '../../../src/job/readJob.ts';
import { planJob } from '../../../src/plan/planner.ts';
import { markRanges, stopsOf } from '../../../src/plan/stops.ts';
import { workLeft } from '../../../src/plan/workLeft.ts';
import { trialJobInput, trialPair } from '../../plan/trialPlan.ts';
import { Capture } from '../capture.ts';

const folder = mkdtempSync(join(tmpdir(), 'kentledge-left-'));
afterAll(() => rmSync(folder, { recursive: true }));

function write(name: string, value: unknown): string {
  const file = join(folder, name);
  writeFileSync(file, JSON.stringify(value));
  return file;
}

const { job, plan } = trialPair();
const jobFile = write('job.json', trialJobInput());
const planFile = write('plan.json', { ...plan, jobDigest: jobDigest(JSON.parse(JSON.stringify(trialJobInput()))) });
const by = `plan ${digest8(planDigest({ ...plan, jobDigest: jobDigest(JSON.parse(JSON.stringify(trialJobInput()))) }))}`;
const NONE = { by, stowed: new Set<string>(), unfinished: new Set<string>(), weighed: new Map(), found: new Map() };

async function left(options: LeftCommandOptions, files = [jobFile, planFile]) {
  const [out, err] = [new Capture(), new Capture()];
  const status = await runLeft(files[0]!, files[1]!, options, out, err);
  return { status, out: out.text, err: err.text };
}

/** The job as it stands in a file. */
const asFile = (value: unknown) => JSON.parse(JSON.stringify(value));

describe('kentledge left', () => {
  test('prints the job of what is left, which can be read, and tells what it holds beside it', async () => {
    const [first] = stopsOf(job, plan);
    const short = plan.bars.find(({ bar }) => bar === first!.bars[0])!;
    const options = {
      cut: String(first!.length),
      next: short.bar,
      found: `${short.bar}: ${short.length - 120}`,
      in: `${plan.bundles[0]!.bundle}, V2`,
      unfinished: 'V1',
    };
    const { status, out, err } = await left(options);
    expect(status).toBe(0);
    const inV2 = plan.bundles.filter((bundle) => bundle.void === 'V2').map(({ bundle }) => bundle);
    const expected = workLeft(job, plan, {
      ...NONE,
      cut: { by: 'stops', stop: first!.length, next: new Set([short.bar]) },
      found: new Map([[short.bar, short.length - 120]]),
      stowed: new Set([plan.bundles[0]!.bundle, ...inV2]),
      unfinished: new Set(['V1']),
    });
    expect(JSON.parse(out)).toEqual(asFile(expected));
    expect(readJobValue(JSON.parse(out))).toMatchObject({ ok: true });
    expect(err).toMatch(/^Left are \d+ bars and pieces in \d+ lots, [\d.]+ kg\./);
    expect(err).toContain('Untie every bundle');
  });

  test('takes bundles that are no use off the steel, and names a mark that is none', async () => {
    const { bundle } = plan.bundles[0]!;
    const { out } = await left({ cut: 'all', lost: bundle });
    expect(JSON.parse(out)).toEqual(
      asFile(workLeft(job, plan, { ...NONE, cut: { by: 'all' }, lost: new Set([bundle]) })),
    );
    expect(JSON.parse(out)).not.toEqual(JSON.parse((await left({ cut: 'all' })).out));
    const wrong = await left({ cut: 'all', lost: 'Q-77' });
    expect(wrong.status).toBe(2);
    expect(wrong.err).toContain('--lost:');
  });

  test('takes bars in place of stops', async () => {
    const { bar } = plan.bars[0]!;
    const { out } = await left({ bars: bar });
    expect(JSON.parse(out)).toEqual(
      asFile(workLeft(job, plan, { ...NONE, cut: { by: 'bars', bars: new Set([bar]) } })),
    );
  });

  test('keeps runs that are tied', async () => {
    const { bundle } = plan.bundles.find((own) => own.void === 'V1')!;
    const { out, err } = await left({ cut: 'all', keep: `V2, ${bundle}` });
    const run = plan.bundles.find((own) => own.bundle === bundle)!.run;
    const own = plan.bundles.filter((one) => one.void === 'V2' || (one.void === 'V1' && one.run === run));
    expect(err).toContain(
      `Stow by this plan, before anything of the next: ${markRanges(own.map((one) => one.bundle)).join(', ')}.`,
    );
    const kept = new Set(
      plan.bundles.flatMap((own) => (own.void === 'V2' || own.bundle === bundle ? [own.bundle] : [])),
    );
    expect(JSON.parse(out)).toEqual(asFile(workLeft(job, plan, { ...NONE, cut: { by: 'all' }, kept })));
    expect(out).toContain('to be stowed: V2-01');
  });

  test('takes along what a job corrected since says, and refuses one with faults', async () => {
    const corrected = { ...trialJobInput(), saw: { kerf: 3.4 } };
    const { status, out } = await left({ cut: 'all', now: write('now.json', corrected) });
    expect(status).toBe(0);
    const now = readJobValue(JSON.parse(JSON.stringify(corrected)));
    if (!now.ok) throw new Error('the corrected job does not read');
    const asked = { ...NONE, cut: { by: 'all' } as const, now: now.value.job };
    expect(JSON.parse(out)).toEqual(asFile(workLeft(job, plan, asked)));
    expect(JSON.parse(out).saw.kerf).toBe(3.4);
    const bad = await left({ cut: 'all', now: write('bad.json', { ...corrected, saw: { kerf: -1 } }) });
    expect([bad.status, bad.out]).toEqual([2, '']);
    expect(bad.err).toContain('bad.json was refused:');
    expect(bad.err).toContain('saw.kerf');
  });

  test('tells every option that can not be read, and prints no job', async () => {
    const { status, out, err } = await left({
      cut: '1',
      next: 'Q-1',
      found: 'A-01',
      in: 'V9',
      keep: 'V7',
      unfinished: 'V8',
    });
    expect([status, out]).toEqual([2, '']);
    expect(
      err
        .trim()
        .split('\n')
        .map((line) => line.split(':')[0]),
    ).toEqual(['--cut', '--next', '--found', '--in', '--keep', '--unfinished']);
  });

  test('tells what is wrong with options also where a file is missing, as far as the others tell it', async () => {
    const missing = join(folder, 'missing.json');
    const options = {
      cut: 'all',
      next: 'A-01',
      in: 'V9',
      now: write('now-bad.json', { ...trialJobInput(), name: '' }),
    };
    const told = async (files: [string, string], asked: LeftCommandOptions) => {
      const err = new Capture();
      await expect(runLeft(...files, asked, new Capture(), err)).rejects.toMatchObject({ path: missing });
      return err.text
        .trim()
        .split('\n')
        .map((line) => line.replace(folder, '').split(/[: ]/)[0]);
    };
    expect(await told([missing, planFile], options)).toEqual(['--next', '--in', '/now-bad.json', '']);
    expect(await told([jobFile, missing], options)).toEqual(['--next', '/now-bad.json', '']);
    expect(await told([jobFile, planFile], { ...options, now: missing })).toEqual(['--next', '--in']);
    expect(await told([missing, missing], { cut: 'half' })).toEqual(['--cut', '/missing.json']);
    expect(await told([jobFile, missing], { cut: '470' })).toEqual(['']);
  });

  test.each([
    [{}, '--cut: Say how far the saw has come'],
    [{ cut: 'all', bars: 'A-01' }, '--bars: Say how far the saw has come either by'],
    [{ cut: 'all', next: 'A-01' }, '--next: After “all” there is no next stop.'],
    [{ cut: 'none' }, 'nothing is cut, stowed, lost or found otherwise'],
  ])('refuses %j', async (options, why) => {
    const { status, out, err } = await left(options);
    expect([status, out]).toEqual([2, '']);
    expect(err).toContain(why);
  });

  test('refuses a plan that is of another job, and files that are none', async () => {
    const other = write('other.json', { ...trialJobInput(), name: 'Other', saw: { kerf: 4 } });
    const found = await left({ cut: 'all' }, [other, planFile]);
    expect([found.status, found.out]).toEqual([2, '']);
    expect(found.err).toContain('plan.json is no right plan of');
    const bad = await left({ cut: 'all' }, [planFile, jobFile]);
    expect(bad.status).toBe(2);
    expect(bad.err.match(/ was refused:/g)).toHaveLength(2);
  });

  test('is a command of the program', async () => {
    const [out, err] = [new Capture(), new Capture()];
    const before = process.exitCode;
    const status = await runProgram(['left', jobFile, planFile, '--cutt', 'all'], out, err, planJob);
    process.exitCode = before;
    expect(status).toBe(2);
    expect(err.text).toContain('--cutt');
  });
});
