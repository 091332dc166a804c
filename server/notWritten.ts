/** Whether something went wrong because the disk takes nothing: full, over a quota, not to be written to, or held by another program. */

const OF_THE_SYSTEM: ReadonlySet<string> = new Set(['ENOSPC', 'EDQUOT', 'EROFS']);

/** SQLite tells of a full disk as such, or, where it is told in the midst of its own files, as of a write that failed; of a program that holds the file for longer than it is waited for, as busy. */
const OF_SQLITE = /^SQLITE_(FULL|IOERR|READONLY|BUSY|LOCKED)/;

export function isNotWritten(error: unknown): boolean {
  const { code } = (error ?? {}) as { code?: unknown };
  return typeof code === 'string' && (OF_THE_SYSTEM.has(code) || OF_SQLITE.test(code));
}
