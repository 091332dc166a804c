/** `kentledge cut`: the fixed cut list, for who already knows the pieces. */
import type { Writable } from 'node:stream';
import { type Command, InvalidArgumentError } from 'commander';
import { type CutPlanFile, cutList } from '../../src/cut/cutlist.ts';
import { readCutList } from '../../src/job/cutlist.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import { EXIT, faultLines } from '../exit.ts';
import { readInput } from '../inputFile.ts';
import { printLines } from '../terminal.ts';
import { cutLines } from './cutSummary.ts';

export interface CutCommandOptions {
  seconds: number;
  json?: boolean;
}

/** Nobody waits longer than a day. */
const SECONDS_AT_MOST = 86_400;
/** Counted work for a second of the cap: the work ends before the clock does on most machines, so that the clock decides nothing. */
const WORK_PER_SECOND = 800;

export function addCutCommand(program: Command): void {
  program
    .command('cut')
    .description('Cut a fixed list of pieces from bars in stock, at the least cost.')
    .argument('<list>', 'the cut list, JSON')
    .option('--seconds <n>', 'look no longer than this for a better plan', readSeconds, 10)
    .option('--json', 'print the answer as JSON and nothing else')
    .action(async (file: string, options: CutCommandOptions) => {
      process.exitCode = await runCut(file, options, process.stdout, process.stderr);
    });
}

/** Runs the command to its exit status: 3 where the stock can not yield all, with the plan of the rest printed. */
export async function runCut(file: string, options: CutCommandOptions, out: Writable, err: Writable): Promise<number> {
  const read = readCutList(await readInput(file));
  if (!read.ok) {
    printLines(err, [`${file} was refused:`, ...faultLines(read.faults).map((line) => `  ${line}`)]);
    return EXIT.refused;
  }
  const start = performance.now();
  const engine = await loadHighs();
  const plan = cutList(read.value, {
    engine,
    effort: options.seconds * WORK_PER_SECOND,
    shouldStop: () => performance.now() - start > options.seconds * 1000,
  });
  const answer: CutPlanFile = { ...plan, seconds: Math.round((performance.now() - start) / 10) / 100 };
  if (options.json) out.write(`${JSON.stringify(answer, null, 1)}\n`);
  else printLines(out, cutLines(read.value, answer));
  return answer.short.length > 0 ? EXIT.nothing : EXIT.done;
}

function readSeconds(text: string): number {
  const seconds = Number(text);
  if (!(seconds > 0 && seconds <= SECONDS_AT_MOST))
    throw new InvalidArgumentError(`Give seconds, more than 0 and at most ${SECONDS_AT_MOST}, a day.`);
  return seconds;
}
