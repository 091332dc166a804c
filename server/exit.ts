/** Exit statuses of every command, and how what went wrong is told on the terminal. */
import type { Writable } from 'node:stream';
import { CommanderError } from 'commander';
import type { Fault } from '../src/fault.ts';

export const EXIT = { done: 0, defect: 1, refused: 2, nothing: 3 } as const;

/** One line a fault: path, message, remedy. */
export function faultLines(faults: Fault[]): string[] {
  return faults.map((fault) => `${fault.path || 'the file'}: ${fault.message} ${fault.remedy}`.trim());
}

/**
 * The exit status for what a command threw, told on `err` in words and never as a stack trace. The command line library
 * has already told what it threw itself: help asked for is done, anything else is a refused input. A file that can not
 * be read or written is refused; all else is a defect of our own.
 */
export function failureStatus(error: unknown, err: Writable): number {
  if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.done : EXIT.refused;
  const { code, path, syscall, message } = error as NodeJS.ErrnoException;
  const missing = code === 'ENOENT' && syscall === 'mkdir' ? NOT_MADE : undefined;
  const failure = missing ?? (code === undefined ? undefined : FILE_FAILURES[code]);
  if (failure !== undefined || (path !== undefined && code !== undefined)) {
    err.write(`${path ?? 'The path given'}: ${failure ?? message}\n`);
    return EXIT.refused;
  }
  err.write(`A defect of kentledge's own: ${message ?? String(error)}\nPlease report it together with the job file.\n`);
  return EXIT.defect;
}

/** A folder that is missing can be made, unless it lies where the system lets nobody make any. */
const NOT_MADE = 'can not be made: no folder can be made there. Give another path.';

const FILE_FAILURES: Record<string, string> = {
  ENOENT: 'no such file or folder. Give the path of one that exists.',
  EACCES: 'may not be read or written by you. Change its permissions or give another path.',
  EPERM: 'may not be read or written by you. Change its permissions or give another path.',
  EISDIR: 'is a folder. Give the path of a file.',
  ENOTDIR: 'is not a folder. Give the path of a folder.',
  EEXIST: 'is there already and is not a folder. Give another path.',
  ENOSPC: 'does not fit: the disk is full. Make room and try again.',
  EROFS: 'can not be written: the disk is read-only. Give another path.',
};
