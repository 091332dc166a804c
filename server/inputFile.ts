/** The files that the commands are given. */
import { readFile } from 'node:fs/promises';

/** The bytes of `file`. What keeps it from being read is thrown with its path, which a folder given as a file lacks. */
export async function readInput(file: string): Promise<Uint8Array> {
  try {
    return await readFile(file);
  } catch (error) {
    throw Object.assign(error as NodeJS.ErrnoException, { path: file });
  }
}
