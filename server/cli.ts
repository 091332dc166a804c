#!/usr/bin/env node
/** The command line: `kentledge plan | left | cut | check | schema | lift | serve`. */
import './compileLater.ts';
import { planInThread, startThread } from './planning/inThread.ts';

// A reader that stops early (`| head`) is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

const args = process.argv.slice(2);
// Of all commands this is the one that is waited for: its thread loads the planner while the program is loaded here.
const thread = args[0] === 'plan' ? startThread() : null;
const { runProgram } = await import('./program.ts');
await runProgram(args, process.stdout, process.stderr, (job, options) => planInThread(thread, job, options));
