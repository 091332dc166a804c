/** Where the voids lie: every void can be told, also where they lie over each other or have long names. */
import { expect, test } from 'vitest';
import { textWidth } from '../../src/drawing/letter.ts';
import type { Scene, Shape } from '../../src/drawing/scene.ts';
import { vesselScene } from '../../src/drawing/vessel.ts';
import { type Area, meet } from '../../src/drawing/vesselMarks.ts';
import type { Job, Void } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { trialPair } from '../plan/trialPlan.ts';

const { job, plan } = trialPair();
const [first] = job.voids;

function sceneOf(voids: Partial<Void>[]): Scene {
  const all = voids.map((own) => ({ ...first!, ...own }));
  const empty: Plan = { ...plan, voids: [], bundles: [], runs: [] };
  return vesselScene({ ...job, vessel: { waterlineLength: 8 }, voids: all } as Job, empty, { width: 182, height: 52 });
}

function flat(shapes: readonly Shape[]): Shape[] {
  return shapes.flatMap((shape) => (shape.kind === 'group' && shape.at.x === 0 ? flat(shape.shapes) : [shape]));
}

/** The marks as they are drawn, each line an area. */
function marksOf(scene: Scene): (Area & { text: string })[] {
  return flat(scene.shapes).flatMap((shape) => {
    if (shape.kind !== 'text' || shape.role !== 'label') return [];
    const width = textWidth(shape.text, shape.size);
    return [
      { text: shape.text, x: shape.x - width / 2, y: shape.y - 0.73 * shape.size, width, height: 0.73 * shape.size },
    ];
  });
}

function expectApart(scene: Scene): void {
  const marks = marksOf(scene);
  for (const [n, mark] of marks.entries()) {
    expect(mark.x).toBeGreaterThan(0);
    expect(mark.x + mark.width).toBeLessThan(scene.width);
    for (const other of marks.slice(n + 1)) expect(meet(mark, other), `${mark.text} over ${other.text}`).toBe(false);
  }
}

const at = (x: number, y = 0, z = 0.4): Partial<Void> => ({ origin: { x, y, z }, length: 1200, width: 500 });

test('every mark of voids one over the other stands by itself, above all boxes', () => {
  const names = ['V1', 'V1 over', 'Cabin', 'Step', 'V2'];
  const scene = sceneOf([
    { void: names[0], ...at(2) },
    { void: names[1], ...at(2, 0, 1.2) },
    { void: names[2], ...at(1.6, 0, 1.5), length: 2400, width: 1100 },
    { void: names[3], ...at(2.4), length: 400, width: 300 },
    { void: names[4], ...at(3, 0.3) },
  ]);
  expect(
    marksOf(scene)
      .map(({ text }) => text)
      .sort(),
  ).toEqual([...names].sort());
  expectApart(scene);
  const shapes = flat(scene.shapes);
  const lastBox = shapes.findLastIndex((shape) => shape.kind === 'rect' && shape.role === 'hollow' && shape.height > 2);
  const firstMark = shapes.findIndex((shape) => shape.kind === 'text' && names.includes(shape.text));
  expect(firstMark).toBeGreaterThan(lastBox);
});

test.each([
  ['words', 'Under the fore cabin sole, abaft the chain locker', 'locker'],
  ['200 letters without a space', `${'x'.repeat(196)}-END`, '-END'],
  ['200 letters of words', `${'very long '.repeat(19)}at the end`, 'the end'],
  ['letters of two units each', '🪨'.repeat(100), '🪨'],
])('a name too long for its void is wrapped or shortened to its end: %s', (_, name, end) => {
  const scene = sceneOf([
    { void: name, ...at(2) },
    { void: `${name}2`.slice(-200), ...at(5), length: 150, width: 120 },
  ]);
  const marks = marksOf(scene);
  expect(marks.some(({ text }) => text.endsWith(end))).toBe(true);
  expect(marks.some(({ text }) => text.endsWith(`${end.slice(-1)}2`) || text.endsWith(`${end}2`))).toBe(true);
  expectApart(scene);
});
