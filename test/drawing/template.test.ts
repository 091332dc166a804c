/** What a template says may be filled: inside the clearances, nowhere where they leave no breadth. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Point } from '../../src/drawing/scene.ts';
import { templateScene } from '../../src/drawing/template.ts';
import { voidSchema } from '../../src/job/job.ts';
import type { LaidVoid } from '../../src/stow/laid.ts';

type Reading = { up: number; from: number; to: number };

/** The dashed outlines, in the void's own across and up. */
function filled(at: Reading[], clear = { ends: 8, sides: 10, top: 12 }, dunnage = 4): Point[][] {
  const stations = [0, 900].map((along) => ({ along, at }));
  const space = voidSchema.parse({ void: 'V1', length: 900, width: 300, height: 160, clear, dunnage, stations });
  const least = Math.min(...at.map(({ from }) => from));
  return templateScene(space as LaidVoid, 0).shapes.flatMap((shape) =>
    shape.kind === 'polygon' && shape.role === 'clearance'
      ? [shape.points.map(({ x, y }) => ({ x: x - 1 + least, y: 161 - y }))]
      : [],
  );
}

/** An outline goes up its greater side and down its lesser: at every height the first lies no less than the other. */
function crossed(points: Point[]): boolean {
  const half = points.length / 2;
  const [up, down] = [points.slice(0, half), points.slice(half).reverse()];
  return up.some((point, i) => point.x < down[i]!.x - 1e-9 || point.y !== down[i]!.y);
}

describe('what may be filled', () => {
  test('of a vee begins where the clearances leave some breadth', () => {
    const vee = [
      { up: 0, from: 0, to: 0 },
      { up: 160, from: -80, to: 80 },
    ];
    const [outline, ...more] = filled(vee);
    expect(more).toEqual([]);
    expect(crossed(outline!)).toBe(false);
    // Two clearances of 10 mm are as wide as the vee 20 mm up.
    expect(Math.min(...outline!.map(({ y }) => y))).toBeCloseTo(20, 6);
    expect(outline!.filter(({ y }) => y < 20.001).map(({ x }) => x)).toEqual([
      expect.closeTo(0, 6),
      expect.closeTo(0, 6),
    ]);
  });

  test('is nothing where it is too narrow everywhere, and in two parts about a waist', () => {
    expect(filled([{ up: 0, from: -5, to: 5 }])).toEqual([]);
    const waist = [0, 80, 160].map((up) => ({ up, from: up === 80 ? -4 : -60, to: up === 80 ? 4 : 60 }));
    expect(filled(waist)).toHaveLength(2);
  });

  test('never crosses itself, whatever was read', () => {
    const reading = fc.record({
      up: fc.integer({ min: 0, max: 160 }),
      from: fc.integer({ min: -90, max: 20 }),
      wide: fc.nat(120),
    });
    fc.assert(
      fc.property(fc.uniqueArray(reading, { minLength: 1, maxLength: 6, selector: ({ up }) => up }), (readings) => {
        const at = readings.map(({ up, from, wide }) => ({ up, from, to: from + wide }));
        for (const outline of filled(at)) expect(crossed(outline)).toBe(false);
      }),
    );
  });
});
