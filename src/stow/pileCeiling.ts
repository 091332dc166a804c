/** What ceilings are asked for and what they tell; and what a stack can be worth at most by what the pile could yield. */
import type { BundleRules, Saw } from '../job/job.ts';
import { mostBars } from './barCeiling.ts';
import { jointShare } from './jointShare.ts';
import type { LaidVoid } from './laid.ts';
import type { Steel } from './steel.ts';

export interface CeilingPrices {
  /** Value of a bar of `length` mm of a steel. */
  perBar(steel: number, length: number): number;
  perBundle: number;
  /** Only some lengths: then what comes of it is no ceiling, and a run has bundles of one length. All when absent. */
  some?: SomeLengths;
  /** Half millimetres along → what a kilogram is worth more there; null where everywhere alike. */
  extraPerKg: ((along: number) => number) | null;
}

/** One length in so many whole millimetres, those that leave `rest`. */
export interface SomeLengths {
  step: number;
  rest: number;
}

/** True where a length is one of those. */
export function isOneOf({ step, rest }: SomeLengths, length: number): boolean {
  return length % step === rest;
}

export interface Ceiling {
  value: number;
  /** The runs that come to it: worth, at the prices it was sought at, what it is. */
  runs: CeilingRun[];
}

/** One run of a ceiling: no run that could be stowed, but what its worth is reckoned from. */
export interface CeilingRun {
  /** Its middle, mm along. */
  middle: number;
  /** Parts of bars and bundles where the pile does not yield as much. */
  bars: { steel: number; length: number; bars: number }[];
  bundles: number;
}

/** The worth of all bars that the pile could yield for one run. */
export class PileCeiling {
  private readonly laid: LaidVoid;
  private readonly steels: Steel[];
  private readonly rules: BundleRules;
  private readonly least: number;
  /** Distinct lengths that may share a run, mm. */
  private readonly window: number;
  /** What the bars of a bundle lack of its length on average at most, where they are jointed, mm. */
  private readonly lacking: number;

  /** `least`: the shortest piece, mm. */
  constructor(laid: LaidVoid, steels: Steel[], rules: BundleRules, saw: Saw, least: number) {
    this.laid = laid;
    this.steels = steels;
    this.rules = rules;
    this.least = least;
    this.window = Math.floor(2 * saw.tolerance);
    this.lacking = jointShare(rules) * saw.tolerance;
  }

  /** What all bars that the pile could yield at the lengths of the class that ends at the `i`th are worth, each with its part of a bundle. */
  at(prices: CeilingPrices, i: number, extra: number): number {
    let worth = 0;
    const perBundle = prices.perBundle - Math.max(0, extra) * this.rules.wrapping;
    const first = prices.some ? i : Math.max(0, i - this.window);
    for (const steel of this.steels) {
      const bars = steel.yieldOf(this.least + first);
      if (bars === 0) continue;
      let best = 0;
      for (let j = first; j <= i; j++) {
        const length = this.least + j;
        const share = 1 / Math.max(1, mostBars(this.laid, this.rules, steel, length - this.lacking));
        best = Math.max(best, worthOfBar(prices, steel, length, extra) - perBundle * share);
      }
      worth += best * bars;
    }
    return worth;
  }
}

/**
 * So much of a run as is worth what the pile allows: of what would lie there if there were enough, worth `all`. (All that
 * the pile could yield in its place would be worth as much at these prices, and at others far more than any run: prices
 * sought by such columns ended up to two thirds over the least bound.)
 */
export function partOfRun(run: CeilingRun, all: number, most: number): CeilingRun {
  if (most >= all) return run;
  const share = most / all;
  const bars = run.bars.map((each) => ({ ...each, bars: share * each.bars }));
  return { ...run, bars, bundles: share * run.bundles };
}

/** The worth of a bar where a kilogram is worth `extra` more than the prices say. */
export function worthOfBar(prices: CeilingPrices, steel: Steel, length: number, extra: number): number {
  const perKg = Math.max((extra * steel.heaviest * length) / 1000, (extra * steel.lightest * length) / 1000);
  return prices.perBar(steel.index, length) + perKg;
}
