/**
 * What one more would be worth: the changes that the prices point to, each confirmed by solving the relaxation again with
 * the change made. The figures are of the relaxation, before bars and bundles are whole.
 */
import type { Job } from '../job/job.ts';
import type { LinearEngine } from '../linear/model.ts';
import type { Berth } from '../stow/layout.ts';
import type { Filling } from './caps.ts';
import { ColumnPool } from './columnPool.ts';
import { generate, wholeVoids } from './generate.ts';
import { Master } from './master.ts';
import type { Plan } from './plan.ts';
import type { Prices } from './prices.ts';
import { berthsOf } from './pricing.ts';
import { type Problem, problemOf } from './problem.ts';
import { usesOf } from './short.ts';

type OneMore = NonNullable<Plan['oneMore']>[number];

interface Change {
  what: string;
  text: string;
  job: Job;
}

/** A change worth less than this, kg, is not told. */
const LEAST = 0.05;
/** Solves are taken to this gap, so that differences mean something. */
const CLOSE = { rounds: 50, tolerance: 3e-4, charges: 5 };

export interface OneMoreOptions {
  /** The plan: its lengths are those of the relaxations. */
  fillings: Filling[];
  /** Prices of the job as it is. */
  prices: Prices;
  berths: Berth[][];
  /** Its columns are those that were of use to the job. */
  master: Master;
}

/** The changes that are worth something, the best first. Cost: one relaxation for each change and one for the job as it is. */
export function oneMoreOf(engine: LinearEngine, problem: Problem, options: OneMoreOptions): OneMore[] {
  const { fillings, prices, berths, master } = options;
  const changes = changesOf(problem, prices);
  if (changes.length === 0) return [];
  const used = [...new Set(usesOf(fillings).map(({ length }) => length))].sort((a, b) => a - b);
  const pool = new ColumnPool(problem, berths);
  pool.take(master);
  const relaxation = new Relaxation(
    engine,
    problem,
    problem.steels.map(() => used),
    pool,
  );
  const found: OneMore[] = [];
  for (const { what, text, job } of changes) {
    problem.poll();
    const worth = Math.round((relaxation.of(job) - relaxation.value) * 10) / 10;
    if (worth >= LEAST) found.push({ what, worth, text: `${text} would be worth about ${worth} kg.` });
  }
  return found.sort((p, q) => q.worth - p.worth);
}

/** The changes that the prices point to: a bar of the dearest lot, height in the dearest void, a kilogram of lift everywhere. */
function changesOf(problem: Problem, prices: Prices): Change[] {
  const { job } = problem;
  const changes: Change[] = [];
  const kind = problem.barKinds.reduce((a, b) => (prices.bars[b.index]! > prices.bars[a.index]! ? b : a));
  if (prices.bars[kind.index]! > LEAST) {
    const pile = job.pile.map((lot) => {
      if (lot.lot !== kind.lot) return lot;
      return lot.lengths ? { ...lot, lengths: [...lot.lengths, kind.length] } : { ...lot, count: (lot.count ?? 1) + 1 };
    });
    changes.push({
      what: `bar ${kind.lot}`,
      text: `One more bar of lot ${kind.lot} (${kind.length} mm)`,
      job: { ...job, pile },
    });
  }
  const space = problem.spaces.reduce((a, b) => (prices.groups[b.index]! > prices.groups[a.index]! ? b : a));
  if (prices.groups[space.index]! > LEAST) {
    const voids = job.voids.map((stated, i) =>
      i === space.index ? { ...stated, height: stated.height + 10 } : stated,
    );
    changes.push({
      what: `height ${space.stated.void}`,
      text: `10 mm more height in ${space.stated.void}`,
      job: { ...job, voids },
    });
  }
  const voids = job.voids.map((stated) =>
    stated.limit === undefined ? stated : { ...stated, limit: stated.limit + 1 },
  );
  const bundle = { ...job.bundle, limit: job.bundle.limit + 1 };
  changes.push({
    what: 'lift limit',
    text: 'A kilogram more of lift limit, everywhere,',
    job: { ...job, bundle, voids },
  });
  return changes;
}

/** The relaxation over some lengths: of a job, and of jobs that may do all that it may, which begin with its columns. */
class Relaxation {
  private readonly engine: LinearEngine;
  private readonly problem: Problem;
  private readonly lengths: number[][];
  private readonly pool: ColumnPool;
  /** Its value for the job itself, and the prices that prove it. */
  readonly value: number;
  private prices: Prices | undefined;

  constructor(engine: LinearEngine, problem: Problem, lengths: number[][], pool: ColumnPool) {
    this.engine = engine;
    this.problem = problem;
    this.lengths = lengths;
    this.pool = pool;
    this.value = this.solve(problem);
  }

  /** Its value for a changed job, aims priced as before. */
  of(job: Job): number {
    return this.solve({ ...problemOf(job), missPrices: this.problem.missPrices, poll: this.problem.poll });
  }

  private solve(problem: Problem): number {
    const { lengths, pool } = this;
    const master = new Master(this.engine, problem);
    try {
      lengths.forEach((own, steel) => {
        for (const length of own) master.addLength(steel, length);
      });
      const parts = wholeVoids(problem.spaces);
      pool.seed(master, parts, new Set(lengths.flat()));
      const { prices } = generate(problem, master, berthsOf(problem), { ...CLOSE, lengths, parts, from: this.prices });
      this.prices ??= prices;
      if (problem === this.problem) pool.take(master);
      return master.value;
    } finally {
      master.dispose();
    }
  }
}
