/** Writes papers of plans for tests, reads them back, and keeps what was read. */
import { PassThrough } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import type { PaperOptions } from '../../../server/paper/page.ts';
import { PAPERS } from '../../../server/paper/papers.ts';
import type { Job } from '../../../src/job/job.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { trialPair } from '../../plan/trialPlan.ts';
import { type ReadPage, readPdf } from './readPdf.ts';
import { stackedPair } from './stackedPlan.ts';

export const DATE = new Date('2026-05-04T10:00:00Z');

export const TRIAL = trialPair();

/** Plans short and long, and one whose every name is as long as a job may have it. */
export const PAIRS: [string, { job: Job; plan: Plan }][] = [
  ['trial', TRIAL],
  ['one bundle', stackedPair({ voids: 1, runs: 1, tiers: 1, across: 1 })],
  ['120 bundles', stackedPair({ voids: 5, runs: 3, tiers: 2, across: 4 })],
  [
    'long names',
    stackedPair({
      voids: 2,
      runs: 2,
      tiers: 2,
      across: 2,
      job: 'The very long name of a job '.repeat(7).trim(),
      lot: 'Lot'.repeat(66),
      void: (n) => `V${n}${'Δοκός'.repeat(30)}`,
      name: (n) => `Трюм ${n} ${'под койкой '.repeat(15)}`,
      what: 'keel bolt '.repeat(19).trim(),
    }),
  ],
];

export async function write(file: string, job: Job, plan: Plan, options: Partial<PaperOptions> = {}): Promise<Buffer> {
  const paper = PAPERS.find((candidate) => candidate.file === file)!;
  const out = new PassThrough();
  const [bytes] = await Promise.all([buffer(out), paper.write(job, plan, { date: DATE, ...options }, out)]);
  return bytes;
}

/** Writing and reading the long ones takes its time: each plan's papers are written and read once. */
const shelf = new Map<string, Promise<Shelved>>();

/** Jobs and plans by all that stands in them: two that are made alike have the same papers, and a changed one has others. */
const numbers = new Map<string, number>();

function numberOf(one: object): number {
  const text = JSON.stringify(one);
  const number = numbers.get(text) ?? numbers.size;
  numbers.set(text, number);
  return number;
}

interface Shelved {
  bytes: Buffer;
  pages: ReadPage[];
}

export async function read(
  file: string,
  job: Job,
  plan: Plan,
  options: Partial<PaperOptions> = {},
): Promise<ReadPage[]> {
  return (await shelved(file, job, plan, options)).pages;
}

/** The bytes that `read` has read. */
export async function readBytes(file: string, job: Job, plan: Plan): Promise<Buffer> {
  return (await shelved(file, job, plan, {})).bytes;
}

function shelved(file: string, job: Job, plan: Plan, options: Partial<PaperOptions>): Promise<Shelved> {
  // Two masses off the scale are not one, though JSON has nothing of a map.
  const key = JSON.stringify([numberOf(job), numberOf(plan), file, { paper: 'a4', ...options }], (_, value) =>
    value instanceof Map || value instanceof Set ? [...value] : value,
  );
  const paper = shelf.get(key) ?? writeAndRead(file, job, plan, options);
  shelf.set(key, paper);
  return paper;
}

async function writeAndRead(file: string, job: Job, plan: Plan, options: Partial<PaperOptions>): Promise<Shelved> {
  const bytes = await write(file, job, plan, options);
  return { bytes, pages: await readPdf(bytes) };
}

/** How often each text stands by itself on the pages. */
export function counts(pages: ReadPage[]): Map<string, number> {
  const found = new Map<string, number>();
  for (const { text } of pages.flatMap((page) => page.words)) found.set(text, (found.get(text) ?? 0) + 1);
  return found;
}
