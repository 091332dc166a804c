/** What lies under the bundles: battens and blocks keep off what stands on the bed, and carry every stretch of a run. */
import { describe, expect, test } from 'vitest';
import { type Bed, bedsOf } from '../../src/drawing/bed.ts';
import { bottomAt, floorSidesAt } from '../../src/drawing/outline.ts';
import { type Job, jobSchema } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { envelope } from '../../src/stow/envelope.ts';
import { type LaidVoid, layVoid } from '../../src/stow/laid.ts';
import { randomJob } from '../bench/jobs.ts';
import { laidOf } from '../stow/spaces.ts';

/** Half of what a batten is wide along. */
const HALF = 20;

/** A plan whose runs, `at` along, carry a bundle on the bed each: all that a bed is reckoned from. */
function planned(laid: LaidVoid, at: [number, number][]): Plan {
  const runs = at.map(([from, to], n) => ({ void: laid.void, run: n + 1, from, to, packing: [0, 0] }));
  const bundles = runs.map(({ run, from, to }) => ({
    void: laid.void,
    run,
    at: { up: envelope(laid, from, to).bottom },
  }));
  return { runs, bundles } as unknown as Plan;
}

function bedIn(parts: Parameters<typeof laidOf>[0], from = 8, to = 1092): Bed {
  const laid = laidOf(parts);
  return bedsOf(laid, planned(laid, [[from, to]]))[0]!;
}

const BOX = { length: 1100, width: 380, height: 280 };
const BOLT = { what: 'keel bolt', along: [520, 590], across: [60, 130], up: [0, 180] } as const;
const HOLE = { what: 'limber hole', along: [0, 80], across: [130, 190], up: [0, 60] } as const;
const keepOut = (...all: (typeof BOLT | typeof HOLE)[]) =>
  all.map(({ what, along, across, up }) => ({
    what,
    along: [...along] as [number, number],
    across: [...across] as [number, number],
    up: [...up] as [number, number],
  }));

describe('under a run with a keel bolt and a limber hole in it', () => {
  const bed = bedIn({ ...BOX, keepOut: keepOut(BOLT, HOLE) });

  test('battens lie clear of both, and every one goes right across', () => {
    for (const { along, parts } of bed.battens) {
      expect(parts).toEqual([{ from: -185, to: 185 }]);
      expect(along - HALF >= 80, `at ${along}`).toBe(true);
      expect(along + HALF <= 520 || along - HALF >= 590, `at ${along}`).toBe(true);
    }
    expect(bed.battens[0]!.along).toBe(100);
    expect(bed.battens.at(-1)!.along).toBe(1072);
  });

  test('the matting is cut out for both, no farther than it goes', () => {
    expect(bed.cutOuts).toEqual([
      { what: 'keel bolt', along: [520, 590], across: [60, 130] },
      { what: 'limber hole', along: [8, 80], across: [130, 185] },
    ]);
  });
});

test('a batten that can lie clear nowhere near its end is in two parts that stop short', () => {
  const long = { ...BOLT, along: [0, 700] as const } as unknown as typeof BOLT;
  const [first, ...rest] = bedIn({ ...BOX, keepOut: keepOut(long) }).battens;
  expect(first).toEqual({
    along: 28,
    parts: [
      { from: -185, to: 60 },
      { from: 130, to: 185 },
    ],
  });
  expect(rest.at(-1)!.parts).toHaveLength(1);
});

test('what is over the bed is not in the way, and a low drain is notched over', () => {
  const pipe = { what: 'pipe', along: [500, 600], across: [-190, 190], up: [40, 60] } as unknown as typeof BOLT;
  const bed = bedIn({ ...BOX, keepOut: keepOut(pipe), drain: { width: 40, height: 5, where: 'middle' } });
  expect(bed.cutOuts).toEqual([]);
  for (const { parts } of bed.battens) expect(parts).toHaveLength(1);
});

test('a drain as high as the dunnage parts every batten, and every block on a bearer', () => {
  const drain = { width: 40, height: 20, where: 'middle' } as const;
  const halves = [
    { from: -185, to: -20 },
    { from: 20, to: 185 },
  ];
  for (const { parts } of bedIn({ ...BOX, drain }).battens) expect(parts).toEqual(halves);
  const bearers = [100, 900].map((along) => ({ along, width: 40 }));
  expect(bedIn({ ...BOX, drain, bearers }).bearers.map(({ parts }) => parts)).toEqual([halves, halves]);
});

/** The void cut into one or two runs, as they might lie. */
function runsIn(laid: LaidVoid): [number, number][] {
  const { length, clear } = laid;
  const third = Math.round(length / 3);
  return length > 900
    ? [
        [clear.ends, third],
        [third + 10, length - clear.ends],
      ]
    : [[clear.ends, length - clear.ends]];
}

/** What of the drain lies at one place along, as the format has it. */
function channels(laid: LaidVoid, along: number): [number, number][] {
  const { drain } = laid;
  if (!drain) return [];
  const { from, to } = floorSidesAt(laid, along);
  const middle = (from + to) / 2;
  return drain.where === 'middle'
    ? [[middle - drain.width / 2, middle + drain.width / 2]]
    : [
        [from, from + drain.width],
        [to - drain.width, to],
      ];
}

test('of random voids no batten or block lies over what stands on the bed, and battens are at most 300 mm apart', () => {
  const counted = { runs: 0, things: 0, parted: 0 };
  for (let seed = 1; seed <= 300; seed++) {
    const job: Job = jobSchema.parse(randomJob(seed, { shapes: true }));
    for (const laid of job.voids.flatMap((space) => layVoid(space))) {
      const runs = runsIn(laid);
      const plan = planned(laid, runs);
      bedsOf(laid, plan).forEach((bed, n) => {
        const [from, to] = runs[n]!;
        if (bed.width <= 0) return;
        counted.runs++;
        const level = plan.bundles[n]!.at.up;
        const half = Math.min(HALF, (to - from) / 6);
        const wood = laid.bearers
          ? bed.bearers.map((each) => ({ ...each, half: each.width / 2 }))
          : bed.battens.map((each) => ({ ...each, half }));
        for (const { along, parts, half: reach } of wood) {
          if (parts.length > 1) counted.parted++;
          const where = `seed ${seed}, ${laid.void}, at ${along}`;
          for (const part of parts) {
            expect(part.to - part.from, where).toBeGreaterThanOrEqual(30);
            for (const thing of laid.keepOut) {
              const floor = Math.max(bottomAt(laid, along - reach), bottomAt(laid, along + reach));
              if (thing.up[0] >= level || thing.up[1] <= floor) continue;
              if (thing.along[0] >= along + reach || thing.along[1] <= along - reach) continue;
              counted.things++;
              expect(part.to <= thing.across[0] || part.from >= thing.across[1], where).toBe(true);
            }
            for (const x of [along - reach, along, along + reach]) {
              if (!laid.drain || bottomAt(laid, x) + laid.drain.height <= level - 3) continue;
              for (const [least, most] of channels(laid, x))
                expect(part.to <= least + 1e-6 || part.from >= most - 1e-6, where).toBe(true);
            }
          }
        }
        if (laid.bearers) return;
        const places = bed.battens.map(({ along }) => along);
        // One that would lie over nothing but what stands there is not made.
        if (laid.keepOut.some(({ across: [p, q] }) => q - p > bed.width - 60)) return;
        if (laid.drain && bed.width < 120) return;
        expect(places[0]! - from, `seed ${seed}`).toBeLessThanOrEqual(150);
        expect(to - places.at(-1)!, `seed ${seed}`).toBeLessThanOrEqual(150);
        for (let i = 1; i < places.length; i++)
          expect(places[i]! - places[i - 1]!, `seed ${seed}`).toBeLessThanOrEqual(300 + 1e-6);
      });
    }
  }
  expect(counted.runs).toBeGreaterThan(500);
  expect(counted.things).toBeGreaterThan(20);
  expect(counted.parted).toBeGreaterThan(20);
});
