/** What is left out of a short pile, held against trying every way of cutting every bar. */
import { describe, expect, test } from 'vitest';
import { jobSchema } from '../../src/job/job.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import { type Pattern, patternOf } from '../../src/plan/barPattern.ts';
import { cutByWorth } from '../../src/plan/cutWorth.ts';
import type { Use } from '../../src/plan/master.ts';
import { barMass, type Problem, problemOf } from '../../src/plan/problem.ts';
import { throwDice } from '../bench/dice.ts';

const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);

function throwShort(seed: number): { problem: Problem; wanted: Use[] } {
  const dice = throwDice(seed);
  const job = jobSchema.parse({
    format: 'kentledge-job/1',
    name: `Short ${seed}`,
    pile: [
      { lot: 'A', section: { shape: 'square', side: 20 }, length: dice.whole(500, 1000), count: dice.whole(1, 2) },
      { lot: 'B', section: { shape: 'square', side: 20 }, length: dice.whole(400, 900), count: 1 },
    ],
    saw: { kerf: dice.pick([0, 2.5, 3]), keepFrom: 900, shortestPiece: 100 },
    voids: [{ void: 'V1', length: 1000, width: 300, height: 150 }],
    aims: { kgPerHour: dice.pick([0, 5, 20]) },
  });
  const lengths = [...new Set([dice.whole(150, 300), dice.whole(200, 480)])];
  return { problem: problemOf(job), wanted: lengths.map((length) => ({ steel: 0, length, bars: dice.whole(1, 6) })) };
}

/** Pieces that are wanted at their mass, those that are not at what scrap costs, less the cost of cutting. */
function worthOf(problem: Problem, wanted: Use[], bars: Pattern[]): number {
  const left = new Map(wanted.map(({ length, bars: count }) => [length, count]));
  let worth = 0;
  for (const bar of bars) {
    worth -= bar.cost;
    for (const length of bar.spans.flat()) {
      const more = left.get(length)!;
      left.set(length, more - 1);
      worth += barMass(problem.steels[0]!, length) * (more > 0 ? 1 : -0.5);
    }
  }
  return worth;
}

/** Every way of cutting one bar of a kind into wanted lengths. */
function waysOf(problem: Problem, kind: Problem['barKinds'][number], lengths: number[]): Pattern[] {
  const { job, labour } = problem;
  const [span] = kind.spans;
  const size = span!.to - span!.from;
  const ways: Pattern[] = [];
  const extend = (pieces: number[], from: number) => {
    if (pieces.length > 0) ways.push(patternOf(kind, [pieces], job, labour));
    for (let i = from; i < lengths.length; i++) {
      const next = [...pieces, lengths[i]!];
      const used = next.reduce((sum, length) => sum + length, (next.length - 1) * job.saw.kerf);
      if (used <= size + 1e-9) extend(next, i);
    }
  };
  extend([], 0);
  return ways;
}

function bestByTrying(problem: Problem, wanted: Use[]): number {
  const lengths = wanted.map(({ length }) => length);
  const bars = problem.barKinds.flatMap((kind) =>
    Array.from({ length: kind.count }, () => waysOf(problem, kind, lengths)),
  );
  let best = 0;
  const cut = (i: number, chosen: Pattern[]) => {
    if (i === bars.length) {
      best = Math.max(best, worthOf(problem, wanted, chosen));
      return;
    }
    cut(i + 1, chosen);
    for (const way of bars[i]!) cut(i + 1, [...chosen, way]);
  };
  cut(0, []);
  return best;
}

describe('cutting a short pile by worth', () => {
  test('uses no more bars than there are, and is near what trying everything finds', async () => {
    const engine = await loadHighs();
    let shares = 0;
    for (const seed of SEEDS) {
      const { problem, wanted } = throwShort(seed);
      const bars = cutByWorth(problem, 0, wanted, engine)!;
      for (const kind of problem.barKinds) {
        expect(bars.filter((bar) => bar.kind === kind).length, `seed ${seed}`).toBeLessThanOrEqual(kind.count);
      }
      const best = bestByTrying(problem, wanted);
      const worth = worthOf(problem, wanted, bars);
      expect(worth, `seed ${seed}`).toBeLessThan(best + 1e-6);
      expect(worth, `seed ${seed}`).toBeGreaterThan(0.5 * best - 0.1);
      shares += best > 0 ? worth / best : 1;
    }
    expect(shares / SEEDS.length).toBeGreaterThan(0.95);
  });
});
