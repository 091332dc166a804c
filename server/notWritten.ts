/** Whether something went wrong because the disk takes nothing: full, over a quota, or not to be written to. */

const OF_THE_SYSTEM: ReadonlySet<string> = new Set(['ENOSPC', 'EDQUOT', 'EROFS']);

/** SQLite tells of a full disk as such, or, where it is told in the midst of its own files, as of a write that failed. */
const OF_SQLITE = /^SQLITE_(FULL|IOERR|READONLY)/;

export function isNotWritten(error: unknown): boolean {
  const { code } = (error ?? {}) as { code?: unknown };
  return typeof code === 'string' && (OF_THE_SYSTEM.has(code) || OF_SQLITE.test(code));
}
