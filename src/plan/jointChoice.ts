/** Choosing which bars to butt from pieces: splits one after another, each kept where it pays for its cuts and its stops. */
import type { LinearEngine } from '../linear/model.ts';
import type { Pattern } from './barPattern.ts';
import { JointProgram, type Split } from './jointProgram.ts';
import { bestSplits, type PricedSplit } from './jointSplits.ts';
import type { Use } from './master.ts';
import { barMass, type Problem } from './problem.ts';

/** Splits at most for one steel, tried for each of them, and rounds of pricing at the start and for each. */
const MOST_SPLITS = 4;
const TRIED = 4;
const ROUNDS = 40;
const ROUNDS_EACH = 12;
/** A split must gain this many kilograms. */
const PAYS = 0.02;
/** All of them together this many: less is lost again in whole numbers. */
const PAYS_AT_ALL = 0.05;

export interface ChoiceOptions {
  engine: LinearEngine;
  /** How many bars of each length may be jointed. */
  room: Map<number, number>;
  /** Piece lengths cut anyway, and how many more may be. */
  stops: Set<number>;
  newStops: number;
  /** Patterns to begin with. */
  patterns: Pattern[];
  shouldStop?: () => boolean;
}

/** Bars of one steel to be jointed: their split, and how many (a share, not yet whole). */
export type Chosen = { split: Split; bars: number }[];

/** The splits that pay for the bars wanted of one steel; none where none does. */
export function chooseSplits(problem: Problem, steel: number, wanted: Use[], options: ChoiceOptions): Chosen {
  const rules = partRules(problem);
  const open = [...options.room]
    .filter(([length, most]) => most > 0 && length >= 2 * rules.least)
    .map(([length]) => length);
  if (open.length === 0) return [];
  const room = new Map([...options.room].filter(([length]) => open.includes(length)));
  const program = new JointProgram(options.engine, problem, steel, wanted, room, options.patterns);
  const stops = new Set(options.stops);
  let newStops = options.newStops;
  try {
    program.solve(ROUNDS);
    const before = program.cost;
    for (let n = 0; n < MOST_SPLITS && !options.shouldStop?.(); n++) {
      const prices = program.prices(Math.max(...open) - rules.least);
      const offered = open.flatMap((length) =>
        bestSplits(
          length,
          { worth: prices.worth(length), piece: prices.piece, perMm: barMass(problem.steels[steel]!, 1) },
          { ...rules, stops, newStops },
        ),
      );
      const best = bestOf(problem, program, room, offered);
      if (!best) break;
      program.addSplit(best.split);
      program.solve(ROUNDS_EACH);
      const fresh = best.split.parts.filter((part) => !stops.has(part));
      newStops -= new Set(fresh).size;
      for (const part of fresh) stops.add(part);
    }
    const gain = before - program.cost - (stops.size - options.stops.size) * problem.labour.stop;
    return gain > PAYS_AT_ALL ? program.levels().filter(({ bars }) => bars > 1e-6) : [];
  } finally {
    program.dispose();
  }
}

/** What a piece of a joint must keep to. */
export function partRules({ job }: Problem): { least: number; tolerance: number } {
  const shortest = job.bundle.joints?.shortest ?? Number.POSITIVE_INFINITY;
  return { least: Math.ceil(Math.max(shortest, job.saw.shortestPiece) - 1e-9), tolerance: job.saw.tolerance };
}

/** The split offered that lowers the program's cost most once its stops are paid for; the program is left as it was. */
function bestOf(
  problem: Problem,
  program: JointProgram,
  room: Map<number, number>,
  offered: PricedSplit[],
): PricedSplit | null {
  const { stop } = problem.labour;
  const hopes = offered
    .map((priced) => ({ priced, hope: priced.gain * room.get(priced.split.length)! - priced.newStops * stop }))
    .filter(({ hope }) => hope > PAYS)
    .sort((p, q) => q.hope - p.hope)
    .slice(0, TRIED);
  const before = program.cost;
  let best: { priced: PricedSplit; gain: number } | null = null;
  for (const { priced } of hopes) {
    const column = program.addSplit(priced.split);
    program.solve(ROUNDS_EACH);
    const gain = before - program.cost - priced.newStops * stop;
    if (gain > (best?.gain ?? PAYS)) best = { priced, gain };
    program.forbid(column);
  }
  if (hopes.length > 0) program.solve(0);
  return best?.priced ?? null;
}
