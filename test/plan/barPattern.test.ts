/** Patterns of a bar held against trying every way of cutting it, by the words of the job format. */
import { describe, expect, test } from 'vitest';
import { jobSchema } from '../../src/job/job.ts';
import { bestPattern, evenPattern, FillTable, patternOf, type TableUse } from '../../src/plan/barPattern.ts';
import { type BarKind, type Problem, problemOf } from '../../src/plan/problem.ts';
import { type Dice, throwDice } from '../bench/dice.ts';

const SEEDS = Array.from({ length: 150 }, (_, i) => i + 1);

interface Tiny {
  problem: Problem;
  kind: BarKind;
  lengths: number[];
  worth: number[];
}

function throwTiny(seed: number): { dice: Dice; tiny: Tiny } {
  const dice = throwDice(seed);
  const length = dice.whole(500, 1100) + dice.pick([0, 0.5]);
  const spoiled = Array.from({ length: dice.pick([0, 0, 1, 2]) }, () => {
    const from = dice.whole(0, length - 120);
    return { from, to: from + dice.pick([1, 2, 40, 90]) };
  });
  const job = jobSchema.parse({
    format: 'kentledge-job/1',
    name: `Tiny ${seed}`,
    pile: [{ lot: 'A', section: { shape: 'square', side: 20 }, length, spoiled, squaring: dice.pick([0, 0, 4, 5.5]) }],
    saw: {
      kerf: dice.pick([0, 1.3, 2.5, 3, 3.2]),
      keepFrom: dice.pick([150, 300, 900]),
      shortestPiece: 100,
      gang: dice.pick([1, 2]),
    },
    voids: [{ void: 'V1', length: 1000, width: 300, height: 150 }],
    aims: { kgPerHour: dice.pick([0, 5, 20]) },
  });
  const problem = problemOf(job);
  const lengths = [...new Set(Array.from({ length: dice.whole(1, 4) }, () => dice.whole(110, 500)))].sort(
    (a, b) => a - b,
  );
  const { perMetre } = problem.barKinds[0]!;
  const worth = lengths.map((each) => (each * perMetre * dice.stepped(0.2, 1.2, 0.02)) / 1000);
  return { dice, tiny: { problem, kind: problem.barKinds[0]!, lengths, worth } };
}

/** Pieces end to end, one kerf apart, from the start of their span; every multiset that fits. */
function waysOfSpan(size: number, kerf: number, lengths: number[]): number[][] {
  const found: number[][] = [];
  const add = (pieces: number[], used: number, from: number): void => {
    found.push(pieces);
    for (let i = from; i < lengths.length; i++) {
      const next = used + (pieces.length > 0 ? kerf : 0) + lengths[i]!;
      if (next <= size + 1e-9) add([...pieces, lengths[i]!], next, i);
    }
  };
  add([], 0, 0);
  return found;
}

/** Scrap in mm and cuts: one where the first piece of a span begins, one where each piece ends, none at a bar end. */
function reckon({ problem, kind }: Tiny, spans: number[][]): { scrap: number; cuts: number } {
  const { kerf, keepFrom } = problem.job.saw;
  let scrap = 0;
  let cuts = 0;
  kind.spans.forEach(({ from, to }, i) => {
    const pieces = spans[i]!;
    if (pieces.length > 0 && from > 0.01) cuts++;
    let at = from;
    for (const [n, length] of pieces.entries()) {
      at += length;
      if (at < kind.length - 0.01) cuts++;
      if (n < pieces.length - 1 || at < to - 1e-9) at = Math.min(to, at + kerf);
    }
    const rest = to - at;
    if (rest > 1e-9 && rest < keepFrom) scrap += rest;
  });
  return { scrap, cuts };
}

function worthOf(tiny: Tiny, spans: number[][]): number {
  const { problem, kind, lengths, worth } = tiny;
  const { scrap, cuts } = reckon(tiny, spans);
  const pieces = spans.flat().reduce((sum, length) => sum + worth[lengths.indexOf(length)]!, 0);
  return pieces - (0.5 * scrap * kind.perMetre) / 1000 - cuts * problem.labour.cut;
}

function everyCutting(tiny: Tiny): number[][][] {
  const bySpan = tiny.kind.spans.map(({ from, to }) => waysOfSpan(to - from, tiny.problem.job.saw.kerf, tiny.lengths));
  return bySpan.reduce<number[][][]>((all, ways) => all.flatMap((some) => ways.map((way) => [...some, way])), [[]]);
}

function bestTold(
  { problem, kind, lengths, worth }: Tiny,
  use: TableUse,
  least: number | null = null,
): { worth: number; spans: number[][] } | null {
  const { job, labour } = problem;
  const longest = Math.max(...kind.spans.map(({ from, to }) => to - from));
  const table = new FillTable(
    longest,
    job.saw.kerf,
    kind.perMetre,
    { lengths, worth },
    labour,
    use,
    least === null ? null : [{ spans: kind.spans, least }],
  );
  return bestPattern(table, kind, job, labour);
}

describe('the best pattern of a bar', () => {
  const hold = (cheap: boolean) => {
    let several = 0;
    let whole = 0;
    for (const seed of SEEDS) {
      const { tiny } = throwTiny(seed);
      if (tiny.worth.some((worth) => worth <= tiny.problem.labour.cut) !== cheap) continue;
      const ways = everyCutting(tiny).filter((spans) => spans.some((pieces) => pieces.length > 0));
      if (ways.length === 0) continue;
      if (tiny.kind.spans.length > 1) several++;
      const best = Math.max(...ways.map((spans) => worthOf(tiny, spans)));
      const bound = bestTold(tiny, 'bound');
      if (best > 1e-6) expect([seed, bound !== null && bound.worth > best - 1e-6]).toEqual([seed, true]);
      const told = bestTold(tiny, 'patterns');
      if (told) {
        const cut = JSON.stringify(told.spans.map((span) => [...span].sort()));
        expect(ways.map((way) => JSON.stringify(way.map((span) => [...span].sort())))).toContain(cut);
        expect(worthOf(tiny, told.spans)).toBeLessThanOrEqual(best + 1e-9);
      }
      if (best > 1e-6) expect([seed, told !== null]).toEqual([seed, true]);
      if (told) expect(told.worth).toBeCloseTo(worthOf(tiny, told.spans), 6);
      if (told && best > 1e-6) expect(told.worth).toBeCloseTo(best, 6);
      if (!Number.isInteger(2 * tiny.problem.job.saw.kerf)) continue;
      whole++;
      if (bound) expect(bound.worth).toBeCloseTo(worthOf(tiny, bound.spans), 6);
    }
    expect(whole).toBeGreaterThan(cheap ? 0 : 10);
    expect(several).toBeGreaterThan(cheap ? 0 : 10);
  };

  test('is the best of every way of cutting it', () => hold(false));
  test('is so where a piece is worth less than its cut, and saves scrap', () => hold(true));

  test('is found where it is worth what is sought, and nothing better where it is not', () => {
    let found = 0;
    for (const seed of SEEDS) {
      const { tiny } = throwTiny(seed);
      const best = bestTold(tiny, 'patterns');
      if (!best || best.worth <= 0) continue;
      found++;
      for (const least of [0, 0.9 * best.worth, best.worth])
        expect(bestTold(tiny, 'patterns', least)?.worth).toBeCloseTo(best.worth, 8);
      expect(bestTold(tiny, 'patterns', 1.1 * best.worth)?.worth ?? 0).toBeLessThan(best.worth + 1e-8);
    }
    expect(found).toBeGreaterThan(20);
  });

  test('is worth no less where a length more, or a longer bar, may be used', () => {
    for (const seed of SEEDS) {
      const { tiny } = throwTiny(seed);
      if (tiny.problem.labour.cut > 0) continue;
      const some =
        bestTold({ ...tiny, lengths: tiny.lengths.slice(1), worth: tiny.worth.slice(1) }, 'bound')?.worth ?? 0;
      expect(bestTold(tiny, 'bound')?.worth ?? 0).toBeGreaterThan(Math.min(some, 0) - 1e-9);
      if (some > 0) expect(bestTold(tiny, 'bound')!.worth).toBeGreaterThan(some - 1e-9);
    }
  });
});

describe('a pattern', () => {
  test('counts scrap and cuts as they are counted on the bar', () => {
    for (const seed of SEEDS) {
      const { dice, tiny } = throwTiny(seed);
      const spans = dice.pick(everyCutting(tiny));
      const pattern = patternOf(tiny.kind, spans, tiny.problem.job, tiny.problem.labour);
      const { scrap, cuts } = reckon(tiny, spans);
      expect([seed, pattern.cuts]).toEqual([seed, cuts]);
      expect(pattern.scrap).toBeCloseTo(scrap, 6);
      expect(pattern.cost).toBeCloseTo((0.5 * scrap * tiny.kind.perMetre) / 1000 + cuts * tiny.problem.labour.cut, 9);
    }
  });
});

test.each(SEEDS.slice(0, 30))('pieces of one length are as many as every span takes, bar %i', (seed) => {
  const { tiny } = throwTiny(seed);
  const { job, labour } = tiny.problem;
  for (const length of tiny.lengths) {
    const pattern = evenPattern(tiny.kind, length, job, labour);
    const counts = tiny.kind.spans.map(({ from, to }) => {
      const ways = waysOfSpan(to - from, job.saw.kerf, [length]);
      return Math.max(...ways.map((pieces) => pieces.length));
    });
    expect(pattern?.spans.map((pieces) => pieces.length) ?? counts.map(() => 0)).toEqual(counts);
  }
});
