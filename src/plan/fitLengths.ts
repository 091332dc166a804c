/**
 * Lengths fitted to a whole plan, by a linear program of them (lengthProgram.ts) in which a kilogram more is worth the
 * weight of its void, with rows for
 *
 *   caps      most, target and ballast, on the masses
 *   aims      centre and spread, by how they change near the plan, missed at their price
 *
 * But for the aims, which are judged again, every row asks only that lengths are not longer.
 */
import type { LinearEngine } from '../linear/model.ts';
import { alongSize } from '../stow/bundle.ts';
import { isPlain, type LaidVoid } from '../stow/laid.ts';
import type { Layout } from '../stow/layout.ts';
import { type Stack, stackOf } from '../stow/stack.ts';
import { type Pattern, patternOf, timesOf } from './barPattern.ts';
import { areCapsKept, type Cap, capsOf, type Filling } from './caps.ts';
import type { Cutting } from './cutting.ts';
import { worthOf } from './finish.ts';
import { type Held, LengthProgram } from './lengthProgram.ts';
import type { Load } from './load.ts';
import { loadRowsOf } from './loadRows.ts';
import { totalLoad } from './misses.ts';
import type { Problem } from './problem.ts';

/** Less is no gain, kg. */
const GAIN = 1e-6;
/** Caps are kept by so much, kg. */
const SLACK = 1e-5;

interface Fitted {
  fillings: Filling[];
  cutting: Cutting;
}

/**
 * The same runs, cut in the same ways, in the lengths that are worth most; null where that is as it is, where fillings that
 * keep every cap are worth no more so, or where no lengths keep the caps. The cutting yields just what the fillings hold,
 * without joints. Lengths in voids that are no plain boxes stay.
 */
export function fitLengths(
  problem: Problem,
  fillings: Filling[],
  cutting: Cutting,
  engine: LinearEngine,
): Fitted | null {
  const changes = changesOf(problem, fillings, cutting.bars, engine);
  if (!changes || [...changes.values()].every((change) => change === 0)) return null;
  const fitted = fittedTo(problem, fillings, cutting, (length) => length + changes.get(length)!);
  if (!areCapsKept(problem, fillings)) return fitted;
  const gain = worthOf(problem, fitted.fillings, fitted.cutting) - worthOf(problem, fillings, cutting);
  return gain > GAIN ? fitted : null;
}

function fittedTo(
  problem: Problem,
  fillings: Filling[],
  cutting: Cutting,
  lengthOf: (length: number) => number,
): Fitted {
  const bars = cutting.bars.map(({ kind, spans }) => {
    const pieces = spans.map((own) => own.map(lengthOf));
    return patternOf(kind, pieces, problem.job, problem.labour);
  });
  const cost = bars.reduce((sum, pattern) => sum + pattern.cost, 0);
  return { fillings: withLengths(problem, fillings, lengthOf), cutting: { ...cutting, bars, cost } };
}

/** The change of every length, whole mm; null where none keeps the caps. */
function changesOf(
  problem: Problem,
  fillings: Filling[],
  bars: Pattern[],
  engine: LinearEngine,
): Map<number, number> | null {
  using program = new PlanLengths(problem, fillings, engine);
  program.addBars(timesOf(bars));
  for (const filling of fillings) {
    if (filling && isPlain(filling.laid))
      program.addRoom(
        filling.laid,
        filling.runs.map(({ stack }) => stack.length),
      );
  }
  program.addCaps();
  program.addAims();
  return program.solve()?.changes ?? null;
}

class PlanLengths extends LengthProgram {
  private readonly fillings: Filling[];

  constructor(problem: Problem, fillings: Filling[], engine: LinearEngine) {
    const held = problem.spaces.flatMap((space): Held[] => {
      const filling = fillings[space.index];
      const one = (laid: LaidVoid, stack: Stack): Held => ({ space, laid, stack, share: 1, perKg: space.weight });
      return filling ? filling.runs.map(({ stack }) => one(filling.laid, stack)) : [];
    });
    super(problem, held, engine);
    this.fillings = fillings;
  }

  /** Most, target and ballast. */
  addCaps(): void {
    const { spaces, job } = this.problem;
    for (const space of spaces) {
      const own = this.held.filter((one) => one.space === space);
      for (const cap of capsOf(space)) this.addCap(cap, own);
    }
    if (job.aims.ballast !== undefined) this.addCap({ most: job.aims.ballast, byBundle: true }, this.held);
  }

  /** A cap on the masses of some runs; where the lightest bundle counts, less any one of them. */
  private addCap({ most, byBundle }: Cap, runs: Held[]): void {
    const { wrapping } = this.problem.job.bundle;
    const perMm = new Map<number, number>();
    const bundles = new Map<string, { length: number; perMm: number }>();
    let total = 0;
    for (const { stack } of runs) {
      for (const { kind, lying } of stack.tiers) {
        for (const { tie } of lying) {
          const own = tie.bars * this.perMm(kind.steel);
          total += own * stack.length + wrapping;
          perMm.set(stack.length, (perMm.get(stack.length) ?? 0) + own);
          bundles.set(`${stack.length}:${own}`, { length: stack.length, perMm: own });
        }
      }
    }
    for (const one of byBundle ? bundles.values() : [null]) {
      const less = one ? one.perMm * one.length + wrapping : 0;
      const entries = [...perMm].map(([length, own]) => own - (one?.length === length ? one.perMm : 0));
      const columns = [...perMm.keys()].map((length) => this.columns.get(length)!);
      this.model.addRow(Number.NEGATIVE_INFINITY, most - total + less - SLACK, columns, entries);
    }
  }

  /** Centre and spread, by how a millimetre more of each length changes them; missed at a price. */
  addAims(): void {
    const { problem, fillings } = this;
    const rows = loadRowsOf(problem).filter(({ aim }) => aim !== undefined);
    if (rows.length === 0) return;
    const now = totalLoad(problem, fillings);
    const longer = [...this.columns.keys()].map((one) =>
      totalLoad(
        problem,
        withLengths(problem, fillings, (length) => (length === one ? length + 1 : length)),
      ),
    );
    for (const row of rows) {
      const changes = longer.map((load: Load) => row.of(load) - row.of(now));
      const left = row.most - row.of(now);
      const index = this.model.addRow(Number.NEGATIVE_INFINITY, left, [...this.columns.values()], changes);
      this.model.addColumn({ cost: -problem.missPrices[row.aim!], rows: [index], values: [-1] });
    }
  }
}

/** Fillings with other lengths: runs begin where they did, farther on where those before them are longer, nearer where they would pass the end. */
function withLengths(problem: Problem, fillings: Filling[], lengthOf: (length: number) => number): Filling[] {
  return fillings.map((filling) => filling && layoutWith(problem, filling, lengthOf));
}

function layoutWith({ steels, job }: Problem, { laid, runs }: Layout, lengthOf: (length: number) => number): Layout {
  const along = (length: number) => alongSize(length, job.saw, job.bundle);
  let shift = 0;
  const moved = runs.map(({ from, stack }) => {
    const next = { from: from + shift, stack: stackOf(lengthOf(stack.length), stack.tiers, steels.length) };
    shift += along(next.stack.length) - along(stack.length);
    return next;
  });
  let end = laid.length - laid.clear.ends;
  for (const run of moved.toReversed()) {
    run.from = Math.min(run.from, end - along(run.stack.length));
    end = run.from - laid.gap.runs;
  }
  return { laid, runs: moved };
}
