/** Stacks and layouts of random spaces, held against the words of the plan format. */
import { describe, expect, test } from 'vitest';
import { stackWorth } from '../../src/stow/knapsack.ts';
import { Berth } from '../../src/stow/layout.ts';
import { RunBook } from '../../src/stow/runSpace.ts';
import { bestStack, stackValue } from '../../src/stow/stack.ts';
import { throwDice } from '../bench/dice.ts';
import { type Shape, throwPrices, throwSetting } from './random.ts';
import { countWorth, layoutFaults, stackFaults } from './recount.ts';

const SHAPES: Shape[] = ['box', 'keepOut', 'stations', 'opening'];
const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);

describe('the best stack of a run is carried, inside, under the limit, and counted right', () => {
  const hold = (shape: Shape) => {
    let filled = 0;
    for (const seed of SEEDS) {
      const dice = throwDice(seed);
      const setting = throwSetting(dice, shape);
      const { laid, steels, rules, saw } = setting;
      const { lengths, perBar, perBundle } = throwPrices(dice, setting, 1, false);
      const length = Math.min(lengths[0]!, 600);
      const from = laid.clear.ends;
      const prices = { perBar: perBar[0]!, perBundle };
      const best = bestStack(new RunBook(laid, steels, rules, saw).space(from, length), prices, steels.length);
      if (!best) continue;
      filled++;
      expect([seed, stackFaults(setting, from, best.stack)]).toEqual([seed, []]);
      const bars = best.stack.tiers.flatMap((tier) =>
        tier.lying.map(({ tie }) => [tier.kind.steel, tie.bars] as const),
      );
      expect(best.stack.bundles).toBe(bars.length);
      best.stack.bars.forEach((count, steel) => {
        expect(count).toBe(bars.reduce((sum, [own, more]) => sum + (own === steel ? more : 0), 0));
      });
      expect(best.value).toBeCloseTo(stackValue(best.stack, prices), 9);
      expect(best.value).toBeGreaterThan(0);
    }
    expect(filled).toBeGreaterThan(10);
  };

  test.each(SHAPES)('in a void of the kind “%s”', hold);
});

describe('the worth of a height', () => {
  test('is what filling it level by level in every way finds', () => {
    for (const seed of SEEDS) {
      const dice = throwDice(seed);
      const levels = Array.from({ length: dice.whole(1, 4) }, () => ({
        up: dice.whole(3, 20),
        worth: dice.stepped(0, 5, 0.1),
      }));
      levels.sort((p, q) => p.up - q.up);
      const height = dice.whole(0, 50);
      const every = (left: number): number =>
        Math.max(0, ...levels.filter(({ up }) => up <= left).map(({ up, worth }) => worth + every(left - up)));
      expect(stackWorth(levels, height, new Float64Array(height + 1))).toBeCloseTo(every(height), 9);
    }
  });
});

describe('the best layout of a box', () => {
  const best = (seed: number, moments: boolean) => {
    const dice = throwDice(seed);
    const setting = throwSetting(dice, 'box');
    const prices = throwPrices(dice, setting, 6, moments);
    const found = new Berth(setting.laid, setting.steels, setting.rules, setting.saw).best(prices);
    return { setting, prices, found };
  };

  test.each([false, true])('takes no more than the room, and every run of it stands (with moments: %s)', (moments) => {
    let filled = 0;
    for (const seed of SEEDS) {
      const { setting, found } = best(seed, moments);
      if (!found) continue;
      filled++;
      expect([seed, layoutFaults(setting, found.layout)]).toEqual([seed, []]);
    }
    expect(filled).toBeGreaterThan(25);
  });

  test('is never told as less than it counts up to, and over all by at most 1 % more', () => {
    let told = 0;
    let counted = 0;
    for (const seed of SEEDS) {
      const { setting, prices, found } = best(seed, false);
      if (!found) continue;
      const own = countWorth(setting, found.layout, prices);
      expect(found.value).toBeGreaterThan(own - 1e-6);
      told += found.value;
      counted += own;
    }
    expect(told / counted).toBeLessThan(1.01);
  });

  test('with moments is told as what it counts up to, but for the quarter millimetre of a middle', () => {
    let told = 0;
    let counted = 0;
    for (const seed of SEEDS) {
      const { setting, prices, found } = best(seed, true);
      if (!found) continue;
      told += found.value;
      counted += countWorth(setting, found.layout, prices);
    }
    expect(Math.abs(told / counted - 1)).toBeLessThan(0.01);
  });

  test('is worth no less with one length more to choose from', () => {
    for (const seed of SEEDS) {
      const { setting, prices, found } = best(seed, false);
      const drop = prices.lengths.length >> 1;
      const fewer = {
        ...prices,
        lengths: prices.lengths.filter((_, i) => i !== drop),
        perBar: prices.perBar.filter((_, i) => i !== drop),
      };
      const some = new Berth(setting.laid, setting.steels, setting.rules, setting.saw).best(fewer);
      expect(found?.value ?? 0).toBeGreaterThan((some?.value ?? 0) - 1e-6);
    }
  });

  test('is worth the same in a void that is its mirror image', () => {
    for (const seed of SEEDS.slice(0, 20)) {
      const { setting, prices, found } = best(seed, false);
      const { laid } = setting;
      const mirrored = { ...laid, origin: { ...laid.origin, y: -laid.origin.y } };
      const other = new Berth(mirrored, setting.steels, setting.rules, setting.saw).best(prices);
      expect(other?.value ?? 0).toBe(found?.value ?? 0);
    }
  });
});
