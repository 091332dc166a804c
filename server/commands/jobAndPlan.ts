/** A job file and a plan file read together, for commands that take both: what is wrong with any file is told. */
import type { Writable } from 'node:stream';
import type { Fault } from '../../src/fault.ts';
import { readJob } from '../../src/job/readJob.ts';
import { readPlan } from '../../src/plan/readPlan.ts';
import { failureStatus, faultLines } from '../exit.ts';
import { readInput } from '../inputFile.ts';
import { printLines } from '../terminal.ts';

/**
 * Both as they were read, and the job as it stands `now` where that is a file of its own; null where a file can not be had
 * at all, and what keeps those from being had.
 */
export async function readJobAndPlan(jobFile: string, planFile: string, nowFile?: string) {
  const files = [jobFile, planFile, ...(nowFile === undefined ? [] : [nowFile])];
  const [job, plan, now] = await Promise.allSettled(files.map(readInput));
  return {
    job: job?.status === 'fulfilled' ? readJob(job.value, { toCheck: true }) : null,
    plan: plan?.status === 'fulfilled' ? readPlan(plan.value) : null,
    now: now?.status === 'fulfilled' ? readJob(now.value) : null,
    failures: [job, plan, now].flatMap((read) => (read?.status === 'rejected' ? [read.reason] : [])),
  };
}

/** Tells on `err` what is wrong with the files. Throws what keeps a file from being read at all, once all else is told. */
export function tellRefused(
  { job, plan, now, failures }: Awaited<ReturnType<typeof readJobAndPlan>>,
  jobFile: string,
  planFile: string,
  err: Writable,
  nowFile = '',
): void {
  const refused = (file: string, faults: Fault[]) =>
    printLines(err, [`${file} was refused:`, ...faultLines(faults).map((line) => `  ${line}`)]);
  if (job && !job.ok) refused(jobFile, job.faults);
  if (plan && !plan.ok) refused(planFile, plan.faults);
  if (now && !now.ok) refused(nowFile, now.faults);
  // The last one is told by whoever called.
  for (const failure of failures.slice(0, -1)) failureStatus(failure, err);
  if (failures.length > 0) throw failures.at(-1);
}
