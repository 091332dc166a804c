/** `kentledge check`: checks any plan file against its job from first principles, one line a fault. */
import type { Writable } from 'node:stream';
import type { Command } from 'commander';
import { checkPlan } from '../../src/plan/check.ts';
import { EXIT } from '../exit.ts';
import { printLines } from '../terminal.ts';
import { many } from '../words.ts';
import { readJobAndPlan, tellRefused } from './jobAndPlan.ts';

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
  const read = await readJobAndPlan(jobFile, planFile);
  const { job, plan } = read;
  if (json && job && plan) {
    const faults = job.ok && plan.ok ? checkPlan(job.value.job, plan.value, job.value.digest) : [];
    const right = job.ok && plan.ok && faults.length === 0;
    const found = { right, job: job.ok ? [] : job.faults, plan: plan.ok ? [] : plan.faults, faults };
    out.write(`${JSON.stringify(found, null, 1)}\n`);
    return right ? EXIT.done : EXIT.refused;
  }
  if (!job?.ok || !plan?.ok) {
    tellRefused(read, jobFile, planFile, err);
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
