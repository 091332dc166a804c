import { describe, expect, test } from 'vitest';
import type { Group, Shape } from '../../src/drawing/scene.ts';
import { svgOf } from '../../src/drawing/svg.ts';
import { voidIsoScene } from '../../src/drawing/voidIso.ts';
import { trialPair } from '../plan/trialPlan.ts';

const { job, plan } = trialPair();
const ROOM = { width: 120, height: 80 };

function bundlesOf(shapes: Shape[]): Group[] {
  return shapes.filter((shape): shape is Group => shape.kind === 'group');
}

test('everything lies inside the picture, in every void', () => {
  for (const space of job.voids) {
    const scene = voidIsoScene(space, plan, ROOM);
    expect(scene.width).toBeLessThanOrEqual(ROOM.width);
    expect(scene.height).toBeLessThanOrEqual(ROOM.height + 0.001);
    const points = JSON.stringify(scene.shapes).matchAll(/"x":(-?[\d.]+),"y":(-?[\d.]+)/g);
    for (const [, x, y] of points) {
      expect(Number(x)).toBeGreaterThanOrEqual(0);
      expect(Number(x)).toBeLessThanOrEqual(scene.width);
      expect(Number(y)).toBeGreaterThanOrEqual(0);
      expect(Number(y)).toBeLessThanOrEqual(scene.height);
    }
  }
});

test('bundles are painted far runs first, then from the bottom up, then from the far side', () => {
  const space = job.voids[0]!;
  const names = bundlesOf(voidIsoScene(space, plan, ROOM).shapes).map((shape) => shape.name);
  const painted = names.map((name) => plan.bundles.find((bundle) => bundle.bundle === name)!);
  expect(painted).toHaveLength(plan.bundles.filter((bundle) => bundle.void === space.void).length);
  for (const [n, later] of painted.entries()) {
    for (const earlier of painted.slice(0, n)) {
      const nearer =
        later.run < earlier.run ||
        (later.run === earlier.run &&
          (later.at.up > earlier.at.up || (later.at.up === earlier.at.up && later.at.across >= earlier.at.across)));
      expect(nearer).toBe(true);
    }
  }
});

test('no void is drawn as its own mirror image: forward lies to the left of starboard, seen from above', () => {
  const turn = (a: { x: number; y: number }, b: { x: number; y: number }) => a.x * b.y - a.y * b.x;
  const vector = (axis: 'fore-and-aft' | 'athwartships') => {
    const laid = { ...job.voids[0]!, axis, stations: undefined, keepOut: [] };
    const bundle = plan.bundles.find((one) => one.void === laid.void)!;
    const centre = (along: number, across: number) => {
      const bundles = [{ ...bundle, at: { along, across, up: 20 }, size: { along: 30, across: 30, up: 30 } }];
      const voids = plan.voids.map((one) => ({ ...one, axis }));
      const [drawn] = bundlesOf(voidIsoScene(laid, { ...plan, bundles, voids }, ROOM).shapes);
      const points = drawn!.shapes.flatMap((shape) => (shape.kind === 'polygon' ? shape.points : []));
      const total = points.reduce((sum, { x, y }) => ({ x: sum.x + x, y: sum.y + y }), { x: 0, y: 0 });
      return { x: total.x / points.length, y: total.y / points.length };
    };
    const [here, along, across] = [centre(20, 0), centre(120, 0), centre(20, 80)];
    const away = (to: { x: number; y: number }) => ({ x: to.x - here.x, y: to.y - here.y });
    return { along: away(along), across: away(across) };
  };
  // Down is positive on paper, so that a turn to the right is positive too.
  const lengthwise = vector('fore-and-aft');
  expect(turn(lengthwise.along, lengthwise.across)).toBeGreaterThan(0);
  const athwart = vector('athwartships');
  expect(turn(athwart.across, athwart.along)).toBeGreaterThan(0);
});

test('what was lifted out is not there, what is marked is', () => {
  const space = job.voids[0]!;
  const [one, other] = plan.bundles.filter((bundle) => bundle.void === space.void);
  const svg = svgOf(
    voidIsoScene(space, plan, { ...ROOM, present: new Set([one!.bundle]), marked: new Set([one!.bundle]) }),
  );
  expect(svg).toContain(`data-name="${one!.bundle}"`);
  expect(svg).toContain('class="k-marked"');
  expect(svg).not.toContain(`data-name="${other!.bundle}"`);
});

test('a bundle is numbered where nothing lies over its number, and narrow neighbours not at one place', () => {
  const space = job.voids[0]!;
  const numbersIn = (one: typeof plan) =>
    bundlesOf(voidIsoScene(space, one, ROOM).shapes).flatMap(({ name, shapes }) =>
      shapes.flatMap((shape) => (shape.kind === 'text' ? [{ name, x: shape.x, y: shape.y }] : [])),
    );
  const numbered = numbersIn(plan).map(({ name }) => name);
  const own = plan.bundles.filter((bundle) => bundle.void === space.void);
  const under = own.find(({ bundle }) => bundle === 'V1-01')!;
  expect(own.some(({ at }) => at.up > under.at.up && at.across < under.at.across + under.size.across / 2)).toBe(true);
  expect(numbered).not.toContain('V1-01');
  expect(numbered).toContain('V1-03');
  const slim = Array.from({ length: 6 }, (_, n) => ({
    ...under,
    bundle: `V1-0${n + 1}`,
    order: n + 1,
    at: { ...under.at, across: -60 + 20 * n },
    size: { ...under.size, across: 18 },
  }));
  const places = numbersIn({ ...plan, bundles: slim });
  expect(places).toHaveLength(6);
  for (const [n, one] of places.entries())
    for (const other of places.slice(n + 1)) expect(Math.hypot(one.x - other.x, one.y - other.y)).toBeGreaterThan(4);
});

describe('numbers beside higher stacks', () => {
  const [SLIM, TALL] = [60, 39];
  const LARGE = { width: 160, height: 110 };
  const HEIGHTS = [1, 2, 3].flatMap((p) => [1, 2, 3].flatMap((q) => [1, 2, 3].map((r) => [p, q, r])));

  /** Three stacks side by side, of so many bundles each, as painted: polygons and numbers in order. */
  function painted(axis: 'fore-and-aft' | 'athwartships', heights: number[]): Shape[] {
    const space = { ...job.voids[0]!, axis, length: 700, width: 240, height: 130, stations: undefined, keepOut: [] };
    const some = plan.bundles.find((one) => one.void === space.void)!;
    const bundles = heights.flatMap((height, stack) =>
      Array.from({ length: height }, (_, tier) => ({
        ...some,
        bundle: `V1-${stack}${tier}`,
        order: 1 + 3 * tier + stack,
        at: { along: 10, across: -96 + 64 * stack, up: TALL * tier },
        size: { along: 680, across: SLIM, up: TALL },
      })),
    );
    const voids = plan.voids.map((one) => ({ ...one, axis }));
    return bundlesOf(voidIsoScene(space, { ...plan, bundles, voids }, LARGE).shapes).flatMap(({ shapes }) => shapes);
  }

  function isInside(point: { x: number; y: number }, corners: { x: number; y: number }[]): boolean {
    const sides = corners.map((a, n) => {
      const b = corners[(n + 1) % corners.length]!;
      return (b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x);
    });
    return sides.every((side) => side > 1e-6) || sides.every((side) => side < -1e-6);
  }

  test.each(['fore-and-aft', 'athwartships'] as const)('nothing is painted over a part of one, %s', (axis) => {
    for (const heights of HEIGHTS) {
      const shapes = painted(axis, heights);
      for (const [n, number] of shapes.entries()) {
        if (number.kind !== 'text') continue;
        const [wide, high] = [number.size * 0.29 * number.text.length, number.size * 0.73];
        const box = [-wide, 0, wide].flatMap((x) =>
          [0, -high / 2, -high].map((y) => ({ x: number.x + x, y: number.y + y })),
        );
        for (const later of shapes.slice(n + 1))
          if (later.kind === 'polygon') for (const point of box) expect(isInside(point, later.points)).toBe(false);
      }
    }
  });

  test('a top that is in sight for the most part has its own, beside the middle where that is hidden', () => {
    expect(painted('fore-and-aft', [2, 3, 3]).filter(({ kind }) => kind === 'text')).toHaveLength(3);
    expect(painted('athwartships', [3, 3, 2]).filter(({ kind }) => kind === 'text')).toHaveLength(3);
  });
});
