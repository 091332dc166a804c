/** `kentledge lift`: the one-person lift guide. */
import type { Writable } from 'node:stream';
import { type Command, InvalidArgumentError, Option } from 'commander';
import { guideLift, type Lift, type LiftEnd, type LiftGuide } from '../../src/lift/equation.ts';
import { EXIT } from '../exit.ts';
import { printLines } from '../terminal.ts';

export interface LiftCommandOptions extends Omit<Lift, 'hands'> {
  hands: string;
  json?: boolean;
}

export function addLiftCommand(program: Command): void {
  program
    .command('lift')
    .description('A guide to what one person may lift: the revised NIOSH equation, metric.')
    .requiredOption(
      '--reach <mm>',
      'from the middle of the ankles to the middle of the hands, level',
      number(0, 10_000),
    )
    .requiredOption(
      '--start <mm>',
      'height of the hands over the ground at the start, negative below it',
      number(-10_000, 10_000),
    )
    .requiredOption('--end <mm>', 'height of the hands at the end', number(-10_000, 10_000))
    .option('--reach-end <mm>', 'reach at the end, where it differs', number(0, 10_000))
    .option('--twist <deg>', 'how far the body twists at the start', number(0, 180), 0)
    .option('--twist-end <deg>', 'how far it twists at the end, where that differs', number(0, 180))
    .option('--per-minute <n>', 'lifts a minute', number(0, 60), 0.2)
    .addOption(
      new Option('--spell <spell>', 'how long the work lasts: 1, 2, 8 hours or more')
        .choices(['short', 'moderate', 'long', 'over-long'])
        .default('short'),
    )
    .addOption(new Option('--grip <grip>', 'how the load is held').choices(['good', 'fair', 'poor']).default('fair'))
    .addOption(
      new Option('--posture <posture>', 'how the person lifts')
        .choices(['standing', 'kneeling', 'seated'])
        .default('standing'),
    )
    .addOption(new Option('--hands <n>', 'hands on the load').choices(['2', '1']).default('2'))
    .option('--json', 'print the answer as JSON')
    .action((options: LiftCommandOptions) => {
      process.exitCode = runLift(options, process.stdout);
    });
}

/** Prints the guide; exit status 0, for a lift outside the method too. */
export function runLift({ json, hands, ...lift }: LiftCommandOptions, out: Writable): number {
  const guide = guideLift({ ...lift, hands: hands === '1' ? 1 : 2 });
  if (json) out.write(`${JSON.stringify(rounded(guide), null, 1)}\n`);
  else printLines(out, liftLines(guide));
  return EXIT.done;
}

/** As the format page has it: limits to 0.01 kg, multipliers to 0.001. */
function rounded({ begin, finish, guide, applies, cautions }: LiftGuide): LiftGuide {
  const end = ({ rwl, multipliers: { reach, height, travel, twist, pace, grip } }: LiftEnd): LiftEnd => ({
    rwl: decimals(rwl, 2),
    multipliers: {
      reach: decimals(reach, 3),
      height: decimals(height, 3),
      travel: decimals(travel, 3),
      twist: decimals(twist, 3),
      pace: decimals(pace, 3),
      grip: decimals(grip, 3),
    },
  });
  return { begin: end(begin), finish: end(finish), guide: decimals(guide, 2), applies, cautions };
}

function decimals(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}

function liftLines({ begin, finish, guide, applies, cautions }: LiftGuide): string[] {
  const line = (name: string, { rwl, multipliers }: LiftEnd) => {
    const parts = Object.entries(multipliers).map(([key, value]) => `${key} ${value.toFixed(3)}`);
    return `${name} ${rwl.toFixed(2)} kg  (23 kg × ${parts.join(' × ')})`;
  };
  return [
    line('at the start', begin),
    line('at the end  ', finish),
    applies
      ? `guide: ${guide.toFixed(2)} kg`
      : `no guide: the method does not cover this lift (it would give ${guide.toFixed(2)} kg)`,
    ...cautions.map((caution) => caution.text),
    'A guide for nearly all healthy workers, and not made for you in particular: your own lower figure always wins.',
  ];
}

function number(least: number, most: number): (text: string) => number {
  return (text) => {
    const value = Number(text);
    if (text.trim() === '' || !(value >= least && value <= most))
      throw new InvalidArgumentError(`Give a number from ${least} to ${most}.`);
    return value;
  };
}
