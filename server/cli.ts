#!/usr/bin/env node
/** The command line: `kentledge plan | left | cut | check | schema | lift | serve`. */
import './compileLater.ts';
import { runProgram } from './program.ts';

// A reader that stops early (`| head`) is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

await runProgram(process.argv.slice(2), process.stdout, process.stderr);
