import { expect, test } from 'vitest';
import { fittedAcross } from '../../src/drawing/fitted.ts';
import { mirrorScene } from '../../src/drawing/mirror.ts';
import type { Scene, Shape } from '../../src/drawing/scene.ts';
import { voidCrossScene } from '../../src/drawing/voidCross.ts';
import { voidLongScene } from '../../src/drawing/voidLong.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import { voidSchema } from '../../src/job/job.ts';
import { drainIn } from '../../src/stow/drain.ts';
import { trialPair } from '../plan/trialPlan.ts';

const ROOM = { width: 120, height: 80, scale: 10, named: true };
const space = voidSchema.parse({
  void: 'W1',
  length: 1000,
  width: 400,
  height: 200,
  bearers: [
    { along: 100, width: 60 },
    { along: 800, width: 60 },
  ],
  drain: { width: 50, height: 30, where: 'middle' },
  opening: { along: 300, across: 200, at: { along: 700, across: 50 } },
  otherOpenings: [{ along: 100, across: 100 }],
  keepOut: [{ what: 'keel bolt', along: [500, 540], across: [-20, 20], up: [0, 60] }],
});
const { plan } = trialPair();

test('from above bearers, openings and keep-outs lie where they are stated, each under its own name', () => {
  const scene = voidPlanScene(space, plan, ROOM);
  const outline = boxOf(scene.shapes.find((shape) => shape.kind === 'polygon' && shape.role === 'void')!);
  expect(placed(scene, 'bearers[1]', outline)).toEqual({ x: 77, y: 0, width: 6, height: 40 });
  expect(placed(scene, 'opening', outline)).toEqual({ x: 55, y: 15, width: 30, height: 20 });
  expect(placed(scene, 'otherOpenings[0]', outline)).toEqual({ x: 45, y: 15, width: 10, height: 10 });
  expect(placed(scene, 'keepOut[0]', outline)).toEqual({ x: 50, y: 18, width: 4, height: 4 });
  const drain = boxOf(scene.shapes.find((shape) => shape.kind === 'polygon' && shape.role === 'drain')!);
  expect(drain.height).toBeCloseTo(5);
  expect(drain.width).toBeCloseTo(100);
});

test('a drain is drawn where the planner keeps it free, also over a floor that rises from one station to the next', () => {
  const stations = [
    { along: 0, at: [0, 200].map((up) => ({ up, from: up === 0 ? -70 : -180, to: up === 0 ? 60 : 190 })) },
    { along: 1000, at: [80, 200].map((up) => ({ up, from: up === 80 ? -90 : -170, to: up === 80 ? 110 : 180 })) },
  ];
  for (const where of ['sides', 'middle'] as const) {
    const { stations: measured, ...rest } = voidSchema.parse({ ...space, stations, drain: { ...space.drain, where } });
    const rising = { ...rest, stations: measured, bearers: undefined, keepOut: [], axis: 'fore-and-aft' as const };
    for (const along of [0, 350, 500, 1000]) {
      const { under } = fittedAcross(rising, along, (across, up) => ({ x: across, y: -up }), false);
      const drawn = under.flatMap((shape) => (shape.kind === 'rect' && shape.role === 'drain' ? [shape] : []));
      const kept = drainIn(rising, along, along).map(({ across }) => across);
      expect(drawn).toHaveLength(kept.length);
      for (const [i, { x, width }] of drawn.entries()) {
        expect(x).toBeCloseTo(kept[i]![0], 6);
        expect(x + width).toBeCloseTo(kept[i]![1], 6);
      }
    }
  }
});

test('from the side a bearer stands on the bottom and an opening lies in the rim', () => {
  const scene = voidLongScene(space, plan, ROOM);
  const outline = boxOf(scene.shapes.find((shape) => shape.kind === 'polygon' && shape.role === 'void')!);
  expect(placed(scene, 'bearers[0]', outline)).toEqual({ x: 7, y: 18.8, width: 6, height: 1.2 });
  expect(placed(scene, 'opening', outline)).toMatchObject({ x: 55, width: 30 });
});

test('across, only what stands at the place is drawn', () => {
  expect(namesIn(voidCrossScene(space, plan, 520, ROOM))).toEqual(['keepOut[0]', 'otherOpenings[0]']);
  expect(namesIn(voidCrossScene(space, plan, 700, ROOM))).toEqual(['opening']);
});

test('a keep-out that is stated past its void is drawn as far as the void goes', () => {
  const wide = {
    ...space,
    keepOut: [{ ...space.keepOut[0]!, access: false, across: [-300, 90], up: [-80, 300] }],
  } as typeof space;
  const above = voidPlanScene(wide, plan, ROOM);
  const outline = boxOf(above.shapes.find((shape) => shape.kind === 'polygon' && shape.role === 'void')!);
  expect(placed(above, 'keepOut[0]', outline)).toEqual({ x: 50, y: 0, width: 4, height: 29 });
  const beside = voidLongScene(wide, plan, ROOM);
  const whole = boxOf(beside.shapes.find((shape) => shape.kind === 'polygon' && shape.role === 'void')!);
  expect(placed(beside, 'keepOut[0]', whole)).toEqual({ x: 50, y: 0, width: 4, height: 20 });
});

test('nothing is named where a page does not ask for it', () => {
  expect(namesIn(voidPlanScene(space, plan, { ...ROOM, named: false }))).toEqual([]);
});

test('seen from the other side, left and right change places, and twice is as it was', () => {
  const scene = voidLongScene(space, plan, ROOM);
  const other = mirrorScene(scene);
  const before = boxOf(groupNamed(scene, 'bearers[0]')!.shapes[0]!);
  const after = boxOf(groupNamed(other, 'bearers[0]')!.shapes[0]!);
  expect(after.x).toBeCloseTo(scene.width - before.x - before.width);
  const words = (shown: Scene): string[] =>
    shown.shapes
      .filter((shape) => shape.kind === 'text')
      .sort((p, q) => p.x - q.x)
      .map((shape) => shape.text);
  expect(words(other)).toEqual(words(scene).reverse());
  const twice = mirrorScene(other);
  expect(boxOf(groupNamed(twice, 'bearers[0]')!.shapes[0]!).x).toBeCloseTo(before.x);
});

function groupNamed(scene: Scene, name: string) {
  return scene.shapes.filter((shape) => shape.kind === 'group').find((shape) => shape.name === name);
}

function namesIn(scene: Scene): string[] {
  return scene.shapes.flatMap((shape) => (shape.kind === 'group' && shape.name ? [shape.name] : []));
}

/** Where the first shape of a named group lies against the outline, to a tenth of a millimetre. */
function placed(scene: Scene, name: string, outline: ReturnType<typeof boxOf>) {
  const box = boxOf(groupNamed(scene, name)!.shapes[0]!);
  const round = (value: number): number => Math.round(value * 10) / 10;
  return {
    x: round(box.x - outline.x),
    y: round(box.y - outline.y),
    width: round(box.width),
    height: round(box.height),
  };
}

function boxOf(shape: Shape): { x: number; y: number; width: number; height: number } {
  if (shape.kind === 'rect') return shape;
  if (shape.kind !== 'polygon') throw new Error(`a ${shape.kind} has no box here`);
  const xs = shape.points.map(({ x }) => x);
  const ys = shape.points.map(({ y }) => y);
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

test('a doubtful reading is ringed at its side, and across only at its own place', () => {
  const doubts = [{ along: 300, up: 100, side: 'to' as const }];
  const rings = (scene: Scene) => scene.shapes.filter((shape) => shape.kind === 'circle' && shape.role === 'doubt');
  const [ring] = rings(voidPlanScene(space, plan, { ...ROOM, doubts }));
  const outline = boxOf(voidPlanScene(space, plan, ROOM).shapes.find((shape) => shape.kind === 'polygon')!);
  expect(ring).toMatchObject({ x: outline.x + 30, y: outline.y + 40 });
  expect(rings(voidLongScene(space, plan, { ...ROOM, doubts }))).toHaveLength(1);
  expect(rings(voidCrossScene(space, plan, 300, { ...ROOM, doubts }))).toHaveLength(1);
  expect(rings(voidCrossScene(space, plan, 400, { ...ROOM, doubts }))).toHaveLength(0);
});
