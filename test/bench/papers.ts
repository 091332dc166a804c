/**
 * Times the papers and the archive of a large stacked plan, with the peak of resident memory; then plans jobs at effort
 * quick, writes all their papers on both sizes, reads them back and counts the words that leave the page or overlap.
 *
 *     npm run bench -- papers [JOB.json …] [--voids 60] [--bundles 40]
 */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { PassThrough, Writable } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { writeArchive } from '../../server/paper/archive.ts';
import { PAPERS } from '../../server/paper/papers.ts';
import { readJob } from '../../src/job/readJob.ts';
import { planJob } from '../../src/plan/planner.ts';
import { outside, overlapping, readPdf } from '../server/paper/readPdf.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';

const FIXTURES = fileURLToPath(new URL('../../fixtures/', import.meta.url));
const DATE = new Date('2026-05-04T10:00:00Z');

export async function run(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: { voids: { type: 'string', default: '60' }, bundles: { type: 'string', default: '40' } },
  });
  const fixtures = readdirSync(FIXTURES).filter((name) => name.endsWith('.json'));
  const files = positionals.length > 0 ? positionals : fixtures.map((name) => path.join(FIXTURES, name));
  await timeStacked(Number(values.voids), Number(values.bundles));
  for (const file of files) await readBack(file);
}

async function readBack(file: string): Promise<void> {
  const read = readJob(readFileSync(file));
  if (!read.ok) {
    console.log(`${path.basename(file)}: not a job`);
    return;
  }
  const { job, digest } = read.value;
  const result = await planJob(job, { effort: 'quick', jobDigest: digest });
  if (result.kind === 'nothing') {
    console.log(`${path.basename(file)}: nothing planned`);
    return;
  }
  let pages = 0;
  const wrong: string[] = [];
  for (const kind of PAPERS) {
    for (const paper of ['a4', 'letter'] as const) {
      const out = new PassThrough();
      const [bytes] = await Promise.all([buffer(out), kind.write(job, result.plan, { date: DATE, paper }, out)]);
      const sheet = await readPdf(bytes);
      pages += sheet.length;
      wrong.push(...[...outside(sheet), ...overlapping(sheet)].map((words) => `${kind.file} ${paper} ${words}`));
    }
  }
  const { bundles } = result.plan.totals;
  console.log(`${path.basename(file)}: ${bundles} bundles, ${pages} pages, ${wrong.length} words out of place`);
  for (const words of wrong) console.log(`  ${words}`);
}

async function timeStacked(voids: number, bundles: number): Promise<void> {
  const { job, plan } = stackedPair({ voids, runs: 2, tiers: 2, across: Math.ceil(bundles / 4) });
  const sink = () => new Writable({ write: (_chunk, _encoding, done) => done() });
  let all = 0;
  for (const kind of PAPERS) {
    const start = performance.now();
    await kind.write(job, plan, { date: DATE, base: 'http://127.0.0.1:8017', planSerial: 1 }, sink());
    const took = performance.now() - start;
    all += took;
    console.log(`  ${kind.file.padEnd(22)} ${took.toFixed(0).padStart(6)} ms`);
  }
  const start = performance.now();
  await writeArchive(job, plan, { date: DATE }, sink());
  const zip = performance.now() - start;
  const peak = process.resourceUsage().maxRSS / 1024;
  console.log(
    `${voids} voids, ${plan.bundles.length} bundles, ${plan.totals.pieces} pieces: papers ${(all / 1000).toFixed(1)} s, archive ${(zip / 1000).toFixed(1)} s, peak ${peak.toFixed(0)} MiB`,
  );
}
