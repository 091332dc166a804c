/** `kentledge check`: checks any plan file against its job from first principles, one line a fault. */
import type { Writable } from 'node:stream';
import type { Command } from 'commander';
import { readJob } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import { readPlan } from '../../src/plan/readPlan.ts';
import { EXIT, faultLines } from '../exit.ts';
import { readInput } from '../inputFile.ts';
import { printLines } from '../terminal.ts';
import { many } from '../words.ts';

export function addCheckCommand(program: Command): void {
  program
    .command('check')
    .description('Check any plan file against its job from first principles, one line a fault.')
    .argument('<job>', 'the job file, JSON')
    .argument('<plan>', 'the plan file, JSON')
    .action(async (job: string, plan: string) => {
      process.exitCode = await runCheck(job, plan, process.stdout, process.stderr);
    });
}

/** Runs the command to its exit status: 0 where the plan is right, 2 where it is not or a file can not be read as what it should be. */
export async function runCheck(jobFile: string, planFile: string, out: Writable, err: Writable): Promise<number> {
  const job = readJob(await readInput(jobFile), { toCheck: true });
  const plan = readPlan(await readInput(planFile));
  if (!job.ok || !plan.ok) {
    const refused = (file: string, faults: string[]) =>
      faults.length === 0 ? [] : [`${file} was refused:`, ...faults.map((line) => `  ${line}`)];
    printLines(err, refused(jobFile, job.ok ? [] : faultLines(job.faults)));
    printLines(err, refused(planFile, plan.ok ? [] : faultLines(plan.faults)));
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
