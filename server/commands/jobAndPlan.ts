/** A job file and a plan file read together, for commands that take both: what is wrong with either is told. */
import type { Writable } from 'node:stream';
import type { Fault } from '../../src/fault.ts';
import { readJob } from '../../src/job/readJob.ts';
import { readPlan } from '../../src/plan/readPlan.ts';
import { failureStatus, faultLines } from '../exit.ts';
import { readInput } from '../inputFile.ts';
import { printLines } from '../terminal.ts';

/** Both as they were read, null where a file can not be had at all, and what keeps those from being had. */
export async function readJobAndPlan(jobFile: string, planFile: string) {
  const [jobBytes, planBytes] = await Promise.allSettled([readInput(jobFile), readInput(planFile)]);
  return {
    job: jobBytes.status === 'fulfilled' ? readJob(jobBytes.value, { toCheck: true }) : null,
    plan: planBytes.status === 'fulfilled' ? readPlan(planBytes.value) : null,
    failures: [jobBytes, planBytes].flatMap((read) => (read.status === 'rejected' ? [read.reason] : [])),
  };
}

/** Tells on `err` what is wrong with the two. Throws what keeps a file from being read at all, once all else is told. */
export function tellRefused(
  { job, plan, failures }: Awaited<ReturnType<typeof readJobAndPlan>>,
  jobFile: string,
  planFile: string,
  err: Writable,
): void {
  const refused = (file: string, faults: Fault[]) =>
    printLines(err, [`${file} was refused:`, ...faultLines(faults).map((line) => `  ${line}`)]);
  if (job && !job.ok) refused(jobFile, job.faults);
  if (plan && !plan.ok) refused(planFile, plan.faults);
  // The last one is told by whoever called.
  for (const failure of failures.slice(0, -1)) failureStatus(failure, err);
  if (failures.length > 0) throw failures.at(-1);
}
