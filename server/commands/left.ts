/** `kentledge left`: what is left of a job once some of its plan is cut or stowed, as a job of its own. */
import type { Writable } from 'node:stream';
import type { Command } from 'commander';
import { barLengths, pileMass } from '../../src/job/lot.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { CutSoFar } from '../../src/plan/pileLeft.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { standingOf } from '../../src/plan/standing.ts';
import { markRanges, type Stop, stopsOf } from '../../src/plan/stops.ts';
import { withoutLost, workLeft } from '../../src/plan/workLeft.ts';
import { EXIT, faultLines } from '../exit.ts';
import { readLengths, readMarks } from '../form/markList.ts';
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
  lost?: string;
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
    .option('--lost <marks>', 'bundles that are bent, dropped or lost: their pieces are steel no more: "V2-04, V3-01"')
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
 * read, where the plan is not right for the job, or where nothing is begun or nothing left. Throws what keeps a file from
 * being read at all, once all else that is wrong is told.
 */
export async function runLeft(
  jobFile: string,
  planFile: string,
  options: LeftCommandOptions,
  out: Writable,
  err: Writable,
): Promise<number> {
  const read = await readJobAndPlan(jobFile, planFile, options.now);
  const job = read.job?.ok ? read.job.value.job : null;
  const plan = read.plan?.ok ? read.plan.value : null;
  const faults = read.job?.ok && plan ? checkPlan(read.job.value.job, plan, read.job.value.digest) : [];
  const isRight = job !== null && plan !== null && faults.length === 0;
  const wrong = optionFaults(options, plan, isRight ? stopsOf(job, plan) : null);
  printLines(err, wrong);
  if (faults.length > 0)
    printLines(err, [
      `${planFile} is no right plan of ${jobFile}: take the two that the papers in hand were made from.`,
      ...faults.map(({ code, text }) => `  ${code}: ${text}`),
    ]);
  tellRefused(read, jobFile, planFile, err, options.now);
  if (!isRight || wrong.length > 0 || read.now?.ok === false) return EXIT.refused;
  const done = doneBy(options, plan);
  const by = `plan ${digest8(planDigest(plan))}`;
  const left = workLeft(job, plan, {
    by,
    ...done,
    weighed: new Map(),
    ...(read.now?.ok && { now: read.now.value.job }),
  });
  if (!left) {
    printLines(err, ['By what is said nothing is cut, stowed, lost or found otherwise, or no steel is left.']);
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
  const runs = standingOf(
    job,
    withoutLost(plan, done.lost),
    done.stowed,
    new Map(),
    done.unfinished,
    done.kept,
  ).flatMap((own) => own.runs);
  const first = runs.flatMap(({ lacking }) => lacking.map(({ bundle }) => bundle));
  if (first.length > 0)
    printLines(err, [`Stow by this plan, before anything of the next: ${markRanges(first).join(', ')}.`]);
  out.write(text);
  return EXIT.done;
}

/** What is typed as marks, by option, read by the marks of the plan. */
function askedBy(options: LeftCommandOptions, plan: Plan) {
  const bars = plan.bars.map(({ bar }) => bar);
  const voids = plan.voids.map((told) => told.void);
  const stowable = [...voids, ...plan.bundles.map(({ bundle }) => bundle)];
  return {
    '--next': readMarks(options.next ?? '', bars),
    '--bars': readMarks(options.bars ?? '', bars),
    '--found': readLengths(options.found ?? '', bars),
    '--in': readMarks(options.in ?? '', stowable),
    '--keep': readMarks(options.keep ?? '', stowable),
    '--lost': readMarks(
      options.lost ?? '',
      plan.bundles.map(({ bundle }) => bundle),
    ),
    '--unfinished': readMarks(options.unfinished ?? '', voids),
  };
}

/** Every fault of the options that can be told by what could be read: without `plan` marks are taken on trust, without `stops` a stop. */
function optionFaults(options: LeftCommandOptions, plan: Plan | null, stops: Stop[] | null): string[] {
  const cut = cutFault(options, stops);
  const asked = plan ? Object.entries(askedBy(options, plan)) : [];
  const unread = asked.flatMap(([option, { faulty, fault, remedy }]) =>
    faulty ? [`${option}: ${fault} ${remedy}`] : [],
  );
  return cut === null ? unread : [cut, ...unread];
}

function cutFault({ cut, next, bars }: LeftCommandOptions, stops: Stop[] | null): string | null {
  if (bars !== undefined && (cut !== undefined || next !== undefined))
    return '--bars: Say how far the saw has come either by --bars, or by --cut and --next.';
  if (bars !== undefined) return null;
  if (cut === undefined) return '--cut: Say how far the saw has come: all, stowed, none or a stop; or give --bars.';
  if ((cut === 'all' || cut === 'stowed') && next !== undefined)
    return `--next: After “${cut}” there is no next stop. Give a stop or none as --cut, or leave --next out.`;
  const isStop = stops ? stops.some(({ length }) => length === Number(cut)) : Number(cut) > 0;
  if (isStop || ['all', 'stowed', 'none'].includes(cut)) return null;
  const ways = stops ? `one of ${stops.map(({ length }) => length).join(', ')}` : 'a stop of the plan in mm';
  return `--cut: The plan has no stop “${cut}”. Write all, stowed, none, or ${ways}.`;
}

/** What options without faults say is done. */
function doneBy(options: LeftCommandOptions, plan: Plan) {
  const asked = askedBy(options, plan);
  const marksOf = (marks: ReadonlySet<string>) =>
    new Set(plan.bundles.flatMap((own) => (marks.has(own.void) || marks.has(own.bundle) ? [own.bundle] : [])));
  return {
    cut: cutBy(options, asked['--next'].marks, asked['--bars'].marks),
    found: asked['--found'].lengths,
    stowed: marksOf(asked['--in'].marks),
    kept: marksOf(asked['--keep'].marks),
    lost: asked['--lost'].marks,
    unfinished: asked['--unfinished'].marks,
  };
}

function cutBy({ cut, bars }: LeftCommandOptions, next: Set<string>, marks: Set<string>): CutSoFar {
  if (bars !== undefined) return { by: 'bars', bars: marks };
  if (cut === 'all' || cut === 'stowed') return { by: cut };
  return { by: 'stops', stop: cut === 'none' ? Number.POSITIVE_INFINITY : Number(cut), next };
}
