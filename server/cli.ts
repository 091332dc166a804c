#!/usr/bin/env node
/** The command line: `kentledge plan | left | cut | check | schema | lift | serve`. */
import { setFlagsFromString } from 'node:v8';
import { runProgram } from './program.ts';

// Machine code is made of a function only once it has done some four times the usual work: a plan takes seconds, and two
// fifths of its processor time went into making code, much of it anew and anew.
setFlagsFromString('--interrupt-budget=300000');

// A reader that stops early (`| head`) is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

await runProgram(process.argv.slice(2), process.stdout, process.stderr);
