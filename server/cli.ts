#!/usr/bin/env node
/** The command line: `kentledge plan | cut | check | lift | serve`. Each command is one file in `commands/`. */
import { Command } from 'commander';
import { VERSION } from './version.ts';

const program = new Command('kentledge')
  .description('Plans salvaged steel bar as fixed ballast: what to cut, tie, stow and record.')
  .version(VERSION)
  .showHelpAfterError();

await program.parseAsync();
