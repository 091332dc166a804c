import { describe, expect, test } from 'vitest';
import { drawnBar } from '../../src/drawing/holdBar.ts';
import { holdCrossScene, sectionFittings } from '../../src/drawing/holdCross.ts';
import { holdView, placedFittings } from '../../src/drawing/holdPlace.ts';
import { holdPlanScene } from '../../src/drawing/holdPlan.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import { textWidth } from '../../src/drawing/letter.ts';
import type { Group, Point, Scene, Shape } from '../../src/drawing/scene.ts';
import { fittingRows } from '../../src/hold/fittingRows.ts';
import { holdDownOf } from '../../src/hold/holdDown.ts';
import { type JobInput, jobSchema } from '../../src/job/job.ts';
import { trialJobInput, trialPair } from '../plan/trialPlan.ts';

type HoldInput = NonNullable<JobInput['voids'][number]['holdDown']>;

const { plan } = trialPair();
const ROOM = { width: 119, height: 88 };
const by = { by: 'the floors, with chocks', carries: 6 };
const bolts = { size: 'M8', grade: 'A4-70', perBar: 2, into: 'oak' } as const;
const bar = { width: 40, thickness: 10, span: 420, bolts };
const over = { kind: 'over', lashingCapacity: 5, angle: 60 } as const;
const direct = { kind: 'direct', count: 2, lashingCapacity: 5, angle: 30, against: 'aft' } as const;

/** The trial job with a hold-down in one of its voids: V1 is a box fore-and-aft, V2 athwartships and measured. */
function drawn(name: 'V1' | 'V2', hold: HoldInput) {
  const input = trialJobInput();
  const voids = input.voids.map((space) => (space.void === name ? { ...space, holdDown: hold } : space));
  const job = jobSchema.parse({ ...input, voids });
  const space = job.voids.find((one) => one.void === name)!;
  const held = holdDownOf(job, plan).find((one) => one.void === name)!;
  const view = holdView(space, held)!;
  const bundles = plan.bundles.filter((one) => one.void === name);
  return {
    space,
    view,
    scene: holdPlanScene(space, plan, view, ROOM),
    sections: sectionFittings(view).map((one) => holdCrossScene(space, plan, view, one, { width: 60, height: 60 })),
    rows: fittingRows(space, space.length, held.covers, bundles),
  };
}

const SEVERAL: HoldInput = {
  bars: [
    { ...bar, count: 3, at: [700, 120, 400] },
    { ...bar, count: 2, thickness: 12 },
  ],
  straps: [{ ...over, count: 2, at: [250, 550] }, direct],
  blocked: { forward: by, aft: by, port: by, starboard: by, down: by },
  friction: 0.3,
};
const CASES: ['V1' | 'V2', HoldInput][] = [
  ['V1', SEVERAL],
  ['V2', { ...SEVERAL, bars: [{ ...bar, count: 2, at: [150, 500] }], straps: [{ ...over, count: 1 }] }],
];

/** `A1 to A3` as A1, A2, A3. */
function spelledOut(marks: string): string[] {
  const [, letter, from, to] = /^([A-Z]+)(\d+) to [A-Z]+(\d+)$/.exec(marks) ?? [];
  if (letter === undefined) return [marks];
  return Array.from({ length: Number(to) - Number(from) + 1 }, (_, i) => `${letter}${Number(from) + i}`);
}

/** Every group by its name, with its shapes where they stand on the paper. */
function groupsOf(scene: Scene): Map<string, Shape[]> {
  const groups = new Map<string, Shape[]>();
  const walk = (shapes: readonly Shape[]): void => {
    for (const shape of shapes) {
      if (shape.kind !== 'group') continue;
      if (shape.name !== undefined) groups.set(shape.name, [...(groups.get(shape.name) ?? []), ...shape.shapes]);
      walk(shape.shapes);
    }
  };
  walk(scene.shapes);
  return groups;
}

/** All texts, flat. */
function textsOf(shapes: readonly Shape[]): string[] {
  return shapes.flatMap((shape) =>
    shape.kind === 'text' ? [shape.text] : shape.kind === 'group' ? textsOf(shape.shapes) : [],
  );
}

/** The sides of the void in a section, wherever its group stands. */
function sidesOf(scene: Scene): { left: number; right: number } {
  const find = (shapes: readonly Shape[], dx: number): number[] =>
    shapes.flatMap((shape) =>
      shape.kind === 'group'
        ? find(shape.shapes, dx + shape.at.x)
        : shape.kind === 'polygon' && shape.role === 'void'
          ? shape.points.map(({ x }) => x + dx)
          : [],
    );
  const xs = find(scene.shapes, 0);
  return { left: Math.min(...xs), right: Math.max(...xs) };
}

/** Where lettering and lines lie, moved as their groups are. */
function pointsOf(shapes: readonly Shape[], at: Point = { x: 0, y: 0 }): Point[] {
  const moved = (x: number, y: number) => ({ x: x + at.x, y: y + at.y });
  return shapes.flatMap((shape): Point[] => {
    if (shape.kind === 'group') return pointsOf(shape.shapes, moved(shape.at.x, shape.at.y));
    if (shape.kind === 'line') return [moved(shape.from.x, shape.from.y), moved(shape.to.x, shape.to.y)];
    if (shape.kind === 'polygon' || shape.kind === 'polyline') return shape.points.map((p) => moved(p.x, p.y));
    if (shape.kind === 'rect') {
      return [moved(shape.x, shape.y), moved(shape.x + shape.width, shape.y + shape.height)];
    }
    return [moved(shape.x, shape.y)];
  });
}

function outlineOf(scene: Scene): { left: number; right: number } {
  const outline = scene.shapes.find((shape) => shape.kind === 'polygon' && shape.role === 'void');
  const xs = pointsOf([outline!]).map(({ x }) => x);
  return { left: Math.min(...xs), right: Math.max(...xs) };
}

describe.each(CASES)('what holds %s, from above', (name, hold) => {
  const { scene, rows, view, space } = drawn(name, hold);
  const groups = groupsOf(scene);
  const fittings = placedFittings(view);

  test('each mark of the table is drawn once, but what has no place and what it stands on', () => {
    const inTable = [...view.marked.bars, ...view.marked.straps].flatMap((row) => row.fittings.map((one) => one.mark));
    const blocks = view.marked.blocks.filter(({ side }) => side !== 'down').map(({ letter }) => letter);
    const marks = [...inTable, ...blocks];
    const texts = textsOf(scene.shapes);
    for (const mark of marks) {
      expect(groups.has(mark), mark).toBe(true);
      expect(
        texts.filter((words) => words === mark),
        mark,
      ).toHaveLength(1);
    }
    const told = rows.filter(({ over: where }) => where !== 'under it' && !where.startsWith('not drawn'));
    expect(told.flatMap((row) => spelledOut(row.marks))).toEqual(marks);
    const named = [...groups.keys()].filter((group) => !plan.bundles.some(({ bundle }) => bundle === group));
    expect(named.sort()).toEqual([...marks].sort());
  });

  test('each lies within the void along, in its place, as wide as it is', () => {
    const { left, right } = outlineOf(scene);
    const scale = space.length / (right - left);
    for (const one of fittings) {
      const body = groups.get(one.mark)!.find((shape) => ['steel', 'strap', 'unsettled'].includes(roleOf(shape)))!;
      const xs = pointsOf([body]).map(({ x }) => x);
      expect(Math.min(...xs)).toBeCloseTo(left + (one.middle - one.half) / scale, 6);
      expect(Math.max(...xs)).toBeCloseTo(left + (one.middle + one.half) / scale, 6);
      expect(Math.min(...xs)).toBeGreaterThanOrEqual(left);
      expect(Math.max(...xs)).toBeLessThanOrEqual(right);
      expect(roleOf(body) === 'unsettled', one.mark).toBe(!one.settled);
    }
  });

  test('nothing stands outside the paper', () => {
    expectInside(scene);
  });

  test('marks stand clear of each other', () => {
    const plates = [...groups.values()].flatMap((shapes) =>
      shapes.flatMap((shape, i) => {
        const next = shapes[i + 1];
        return shape.kind === 'rect' && shape.role === 'hollow' && next?.kind === 'text' ? [shape] : [];
      }),
    );
    expect(plates.length).toBeGreaterThan(4);
    plates.forEach((p, i) => {
      for (const q of plates.slice(i + 1)) {
        const apart = p.x + p.width <= q.x || q.x + q.width <= p.x || p.y + p.height <= q.y || q.y + q.height <= p.y;
        expect(apart).toBe(true);
      }
    });
  });

  test('is measured from end to end by what the job states, and by nothing else', () => {
    const stated = [...new Set(fittings.filter((one) => one.settled).map((one) => one.middle))];
    const stops = [0, ...stated, space.length];
    const figures = stops.slice(1).map((to, i) => to - stops[i]!);
    expect(figures.reduce((sum, one) => sum + one, 0)).toBe(space.length);
    const told = textsOf(scene.shapes).filter((words) => /^[\d.]+$/.test(words) && words !== '0');
    expect(told.map(Number).sort()).toEqual([...figures, space.length].sort());
    for (const { middle } of fittings.filter((one) => !one.settled)) expect(stated).not.toContain(middle);
  });

  test('the table tells what the drawing measures', () => {
    for (const one of fittings) {
      const row = rows.find(({ marks }) => marks === one.mark);
      if (one.settled) expect(row!.place).toEqual({ from: one.middle, to: space.length - one.middle });
      else expect(rows.find(({ marks }) => marks.startsWith(one.letter))!.place).toBeNull();
    }
  });
});

describe('what holds a void, across', () => {
  const { sections, view, space } = drawn('V1', SEVERAL);

  test('each row that has a place, or is taken to have one, is cut once', () => {
    expect(
      sectionFittings(view)
        .map(({ letter }) => letter)
        .sort(),
    ).toEqual(['A', 'B', 'C']);
    expect(sections).toHaveLength(3);
  });

  test('the cut is through one over a bundle where one of its row lies over none', () => {
    const gap = drawn('V1', { bars: [{ ...bar, count: 2, at: [560, 773] }] });
    expect(sectionFittings(gap.view).map(({ mark }) => mark)).toEqual(['A2']);
  });

  test('a bar lies on the highest bundle under it, as high and as long as it is, its span between bolts told', () => {
    const [first] = sectionFittings(view);
    const scene = holdCrossScene(space, plan, view, first!, { width: 60, height: 60 });
    const shapes = groupsOf(scene).get(first!.mark)!;
    const lying = shapes.find((shape) => roleOf(shape) === 'steel') as Shape & { kind: 'rect' };
    const bundles = plan.bundles.filter(
      (one) => one.void === 'V1' && one.at.along < 140 && one.at.along + one.size.along > 100,
    );
    const highest = Math.max(...bundles.map(({ at, size }) => at.up + size.up));
    const scale = 10 / lying.height;
    expect(lying.width * scale).toBeCloseTo(420 + 40, 6);
    expect(8 + (space.height - highest) / scale).toBeCloseTo(lying.y + lying.height, 6);
    expect(textsOf(scene.shapes)).toContain('420 between bolts');
  });

  test('a strap is said to be made fast at no stated place, and one without a place to be unsettled', () => {
    const strap = sections.find((scene) => scene.title.includes('C1'))!;
    expect(textsOf(strap.shapes).join()).toContain('where it is made fast: not stated');
    const unsettled = sections.find((scene) => scene.title.includes('taken to lie'))!;
    expect(textsOf(unsettled.shapes).join()).toContain('to be settled');
  });

  test('a strap over a stow that is flush at one side is drawn as over its mirror image', () => {
    const { space, view } = drawn('V1', { straps: [{ ...over, count: 1, at: [300] }] });
    const [one] = sectionFittings(view);
    const model = plan.bundles.find(({ void: name }) => name === 'V1')!;
    const lying = (bundle: string, across: number, wide: number, up: number) => ({
      ...model,
      bundle,
      at: { along: 100, across, up },
      size: { along: 500, across: wide, up: 40 },
    });
    const strapOver = (side: 1 | -1): Point[] => {
      const put = (bundle: string, from: number, to: number, up: number) =>
        lying(bundle, side > 0 ? from : -to, to - from, up);
      const bundles = [put('lower', 0, 100, 20), put('upper', 60, 100, 60)];
      const scene = holdCrossScene(space, { ...plan, bundles }, view, one!, { width: 60, height: 60 });
      const { left, right } = sidesOf(scene);
      const middle = (left + right) / 2;
      const strap = groupsOf(scene)
        .get(one!.mark)!
        .find((shape) => shape.kind === 'polyline')!;
      const points = pointsOf([strap]).map(({ x, y }) => ({ x: side * (x - middle), y }));
      return side > 0 ? points : points.reverse();
    };
    const [starboard, port] = [strapOver(1), strapOver(-1)];
    expect(starboard).toHaveLength(port.length);
    for (const [i, point] of starboard.entries()) {
      expect(point.x).toBeCloseTo(port[i]!.x, 6);
      expect(point.y).toBeCloseTo(port[i]!.y, 6);
    }
  });

  test('nothing stands outside the paper', () => {
    for (const scene of sections) expectInside(scene);
  });
});

/** Boxes of all words, a little under what they may take; and of all bars, moved as their groups are. */
function boxesOf(shapes: readonly Shape[], at: Point = { x: 0, y: 0 }): { what: string; box: number[] }[] {
  return shapes.flatMap((shape) => {
    if (shape.kind === 'group') return boxesOf(shape.shapes, { x: at.x + shape.at.x, y: at.y + shape.at.y });
    if (shape.kind === 'rect' && (shape.role === 'steel' || shape.role === 'unsettled')) {
      const [x, y] = [at.x + shape.x, at.y + shape.y];
      return [{ what: 'bar', box: [x, y, x + shape.width, y + shape.height] }];
    }
    if (shape.kind !== 'text' || shape.turn || shape.text === '') return [];
    const width = 0.7 * textWidth(shape.text, shape.size, shape.bold);
    const left = at.x + shape.x - (shape.anchor === 'end' ? width : shape.anchor === 'middle' ? width / 2 : 0);
    const base = at.y + shape.y;
    return [{ what: shape.text, box: [left, base - 0.7 * shape.size, left + width, base] }];
  });
}

describe('a bar across much longer than its void is wide', () => {
  const long: HoldInput = { bars: [{ ...bar, span: 2400, count: 1, at: [150] }], blocked: { port: by, aft: by } };
  const { scene, sections, view, space } = drawn('V1', long);

  test('is drawn broken off, its span still told, and leaves the void as large as a shorter one does', () => {
    for (const each of [scene, ...sections]) {
      expect(textsOf(each.shapes).join()).toContain('broken off: longer than drawn');
      expectInside(each);
    }
    expect(textsOf(sections[0]!.shapes)).toContain('2400 between bolts');
    const widthOf = (one: Scene) => outlineOf(one).right - outlineOf(one).left;
    const usual = drawn('V1', { bars: [{ ...bar, span: 480, count: 1, at: [150] }] });
    expect(textsOf(usual.scene.shapes).join()).not.toContain('broken off');
    expect(widthOf(scene)).toBeGreaterThan(0.6 * widthOf(usual.scene));
    expect(drawnBar(laidVoid(space, plan), 150, view.marked.bars[0]!.bar).half).toBeLessThan(300);
  });

  test('lies over no words, and no words lie over others', () => {
    for (const each of [scene, ...sections]) {
      const boxes = boxesOf(each.shapes);
      expect(boxes.some(({ what }) => what === 'bar')).toBe(true);
      boxes.forEach(({ what, box: p }, i) => {
        for (const { what: other, box: q } of boxes.slice(i + 1)) {
          // A number on a bundle may lie under the bar that holds it.
          if ([what, other].includes('bar') && /^\d+$/.test(what === 'bar' ? other : what)) continue;
          const apart = p[2]! <= q[0]! || q[2]! <= p[0]! || p[3]! <= q[1]! || q[3]! <= p[1]!;
          expect(apart, `${what} and ${other}`).toBe(true);
        }
      });
    }
  });
});

test('a bar across that is not counted is named on the drawing and in the table, which says why it is not drawn', () => {
  const { scene, rows } = drawn('V1', { bars: [{ ...bar, count: 2, span: 100 }], straps: [{ ...over, count: 2 }] });
  expect(textsOf(scene.shapes)).toContain('not drawn: A1, A2; the table says why');
  expect(rows[0]).toMatchObject({ marks: 'A1 to A2', over: 'not drawn and not counted: too short for the void' });
  const few = drawn('V1', { bars: [{ ...bar, count: 1 }] });
  expect(few.rows[0]!.over).toBe('not drawn and not counted: too few for its runs');
  const apart = drawn('V1', { bars: [{ ...bar, count: 1, at: [261] }] });
  expect(apart.rows[0]!.over).toMatch(/^run 1.*; not counted$/);
});

test('without a plan only what the job places is drawn', () => {
  const { space } = drawn('V1', SEVERAL);
  const view = holdView(space, null)!;
  expect(placedFittings(view).map(({ mark }) => mark)).toEqual(['A1', 'C1', 'A2', 'C2', 'A3']);
});

function expectInside({ shapes, width, height }: Scene): void {
  for (const { x, y } of pointsOf(shapes)) {
    expect(x).toBeGreaterThanOrEqual(0);
    expect(x).toBeLessThanOrEqual(width);
    expect(y).toBeGreaterThanOrEqual(0);
    expect(y).toBeLessThanOrEqual(height);
  }
}

function roleOf(shape: Shape): string {
  return shape.kind === 'group' ? (shape as Group).kind : shape.role;
}
