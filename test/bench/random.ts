/**
 * Plans many seeded random jobs at effort quick and counts what the checker faults; with `--verify SCRIPT`, also what an
 * outside script faults, run as `node SCRIPT JOB PLAN` (its last line is a count).
 *
 *     npm run bench -- random [--jobs 300] [--from 1] [--shapes] [--fractions] [--effort quick] [--verify SCRIPT] [--sample 60]
 */
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { Effort, Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import { type RandomJobOptions, randomJob } from './jobs.ts';
import { bestOfOneBar } from './oneBundle.ts';

interface Count {
  plans: number;
  nothing: number;
  faults: number;
  outside: number;
  placed: number;
  value: number;
  worstGap: number;
  slowest: number;
}

export async function run(args: string[]): Promise<void> {
  const { values } = parseArgs({
    args,
    options: {
      jobs: { type: 'string', default: '300' },
      from: { type: 'string', default: '1' },
      shapes: { type: 'boolean', default: false },
      fractions: { type: 'boolean', default: false },
      effort: { type: 'string', default: 'quick' },
      verify: { type: 'string' },
      sample: { type: 'string' },
    },
  });
  const { shapes, fractions } = values;
  const jobs = Number(values.jobs);
  const first = Number(values.from);
  const sample = values.sample === undefined ? jobs : Number(values.sample);
  const count: Count = { plans: 0, nothing: 0, faults: 0, outside: 0, placed: 0, value: 0, worstGap: 0, slowest: 0 };
  const checksum = createHash('sha256');
  const folder = mkdtempSync(path.join(tmpdir(), 'kentledge-bench-'));
  try {
    for (let seed = first; seed < first + jobs; seed++) {
      const plan = await planOne(seed, { shapes, fractions }, values.effort as Effort, count);
      checksum.update(JSON.stringify(plan));
      if (plan && values.verify && seed < first + sample)
        verifyOutside(values.verify, folder, seed, { shapes, fractions }, plan, count);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  console.log(
    `jobs      ${jobs} from seed ${first}, effort ${values.effort}${shapes ? ', with shapes' : ''}${fractions ? ', in fractions' : ''}`,
  );
  console.log(`plans     ${count.plans}, and ${count.nothing} jobs in which nothing can be placed`);
  console.log(`faults    ${count.faults} plans faulted by the checker, thrown, or wrongly told as nothing`);
  if (values.verify)
    console.log(`outside   ${count.outside} of ${Math.min(sample, jobs)} faulted by ${path.basename(values.verify)}`);
  console.log(
    `placed    ${count.placed.toFixed(1)} kg, value ${count.value.toFixed(1)} kg, worst gap ${(100 * count.worstGap).toFixed(2)} %`,
  );
  console.log(`slowest   ${count.slowest.toFixed(0)} ms`);
  console.log(`checksum  ${checksum.digest('hex').slice(0, 16)}`);
  if (count.faults + count.outside > 0) process.exitCode = 1;
}

async function planOne(seed: number, of: RandomJobOptions, effort: Effort, count: Count): Promise<Plan | null> {
  const read = readJobValue(randomJob(seed, of));
  if (!read.ok) throw new Error(`random job ${seed} was refused: ${JSON.stringify(read.faults)}`);
  const { job, digest } = read.value;
  const start = performance.now();
  let result: Awaited<ReturnType<typeof planJob>>;
  try {
    result = await planJob(job, { effort, seed: 1, stops: 'free', jobDigest: digest });
  } catch (error) {
    count.faults += 1;
    console.log(`job ${seed}: thrown: ${error instanceof Error ? error.message.slice(0, 300) : String(error)}`);
    return null;
  }
  count.slowest = Math.max(count.slowest, performance.now() - start);
  if (result.kind === 'nothing') {
    count.nothing += 1;
    const least = of.shapes ? null : bestOfOneBar(job);
    if (least !== null && least > 0.01) {
      count.faults += 1;
      console.log(`job ${seed}: told as nothing, and one bundle of one bar is worth ${least.toFixed(2)} kg`);
    }
    return null;
  }
  const { plan } = result;
  const faults = checkPlan(job, plan, digest);
  if (faults.length > 0) {
    count.faults += 1;
    console.log(`job ${seed}: ${faults.length} faults, the first: ${faults[0]!.code}: ${faults[0]!.text}`);
  }
  if (plan.bound.valueAtMost === null) {
    count.faults += 1;
    console.log(`job ${seed}: no bound is told, or it is under the plan`);
  }
  count.plans += 1;
  count.placed += plan.totals.placedMass;
  count.value += plan.bound.value;
  count.worstGap = Math.max(count.worstGap, plan.bound.gap ?? 0);
  return plan;
}

function verifyOutside(
  script: string,
  folder: string,
  seed: number,
  of: RandomJobOptions,
  plan: Plan,
  count: Count,
): void {
  const [jobFile, planFile] = [path.join(folder, 'job.json'), path.join(folder, 'plan.json')];
  writeFileSync(jobFile, JSON.stringify(randomJob(seed, of)));
  writeFileSync(planFile, JSON.stringify(plan));
  const { status, stdout } = spawnSync(process.execPath, [script, jobFile, planFile], { encoding: 'utf8' });
  if (status === 0) return;
  count.outside += 1;
  console.log(`job ${seed}, outside: ${stdout.trim().split('\n').slice(0, 3).join(' | ')}`);
}
