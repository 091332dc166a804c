#!/usr/bin/env node
/** The command line: `kentledge plan | cut | check | lift | serve`. Each command is one file in `commands/`. */
import { Command } from 'commander';
import { addCheckCommand } from './commands/check.ts';
import { addCutCommand } from './commands/cut.ts';
import { addLiftCommand } from './commands/lift.ts';
import { addPlanCommand } from './commands/plan.ts';
import { addServeCommand } from './commands/serve.ts';
import { failureStatus } from './exit.ts';
import { VERSION } from './version.ts';

const program = new Command('kentledge')
  .description('Plans salvaged steel bar as fixed ballast: what to cut, tie, stow and record.')
  .version(VERSION)
  .showHelpAfterError('(kentledge help tells what each command takes)')
  .exitOverride();

// Commands are registered after exitOverride, which they inherit: a refused option ends with exit status 2, not 1.
addPlanCommand(program);
addCutCommand(program);
addCheckCommand(program);
addLiftCommand(program);
addServeCommand(program);

// A reader that stops early (`| head`) is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

try {
  await program.parseAsync();
} catch (error) {
  process.exitCode = failureStatus(error, process.stderr);
}
