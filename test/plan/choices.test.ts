/** Choosing by bounds, held against trying every choice. */
import { describe, expect, test } from 'vitest';
import { Choices } from '../../src/plan/choices.ts';
import { Dice } from '../../src/plan/dice.ts';
import { Picks } from '../../src/plan/picks.ts';
import { throwDice } from '../bench/dice.ts';

/** What is chosen adds up to a few amounts; the worth is its own and, per amount, concave: so much each up to a supply. */
function throwProblem(seed: number) {
  const dice = throwDice(seed);
  const amounts = dice.whole(1, 4);
  const options = Array.from({ length: dice.whole(1, 3) }, () =>
    Array.from({ length: dice.whole(2, 12) }, () => ({
      own: dice.stepped(0, 10, 0.01),
      uses: Array.from({ length: amounts }, () => dice.whole(0, 6)),
    })),
  );
  const supply = Array.from({ length: amounts }, () => ({
    most: dice.whole(2, 12),
    price: dice.stepped(0.5, 4, 0.01),
  }));
  /** The worth of a choice, and the price of each amount there. */
  const worthOf = (picks: number[]) => {
    const chosen = picks.map((pick, i) => options[i]![pick]!);
    let worth = chosen.reduce((sum, { own }) => sum + own, 0);
    const prices = supply.map(({ most, price }, a) => {
      const used = chosen.reduce((sum, { uses }) => sum + uses[a]!, 0);
      worth -= price * Math.max(0, used - most);
      return used > most ? price : 0;
    });
    return { worth, prices };
  };
  const gainsAt = (prices: number[]) =>
    options.map((own) =>
      Float64Array.from(own, (one) => one.own - one.uses.reduce((sum, use, a) => sum + use * prices[a]!, 0)),
    );
  const every = options.reduce<number[][]>((all, own) => all.flatMap((some) => own.map((_, i) => [...some, i])), [[]]);
  return { options, worthOf, gainsAt, best: Math.max(...every.map((picks) => worthOf(picks).worth)), every };
}

const SEEDS = Array.from({ length: 60 }, (_, i) => i + 1);

describe('choosing by bounds', () => {
  test.each(SEEDS)('comes to the best of all choices, and asks for none twice, %i', (seed) => {
    const { options, worthOf, gainsAt, best, every } = throwProblem(seed);
    const choices = new Choices(options.map((own) => own.length));
    // With nothing priced every choice takes what it likes: no choice is worth more.
    const free = gainsAt(options[0]![0]!.uses.map(() => 0));
    choices.relaxed(
      free.reduce((sum, own) => sum + Math.max(...own), 0),
      free,
    );
    let found = Number.NEGATIVE_INFINITY;
    const asked = new Set<string>();
    for (;;) {
      const picks = choices.next(found);
      if (!picks) break;
      expect(asked.has(picks.join())).toBe(false);
      asked.add(picks.join());
      const { worth, prices } = worthOf(picks);
      found = Math.max(found, worth);
      choices.tried(picks, worth, gainsAt(prices));
    }
    expect(found).toBeCloseTo(best, 9);
    expect(asked.size).toBeLessThanOrEqual(every.length);
  });

  test('looks at far fewer choices than there are', () => {
    let asked = 0;
    let all = 0;
    for (const seed of SEEDS) {
      const { options, worthOf, gainsAt, every } = throwProblem(seed);
      if (options.length < 3) continue;
      all += every.length;
      const choices = new Choices(options.map((own) => own.length));
      let found = Number.NEGATIVE_INFINITY;
      const start = options.map(() => 0);
      choices.tried(start, worthOf(start).worth, gainsAt(worthOf(start).prices));
      for (let picks = choices.next(found); picks; picks = choices.next(found)) {
        asked++;
        const { worth, prices } = worthOf(picks);
        found = Math.max(found, worth);
        choices.tried(picks, worth, gainsAt(prices));
      }
    }
    expect(asked).toBeLessThan(all / 4);
  });
});

describe('choosing by chance', () => {
  /** The worth that picking comes to, of a problem of a seed, and what it asked for. */
  function pick(seed: number) {
    const { options, worthOf, gainsAt, best } = throwProblem(seed);
    const picks = new Picks(
      options.map((own) => own.length),
      new Dice(seed),
    );
    let now = options.map(() => 0);
    let found = worthOf(now).worth;
    const asked = [now.join()];
    picks.tried(now, found, gainsAt(worthOf(now).prices));
    for (let next = picks.near(now, found); next; next = picks.near(now, found)) {
      asked.push(next.join());
      const { worth, prices } = worthOf(next);
      picks.tried(next, worth, gainsAt(prices));
      if (worth <= found) continue;
      found = worth;
      now = next;
    }
    return { found, best, asked };
  }

  test.each(SEEDS)('asks for none twice, and ends, %i', (seed) => {
    const { asked } = pick(seed);
    expect(new Set(asked).size).toBe(asked.length);
  });

  test('comes to the best of nearly all', () => {
    const met = SEEDS.filter((seed) => {
      const { found, best } = pick(seed);
      return found > best - 1e-6;
    });
    expect(met.length).toBeGreaterThanOrEqual(0.9 * SEEDS.length);
  });
});
