/**
 * The bound over every whole-millimetre length: the Lagrangian of the master at any prices (pricing.ts says why it holds),
 * with the prices of all lengths between the rows at hand interpolated, and each void at its ceiling.
 */
import { BerthCeiling, type Ceiling } from '../stow/ceiling.ts';
import { vesselPoint } from '../stow/laid.ts';
import { type Steel, sectionsOf } from '../stow/steel.ts';
import { lengthRange } from './lengths.ts';
import type { LoadRow } from './master.ts';
import { type Prices, worthAt } from './prices.ts';
import { loadAllowance, perKgAt, pricePatterns } from './pricing.ts';
import type { Problem, Space } from './problem.ts';

export interface Bounded {
  /** No plan is worth more, kg. */
  value: number;
  /** Lengths by steel that the bound would cut or stow. */
  uses: Set<number>[];
}

/** Ceilings of every way of laying every void; geometry worked out once, then a bound at any prices. */
export class Bounder {
  private readonly problem: Problem;
  private readonly ceilings: BerthCeiling[][];
  private readonly lengths: number[];
  /** A bundle may be of several steels of one section: in the ceilings a bar is worth what the best of them makes of it. */
  private readonly sections: { whole: Steel; members: Steel[] }[];

  constructor(problem: Problem) {
    this.problem = problem;
    const range = lengthRange(problem);
    const { job, steels } = problem;
    this.lengths = range ? Array.from({ length: range.most - range.least + 1 }, (_, i) => range.least + i) : [];
    const least = Math.ceil(job.saw.shortestPiece);
    this.sections = sectionsOf(steels);
    const wholes = this.sections.map(({ whole }) => whole);
    this.ceilings = problem.spaces.map((space) =>
      space.laid.map((laid) => new BerthCeiling(laid, wholes, job.bundle, job.saw, least)),
    );
  }

  /** The bound at these prices. */
  at(rows: LoadRow[], prices: Prices): Bounded {
    const { problem } = this;
    const uses = problem.steels.map(() => new Set<number>());
    const all = problem.steels.map(() => this.lengths);
    const ballast = rows.findIndex((row) => row.name === 'ballast');
    const perKg = ballast < 0 ? 0 : prices.loads[ballast]!;
    let value = loadAllowance(rows, prices) - (ballast < 0 ? 0 : perKg * rows[ballast]!.most);
    for (const { kind, worth, spans } of pricePatterns(problem, prices, all, 'bound')) {
      if (worth <= 0) continue;
      value += worth * kind.count;
      for (const length of spans.flat()) uses[kind.steel]!.add(length);
    }
    const best = problem.spaces.map((space) => this.ceilingOf(space, rows, prices));
    for (const { steel: section, length } of best.flatMap((ceiling) => ceiling.uses)) {
      for (const { index } of this.sections[section]!.members) uses[index]!.add(length);
    }
    return { value: value + this.withBallast(best, perKg), uses };
  }

  /**
   * The ceilings together, with what the ballast row allows. The ballast asked for is passed by less than the lightest
   * bundle; where that is heavier than some voids' limits, those voids are empty. The worst of the cases is the bound.
   */
  private withBallast(ceilings: Ceiling[], perKg: number): number {
    const { spaces, job } = this.problem;
    const { ballast } = job.aims;
    const all = ceilings.reduce((sum, ceiling) => sum + ceiling.value, 0);
    if (ballast === undefined) return all;
    const limits = [...new Set(spaces.map((space) => space.heaviest))].sort((a, b) => a - b);
    let most = 0;
    limits.forEach((limit, i) => {
      const below = limits[i - 1] ?? 0;
      const filled = spaces.reduce(
        (sum, space) => sum + (space.heaviest > below ? ceilings[space.index]!.value : 0),
        0,
      );
      most = Math.max(most, filled + perKg * (ballast + limit));
    });
    return most;
  }

  private ceilingOf(space: Space, rows: LoadRow[], prices: Prices): Ceiling {
    let best: Ceiling = { value: 0, uses: [] };
    space.laid.forEach((_, way) => {
      const ceiling = this.ceilingAt(space, way, rows, prices);
      if (ceiling.value > best.value) best = ceiling;
    });
    return best;
  }

  private ceilingAt(space: Space, way: number, rows: LoadRow[], prices: Prices): Ceiling {
    const { labour, job } = this.problem;
    const laid = space.laid[way]!;
    const lcf = job.vessel?.lcf ?? 0;
    const priced = (wanted: (row: LoadRow) => boolean) => prices.loads.map((load, i) => (wanted(rows[i]!) ? load : 0));
    const moment = (row: LoadRow) => row.name === 'centre' || row.name === 'spread';
    const anywhere = vesselPoint(laid, laid.length / 2, 0, 0);
    const ballast = perKgAt(
      rows,
      priced((row) => row.name === 'ballast'),
      space,
      anywhere,
      lcf,
    );
    const own = perKgAt(
      rows,
      priced((row) => row.name === 'target' || row.name === 'most'),
      space,
      anywhere,
      lcf,
    );
    const moments = priced(moment);
    const extra = moments.some((load) => load > 1e-9)
      ? (along: number) => this.momentsAt(space, way, rows, moments, along, lcf)
      : null;
    const perKg = space.weight + ballast + own;
    const { sections } = this;
    return this.ceilings[space.index]![way]!.at({
      perBar: (section, length) =>
        Math.max(
          ...sections[section]!.members.map(({ index, heaviest, yieldOf }) =>
            yieldOf(length) > 0
              ? (perKg * heaviest * length) / 1000 - worthAt(prices.pieces[index]!, length)
              : Number.NEGATIVE_INFINITY,
          ),
        ),
      perBundle: labour.bundle - job.bundle.wrapping * (ballast + own),
      extraPerKg: extra,
    });
  }

  /** The most that moments make of a kilogram in a run with its middle at `along`: over the width and the height. */
  private momentsAt(
    space: Space,
    way: number,
    rows: LoadRow[],
    loads: Float64Array,
    along: number,
    lcf: number,
  ): number {
    const laid = space.laid[way]!;
    let most = Number.NEGATIVE_INFINITY;
    for (const across of acrossEnds(laid)) {
      for (const up of [0, laid.height]) {
        most = Math.max(most, perKgAt(rows, loads, space, vesselPoint(laid, along, across, up), lcf));
      }
    }
    return most;
  }
}

function acrossEnds(laid: { width: number; stations?: { at: { from: number; to: number }[] }[] }): number[] {
  if (!laid.stations) return [-laid.width / 2, laid.width / 2];
  const readings = laid.stations.flatMap((station) => station.at);
  return [Math.min(...readings.map((reading) => reading.from)), Math.max(...readings.map((reading) => reading.to))];
}

/** The same prices with nothing paid for centre and spread: the bound then holds for plans that miss them, too. */
export function withoutMoments(rows: LoadRow[], prices: Prices): Prices {
  const loads = prices.loads.map((load, i) => (rows[i]!.aim === undefined ? load : 0));
  return { ...prices, loads };
}
