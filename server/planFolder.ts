/** A folder of files that is written whole or not at all. */
import { randomUUID } from 'node:crypto';
import { createWriteStream } from 'node:fs';
import { access, constants, mkdir, readdir, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import type { Writable } from 'node:stream';
import { finished } from 'node:stream/promises';
import { makeFolder } from './makeFolder.ts';

/** One file to be: its name inside the folder, and what writes it; `write` need not end the stream. */
export interface FileToWrite {
  name: string;
  write(out: Writable): Promise<void>;
}

/**
 * Writes `files` into `folder`. All are first written to the end into a new folder: beside `folder`, whose name it then
 * takes, or inside it where it exists (it may be another disk); then each file replaces its namesake, and what else lies
 * there is left alone. When anything fails before that, nothing has changed and the new folder is gone.
 */
export async function writeFolder(folder: string, files: FileToWrite[]): Promise<void> {
  const target = path.resolve(folder);
  const exists = await isFolder(target);
  const parent = exists ? target : path.dirname(target);
  makeFolder(parent);
  const draft = path.join(parent, `.kentledge-${randomUUID()}`);
  await mkdir(draft);
  // One file goes to the disk while the next is drawn: after many other writes that may take a disk long.
  const pending: { out: Writable; written: Promise<void> }[] = [];
  try {
    for (const file of files) {
      const out = createWriteStream(path.join(draft, file.name), { flush: true });
      const written = finished(out);
      // A write error also rejects `written`; whoever fails first is told, and the other must not go unheard.
      written.catch(() => {});
      pending.push({ out, written });
      await file.write(out);
      if (!out.writableEnded) out.end();
    }
    await Promise.all(pending.map(({ written }) => written));
    if (!exists) await rename(draft, target);
    else for (const { name } of files) await rename(path.join(draft, name), path.join(target, name));
  } finally {
    for (const { out } of pending) out.destroy();
    await Promise.allSettled(pending.map(({ written }) => written));
    await rm(draft, { recursive: true, force: true });
  }
}

/**
 * Throws what the system says of a folder in which nothing can be written, before anybody waits for what is to go there.
 * Makes nothing: of a folder that is to be made, the nearest one above that is there is asked.
 */
export async function askFolder(folder: string): Promise<void> {
  let there = path.resolve(folder);
  while (!(await isFolder(there)) && path.dirname(there) !== there) there = path.dirname(there);
  await access(there, constants.W_OK | constants.X_OK);
}

/** False where there is nothing; a file in its place is refused with its path. */
async function isFolder(target: string): Promise<boolean> {
  try {
    await readdir(target);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return false;
    throw error;
  }
}
