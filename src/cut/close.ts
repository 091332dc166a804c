/**
 * Closing the last gap: when the bound is so near that every pattern a better plan could use can be listed, the rest is a
 * search over that list. Take the piece that the fewest of them cut; one of those patterns must be used: try each, the
 * ones tried before being shut out. At every node the relaxation over the list gives a safe bound, and patterns that
 * lose more than the gap allows are shut out below it. Exact when it ends: a better plan, or proof that there is none.
 */
import type { LinearEngine } from '../linear/model.ts';
import type { Pattern } from './columns.ts';
import { ListProgram } from './listProgram.ts';
import type { Meter } from './meter.ts';
import type { Scaled } from './scale.ts';

export interface Closed {
  /** `better`: a plan no dearer than the target. `none`: there is none. `open`: not decided. */
  kind: 'better' | 'none' | 'open';
  plan: Pattern[];
}

export interface CloseOptions {
  /** The plan must not cost more than this. */
  target: number;
  /** A power of two: costs are reckoned in 1/unit. */
  unit: number;
  /** Cost of leaving out a piece of each row. */
  dear: Float64Array;
  /** True where leaving out is what is minimised. */
  shorting: boolean;
  meter: Meter;
  /** True when time or work is up. */
  over: () => boolean;
}

/** Rounds of cuts at the root of the search and at its nodes. */
const ROOT_ROUNDS = 15;
const NODE_ROUNDS = 1;
/** How many patterns fewer make up for a row that the relaxation has half decided, and wholly. */
const UNDECIDED = 10;
const DECIDED = 1000;

/** Looks for a plan of `patterns` that costs no more than the target. */
export function closeGap(
  engine: LinearEngine,
  scaled: Scaled,
  patterns: readonly Pattern[],
  options: CloseOptions,
): Closed {
  const program = new ListProgram(
    engine,
    scaled,
    patterns,
    options.unit,
    options.dear,
    options.shorting,
    options.meter,
  );
  try {
    const search = new ListSearch(program, scaled.sizes.length, options);
    const kind = search.explore(0) ? 'better' : search.stopped ? 'open' : 'none';
    const plan = kind === 'better' ? program.fixed.map((p) => patterns[p]!) : [];
    return { kind, plan };
  } finally {
    program.dispose();
  }
}

class ListSearch {
  stopped = false;
  private readonly program: ListProgram;
  private readonly options: CloseOptions;
  private readonly pieces: number;
  /** Patterns that cut a piece. */
  private readonly cutters: number[][];

  constructor(program: ListProgram, pieces: number, options: CloseOptions) {
    this.program = program;
    this.options = options;
    this.pieces = pieces;
    this.cutters = Array.from({ length: pieces }, () => []);
    program.patterns.forEach(({ rows }, p) => {
      for (const row of rows) this.cutters[row]!.push(p);
    });
  }

  /** True when a plan was found; it is what the program has fixed. */
  explore(depth: number): boolean {
    const { program } = this;
    const { target } = this.options;
    if (program.fixedCost > target + 1e-9 * Math.max(1, target)) return false;
    if (this.nothingWanted()) return true;
    const closed: number[] = [];
    const found = this.tighten(depth === 0 ? ROOT_ROUNDS : NODE_ROUNDS, closed) && this.branch(depth);
    if (!found) for (const p of closed) program.open(p);
    return found;
  }

  private nothingWanted(): boolean {
    for (let row = 0; row < this.pieces; row++) if (this.program.demand[row]! > 0) return false;
    return true;
  }

  /** Solves the relaxation, with rounds of cuts. False where no plan within the target is left, or the search is over. */
  private tighten(rounds: number, closed: number[]): boolean {
    const { program, options } = this;
    for (let round = 0; ; round++) {
      if (options.over()) this.stopped = true;
      if (this.stopped) return false;
      if (!program.solve()) {
        this.stopped = true;
        return false;
      }
      const losers = program.shutOutLosers(options.target);
      if (losers === null) return false;
      closed.push(...losers);
      if (round >= rounds || !program.addCuts()) return true;
    }
  }

  /** Tries each pattern that cuts the row with fewest; the largest share in the relaxation first. */
  private branch(depth: number): boolean {
    const { program } = this;
    const x = program.x();
    const row = this.pickRow(x);
    if (row === null) return false;
    const choices = this.cutters[row]!.filter((p) => program.usable(p)).sort((a, b) => x[b]! - x[a]! || a - b);
    const tried: number[] = [];
    let found = false;
    for (const p of choices) {
      const undo = program.use(p);
      found = this.explore(depth + 1);
      if (found) break;
      undo();
      if (this.stopped) break;
      program.close(p);
      tried.push(p);
    }
    if (!found && !this.stopped && program.shorting) {
      const undo = program.leaveOut(row);
      found = this.explore(depth + 1);
      if (!found) undo();
    }
    if (!found) for (const p of tried) program.open(p);
    return found;
  }

  /**
   * The row still wanted that the fewest patterns cut, one that the relaxation leaves undecided rather than one that it
   * does not; null where one that must be cut has no pattern.
   */
  private pickRow(x: Float64Array): number | null {
    const { program } = this;
    let best: number | null = null;
    let least = Infinity;
    for (let row = 0; row < this.pieces; row++) {
      if (program.demand[row]! <= 0) continue;
      let count = 0;
      let largest = 0;
      for (const p of this.cutters[row]!) {
        if (!program.usable(p)) continue;
        count++;
        if (x[p]! > largest) largest = x[p]!;
      }
      if (count === 0 && !program.shorting) return null;
      const score = largest > 1 - 1e-6 ? count + DECIDED : count + UNDECIDED * largest;
      if (score < least) [best, least] = [row, score];
    }
    return best;
  }
}
