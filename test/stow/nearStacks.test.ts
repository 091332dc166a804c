/** The stacks worth almost as much as the best, held against every way of filling the height with tiers. */
import { describe, expect, test } from 'vitest';
import { nearStacks } from '../../src/stow/nearStacks.ts';
import { heightOf, RunBook, type RunSpace } from '../../src/stow/runSpace.ts';
import { bestStack, orderTiers, stackKey, stackOf, stackValue } from '../../src/stow/stack.ts';
import { layFill } from '../../src/stow/tier.ts';
import { throwDice } from '../bench/dice.ts';
import { throwPrices, throwSetting } from './random.ts';
import { stackFaults } from './recount.ts';

const SEEDS = Array.from({ length: 80 }, (_, i) => i + 1);
const MOST_WAYS = 4000;

/** Every multiset of full tiers within the height, as kinds and fills by index; null where there are too many. */
function everyFilling(run: RunSpace): [number, number][][] | null {
  const tiers = run.kinds.flatMap((kind, k) =>
    run.fills[k]!.map((_, f) => ({ up: Math.round(kind.up * 2), at: [k, f] as [number, number] })),
  );
  const found: [number, number][][] = [];
  const add = (chosen: [number, number][], first: number, left: number): boolean => {
    if (found.push(chosen) > MOST_WAYS) return false;
    return tiers.every(({ up, at }, i) => i < first || up > left || add([...chosen, at], i, left - up));
  };
  return add([], 0, heightOf(run)) ? found : null;
}

function throwRun(seed: number) {
  const dice = throwDice(seed);
  const setting = throwSetting(dice, 'box');
  const { laid, steels, rules, saw } = setting;
  const { lengths, perBar, perBundle } = throwPrices(dice, setting, 1, false);
  const from = laid.clear.ends;
  const run = new RunBook(laid, steels, rules, saw).space(from, Math.min(lengths[0]!, 600));
  const slack = dice.stepped(0.2, 6, 0.1);
  return { setting, from, run, steels: steels.length, slack, prices: { perBar: perBar[0]!, perBundle } };
}

describe('stacks worth almost as much as the best', () => {
  test('stand as any stack must, each of other bars or bundles, no more than asked for', () => {
    let several = 0;
    for (const seed of SEEDS) {
      const { setting, from, run, steels, slack, prices } = throwRun(seed);
      const near = nearStacks(run, prices, steels, slack, 40);
      if (near.length > 1) several++;
      expect(near.length).toBeLessThanOrEqual(41);
      expect(new Set(near.map(stackKey)).size).toBe(near.length);
      for (const stack of near)
        if (stack.bundles > 0) expect([seed, stackFaults(setting, from, stack)]).toEqual([seed, []]);
      const best = bestStack(run, prices, steels);
      if (best)
        expect(Math.max(...near.map((stack) => stackValue(stack, prices)))).toBeGreaterThanOrEqual(best.value - 1e-9);
    }
    expect(several).toBeGreaterThan(20);
  });

  test('are all that there are, but for those with fewer bars or more bundles for nothing', () => {
    let held = 0;
    for (const seed of SEEDS) {
      const { run, steels, slack, prices } = throwRun(seed);
      const [interval] = run.space.clear(run.space.bottom, run.space.top);
      const ways = run.uniform && interval && run.rest.stands ? everyFilling(run) : null;
      if (!ways || !interval) continue;
      const near = nearStacks(run, prices, steels, slack, 1e6);
      const worthOf = (way: [number, number][]) =>
        way.reduce((sum, [k, f]) => {
          const fill = run.fills[k]![f]!;
          return sum + fill.bars * prices.perBar[run.kinds[k]!.steel]! - fill.ties.length * prices.perBundle;
        }, 0);
      const most = Math.max(...ways.map(worthOf));
      for (const way of ways) {
        if (worthOf(way) < most - slack + 1e-6) continue;
        const loose = way.map(([k, f]) => ({
          kind: run.kinds[k]!,
          lying: layFill(run.kinds[k]!, run.fills[k]![f]!, interval, run.gap),
        }));
        const stack = stackOf(run.length, orderTiers(run, loose), steels);
        if (stack.tiers.length < way.length || stack.bundles < loose.reduce((sum, { lying }) => sum + lying.length, 0))
          continue;
        held++;
        const asGood = near.some(
          (own) => own.bundles <= stack.bundles && own.bars.every((bars, i) => bars >= stack.bars[i]!),
        );
        expect([seed, stack.bars, asGood]).toEqual([seed, stack.bars, true]);
      }
    }
    expect(held).toBeGreaterThan(200);
  });
});
