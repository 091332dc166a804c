/** `kentledge left`: what is left of a job once some of its plan is cut or stowed, as a job of its own. */
import type { Writable } from 'node:stream';
import type { Command } from 'commander';
import { barLengths, pileMass } from '../../src/job/lot.ts';
import { readJob, readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { CutSoFar } from '../../src/plan/pileLeft.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { standingOf } from '../../src/plan/standing.ts';
import { markRanges, stopsOf } from '../../src/plan/stops.ts';
import { workLeft } from '../../src/plan/workLeft.ts';
import { EXIT, faultLines } from '../exit.ts';
import { readLengths, readMarks } from '../form/markList.ts';
import { readInput } from '../inputFile.ts';
import { digest8, planDigest } from '../planDigest.ts';
import { printLines } from '../terminal.ts';
import { kilograms, many } from '../words.ts';
import { readJobAndPlan, tellRefused } from './jobAndPlan.ts';

export interface LeftCommandOptions {
  cut?: string;
  next?: string;
  bars?: string;
  found?: string;
  in?: string;
  keep?: string;
  unfinished?: string;
  now?: string;
}

export function addLeftCommand(program: Command): void {
  program
    .command('left')
    .description(
      'What is left of a job once some of its plan is cut or stowed: prints a job of its own, to be put right and planned.',
    )
    .argument('<job>', 'the job file, JSON')
    .argument('<plan>', 'the plan file by which it was cut and stowed, JSON')
    .option(
      '--cut <what>',
      'how far the saw has come: all, stowed (only bars of which something is stowed), none, or a stop in mm: every piece as long as that or longer',
    )
    .option(
      '--next <bars>',
      'with a stop or none: the bars of which the stop after it is cut, too: "A-01 to A-06, B-02"',
    )
    .option('--bars <bars>', 'in place of --cut: these bars are cut, each to its end')
    .option('--found <lengths>', 'bars that turned out otherwise, before their first cut: "A-05: 3530; B-02: 2.31 m"')
    .option('--in <marks>', 'bundles that lie in their places, and voids all of whose bundles do: "V1, V2-01 to V2-03"')
    .option(
      '--keep <marks>',
      'bundles that are tied and go in by this plan, each with its whole run, and voids all of which do: "V3-01, V5"',
    )
    .option('--unfinished <voids>', 'voids whose begun runs stay as they stand; else they are finished by this plan')
    .option(
      '--now <job>',
      'the job file as it stands now, where it was corrected since it was planned: what was changed in it comes along',
    )
    .action(async (job: string, plan: string, options: LeftCommandOptions) => {
      process.exitCode = await runLeft(job, plan, options, process.stdout, process.stderr);
    });
}

/**
 * Prints the job of what is left to `out`, and what it holds to `err`. Exit status 2 where a file or an option can not be
 * read, where the plan is not right for the job, or where nothing is begun or nothing left.
 */
export async function runLeft(
  jobFile: string,
  planFile: string,
  options: LeftCommandOptions,
  out: Writable,
  err: Writable,
): Promise<number> {
  const read = await readJobAndPlan(jobFile, planFile);
  const now = options.now === undefined ? null : readJob(await readInput(options.now));
  if (now && !now.ok)
    printLines(err, [`${options.now} was refused:`, ...faultLines(now.faults).map((line) => `  ${line}`)]);
  if (!read.job?.ok || !read.plan?.ok) {
    tellRefused(read, jobFile, planFile, err);
    return EXIT.refused;
  }
  if (now && !now.ok) return EXIT.refused;
  const { job, digest } = read.job.value;
  const plan = read.plan.value;
  const faults = checkPlan(job, plan, digest);
  if (faults.length > 0) {
    printLines(err, [
      `${planFile} is no right plan of ${jobFile}: take the two that the papers in hand were made from.`,
      ...faults.map(({ code, text }) => `  ${code}: ${text}`),
    ]);
    return EXIT.refused;
  }
  const done = readDone(
    options,
    plan,
    stopsOf(job, plan).map(({ length }) => length),
  );
  if (done.wrong.length > 0 || done.cut === null) {
    printLines(err, done.wrong);
    return EXIT.refused;
  }
  const by = `plan ${digest8(planDigest(plan))}`;
  const left = workLeft(job, plan, {
    by,
    ...done,
    cut: done.cut,
    weighed: new Map(),
    ...(now && { now: now.value.job }),
  });
  if (!left) {
    printLines(err, ['By what is said nothing is cut, stowed or found otherwise, or no steel is left.']);
    return EXIT.refused;
  }
  const text = `${JSON.stringify(left, null, 1)}\n`;
  const again = readJobValue(JSON.parse(text));
  if (!again.ok) printLines(err, ['To be put right in it before it is planned:', ...faultLines(again.faults)]);
  else {
    const { pile } = again.value.job;
    const bars = pile.reduce((sum, lot) => sum + barLengths(lot).length, 0);
    printLines(err, [
      `Left are ${many(bars, 'bar and piece', 'bars and pieces')} in ${many(pile.length, 'lot')}, ${kilograms(pileMass(again.value.job))}. Put right what was wrong, then plan it.`,
      'Untie every bundle that does not stay, finish a run or is kept, take its tag off, and strike out the numbers on pieces not stowed: the next plan gives them anew.',
    ]);
  }
  const runs = standingOf(job, plan, done.stowed, new Map(), done.unfinished, done.kept).flatMap((own) => own.runs);
  const first = runs.flatMap(({ lacking }) => lacking.map(({ bundle }) => bundle));
  if (first.length > 0)
    printLines(err, [`Stow by this plan, before anything of the next: ${markRanges(first).join(', ')}.`]);
  out.write(text);
  return EXIT.done;
}

/** What the options say is done; every option that can not be read is told in `wrong`. */
function readDone(options: LeftCommandOptions, plan: Plan, stops: number[]) {
  const barMarks = plan.bars.map(({ bar }) => bar);
  const voidMarks = plan.voids.map((told) => told.void);
  const next = readMarks(options.next ?? '', barMarks);
  const bars = readMarks(options.bars ?? '', barMarks);
  const found = readLengths(options.found ?? '', barMarks);
  const isIn = readMarks(options.in ?? '', [...voidMarks, ...plan.bundles.map(({ bundle }) => bundle)]);
  const keep = readMarks(options.keep ?? '', [...voidMarks, ...plan.bundles.map(({ bundle }) => bundle)]);
  const unfinished = readMarks(options.unfinished ?? '', voidMarks);
  const { cut, fault } = readCut(options, stops, next.marks, bars.marks);
  const asked = {
    '--next': next,
    '--bars': bars,
    '--found': found,
    '--in': isIn,
    '--keep': keep,
    '--unfinished': unfinished,
  };
  const wrong = Object.entries(asked).flatMap(([option, { faulty, fault, remedy }]) =>
    faulty ? [`${option}: ${fault} ${remedy}`] : [],
  );
  if (fault !== null) wrong.unshift(fault);
  const marksOf = (marks: ReadonlySet<string>) =>
    new Set(plan.bundles.flatMap((own) => (marks.has(own.void) || marks.has(own.bundle) ? [own.bundle] : [])));
  return {
    wrong,
    cut,
    found: found.lengths,
    stowed: marksOf(isIn.marks),
    kept: marksOf(keep.marks),
    unfinished: unfinished.marks,
  };
}

function readCut(
  { cut, next, bars }: LeftCommandOptions,
  stops: number[],
  nextMarks: Set<string>,
  barMarks: Set<string>,
): { cut: CutSoFar | null; fault: string | null } {
  const wrong = (fault: string) => ({ cut: null, fault });
  const right = (own: CutSoFar) => ({ cut: own, fault: null });
  if (bars !== undefined && (cut !== undefined || next !== undefined))
    return wrong('--bars: Say how far the saw has come either by --bars, or by --cut and --next.');
  if (bars !== undefined) return right({ by: 'bars', bars: barMarks });
  if (cut === undefined)
    return wrong('--cut: Say how far the saw has come: all, stowed, none or a stop; or give --bars.');
  if ((cut === 'all' || cut === 'stowed') && next !== undefined)
    return wrong(`--next: After “${cut}” there is no next stop. Give a stop or none as --cut, or leave --next out.`);
  if (cut === 'all' || cut === 'stowed') return right({ by: cut });
  if (cut === 'none') return right({ by: 'stops', stop: Number.POSITIVE_INFINITY, next: nextMarks });
  const stop = stops.find((length) => length === Number(cut));
  if (stop === undefined)
    return wrong(`--cut: The plan has no stop “${cut}”. Write all, stowed, none, or one of ${stops.join(', ')}.`);
  return right({ by: 'stops', stop, next: nextMarks });
}
