/** A folder of files that is written whole or not at all. */
import { randomUUID } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { mkdir, readdir, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import type { Writable } from 'node:stream';
import { finished } from 'node:stream/promises';

/** One file to be: its name inside the folder, and what writes it; `write` need not end the stream. */
export interface FileToWrite {
  name: string;
  write(out: Writable): Promise<void>;
}

/**
 * Writes `files` into `folder`. All are first written to the end into a new folder beside it; then, where `folder` does
 * not exist, that one takes its name, else each file replaces its namesake and what else lies there is left alone. When
 * anything fails before that, nothing has changed and the new folder is gone.
 */
export async function writeFolder(folder: string, files: FileToWrite[]): Promise<void> {
  const target = path.resolve(folder);
  const parent = path.dirname(target);
  await mkdir(parent, { recursive: true });
  const draft = path.join(parent, `.${path.basename(target)}.${randomUUID()}`);
  await mkdir(draft);
  try {
    for (const file of files) {
      const out = createWriteStream(path.join(draft, file.name), { flush: true });
      const written = finished(out);
      // A write error also rejects `written`; whoever fails first is told, and the other must not go unheard.
      written.catch(() => {});
      await file.write(out);
      if (!out.writableEnded) out.end();
      await written;
    }
    if (await isAbsent(target)) await rename(draft, target);
    else for (const { name } of files) await rename(path.join(draft, name), path.join(target, name));
  } finally {
    await rm(draft, { recursive: true, force: true });
  }
}

/** True where there is nothing at `folder`, or a folder with nothing in it, which a rename may replace. */
async function isAbsent(folder: string): Promise<boolean> {
  try {
    return (await readdir(folder)).length === 0;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return true;
    throw error;
  }
}
