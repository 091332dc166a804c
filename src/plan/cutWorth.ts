/**
 * Cutting where the pile can not yield all that is wanted: what is left out is chosen by what it is worth, its scrap and its
 * labour saved, and not by its weight alone.
 *
 *   maximise  Σ worth·piece − Σ cost·pattern   such that   pieces of a length ≤ wanted,  patterns of a bar kind ≤ bars
 *
 * Columns by pricing, as in the joint master; then whole numbers over the patterns at hand, in few nodes.
 */
import type { LinearEngine, LinearModel } from '../linear/model.ts';
import { bestPattern, FillTable, type Pattern, patternKey, patternOf } from './barPattern.ts';
import type { Use } from './master.ts';
import { type BarKind, barMass, type Problem } from './problem.ts';
import { SCRAP_RATE } from './value.ts';

/** Rounds of pricing, and patterns that the solver takes in whole numbers at most. */
const ROUNDS = 30;
const MOST_PATTERNS = 80;
/** Nodes at most, and how near to the best is near enough, kg. */
const NODES = 3;
const NEAR = 0.3;

/** The patterns of whole bars that make most of what is wanted of one steel; null where that is too much to solve. */
export function cutByWorth(problem: Problem, steel: number, wanted: Use[], engine: LinearEngine): Pattern[] | null {
  const kinds = problem.barKinds.filter((kind) => kind.steel === steel);
  using model = engine.create();
  const program = new Program(problem, model, kinds, wanted);
  for (let round = 0; round < ROUNDS; round++) {
    if (model.solve().status !== 'optimal') return null;
    if (!program.price(problem)) break;
    if (program.patterns.length > MOST_PATTERNS) return null;
  }
  return program.whole();
}

class Program {
  readonly patterns: Pattern[] = [];
  private readonly model: LinearModel;
  private readonly kinds: BarKind[];
  /** Lengths wanted, rising, with their rows. */
  private readonly lengths: number[];
  private readonly rows: number[];
  private readonly supply: number[];
  private readonly first: number;
  private readonly known = new Set<string>();

  constructor(problem: Problem, model: LinearModel, kinds: BarKind[], wanted: Use[]) {
    this.model = model;
    this.kinds = kinds;
    const sorted = [...wanted].sort((p, q) => p.length - q.length);
    this.lengths = sorted.map((use) => use.length);
    this.supply = kinds.map((kind) => model.addRow(Number.NEGATIVE_INFINITY, kind.count));
    this.rows = sorted.map(() => model.addRow(0, 0));
    sorted.forEach(({ steel, length, bars }, i) => {
      const mass = barMass(problem.steels[steel]!, length);
      model.addColumn({ cost: -mass, upper: bars, rows: [this.rows[i]!], values: [-1] });
      model.addColumn({ cost: SCRAP_RATE * mass, rows: [this.rows[i]!], values: [-1] });
    });
    this.first = model.columns;
  }

  /** Adds the pattern of every kind that improves; false where none does. */
  price(problem: Problem): boolean {
    const { kinds, lengths } = this;
    const duals = this.model.duals();
    const worth = this.rows.map((row) => duals[row]!);
    const longest = Math.max(...kinds.flatMap((kind) => kind.spans.map((span) => span.to - span.from)));
    const steel = problem.steels[kinds[0]!.steel]!;
    const { job, labour } = problem;
    const table = new FillTable(longest, job.saw.kerf, steel.heaviest, { lengths, worth }, labour, 'patterns');
    let added = false;
    kinds.forEach((kind, i) => {
      const best = bestPattern(table, kind, job, labour);
      if (!best || best.worth + duals[this.supply[i]!]! <= 1e-6) return;
      const pattern = patternOf(kind, best.spans, job, labour);
      if (this.known.has(patternKey(pattern))) return;
      this.add(pattern, i);
      added = true;
    });
    return added;
  }

  private add(pattern: Pattern, kind: number): void {
    this.known.add(patternKey(pattern));
    const counts = new Map<number, number>();
    for (const length of pattern.spans.flat()) {
      const row = this.rows[this.lengths.indexOf(length)]!;
      counts.set(row, (counts.get(row) ?? 0) + 1);
    }
    const rows = [this.supply[kind]!, ...counts.keys()];
    const values = [1, ...counts.values()];
    this.model.addColumn({ cost: pattern.cost, upper: pattern.kind.count, rows, values });
    this.patterns.push(pattern);
  }

  /** The bars of the best plan in whole numbers, one entry a bar; null where none was found. */
  whole(): Pattern[] | null {
    const wholeNumbers = this.patterns.map((_, i) => this.first + i);
    const solved = this.model.solve({ wholeNumbers, nodesAtMost: NODES, absoluteGap: NEAR });
    if (!solved.feasible) return null;
    const values = this.model.values();
    return this.patterns.flatMap((pattern, i) => {
      const times = Math.round(values[this.first + i]!);
      return new Array<Pattern>(times).fill(pattern);
    });
  }
}
