/** The drawing of who lifts: what was typed stands on it, it stays in its frame, and the body keeps its lengths. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { textWidth } from '../../src/drawing/letter.ts';
import { personScene } from '../../src/drawing/person.ts';
import { poseFor } from '../../src/drawing/pose.ts';
import type { Scene, Shape } from '../../src/drawing/scene.ts';
import { voidSchema } from '../../src/job/job.ts';
import type { Lift } from '../../src/lift/equation.ts';

const ROOM = { width: 120, height: 90 };
const space = voidSchema.parse({ void: 'V1', name: 'Under the sole', length: 900, width: 300, height: 150 });
const lift = fc.record({
  reach: fc.integer({ min: 0, max: 900 }),
  reachEnd: fc.option(fc.integer({ min: 0, max: 900 }), { nil: undefined }),
  start: fc.integer({ min: -500, max: 1800 }),
  end: fc.integer({ min: -900, max: 1800 }),
  posture: fc.constantFrom('standing' as const, 'kneeling' as const, 'seated' as const),
});

function all(shapes: Shape[]): Shape[] {
  return shapes.flatMap((shape) => (shape.kind === 'group' ? all(shape.shapes) : [shape]));
}

function wordsIn(scene: Scene): string[] {
  return all(scene.shapes).flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));
}

/** Least and greatest x and y of a shape; a turned text takes its room upwards. */
function extent(shape: Shape): [number, number, number, number] {
  switch (shape.kind) {
    case 'line':
      return [shape.from.x, shape.from.y, shape.to.x, shape.to.y];
    case 'rect':
      return [shape.x, shape.y, shape.x + shape.width, shape.y + shape.height];
    case 'circle':
      return [shape.x - shape.radius, shape.y - shape.radius, shape.x + shape.radius, shape.y + shape.radius];
    case 'text': {
      const wide = textWidth(shape.text, shape.size);
      if (shape.turn) return [shape.x - shape.size, shape.y - wide / 2, shape.x, shape.y + wide / 2];
      const from = shape.x - (shape.anchor === 'middle' ? wide / 2 : shape.anchor === 'end' ? wide : 0);
      return [from, shape.y - shape.size, from + wide, shape.y];
    }
    case 'polyline':
    case 'polygon': {
      const [xs, ys] = [shape.points.map((point) => point.x), shape.points.map((point) => point.y)];
      return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
    }
    default:
      return [0, 0, 0, 0];
  }
}

describe('a person lifting', () => {
  test('reach and heights stand on it as typed, and the second reach only where it differs', () => {
    const scene = personScene(space, { reach: 480, start: 450, end: -200 }, ROOM);
    expect(wordsIn(scene)).toEqual(expect.arrayContaining(['reach 480', 'start 450', 'end -200']));
    expect(wordsIn(scene).filter((words) => words.startsWith('at the end'))).toEqual([]);
    expect(wordsIn(personScene(space, { reach: 480, reachEnd: 300, start: 450, end: -200 }, ROOM))).toContain(
      'at the end 300',
    );
    expect(scene.description).toContain(
      '480 mm forward of the ankles, from 450 mm above the ground stood on to -200 mm',
    );
  });

  test('says how they stand, with how many hands, and how wide the way in is', () => {
    const opening = { along: 500, across: 220 };
    const words = wordsIn(
      personScene(
        voidSchema.parse({ ...space, opening }),
        { reach: 400, start: 300, end: 0, posture: 'kneeling', hands: 1 },
        ROOM,
      ),
    );
    expect(words).toContain('kneeling, one hand; opening 220');
    expect(wordsIn(personScene(space, { reach: 400, start: 300, end: 0 }, ROOM))).toContain(
      'standing, two hands; void 300 wide',
    );
  });

  test('stays inside its frame, whatever is typed', () => {
    fc.assert(
      fc.property(lift, (typed) => {
        const scene = personScene(space, typed as Lift, ROOM);
        expect(scene.width).toBeLessThanOrEqual(ROOM.width + 1e-9);
        expect(scene.height).toBeLessThanOrEqual(ROOM.height + 1e-9);
        for (const shape of all(scene.shapes)) {
          const [left, top, right, bottom] = extent(shape);
          expect(Math.min(left, right), JSON.stringify(shape)).toBeGreaterThanOrEqual(-1);
          expect(Math.min(top, bottom), JSON.stringify(shape)).toBeGreaterThanOrEqual(-1);
          expect(Math.max(left, right), JSON.stringify(shape)).toBeLessThanOrEqual(scene.width + 1);
          expect(Math.max(top, bottom), JSON.stringify(shape)).toBeLessThanOrEqual(scene.height + 1);
        }
      }),
      { numRuns: 150, examples: [[{ reach: 1, reachEnd: 0, start: 0, end: 1382, posture: 'standing' }]] },
    );
  });

  test('hands that are further than the drawn arms are said to be', () => {
    expect(wordsIn(personScene(space, { reach: 400, start: 700, end: 300 }, ROOM)).join()).not.toContain('further');
    expect(wordsIn(personScene(space, { reach: 400, start: 700, end: -1500 }, ROOM)).join()).toContain('further');
  });

  test('where the hands are reached, the arms keep their length and the pose bends no more than it must', () => {
    const apart = (a: { x: number; y: number }, b: { x: number; y: number }) => Math.hypot(a.x - b.x, a.y - b.y);
    fc.assert(
      fc.property(lift, ({ reach, end, posture }) => {
        const pose = poseFor(posture, { x: reach, y: end });
        // Nearer to the shoulder than the arm folds it is drawn shorter.
        if (!pose.reaches || apart(pose.shoulder, pose.hand) < 375 - 290) return;
        expect(apart(pose.shoulder, pose.elbow)).toBeCloseTo(290, 6);
        expect(apart(pose.elbow, pose.hand)).toBeCloseTo(375, 6);
        expect(apart(pose.hip, pose.shoulder)).toBeCloseTo(500, 6);
      }),
    );
    const [low, high] = [poseFor('standing', { x: 300, y: 100 }), poseFor('standing', { x: 300, y: 1000 })];
    expect(low.shoulder.y).toBeLessThan(high.shoulder.y);
    expect(high.hip.x).toBeGreaterThan(low.hip.x);
  });
});
