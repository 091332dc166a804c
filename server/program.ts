/** All commands, and one run of them from arguments to an exit status. Each command is one file in `commands/`. */
import type { Writable } from 'node:stream';
import type { Command } from 'commander';
import type { planJob } from '../src/plan/planner.ts';
import { WholeCommand } from './commandLine.ts';
import { addCheckCommand } from './commands/check.ts';
import { addCutCommand } from './commands/cut.ts';
import { addLeftCommand } from './commands/left.ts';
import { addLiftCommand } from './commands/lift.ts';
import { addPlanCommand } from './commands/plan.ts';
import { addSchemaCommand } from './commands/schema.ts';
import { addServeCommand } from './commands/serve.ts';
import { failureStatus } from './exit.ts';
import { VERSION } from './version.ts';

/** What the library of commands says (help, refused options) goes to `out` and `err`. */
function buildProgram(out: Writable, err: Writable, plan: typeof planJob): Command {
  const program = new WholeCommand('kentledge')
    .description('Plans salvaged steel bar as fixed ballast: what to cut, tie, stow and record.')
    .version(VERSION)
    .showHelpAfterError('(kentledge help tells what each command takes)')
    .configureOutput({ writeOut: (text) => out.write(text), writeErr: (text) => err.write(text) })
    .exitOverride();
  // Commands are registered after exitOverride, which they inherit: a refused option ends with exit status 2, not 1.
  const commands = [
    (program: Command) => addPlanCommand(program, plan),
    addLeftCommand,
    addCutCommand,
    addCheckCommand,
    addSchemaCommand,
    addLiftCommand,
    addServeCommand,
  ];
  for (const add of commands) add(program);
  return program;
}

/** Runs the command that `args` (without node and script) name; `plan` plans. The status is also the process's own exit code. */
export async function runProgram(
  args: string[],
  out: Writable,
  err: Writable,
  plan: typeof planJob,
): Promise<number | undefined> {
  try {
    await buildProgram(out, err, plan).parseAsync(args, { from: 'user' });
  } catch (error) {
    process.exitCode = failureStatus(error, err);
  }
  return process.exitCode === undefined ? undefined : Number(process.exitCode);
}
