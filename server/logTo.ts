/** Where the log goes. A line that can not be written, for a full disk or a reader that is gone, is dropped: the server outlives its log. */
import { writeSync } from 'node:fs';

/** What takes lines and writes them at once; whatever comes of that holds up nobody, and least of all the end. */
export function logTo(descriptor: number): { write(line: string): void } {
  let isTorn = false;
  return {
    write: (line) => {
      const bytes = Buffer.from(isTorn ? `\n${line}` : line);
      let done = 0;
      try {
        while (done < bytes.length) done += writeSync(descriptor, bytes, done);
        isTorn = false;
      } catch {
        // The next line that goes in begins on a line of its own.
        isTorn ||= done > 0;
      }
    },
  };
}
