/** A folder made with those above it that are missing. */
import { mkdirSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';

/**
 * Step by step, for the system's own recursive way never comes to an end where it may make nothing and says that there is
 * no such folder, as under `/proc`. Throws what the system says, with the path that could not be made.
 */
export function makeFolder(folder: string): void {
  const target = resolve(folder);
  if (isFolder(target)) return;
  const above = dirname(target);
  if (above !== target) makeFolder(above);
  try {
    mkdirSync(target);
  } catch (error) {
    // Another process may have made it meanwhile.
    if (!isFolder(target)) throw error;
  }
}

function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
}
