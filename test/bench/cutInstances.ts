/** Instances for the cut bench: read from a file of classes, or made here from a seed with the optimum known. */
import { readFileSync } from 'node:fs';
import type { CutProblem, StockType } from '../../src/cut/problem.ts';
import { type Dice, throwDice } from './dice.ts';

export interface Instance {
  set: string;
  name: string;
  problem: CutProblem;
  /** Best known cost; null where none is known. */
  best: number | null;
}

interface Stated {
  name: string;
  capacity: number;
  items: [number, number][];
  best: number;
}

/** Classes of `{ name, capacity, items: [[length, demand], …], best }`: one bar length, no kerf, bars without limit. */
export function readInstances(file: string): Instance[] {
  const classes = JSON.parse(readFileSync(file, 'utf8')) as Record<string, Stated[]>;
  return Object.entries(classes).flatMap(([set, stated]) =>
    stated.map(({ name, capacity, items, best }) => ({
      set,
      name,
      best,
      problem: {
        stock: [bar(capacity, null, 1)],
        pieces: items.map(([length, count]) => ({ length, count })),
        kerf: 0,
      },
    })),
  );
}

/** Seeded instances: bars cut without any waste, so that the optimum is known, and piles of many lengths, where it is not. */
export function makeInstances(seed: number, each: number): Instance[] {
  const dice = throwDice(seed);
  const make = (set: string, maker: (dice: Dice, k: number) => Omit<Instance, 'set' | 'name'>): Instance[] =>
    Array.from({ length: each }, (_, k) => ({ set, name: `${set} ${k + 1}`, ...maker(dice, k) }));
  return [
    ...make('triplets', (d, k) => exactBars(d, 20 + 10 * (k % 6), 1000, 3)),
    ...make('exact mixes', (d, k) => exactBars(d, 15 + 10 * (k % 5), 6000, d.whole(4, 9))),
    ...make('exact, kerf 3', (d, k) => exactBars(d, 15 + 10 * (k % 5), 6000, d.whole(4, 9), 3)),
    ...make('exact, lengths', (d) => exactPile(d)),
    ...make('pile of lengths', (d) => randomPile(d)),
  ];
}

function bar(length: number, count: number | null, price: number): StockType {
  return { length, spans: [{ from: 0, to: length }], count, price };
}

/** So many bars, each cut into `parts` pieces with nothing left over. */
function exactBars(dice: Dice, bars: number, length: number, parts: number, kerf = 0): Omit<Instance, 'set' | 'name'> {
  const pieces = Array.from({ length: bars }, () => breakUp(dice, length, parts, kerf)).flat();
  return { problem: { stock: [bar(length, null, 1)], pieces: tally(pieces), kerf }, best: bars };
}

/** A pile of a few lengths with counts, every bar used up without waste: the cost is the length of all. */
function exactPile(dice: Dice): Omit<Instance, 'set' | 'name'> {
  const stock = Array.from({ length: dice.whole(3, 6) }, () => {
    const length = dice.whole(2000, 7000);
    return bar(length, dice.whole(3, 12), length);
  });
  const pieces = stock.flatMap(({ length, count }) =>
    Array.from({ length: count ?? 0 }, () => breakUp(dice, length, dice.whole(3, 7), 3)).flat(),
  );
  const best = stock.reduce((sum, { length, count }) => sum + length * (count ?? 0), 0);
  return { problem: { stock, pieces: tally(pieces), kerf: 3 }, best };
}

/** 5 to 12 lengths, 3 to 40 bars of each, 8 to 60 piece lengths, kerf 3; about three quarters of the pile is wanted. */
function randomPile(dice: Dice): Omit<Instance, 'set' | 'name'> {
  const stock = Array.from({ length: dice.whole(5, 12) }, () => {
    const length = dice.whole(2000, 7000);
    return bar(length, dice.whole(3, 40), length);
  });
  const wanted = 0.75 * stock.reduce((sum, { length, count }) => sum + length * (count ?? 0), 0);
  const pieces = Array.from({ length: dice.whole(8, 60) }, () => ({ length: dice.whole(150, 1900), count: 1 }));
  let sum = pieces.reduce((total, { length }) => total + length + 3, 0);
  while (sum < wanted) {
    const piece = dice.pick(pieces);
    piece.count++;
    sum += piece.length + 3;
  }
  return { problem: { stock, pieces, kerf: 3 }, best: null };
}

/** Whole lengths that fill a bar exactly, kerfs between them. */
function breakUp(dice: Dice, length: number, parts: number, kerf: number): number[] {
  let left = length - (parts - 1) * kerf;
  const pieces: number[] = [];
  for (let part = parts; part > 1; part--) {
    const even = left / part;
    const piece = dice.whole(Math.ceil(even * 0.4), Math.floor(even * 1.6));
    pieces.push(piece);
    left -= piece;
  }
  return [...pieces, left];
}

function tally(lengths: number[]): { length: number; count: number }[] {
  const counts = new Map<number, number>();
  for (const length of lengths) counts.set(length, (counts.get(length) ?? 0) + 1);
  return [...counts].map(([length, count]) => ({ length, count }));
}
