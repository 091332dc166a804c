/** Lines on a terminal. */
import type { Writable } from 'node:stream';

/** Writes lines; names may hold anything, and control characters in them must not steer the terminal. */
export function printLines(stream: Writable, lines: string[]): void {
  if (lines.length > 0) stream.write(`${lines.map((line) => line.replace(/\p{Cc}/gu, '\ufffd')).join('\n')}\n`);
}
