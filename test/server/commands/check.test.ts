import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { afterAll, describe, expect, it } from 'vitest';
import { runCheck } from '../../../server/commands/check.ts';
import { jobDigest } from '../../../src/job/digest.ts';
import { trialJobInput, trialPair } from '../../plan/trialPlan.ts';

const folder = mkdtempSync(join(tmpdir(), 'kentledge-check-'));
afterAll(() => rmSync(folder, { recursive: true }));

function write(name: string, value: unknown): string {
  const file = join(folder, name);
  writeFileSync(file, typeof value === 'string' ? value : JSON.stringify(value));
  return file;
}

const job = write('job.json', trialJobInput());
const rightPlan = () => ({ ...trialPair().plan, jobDigest: jobDigest(JSON.parse(JSON.stringify(trialJobInput()))) });

async function check(
  jobFile: string,
  planFile: string,
  json = false,
): Promise<{ status: number; out: string[]; err: string }> {
  const texts = ['', ''];
  const [out, err] = [0, 1].map(
    (i) =>
      new Writable({
        write(chunk, _encoding, done) {
          texts[i] += chunk;
          done();
        },
      }),
  );
  const status = await runCheck(jobFile, planFile, out!, err!, json);
  return { status, out: texts[0]!.trim().split('\n'), err: texts[1]! };
}

describe('kentledge check', () => {
  it('ends with 0 for a right plan', async () => {
    const found = await check(job, write('right.json', rightPlan()));
    expect(found).toMatchObject({ status: 0, err: '' });
    expect(found.out).toEqual([expect.stringContaining('No faults: 8 bundles')]);
  });

  it('tells what is wrong with both files, also where one of them is not there', async () => {
    const none = join(folder, 'none.json');
    const bad = write('bad.json', { ...trialJobInput(), pile: [] });
    const texts: string[] = [];
    const err = new Writable({
      write(chunk, _encoding, done) {
        texts.push(String(chunk));
        done();
      },
    });
    await expect(runCheck(bad, none, err, err)).rejects.toMatchObject({ code: 'ENOENT', path: none });
    expect(texts.join('')).toContain('bad.json was refused:\n  pile: ');
    texts.length = 0;
    const other = join(folder, 'neither.json');
    await expect(runCheck(other, none, err, err)).rejects.toMatchObject({ path: none });
    expect(texts.join('')).toContain(`${other}: no such file`);
  });

  it('ends with 2 for a wrong one, one line a fault', async () => {
    const plan = rightPlan();
    plan.totals.cuts += 1;
    plan.bundles.at(-1)!.order = 99;
    const found = await check(job, write('wrong.json', plan));
    expect(found.status).toBe(2);
    expect(found.out.map((line) => line.split(':')[0])).toEqual(['order', 'totals']);
    expect(found.err).toContain('2 faults');
  });

  it('ends with 2 for a bundle of more rows than can be counted', async () => {
    const plan = rightPlan();
    plan.bundles[0] = { ...plan.bundles[0]!, columns: new Array<number>(300_000).fill(1) };
    const found = await check(job, write('rows.json', plan));
    expect(found.status).toBe(2);
    expect(found.err).toContain('“columns” has 300000 entries; at most 1000 are read.');
  });

  it('ends with 2 for files that are not what they should be, and tells of both', async () => {
    const found = await check(write('bad.json', '{"a":'), write('list.json', []));
    expect(found.status).toBe(2);
    expect(found.err).toMatch(/bad\.json was refused:[\s\S]*list\.json was refused:/);
  });

  it('lets no name steer the terminal', async () => {
    const plan = { ...rightPlan(), job: '\u001b[2J' };
    const found = await check(job, write('steer.json', plan));
    expect(found.out.join()).toContain('\ufffd[2J');
  });

  it('reads jobs that can not be planned', async () => {
    const spread = { ...trialJobInput(), vessel: undefined };
    const plan = { ...rightPlan(), jobDigest: jobDigest(JSON.parse(JSON.stringify(spread))) };
    expect(await check(write('spread.json', spread), write('plan.json', plan))).toMatchObject({ status: 0 });
  });
});

it('as JSON, right or wrong or unread, it is one object with every fault and the same status', async () => {
  const told = async (jobFile: string, planFile: string) => {
    const { status, out, err } = await check(jobFile, planFile, true);
    expect(err).toBe('');
    return { status, ...(JSON.parse(out.join('\n')) as Record<'right' | 'job' | 'plan' | 'faults', unknown>) };
  };
  const plan = rightPlan();
  expect(await told(job, write('right.json', plan))).toEqual({ status: 0, right: true, job: [], plan: [], faults: [] });
  const wrong = { ...plan, totals: { ...plan.totals, stops: plan.totals.stops + 1 } };
  expect(await told(job, write('wrong.json', wrong))).toMatchObject({
    status: 2,
    right: false,
    job: [],
    plan: [],
    faults: [{ code: 'totals', text: expect.stringContaining('stops is told') }],
  });
  expect(await told(write('bad.json', '{"a":'), write('list.json', []))).toMatchObject({
    status: 2,
    right: false,
    job: [{ message: expect.any(String), remedy: expect.any(String) }],
    plan: [expect.objectContaining({ message: expect.any(String) })],
    faults: [],
  });
});
