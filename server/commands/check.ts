/** `kentledge check`: checks any plan file against its job from first principles, one line a fault. */
import type { Writable } from 'node:stream';
import type { Command } from 'commander';
import type { Fault } from '../../src/fault.ts';
import { readJob } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { readPlan } from '../../src/plan/readPlan.ts';
import { EXIT, failureStatus, faultLines } from '../exit.ts';
import { readInput } from '../inputFile.ts';
import { printLines } from '../terminal.ts';
import { many } from '../words.ts';

export function addCheckCommand(program: Command): void {
  program
    .command('check')
    .description('Check any plan file against its job from first principles, one line a fault.')
    .argument('<job>', 'the job file, JSON')
    .argument('<plan>', 'the plan file, JSON')
    .option('--json', 'print what was found as JSON: the faults of the job file, of the plan file, and of the plan')
    .action(async (job: string, plan: string, { json = false }: { json?: boolean }) => {
      process.exitCode = await runCheck(job, plan, process.stdout, process.stderr, json);
    });
}

/**
 * Runs the command to its exit status: 0 where the plan is right, 2 where it is not or a file can not be read as what it
 * should be. `json` prints `{ right, job, plan, faults }` to `out` in either case and nothing else: faults of the two files
 * with their paths, and those of the plan, which is checked only where both files could be read. Throws what keeps a file
 * from being read at all, once all that is wrong with the other is told.
 */
export async function runCheck(
  jobFile: string,
  planFile: string,
  out: Writable,
  err: Writable,
  json = false,
): Promise<number> {
  const [jobBytes, planBytes] = await Promise.allSettled([readInput(jobFile), readInput(planFile)]);
  const job = jobBytes.status === 'fulfilled' ? readJob(jobBytes.value, { toCheck: true }) : null;
  const plan = planBytes.status === 'fulfilled' ? readPlan(planBytes.value) : null;
  if (json && job && plan) {
    const faults = job.ok && plan.ok ? checkPlan(job.value.job, plan.value, job.value.digest) : [];
    const right = job.ok && plan.ok && faults.length === 0;
    const found = { right, job: job.ok ? [] : job.faults, plan: plan.ok ? [] : plan.faults, faults };
    out.write(`${JSON.stringify(found, null, 1)}\n`);
    return right ? EXIT.done : EXIT.refused;
  }
  if (!job?.ok || !plan?.ok) {
    const refused = (file: string, faults: Fault[]) =>
      printLines(err, [`${file} was refused:`, ...faultLines(faults).map((line) => `  ${line}`)]);
    if (job && !job.ok) refused(jobFile, job.faults);
    if (plan && !plan.ok) refused(planFile, plan.faults);
    const failures = [jobBytes, planBytes].flatMap((read) => (read.status === 'rejected' ? [read.reason] : []));
    // The last one is told by whoever called.
    for (const failure of failures.slice(0, -1)) failureStatus(failure, err);
    if (failures.length > 0) throw failures.at(-1);
    return EXIT.refused;
  }
  const faults = checkPlan(job.value.job, plan.value, job.value.digest);
  if (faults.length > 0) {
    printLines(
      out,
      faults.map((fault) => `${fault.code}: ${fault.text}`),
    );
    printLines(err, [`${faults.length === 1 ? '1 fault' : `${faults.length} faults`} in ${planFile}.`]);
    return EXIT.refused;
  }
  const { totals } = plan.value;
  printLines(out, [
    `No faults: ${many(totals.bundles, 'bundle')}, ${totals.placedMass} kg of steel placed. A right plan is no approval of the vessel.`,
  ]);
  return EXIT.done;
}
