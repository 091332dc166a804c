/** Scripts from outside, given by path and run as children: a plan made by hand rules to compare with, and a verifier. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { JobInput } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';

/** Runs `node SCRIPT JOB [PLAN]` on files of their own; its output and status. */
function runScript(script: string, job: JobInput, plan: Plan | null): { status: number | null; lines: string[] } {
  const folder = mkdtempSync(path.join(tmpdir(), 'kentledge-bench-'));
  try {
    const files = [path.join(folder, 'job.json')];
    writeFileSync(files[0]!, JSON.stringify(job));
    if (plan) {
      files.push(path.join(folder, 'plan.json'));
      writeFileSync(files[1]!, JSON.stringify(plan));
    }
    const { status, stdout } = spawnSync(process.execPath, [script, ...files], { encoding: 'utf8' });
    return { status, lines: stdout.trim().split('\n') };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export interface HandPlan {
  placed: number;
  scrap: number;
  cutUp: number;
}

/** What a careful person would place, kg: read from the script's `placed … scrap … of … cut up`. */
export function planByHand(script: string, job: JobInput): HandPlan | null {
  const { lines } = runScript(script, job, null);
  const found = /placed ([\d.]+) kg, scrap ([\d.]+) kg of ([\d.]+) cut up/.exec(lines[0] ?? '');
  return found && { placed: Number(found[1]), scrap: Number(found[2]), cutUp: Number(found[3]) };
}

/** The first lines of what a verifier finds wrong; none where it is content (status 0). */
export function verifyOutside(script: string, job: JobInput, plan: Plan): string[] {
  const { status, lines } = runScript(script, job, plan);
  return status === 0 ? [] : lines.slice(0, 3);
}

/** The job with labour for nothing and stops free: what a plan by hand is compared with. */
export function withoutLabour(job: JobInput): JobInput {
  const { stopsAtMost: _, ...aims } = job.aims ?? {};
  return { ...job, aims: { ...aims, kgPerHour: 0 } };
}
