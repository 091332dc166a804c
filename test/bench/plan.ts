/**
 * Times and measures whole plans: the family of scaled jobs, or the job files named. A line a job: value, bound, gap,
 * counts, the time to the first plan and to the last, peak memory of the process so far, a checksum of the plan.
 *
 *     npm run bench -- plan [--effort steady] [--scales 8,15] [--stops free] [--hand SCRIPT] [JOB.json …]
 *
 * `--hand SCRIPT` runs `node SCRIPT JOB PLAN` on each job file with `kgPerHour` 0 and no `stopsAtMost`, and prints its
 * last line, the ratio of the plan to what is planned by hand.
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import type { JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { Effort, Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import { SCALES, scaledJob } from './jobs.ts';

interface Wish {
  effort: Effort;
  stops: number | 'free';
}

export async function run(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      effort: { type: 'string', default: 'steady' },
      scales: { type: 'string' },
      stops: { type: 'string', default: 'free' },
      hand: { type: 'string' },
    },
  });
  const stops = values.stops === 'free' ? 'free' : Number(values.stops);
  const wish: Wish = { effort: values.effort as Effort, stops };
  const wanted = values.scales?.split(',').map(Number);
  const jobs: [string, JobInput][] =
    positionals.length > 0
      ? positionals.map((file) => [path.basename(file), JSON.parse(readFileSync(file, 'utf8')) as JobInput])
      : SCALES.filter((scale) => wanted?.includes(scale.voids) ?? true).map((scale) => [
          `${scale.voids} voids, ${scale.bars} bars`,
          scaledJob(scale),
        ]);
  console.log(
    row(['job', 'first s', 'all s', 'value', 'at most', 'gap %', 'placed', 'scrap %', 'stops', 'MiB', 'checksum']),
  );
  for (const [name, job] of jobs) {
    const plan = await measure(name, job, wish);
    if (plan && values.hand) await compareByHand(values.hand, job, wish);
  }
}

async function measure(name: string, input: JobInput, wish: Wish): Promise<Plan | null> {
  const read = readJobValue(input);
  if (!read.ok) throw new Error(`${name} was refused: ${JSON.stringify(read.faults)}`);
  const { job, digest } = read.value;
  const start = performance.now();
  let first: number | null = null;
  const result = await planJob(job, {
    ...wish,
    seed: 1,
    jobDigest: digest,
    onProgress: (progress) => {
      if (progress.plan) first ??= performance.now() - start;
    },
  });
  const whole = performance.now() - start;
  const memory = Math.round(process.resourceUsage().maxRSS / 1024);
  if (result.kind === 'nothing') {
    console.log(row([name, '', seconds(whole), 'nothing is placed', '', '', '', '', '', String(memory), '']));
    return null;
  }
  const { plan } = result;
  const faults = checkPlan(job, plan, digest);
  if (faults.length > 0) {
    console.log(`${name}: ${faults.length} faults, the first: ${faults[0]!.text}`);
    process.exitCode = 1;
  }
  const { totals, bound } = plan;
  console.log(
    row([
      name,
      first === null ? '' : seconds(first),
      seconds(whole),
      bound.value.toFixed(1),
      bound.valueAtMost?.toFixed(1) ?? '',
      bound.gap === null ? '' : (100 * bound.gap).toFixed(2),
      totals.placedMass.toFixed(1),
      ((100 * totals.scrapMass) / totals.stockMass).toFixed(2),
      String(totals.stops),
      String(memory),
      createHash('sha256').update(JSON.stringify(plan)).digest('hex').slice(0, 12),
    ]),
  );
  return plan;
}

/** Labour counts for nothing there and stops are free, so the job is planned again so. */
async function compareByHand(script: string, input: JobInput, wish: Wish): Promise<void> {
  const { stopsAtMost: _, ...aims } = input.aims ?? {};
  const free: JobInput = { ...input, aims: { ...aims, kgPerHour: 0 } };
  const read = readJobValue(free);
  if (!read.ok) throw new Error('the free job was refused');
  const result = await planJob(read.value.job, { ...wish, stops: 'free', seed: 1, jobDigest: read.value.digest });
  if (result.kind === 'nothing') return;
  const folder = mkdtempSync(path.join(tmpdir(), 'kentledge-bench-'));
  try {
    const [jobFile, planFile] = [path.join(folder, 'job.json'), path.join(folder, 'plan.json')];
    writeFileSync(jobFile, JSON.stringify(free));
    writeFileSync(planFile, JSON.stringify(result.plan));
    const { stdout } = spawnSync(process.execPath, [script, jobFile, planFile], { encoding: 'utf8' });
    for (const line of stdout.trim().split('\n')) console.log(`    ${line}`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function seconds(ms: number): string {
  return (ms / 1000).toFixed(2);
}

function row(cells: string[]): string {
  return cells.map((cell, n) => (n === 0 ? cell.padEnd(22) : cell.padStart(9))).join(' ');
}
