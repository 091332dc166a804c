/** `kentledge plan`: reads a job, plans it, tells the plan and writes it with its papers. */
import path from 'node:path';
import type { Writable } from 'node:stream';
import { type Command, InvalidArgumentError, Option } from 'commander';
import { readableParts, readJob } from '../../src/job/readJob.ts';
import { jobDoubts } from '../../src/plan/jobDoubts.ts';
import type { Effort, Plan } from '../../src/plan/plan.ts';
import type { PlanOptions, planJob } from '../../src/plan/planner.ts';
import { withCautions } from '../cautionsMade.ts';
import { EXIT, faultLines } from '../exit.ts';
import { readInput } from '../inputFile.ts';
import { tellIn } from '../otherUnits.ts';
import { Drawing, type DrawingOrder } from '../paper/drawing.ts';
import { askFolder, writeFolder } from '../planFolder.ts';
import { printLines } from '../terminal.ts';
import { addPaperOptions, type PaperChoice, readPaperChoice } from './paperOptions.ts';
import { nothingLines, planLines } from './planSummary.ts';
import { showProgress } from './progressLine.ts';

export interface PlanCommandOptions extends PaperChoice {
  out?: string;
  effort: Effort;
  stops?: number | 'free';
  seed: number;
  json?: boolean;
}

/** What the command touches of the world; the tests hand in their own. */
export interface PlanCommandWorld {
  out: Writable;
  err: Writable & { isTTY?: boolean; columns?: number };
  plan: typeof planJob;
  now: () => Date;
  /** Calls `stop` at the first interrupt from the keyboard; the second ends the process. Returns what undoes this. */
  onInterrupt: (stop: () => void) => () => void;
}

export function addPlanCommand(program: Command, plan: typeof planJob): void {
  const command = program
    .command('plan')
    .description('Plan a job: what to cut, tie and stow; check the plan; write it and its papers.')
    .argument('<job>', 'the job file, JSON')
    .option('--out <dir>', 'write plan.json and the papers into this folder')
    .addOption(
      new Option('--effort <effort>', 'how long to look for a better plan')
        .choices(['quick', 'steady', 'thorough'])
        .default('steady'),
    )
    .option('--stops <n|free>', 'at most so many stop settings; free: as many as pay', readStops)
    .option('--seed <n>', 'another seed may find another plan', readSeed, 1);
  addPaperOptions(command)
    .option('--json', 'print the plan file on standard output and nothing else')
    .action(async (file: string, options: PlanCommandOptions) => {
      process.exitCode = await runPlan(file, options, {
        out: process.stdout,
        err: process.stderr,
        plan,
        now: () => new Date(),
        onInterrupt,
      });
    });
}

/**
 * Runs the command to its exit status. Nothing is written where the job is refused or takes no bundle. Throws what keeps
 * the file from being read at all, once what is wrong with the options of its papers is told.
 */
export async function runPlan(file: string, options: PlanCommandOptions, world: PlanCommandWorld): Promise<number> {
  const papers = readPaperChoice(options);
  if (!papers.ok) printLines(world.err, faultLines(papers.faults));
  const read = readJob(await readInput(file));
  if (!read.ok) printLines(world.err, [`${file} was refused:`, ...faultLines(read.faults).map((line) => `  ${line}`)]);
  if (!papers.ok || !read.ok) return EXIT.refused;
  if (options.out !== undefined) await askFolder(options.out);
  const { job, digest, raw } = read.value;
  // Before the planning, which may be stopped and the file mended.
  const doubts = jobDoubts(readableParts(raw));
  if (doubts.length > 0)
    printLines(world.err, [
      `${file} says what is hardly meant, and is planned as it stands:`,
      ...doubts.map((doubt) => `  ${doubt.path}: ${tellIn(options.feet ? 'inches' : 'metric', doubt.text)}`),
    ]);
  let drawing: Drawing | null = null;
  const progress = showProgress(world.err);
  let stopped = false;
  let planned = false;
  const undo = world.onInterrupt(() => {
    stopped = true;
    if (!planned)
      progress.say('There is no plan yet: stops at the first one. Ctrl-C again ends at once, with nothing.');
  });
  const planOptions: PlanOptions = {
    effort: options.effort,
    seed: options.seed,
    jobDigest: digest,
    onProgress: (word) => {
      planned ||= word.value !== null;
      // Not before: until there is a plan both processors are at work on it.
      if (planned && options.out !== undefined) drawing ??= new Drawing();
      progress.show(word);
    },
    shouldStop: () => stopped,
    ...(options.stops === undefined ? {} : { stops: options.stops }),
  };
  const result = await world.plan(job, planOptions).finally(() => {
    progress.end();
    undo();
  });
  if (stopped) printLines(world.err, ['Stopped at the keyboard: this is the best plan so far.']);
  if (result.kind === 'nothing') {
    printLines(world.err, nothingLines(job, result.reasons));
    return EXIT.nothing;
  }

  const plan = withCautions(job, result.plan);
  const paper = { ...papers.value, date: world.now() };
  const tell = (written: string): void => {
    if (options.json) world.out.write(planText(plan));
    else printLines(world.out, [...planLines(job, plan, paper.feet ? 'inches' : 'metric'), '', written]);
  };
  if (options.out === undefined) tell('Nothing was written; --out DIR writes plan.json and the papers.');
  else {
    const written = await writePlan(options.out, drawing ?? new Drawing(), { job, plan, options: paper }).catch(
      (error: unknown) => {
        // Whoever waited for it has the plan at least.
        tell('Nothing was written.');
        throw error;
      },
    );
    tell(`Written: ${written.join(', ')}.`);
  }
  return EXIT.done;
}

/** The plan file as text. */
function planText(plan: Plan): string {
  return `${JSON.stringify(plan, null, 1)}\n`;
}

async function writePlan(folder: string, drawing: Drawing, order: DrawingOrder): Promise<string[]> {
  const text = planText(order.plan);
  const files = [
    { name: 'plan.json', write: async (out: Writable) => void out.write(text) },
    ...(await drawing.files(order)),
  ];
  await writeFolder(folder, files);
  return files.map((file) => path.join(folder, file.name));
}

function onInterrupt(stop: () => void): () => void {
  process.once('SIGINT', stop);
  return () => void process.removeListener('SIGINT', stop);
}

function readStops(text: string): number | 'free' {
  return text === 'free' ? text : readWhole(text, 1, 10_000, 'a whole number from 1, or free');
}

function readSeed(text: string): number {
  return readWhole(text, 0, 2 ** 31 - 1, 'a whole number from 0 to 2147483647');
}

function readWhole(text: string, least: number, most: number, wanted: string): number {
  const value = Number(text);
  if (!/^\d+$/.test(text) || value < least || value > most) throw new InvalidArgumentError(`Give ${wanted}.`);
  return value;
}
