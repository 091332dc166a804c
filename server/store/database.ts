/**
 * The SQLite file: opened, brought up to date, and kept for one server alone.
 *
 * WAL with `synchronous = FULL`: a save that was answered is on the disk, whatever happens to the process after it.
 */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { makeFolder } from '../makeFolder.ts';
import { MIGRATIONS } from './migrations.ts';

export type Connection = Database.Database;

/**
 * Thrown where another server holds the data folder, where a newer kentledge wrote it, or where its files can not be opened
 * or are no databases. The message says what to do.
 */
export class FolderRefused extends Error {
  override name = 'FolderRefused';
}

/** A program that looks at the database beside the server, such as one that copies it, is waited for so long, ms. */
const PATIENCE = 5000;

/**
 * Takes the folder for this process. The operating system gives the lock up when the process ends, however it ends:
 * there is no stale lock to clear away. Returns what lets go of it. Throws `FolderRefused`, and what the system says of a
 * folder that can not be made.
 */
export function lockFolder(folder: string): () => void {
  makeFolder(folder);
  const lock = openFile(join(folder, 'in-use.sqlite'), 0, (file) => file.exec('BEGIN EXCLUSIVE'));
  return () => void lock.close();
}

/** Opens `kentledge.sqlite` in `folder` and takes the migrations that it lacks, with a copy of the file before each. */
export function openDatabase(folder: string, migrations = MIGRATIONS): Connection {
  makeFolder(folder);
  return openFile(join(folder, 'kentledge.sqlite'), PATIENCE, (file) => {
    file.pragma('journal_mode = WAL');
    file.pragma('synchronous = FULL');
    file.pragma('foreign_keys = ON');
    migrate(file, folder, migrations);
  });
}

/** Opens a file, for which another program is waited for `timeout` ms, and makes it ready; left closed where that fails. */
function openFile(path: string, timeout: number, prepare: (file: Connection) => void): Connection {
  let file: Connection | undefined;
  try {
    file = new Database(path, { timeout });
    prepare(file);
    return file;
  } catch (error) {
    file?.close();
    if (!(error instanceof Database.SqliteError)) throw error;
    throw new FolderRefused(
      error.code.startsWith('SQLITE_BUSY')
        ? `Another kentledge server, or another program, is using ${path}. Stop that one first, or start this one with --data and another folder.`
        : `${path} can not be used: ${error.message}. See that the folder may be written to and that the file is kentledge's own, or start with --data and another folder.`,
    );
  }
}

function migrate(connection: Connection, folder: string, migrations: readonly string[]): void {
  const taken = Number(connection.pragma('user_version', { simple: true }));
  if (taken > migrations.length) {
    throw new FolderRefused(
      `The data folder ${folder} was written by a newer kentledge. Start the newer one, or this one with --data and another folder.`,
    );
  }
  const take = connection.transaction((from: number, to: number) => {
    for (const step of migrations.slice(from, to)) connection.exec(step);
    connection.pragma(`user_version = ${to}`);
  });
  // A folder that was empty has nothing to copy, and takes all of them or none.
  if (taken === 0) take(0, migrations.length);
  else
    for (let step = taken; step < migrations.length; step++) {
      backUp(connection, join(folder, `before-step-${step + 1}.sqlite`));
      take(step, step + 1);
    }
}

/** Copies the whole database into a new file; where one of that name is left from a broken attempt, beside it. */
function backUp(connection: Connection, path: string): void {
  for (let n = 0; ; n++) {
    const name = n === 0 ? path : path.replace(/\.sqlite$/, `-${n}.sqlite`);
    try {
      connection.prepare('VACUUM INTO ?').run(name);
      return;
    } catch (error) {
      if (n < 100 && error instanceof Error && error.message.includes('already exists')) continue;
      throw error;
    }
  }
}
