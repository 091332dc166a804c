/** `kentledge schema`: the format of a job, plan or cut list file, for programs of others. */
import type { Writable } from 'node:stream';
import { Argument, type Command } from 'commander';
import { FILE_KINDS, type FileKind, fileSchema } from '../../src/plan/fileSchema.ts';
import { EXIT } from '../exit.ts';

export function addSchemaCommand(program: Command): void {
  program
    .command('schema')
    .description('Print the format of a job, plan or cut list file as JSON Schema, with units and meanings.')
    .addArgument(new Argument('<file>', 'which file').choices(FILE_KINDS))
    .action((file: FileKind) => {
      process.exitCode = runSchema(file, process.stdout);
    });
}

/** Prints the schema; exit status 0. */
export function runSchema(file: FileKind, out: Writable): number {
  out.write(fileSchema(file));
  return EXIT.done;
}
