/** Tiers: bundles side by side, what carries and what is carried. */
import { describe, expect, test } from 'vitest';
import { sagOf, type Tie } from '../../src/stow/bundle.ts';
import { bestCount, worthOfCount } from '../../src/stow/counts.ts';
import { bestFill, carrying, fillWidth, isCarried, layFill, type TierKind, tierKind } from '../../src/stow/tier.ts';
import { type Dice, throwDice } from '../bench/dice.ts';
import { rulesWith, steelsFor, throwSection } from './spaces.ts';

function throwKind(dice: Dice): TierKind | null {
  const [steel] = steelsFor([throwSection(dice)]);
  const rules = rulesWith({ wrap: dice.pick([0, 2, 3.5]) });
  return tierKind(steel!, false, dice.whole(1, 3), dice.whole(1, 10), rules, sagOf(2, dice.whole(150, 1200)));
}

function kinds(count: number): [Dice, TierKind][] {
  const found: [Dice, TierKind][] = [];
  for (let seed = 1; found.length < count; seed++) {
    const dice = throwDice(seed);
    const kind = throwKind(dice);
    if (kind) found.push([dice, kind]);
  }
  return found;
}

/** The most bars that `bundles` bundles hold in `width`, their ties tried one by one. */
function mostBars(kind: TierKind, bundles: number, width: number, gap: number, from = 0): number {
  if (bundles === 0) return 0;
  let best = Number.NEGATIVE_INFINITY;
  for (let tie = from; tie < kind.ties.length; tie++) {
    const rest = width - kind.widths[tie]!;
    if (rest < -1e-9) break;
    const more = mostBars(kind, bundles - 1, rest - gap, gap, tie);
    best = Math.max(best, kind.ties[tie]!.bars + more);
  }
  return best;
}

describe('the fills of a width', () => {
  test('fit it with their gaps, and count their bars', () => {
    for (const [dice, kind] of kinds(80)) {
      const [width, gap] = [dice.whole(40, 500), dice.whole(0, 8)];
      const fills = fillWidth(kind, width, gap);
      fills.forEach((fill, i) => {
        expect(fill.ties).toHaveLength(i + 1);
        const used = fill.ties.reduce((sum, tie) => sum + kind.widths[tie]!, 0) + i * gap;
        expect(used).toBeLessThanOrEqual(width + 1e-6);
        expect(fill.bars).toBe(fill.ties.reduce((sum, tie) => sum + kind.ties[tie]!.bars, 0));
        if (i > 0) expect(fill.bars).toBeGreaterThan(fills[i - 1]!.bars);
      });
      if (fills.length === 0) expect(kind.widths[0]!).toBeGreaterThan(width);
    }
  });

  test('hold, over all, at least 97 % of the most bars that trying every tie finds, and never more', () => {
    let told = 0;
    let most = 0;
    for (const [dice, kind] of kinds(60)) {
      const [width, gap] = [dice.whole(40, 400), dice.whole(0, 8)];
      const best = Math.max(0, ...fillWidth(kind, width, gap).map((fill) => fill.bars));
      let exact = 0;
      for (let bundles = 1; bundles <= 6; bundles++) exact = Math.max(exact, mostBars(kind, bundles, width, gap));
      if (fillWidth(kind, width, gap).length <= 6) expect(best).toBeLessThanOrEqual(exact);
      told += Math.min(best, exact);
      most += exact;
    }
    expect(told / most).toBeGreaterThan(0.97);
  });

  test('are never fewer bars in more width', () => {
    for (const [dice, kind] of kinds(40)) {
      const gap = dice.whole(0, 8);
      let before = 0;
      for (let width = 40; width <= 400; width += 7) {
        const first = fillWidth(kind, width, gap)[0]?.bars ?? 0;
        expect(first).toBeGreaterThanOrEqual(before);
        before = first;
      }
    }
  });

  test('worth most is the one worth most, and none where nothing pays', () => {
    for (const [dice, kind] of kinds(40)) {
      const fills = fillWidth(kind, dice.whole(60, 400), 4);
      const [perBar, perBundle] = [dice.stepped(0, 2, 0.1), dice.stepped(0, 3, 0.1)];
      const worths = fills.map((fill) => fill.bars * perBar - fill.ties.length * perBundle);
      const best = bestFill(fills, perBar, perBundle);
      expect(best?.value ?? 0).toBeCloseTo(Math.max(0, ...worths), 9);
      expect(bestFill(fills, 0, perBundle)).toBeNull();
      // The bars alone tell how many bundles are worth most.
      const bars = fills.map((fill) => fill.bars);
      const bundles = bestCount(bars, perBar, perBundle);
      expect(worthOfCount(bars, bundles, perBar, perBundle)).toBeCloseTo(best?.value ?? 0, 9);
      expect(bestCount(bars, 0, perBundle)).toBe(0);
    }
  });

  test('lie inside their interval, on half millimetres, a gap apart', () => {
    for (const [dice, kind] of kinds(80)) {
      const gap = dice.whole(0, 8);
      const from = dice.stepped(-200, 0, 0.5) + dice.pick([0, 0.17]);
      const interval = { from, to: from + dice.stepped(60, 400, 0.5) };
      const fill = fillWidth(kind, Math.floor(2 * (interval.to - interval.from) - 1) / 2, gap).at(-1);
      if (!fill) continue;
      const lying = layFill(kind, fill, interval, gap);
      lying.forEach((bundle, i) => {
        expect(bundle.from).toBeGreaterThanOrEqual(interval.from - 1e-6);
        expect(bundle.from + bundle.across).toBeLessThanOrEqual(interval.to + 1e-6);
        const before = lying[i - 1];
        if (before) expect(bundle.from - before.from - before.across).toBeCloseTo(gap, 9);
        expect(Math.abs(2 * bundle.from - Math.round(2 * bundle.from))).toBeLessThan(1e-6);
      });
    }
  });
});

describe('carried', () => {
  const tie = (columns: number[], arrangement: Tie['arrangement']): Tie => ({
    arrangement,
    columns,
    bars: columns.reduce((sum, count) => sum + count, 0),
    widest: Math.max(...columns),
  });
  const [steel] = steelsFor([{ shape: 'square', side: 20 }]);
  const kind = tierKind(steel!, false, 2, 10, rulesWith({ wrap: 3 }), 0)!;

  test('a short top row of a grid carries only where it has bars, at the least-across side', () => {
    expect(carrying(kind, { tie: tie([4, 4], 'grid'), from: 10, across: 86 }, 3)).toEqual({ from: 10, to: 96 });
    expect(carrying(kind, { tie: tie([4, 2], 'grid'), from: 10, across: 86 }, 3)).toEqual({ from: 10, to: 53 });
  });

  test('a nested bundle carries whole where its top row is one bar shorter, else over its top row, centred', () => {
    expect(carrying(kind, { tie: tie([4, 3], 'nested'), from: 0, across: 86 }, 3)).toEqual({ from: 0, to: 86 });
    const narrow = carrying(kind, { tie: tie([4, 3, 2], 'nested'), from: 0, across: 86 }, 3);
    expect(narrow.to - narrow.from).toBeCloseTo(43, 9);
    expect((narrow.from + narrow.to) / 2).toBeCloseTo(43, 9);
  });

  test('means over 60 % of the width, with the middle between the outermost edges', () => {
    const bundle = { tie: tie([5], 'grid'), from: 0, across: 100 };
    expect(isCarried(bundle, [{ from: 0, to: 100 }])).toBe(true);
    expect(isCarried(bundle, [{ from: 0, to: 61 }])).toBe(true);
    expect(isCarried(bundle, [{ from: 0, to: 59 }])).toBe(false);
    expect(
      isCarried(bundle, [
        { from: 0, to: 20 },
        { from: 59.5, to: 100 },
      ]),
    ).toBe(true);
    expect(
      isCarried(bundle, [
        { from: 0, to: 15 },
        { from: 60, to: 100 },
      ]),
    ).toBe(false);
    expect(isCarried(bundle, [])).toBe(false);
    expect(
      isCarried(bundle, [
        { from: -50, to: 0 },
        { from: 100, to: 150 },
      ]),
    ).toBe(false);
  });
});
