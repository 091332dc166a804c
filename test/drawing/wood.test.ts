/** Chocks in the plan and side views: where the list has them, under the bundles, each with its mark. */
import { describe, expect, test } from 'vitest';
import type { Rect, Shape, Text } from '../../src/drawing/scene.ts';
import { voidLongScene } from '../../src/drawing/voidLong.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import type { Job } from '../../src/job/job.ts';
import { type Chock, chocksOf } from '../../src/plan/chocks.ts';
import { layVoid } from '../../src/stow/laid.ts';
import { stackedPair } from '../server/paper/stackedPlan.ts';

const { job, plan } = stackedPair({ voids: 1, runs: 2, tiers: 2, across: 3 });
const ROOM = { width: 200, height: 100, scale: 5 };

/** The void with another length, without what stands in it; gaps between its runs are 8 mm. */
function spaceOf(length: number): Job['voids'][number] {
  return { ...job.voids[0]!, length, keepOut: [] };
}

const end = Math.max(...plan.runs.map(({ to }) => to));
const drawn = (shapes: readonly Shape[]): Shape[] =>
  shapes.flatMap((shape) => (shape.kind === 'group' ? drawn(shape.shapes) : [shape]));
const wood = (shapes: Shape[]) =>
  drawn(shapes).flatMap((shape) => (shape.kind === 'polygon' && shape.role === 'chock' ? [shape.points] : []));
const words = (shapes: Shape[]) =>
  drawn(shapes).flatMap((shape): Text[] => (shape.kind === 'text' && /^\d[a-z](, |$)/.test(shape.text) ? [shape] : []));
const sizeOf = (points: readonly { x: number; y: number }[], axis: 'x' | 'y') =>
  Math.round((Math.max(...points.map((p) => p[axis])) - Math.min(...points.map((p) => p[axis]))) * ROOM.scale);

describe('the chock at an end', () => {
  const space = spaceOf(end + 104);
  const [chock] = chocksOf(layVoid(space)[0]!, plan).filter(({ side, tier }) => side === 'last end' && tier === 1);

  test('is drawn from above where it lies, with its mark, where it is asked for', () => {
    const above = (more: object) => voidPlanScene(space, plan, { ...ROOM, ...more }).shapes;
    const shown = above({ tier: 1, chocks: [chock!] });
    expect(wood(shown).map((points) => [sizeOf(points, 'x'), sizeOf(points, 'y')])).toEqual([
      [chock!.size, Math.round(chock!.length)],
    ]);
    expect(words(shown).map(({ text }) => text)).toEqual([chock!.mark.split('/').at(-1)]);
    const bundles = drawn(shown).filter((shape): shape is Rect => shape.kind === 'rect' && shape.role === 'bundle');
    const [points] = wood(shown);
    expect(Math.min(...points!.map(({ x }) => x))).toBeCloseTo(
      Math.max(...bundles.map(({ x, width }) => x + width)),
      6,
    );
    expect(wood(above({ tier: 1 }))).toEqual([]);
  });

  test('shows its mark over no bundle, and under no upper chock', () => {
    const above = (bundles: typeof plan.bundles, chocks: Chock[]) =>
      words(voidPlanScene(space, { ...plan, bundles }, { ...ROOM, chocks }).shapes).map(({ text }) => text);
    const over = { ...plan.bundles.at(-1)!, bundle: 'V1-99', at: { along: chock!.from, across: -200, up: 99 } };
    const bundles = [...plan.bundles, { ...over, size: { ...over.size, across: 400 } }];
    expect(above(bundles, [chock!])).toEqual([]);
    const ends = chocksOf(layVoid(space)[0]!, plan).filter(({ side }) => side === 'last end');
    expect(above(plan.bundles, ends)).toEqual([ends[1]!.mark.split('/').at(-1)]);
    expect(above(plan.bundles, [chock!])).toEqual([chock!.mark.split('/').at(-1)]);
  });

  test('is drawn from the side, one for each tier, and none of a tier that is not all there', () => {
    const beside = (present?: Set<string>) => voidLongScene(space, plan, { ...ROOM, present }).shapes;
    expect(wood(beside()).map((points) => [sizeOf(points, 'x'), sizeOf(points, 'y')])).toEqual([
      [chock!.size, Math.round(chock!.height)],
      [chock!.size, Math.round(chock!.height)],
    ]);
    expect(words(beside())).toHaveLength(2);
    const but = plan.bundles.filter(({ run, tier }) => !(run === 2 && tier === 2)).map(({ bundle }) => bundle);
    expect(wood(beside(new Set(but)))).toHaveLength(1);
  });
});

test('a long one is drawn as its boards and struts', () => {
  const space = spaceOf(end + 304);
  const above = wood(voidPlanScene(space, plan, { ...ROOM, tier: 1, chocks: groundChocks(space, plan) }).shapes);
  expect(above.map((points) => sizeOf(points, 'x'))).toEqual([30, 30, 240, 240]);
  const beside = wood(voidLongScene(space, plan, ROOM).shapes);
  expect(beside.map((points) => sizeOf(points, 'x'))).toEqual([240, 30, 30, 240, 30, 30]);
});

test('those between runs and beside a bolt are drawn, from the side those abreast as one with all their marks', () => {
  const bolt = {
    what: 'bolt',
    along: [end + 20, end + 40] as [number, number],
    across: [-10, 10] as [number, number],
    up: [0, 100] as [number, number],
    access: false,
  };
  const space = { ...spaceOf(end + 104), keepOut: [bolt] };
  const runs = plan.runs.map((run) => (run.run === 2 ? { ...run, from: run.from + 40, to: run.to + 40 } : run));
  const apart = { ...plan, runs };
  const far = { ...apart, bundles: plan.bundles.map((own) => (own.run === 2 ? moved(own) : own)) };
  const wider = spaceOf(end + 144);
  const how = { ...ROOM, tier: 1, chocks: groundChocks(wider, far) };
  expect(how.chocks.map(({ side }) => side)).toEqual(['next run', 'last end']);
  expect(wood(voidPlanScene(wider, far, how).shapes)).toHaveLength(2);
  const beside = voidLongScene(space, plan, ROOM).shapes;
  expect(wood(beside)).toHaveLength(2);
  expect(words(beside).map(({ text }) => text)).toEqual(['1a, 1b', '2a, 2b']);
});

function groundChocks(space: Job['voids'][number], of: typeof plan) {
  return chocksOf(layVoid(space)[0]!, of).filter(({ tier }) => tier === 1);
}

function moved(own: (typeof plan.bundles)[number]) {
  return { ...own, at: { ...own.at, along: own.at.along + 40 } };
}
