/** All papers, tables and drawings of a plan as one ZIP, written as it is made. */
import { PassThrough, type Writable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import yazl from 'yazl';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { CSV_TABLES, csvOf } from './csv.ts';
import { unitsOf } from './feet.ts';
import type { PaperOptions } from './page.ts';
import { PAPERS } from './papers.ts';
import { picturesOf } from './pictures.ts';

/**
 * Writes papers at the top, `tables/*.csv`, `drawings/*.svg` and `plan.json`. One paper is in memory at a time. `planFile` is the
 * file as the plan was made, where bundles of it were moved since. The only
 * time in the file is `options.date`. Fails where a paper or `out` does.
 */
export async function writeArchive(
  job: Job,
  plan: Plan,
  options: PaperOptions,
  out: Writable,
  planFile = `${JSON.stringify(plan, null, 1)}\n`,
): Promise<void> {
  const zip = new yazl.ZipFile();
  // Read as UTC and written as the plain DOS time, so that the bytes do not depend on the time zone of the machine.
  const mtime = new Date(options.date.getTime() + options.date.getTimezoneOffset() * 60_000);
  const entry = { mtime, forceDosTimestamp: true };
  let fail: (error: unknown) => void = () => {};
  const broken = new Promise<never>((_, reject) => {
    fail = reject;
  });
  zip.on('error', fail);
  for (const paper of PAPERS) {
    zip.addReadStreamLazy(paper.file, entry, (give) => {
      const stream = new PassThrough();
      // The archive waits for the rest of a paper that breaks, and is left so: whoever asked is told by `broken`.
      paper.write(job, plan, options, stream).catch(fail);
      give(null, stream);
    });
  }
  for (const table of CSV_TABLES) {
    zip.addBuffer(
      Buffer.from(csvOf(table, job, plan, options.weighed, options.record), 'utf8'),
      `tables/${table.file}`,
      entry,
    );
  }
  for (const picture of picturesOf(job, plan, unitsOf({ options }))) {
    zip.addReadStreamLazy(`drawings/${picture.file}`, entry, (give) => {
      const stream = new PassThrough();
      stream.end(picture.svg());
      give(null, stream);
    });
  }
  zip.addBuffer(Buffer.from(planFile, 'utf8'), 'plan.json', entry);
  zip.end();
  await Promise.race([pipeline(zip.outputStream, out), broken]);
}
