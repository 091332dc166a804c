/** A stow that lies to one side under a bar across: the bolts of that end have more of it, by the lever. */
import { describe, expect, test } from 'vitest';
import { forceAt } from '../../src/hold/beam.ts';
import { proofLoad } from '../../src/hold/bolts.ts';
import { STEEL_FACTOR } from '../../src/hold/carriers.ts';
import { type HeldVoid, heldVoid } from '../../src/hold/holdDown.ts';
import { leanOf } from '../../src/hold/lever.ts';
import type { HeldRun } from '../../src/hold/runs.ts';
import { middleOfSpan } from '../../src/hold/spans.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { BAR, type HoldInput, jobWith, type SpaceInput } from './heldJob.ts';

/** A bar that its bolts give way before. */
const STRONG = { ...BAR, count: 1, width: 4000, bolts: { ...BAR.bolts, size: 'M6' } } as const;
const BOLT = proofLoad('M6', '8.8') / STEEL_FACTOR;
const RUN: HeldRun = { run: 1, from: 8, to: 992, mass: 500, wide: 100, centre: 0 };

function held(
  runs: readonly HeldRun[],
  hold: HoldInput = { bars: [STRONG] },
  space: SpaceInput = {},
  athwart = false,
): HeldVoid {
  const read = readJobValue(jobWith(hold, space));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const mass = runs.reduce((sum, one) => sum + one.mass, 0) || 500;
  return heldVoid(read.value.job.voids[0]!, { mass, rolling: false, athwartships: athwart, runs });
}
const up = (result: HeldVoid) => result.cases.find((one) => one.direction === 'up')!;
const working = (result: HeldVoid) => up(result).best!.working.join(' ');

describe('the bolts of a bar across', () => {
  test('share alike where the weight lies under the middle of the span, and nothing is said of a lever', () => {
    expect(up(held([RUN])).best!.carries).toBeCloseTo(2 * BOLT, 6);
    expect(working(held([RUN]))).not.toContain('by the lever');
  });

  test('a weight 100 of 400 mm aside puts three quarters on that end: its one bolt is the measure', () => {
    for (const [centre, side] of [
      [100, 'to starboard'],
      [-100, 'to port'],
    ] as const) {
      const result = held([{ ...RUN, centre }]);
      expect(up(result).best!.carries).toBeCloseTo(BOLT / 0.75, 6);
      expect(working(result)).toContain(
        `The weight under it lies 100 mm ${side} of the middle of its span: by the lever that end has 75 % of it.`,
      );
    }
    expect(working(held([{ ...RUN, centre: 100 }], undefined, { axis: 'athwartships' }, true))).toContain(
      'lies 100 mm forward of the middle',
    );
  });

  test('of two runs under one bar the one farther aside counts', () => {
    const runs = [
      { ...RUN, to: 492, centre: 20 },
      { ...RUN, run: 2, from: 508, centre: -80 },
    ];
    const bars = [{ ...STRONG, width: 40, count: 3, at: [250, 500, 742] }];
    const cover = held(runs, { bars }).covers[0]!;
    expect(leanOf(400, 0, 'A1', cover)).toEqual({ aside: 20, share: 0.55 });
    expect(leanOf(400, 0, 'A2', cover)).toEqual({ aside: -80, share: 0.7 });
    expect(leanOf(400, 0, 'A3', cover)).toEqual({ aside: -80, share: 0.7 });
  });

  test('the least bolts told carry it', () => {
    const aside = [{ ...RUN, mass: 760, centre: 120 }];
    const sizes = ['M6', 'M8', 'M10', 'M12', 'M16'] as const;
    const told = up(held(aside)).least[0]!;
    const least = /bolts (M\d+) or larger/.exec(told)![1];
    const carried = (size: (typeof sizes)[number]) =>
      up(held(aside, { bars: [{ ...STRONG, bolts: { ...STRONG.bolts, size } }] })).carried;
    const at = sizes.indexOf(least as (typeof sizes)[number]);
    expect([carried(sizes[at]!), carried(sizes[at - 1]!)]).toEqual([true, false]);
    // Were both ends taken to have half, the next smaller would do.
    expect(proofLoad(sizes[at - 1]!, '8.8') / STEEL_FACTOR).toBeGreaterThan((2 * 760 * 9.80665) / 2);
  });

  test('where no plan says how the stow lies both ends have half, and that is told', () => {
    const bare = held([]);
    expect(up(bare).best!.carries).toBeCloseTo(2 * BOLT, 6);
    expect(bare.assumed.join(' ')).toContain('until then both its ends are taken to have half each');
    expect(held([RUN]).assumed.join(' ')).toContain('taken to lie over the middle of the void');
  });

  test('in a void whose sides are not alike the middle of the span lies between them', () => {
    const station = (along: number, to: number) => ({
      along,
      at: [
        { up: 0, from: -150, to },
        { up: 150, from: -150, to },
      ],
    });
    const read = readJobValue(jobWith({ bars: [BAR] }, { stations: [station(0, 150), station(1000, 50)] }));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const place = read.value.job.voids[0]!;
    expect([0, 500, 1000].map((along) => middleOfSpan(place, along))).toEqual([0, -25, -50]);
  });
});

describe('a bar across on edge', () => {
  const edge = { ...BAR, width: 20, thickness: 10, onEdge: true } as const;
  const room = { clear: { top: 20 } };

  test('is told to be kept from falling over, and what it carries fallen flat', () => {
    const [caution, ...more] = held([RUN], { bars: [{ ...edge, count: 1 }] }, room).cautions;
    expect(more).toEqual([]);
    expect(caution).toMatch(/^A stands on edge and is reckoned as kept upright\. Falling over is not reckoned/);
    // Bending alone: thickness over width.
    const flat = forceAt({ ...edge, onEdge: false, pressed: 0, span: 400 }, 235);
    const upright = forceAt({ ...edge, pressed: 0, span: 400 }, 235);
    expect(caution).toContain(`it carries ${Math.round((100 * flat) / upright)} % of that`);
    const both = held([RUN], { bars: [edge, { ...edge, count: 1 }] }, room).cautions;
    expect(both).toHaveLength(1);
    expect(both[0]).toMatch(/^A1 to A2 and B stand on edge .*laid flat it carries far less\.$/);
  });

  test('nothing is said of one laid flat, nor of a square one', () => {
    expect(held([RUN], { bars: [BAR] }).cautions).toEqual([]);
    expect(held([RUN], { bars: [{ ...edge, width: 10 }] }, room).cautions).toEqual([]);
  });
});
