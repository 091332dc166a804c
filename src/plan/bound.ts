/**
 * The bound over every whole-millimetre length: the Lagrangian of the master at any prices (pricing.ts says why it holds),
 * with the prices of all lengths between the rows at hand interpolated, and each void at its ceiling.
 */
import { type Ceilings, ceilingOf } from '../stow/ceilings.ts';
import { type LaidVoid, vesselPoint } from '../stow/laid.ts';
import { isOneOf, type SomeLengths } from '../stow/pileCeiling.ts';
import { type Steel, sectionsOf } from '../stow/steel.ts';
import type { TableUse } from './barPattern.ts';
import { type PartPrices, partPrices } from './jointBound.ts';
import { lengthRange } from './lengths.ts';
import { addLoad, type Load, noLoad } from './load.ts';
import type { LoadRow } from './loadRows.ts';
import type { Use } from './master.ts';
import { type Prices, worthAt } from './prices.ts';
import { leastSought, loadAllowance, type PricedPattern, perKgAt, pricePatterns } from './pricing.ts';
import { barMass, type Problem, type Space } from './problem.ts';

export interface Bounded {
  /** No plan is worth more, kg. */
  value: number;
  /** What it is reckoned from: the best pattern of every bar kind, and the best that every void could hold. */
  patterns: (PricedPattern & { cut: Use[] })[];
  ceilings: SpaceCeiling[];
}

/** What a void at its ceiling would hold. */
export interface SpaceCeiling {
  space: Space;
  value: number;
  use: Use[];
  load: Load;
}

/** Ceilings of every way of laying every void; geometry worked out once, then a bound at any prices. */
export class Bounder {
  private readonly problem: Problem;
  private readonly ceilings: Ceilings[][];
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
      space.laid.map((laid) => ceilingOf(laid, wholes, job.bundle, job.saw, least, problem.poll)),
    );
  }

  /** The bound at these prices; over `some` lengths only, it is none, but quickly reckoned. */
  at(rows: LoadRow[], prices: Prices, some?: SomeLengths): Bounded {
    const { problem } = this;
    const ballast = rows.findIndex((row) => row.name === 'ballast');
    const perKg = ballast < 0 ? 0 : prices.loads[ballast]!;
    let value = loadAllowance(rows, prices) - (ballast < 0 ? 0 : perKg * rows[ballast]!.most);
    const parts = partPrices(problem, prices, this.lengths);
    const patterns = this.patternsOf(prices, some ? 'patterns' : 'bound', some, parts)
      .filter(({ worth }) => worth > 0)
      .map((pattern) => ({ ...pattern, cut: this.cutOf(pattern, prices, parts) }));
    for (const { kind, worth } of patterns) value += worth * kind.count;
    const worths = this.worthsOf(prices);
    const ceilings = problem.spaces.map((space) => this.ceilingOf(space, rows, prices, worths, some));
    return { value: value + this.withBallast(ceilings, perKg), patterns, ceilings };
  }

  /** What a pattern cuts: its pieces, those that are worth more as parts of a jointed bar as the share of it that they make. */
  private cutOf({ kind: { steel }, spans }: PricedPattern, prices: Prices, parts: PartPrices | null): Use[] {
    const worths = parts?.worths[steel];
    const wholes = parts?.wholes[steel];
    return spans.flat().map((length) => {
      const i = length - this.lengths[0]!;
      const whole = wholes?.[i] ?? 0;
      const asPart = whole > 0 && (worths?.[i] ?? 0) > worthAt(prices.pieces[steel]!, length) + 1e-9;
      return asPart ? { steel, length: whole, bars: length / whole } : { steel, length, bars: 1 };
    });
  }

  private patternsOf(
    prices: Prices,
    use: TableUse,
    some: SomeLengths | undefined,
    parts: PartPrices | null,
  ): PricedPattern[] {
    const { problem, lengths } = this;
    const belongs = (_: number, i: number) => !some || isOneOf(some, lengths[i]!);
    const own = lengths.filter(belongs);
    const worths = parts?.worths.map((worth) => worth.filter(belongs)) ?? null;
    return pricePatterns(
      problem,
      prices,
      problem.steels.map(() => own),
      { use, worths, ...(some && { least: leastSought(prices) }) },
    );
  }

  /** Of some lengths, by steel, those that would pay at these prices: of the best pattern of every bar and of the ceilings of the open voids. */
  suggest(rows: LoadRow[], prices: Prices, open: boolean[], some: SomeLengths): Set<number>[] {
    const { problem } = this;
    const found = problem.steels.map(() => new Set<number>());
    for (const { kind, spans } of this.patternsOf(prices, 'patterns', some, null)) {
      for (const length of spans.flat()) found[kind.steel]!.add(length);
    }
    const worths = this.worthsOf(prices);
    for (const space of problem.spaces) {
      if (!open[space.index]) continue;
      for (const { steel, length } of this.ceilingOf(space, rows, prices, worths, some).use) found[steel]!.add(length);
    }
    return found;
  }

  /** The worth of a piece of every length, by steel. */
  private worthsOf(prices: Prices): Float64Array[] {
    return prices.pieces.map((pieces) => Float64Array.from(this.lengths, (length) => worthAt(pieces, length)));
  }

  /**
   * The ceilings together, with what the ballast row allows. The ballast asked for is passed by less than the lightest
   * bundle; where that is heavier than some voids' limits, those voids are empty. The worst of the cases is the bound.
   */
  private withBallast(ceilings: SpaceCeiling[], perKg: number): number {
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

  private ceilingOf(
    space: Space,
    rows: LoadRow[],
    prices: Prices,
    worths: Float64Array[],
    some: SomeLengths | undefined,
  ): SpaceCeiling {
    let best: SpaceCeiling = { space, value: 0, use: [], load: noLoad() };
    space.laid.forEach((laid, way) => {
      const rates = this.ratesOf(space, laid, rows, prices);
      const barOf = (section: number, length: number) => this.bestMember(section, length, rates.perKg, worths);
      const { value, runs } = this.ceilings[space.index]![way]!.at({
        perBar: (section, length) => barOf(section, length).worth,
        perBundle: rates.perBundle,
        ...(some && { some }),
        extraPerKg: rates.corners && ((along) => rates.corners!(along).worth),
      });
      if (value <= best.value) return;
      best = { space, value, use: [], load: noLoad() };
      for (const { middle, bars, bundles } of runs) {
        const use = bars.map((own) => ({ ...own, steel: barOf(own.steel, own.length).steel }));
        best.use.push(...use);
        addLoad(best.load, this.loadOf(use, bundles, rates.corners?.(middle).at ?? anywhereIn(laid)));
      }
    });
    return best;
  }

  /** The steel of a section of which a bar is worth most in a void, and that worth. */
  private bestMember(
    section: number,
    length: number,
    perKg: number,
    worths: Float64Array[],
  ): { worth: number; steel: number } {
    let best = { worth: Number.NEGATIVE_INFINITY, steel: -1 };
    for (const { index, heaviest, yieldOf } of this.sections[section]!.members) {
      const worth = (perKg * heaviest * length) / 1000 - worths[index]![length - this.lengths[0]!]!;
      if (worth > best.worth && yieldOf(length) > 0) best = { worth, steel: index };
    }
    return best;
  }

  /** What the load rows make of a kilogram and of a bundle in a void, and of a kilogram more at a place along it. */
  private ratesOf(space: Space, laid: LaidVoid, rows: LoadRow[], prices: Prices) {
    const { labour, job } = this.problem;
    const lcf = job.vessel?.lcf ?? 0;
    const moment = (row: LoadRow) => row.name === 'centre' || row.name === 'spread';
    const caps = prices.loads.map((load, i) => (moment(rows[i]!) ? 0 : load));
    const moments = prices.loads.map((load, i) => (moment(rows[i]!) ? load : 0));
    const capped = perKgAt(rows, caps, space, anywhereIn(laid), lcf);
    return {
      perKg: space.weight + capped,
      perBundle: labour.bundle - job.bundle.wrapping * capped,
      corners: moments.some((load) => load > 1e-9)
        ? (along: number) => this.bestCorner(space, laid, rows, moments, along, lcf)
        : null,
    };
  }

  /** The place, over the width and the height, where moments make most of a kilogram in a run with its middle at `along`. */
  private bestCorner(
    space: Space,
    laid: LaidVoid,
    rows: LoadRow[],
    loads: Float64Array,
    along: number,
    lcf: number,
  ): { worth: number; at: Point } {
    let best = { worth: Number.NEGATIVE_INFINITY, at: anywhereIn(laid) };
    for (const across of acrossEnds(laid)) {
      for (const up of [0, laid.height]) {
        const at = vesselPoint(laid, along, across, up);
        const worth = perKgAt(rows, loads, space, at, lcf);
        if (worth > best.worth) best = { worth, at };
      }
    }
    return best;
  }

  private loadOf(use: Use[], bundles: number, at: Point): Load {
    const { job, steels } = this.problem;
    const steel = use.reduce((sum, { steel, length, bars }) => sum + bars * barMass(steels[steel]!, length), 0);
    const mass = steel + bundles * job.bundle.wrapping;
    const arm = at.x - (job.vessel?.lcf ?? 0);
    const moments = { x: mass * at.x, y: mass * at.y, z: mass * at.z, xx: mass * arm * arm };
    return { ...noLoad(), bundles, steel, mass, ...moments };
  }
}

type Point = { x: number; y: number; z: number };

function anywhereIn(laid: LaidVoid): Point {
  return vesselPoint(laid, laid.length / 2, 0, 0);
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

/**
 * What the ballast asked for is worth at most, kg, wherever it lies; Infinity where none is asked for. It is passed by less
 * than the lightest bundle. The same bound at a price of the heaviest weight for a kilogram of ballast and none for
 * anything else: prices that keep a centre or a spread may say far more of plans that miss them.
 */
export function mostByBallast({ job, spaces }: Problem): number {
  const { ballast } = job.aims;
  if (ballast === undefined) return Number.POSITIVE_INFINITY;
  const weight = Math.max(0, ...spaces.map((space) => space.weight));
  return weight * (ballast + Math.max(0, ...spaces.map((space) => space.heaviest)));
}
