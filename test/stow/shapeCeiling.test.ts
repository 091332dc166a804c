/** Ceilings of shapes are never below what can be stowed in them, whatever the prices, and not far above it. */
import { describe, expect, test } from 'vitest';
import { Berth, type LayoutPrices } from '../../src/stow/layout.ts';
import type { CeilingPrices } from '../../src/stow/pileCeiling.ts';
import { ShapeCeiling } from '../../src/stow/shapeCeiling.ts';
import { throwDice } from '../bench/dice.ts';
import { type Shape, throwPrices, throwSetting } from './random.ts';
import { countWorth } from './recount.ts';

const SEEDS = Array.from({ length: 6 }, (_, i) => i + 1);
const LEAST = 150;

/** What a layout's prices say of any length: the listed ones as listed, others as nothing. */
function asCeilingPrices({ lengths, perBar, perBundle, extraPerKg }: LayoutPrices): CeilingPrices {
  const at = new Map(lengths.map((length, i) => [length, perBar[i]!]));
  return { perBar: (steel, length) => at.get(length)?.[steel] ?? Number.NEGATIVE_INFINITY, perBundle, extraPerKg };
}

/** Prices by the kilogram, alike at all lengths but for a little: nearer to those of a planning. */
function smooth(prices: LayoutPrices, share: number): CeilingPrices {
  const { perBundle, extraPerKg, lengths, perBar } = prices;
  const rates = Array.from(perBar[0]!, (worth) => worth / lengths[0]!);
  return {
    perBar: (steel, length) => rates[steel]! * length * (1 + share * ((length % 7) / 7)),
    perBundle,
    extraPerKg,
  };
}

const CASES: [Shape, number][] = [
  ['box', 0.93],
  ['keepOut', 0.85],
  ['stations', 0.75],
  ['opening', 0.9],
  ['bearers', 0.7],
  ['drain', 0.6],
];

describe.each(CASES)('the ceiling of a void of the kind “%s”', (shape, near) => {
  test('is over every layout that is found at its prices, and near to the best', () => {
    let value = 0;
    let most = 0;
    for (const seed of SEEDS) {
      const dice = throwDice(seed);
      const setting = throwSetting(dice, shape);
      const listed = throwPrices(dice, setting, 8, seed % 3 === 0);
      const { laid, steels, rules, saw } = setting;
      const ceiling = new ShapeCeiling(laid, steels, rules, saw, LEAST);
      const berth = new Berth(laid, steels, rules, saw);
      // A middle is known to a quarter of a millimetre.
      const slack = listed.extraPerKg ? (laid.length * laid.width * laid.height * 7850e-9 * 0.25) / 1000 : 1e-6;
      for (const prices of [asCeilingPrices(listed), smooth(listed, 0.02)]) {
        const perBar = listed.lengths.map((length) => steels.map((steel) => prices.perBar(steel.index, length)));
        const own: LayoutPrices = { ...listed, perBar };
        const found = berth.best(own);
        if (!found) continue;
        const counted = countWorth(setting, found.layout, own);
        const bound = ceiling.at(prices).value;
        expect([seed, bound > counted - slack]).toEqual([seed, true]);
        if (prices.perBar(0, listed.lengths[0]! + 1) === Number.NEGATIVE_INFINITY) {
          value += counted;
          most += bound;
        }
      }
    }
    expect(value / most).toBeGreaterThan(near);
  });
});

test('the runs of a ceiling are worth about what it is told to be', () => {
  for (const seed of SEEDS) {
    const dice = throwDice(seed);
    const setting = throwSetting(dice, 'stations');
    const listed = throwPrices(dice, setting, 8, false);
    const { laid, steels, rules, saw } = setting;
    const prices = smooth(listed, 0);
    const { value, runs } = new ShapeCeiling(laid, steels, rules, saw, LEAST).at(prices);
    let worth = 0;
    for (const { bars, bundles } of runs) {
      worth -= bundles * prices.perBundle;
      for (const { steel, length, bars: count } of bars) worth += count * prices.perBar(steel, length);
    }
    expect(worth).toBeLessThan(value + 1e-6);
    expect(worth).toBeGreaterThan(0.8 * value - 1e-6);
  }
});

test.each(CASES)('in a void of the kind “%s” every bar of a run of a ceiling is of a length that there is', (shape) => {
  for (const seed of SEEDS) {
    const dice = throwDice(seed);
    const setting = throwSetting(dice, shape);
    const listed = throwPrices(dice, setting, 8, seed % 3 === 0);
    const { laid, steels, rules, saw } = setting;
    const ceiling = new ShapeCeiling(laid, steels, rules, { ...saw, tolerance: 1 }, LEAST);
    const { runs } = ceiling.at(asCeilingPrices(listed));
    for (const { bars } of runs) for (const { length } of bars) expect(listed.lengths).toContain(length);
  }
});
