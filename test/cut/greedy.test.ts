import { describe, expect, it } from 'vitest';
import { cutList } from '../../src/cut/cutlist.ts';
import { fitBest } from '../../src/cut/greedy.ts';
import { type Scaled, scaleProblem } from '../../src/cut/scale.ts';
import { readCutList } from '../../src/job/cutlist.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import { throwDice } from '../bench/dice.ts';
import { ownTime } from '../ownTime.ts';

/** Best fit by its words, piece by piece: what each bar of each type has left in its spans, in the order opened. */
function slowFit({ sizes, demand, stocks }: Scaled, rank: number[]) {
  const bars: { stock: number; lefts: number[] }[] = [];
  let short = 0;
  for (const [row, size] of sizes.entries())
    for (let n = 0; n < demand[row]!; n++) {
      const fitting = () => bars.flatMap(({ lefts }) => lefts).filter((left) => left >= size);
      if (fitting().length === 0) {
        const stock = rank.find(
          (t) =>
            bars.filter((bar) => bar.stock === t).length < stocks[t]!.count &&
            Math.max(...stocks[t]!.capacities) >= size,
        );
        if (stock === undefined) {
          short++;
          continue;
        }
        bars.push({ stock, lefts: [...stocks[stock]!.capacities] });
      }
      const least = Math.min(...fitting());
      const { lefts } = bars.find((bar) => bar.lefts.includes(least))!;
      lefts[lefts.indexOf(least)] = least - size;
    }
  return { bars, short };
}

describe('best fit', () => {
  it('puts every piece where it leaves least, also where pieces of a size are laid together', () => {
    const dice = throwDice(5);
    let opened = 0;
    for (let n = 0; n < 150; n++) {
      const stock = [1, 2].map((price) => {
        const length = dice.whole(400, 1200);
        const middle = dice.whole(100, 300);
        const spans = dice.chance(0.5)
          ? [{ from: 0, to: length }]
          : [
              { from: 0, to: middle },
              { from: middle + 10, to: length },
            ];
        return { length, spans, count: dice.pick([null, 2, 30]), price };
      });
      const pieces = Array.from({ length: dice.whole(1, 6) }, () => ({
        length: dice.whole(40, 500),
        count: dice.whole(1, 25),
      }));
      const scaled = scaleProblem({ stock, pieces, kerf: dice.pick([0, 2.5]) });
      const counts = scaled.stocks.map(({ count }) => count);
      const room = scaled.stocks.map(({ capacities }) => capacities.reduce((sum, c) => sum + c, 0));
      const rank = [0, 1].sort((a, b) => (a + 1) / room[a]! - (b + 1) / room[b]!);
      const slow = slowFit(scaled, rank);
      const { patterns, short } = fitBest(scaled, scaled.demand, counts);
      expect(
        patterns.map((pattern) => ({ stock: pattern.stock, lefts: pattern.fills.map(({ left }) => left) })),
      ).toEqual(slow.bars);
      expect(short.reduce((sum, { count }) => sum + count, 0)).toBe(slow.short);
      opened += patterns.length;
    }
    expect(opened).toBeGreaterThan(500);
  });

  it('of a list of 100,000 pieces keeps about to the seconds given', async () => {
    const list = readCutList(
      JSON.stringify({
        format: 'kentledge-cutlist/1',
        stock: [{ length: 6000 }, { length: 3100, count: 50 }],
        pieces: [
          { length: 1395, count: 3 },
          { length: 990, count: 100_000 },
          { length: 604, count: 17 },
        ],
      }),
    );
    if (!list.ok) throw new Error('refused');
    const engine = await loadHighs();
    const start = performance.now();
    const options = { engine, effort: 800, shouldStop: () => performance.now() - start > 1000 };
    // A list like it took 46 s before, when every piece was tried in every bar.
    expect(await ownTime(() => cutList(list.value, options))).toBeLessThan(8000);
  });
});
