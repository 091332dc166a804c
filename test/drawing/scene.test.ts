/** Scenes and their SVG: what is drawn is all there, inside its frame, true to size, and harmless. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { barScene } from '../../src/drawing/bar.ts';
import { barPlaces } from '../../src/drawing/barShape.ts';
import { bundleScene, bundleSteel } from '../../src/drawing/bundle.ts';
import { hatchPolygon } from '../../src/drawing/hatch.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import { textWidth } from '../../src/drawing/letter.ts';
import { listedScene } from '../../src/drawing/listed.ts';
import { bottomAt, crossOutline, sidesAt } from '../../src/drawing/outline.ts';
import type { Scene, Shape, Text } from '../../src/drawing/scene.ts';
import { svgOf } from '../../src/drawing/svg.ts';
import { templateScene } from '../../src/drawing/template.ts';
import { vesselScene } from '../../src/drawing/vessel.ts';
import { voidCrossScene } from '../../src/drawing/voidCross.ts';
import { rangesOf, voidLongScene } from '../../src/drawing/voidLong.ts';
import { voidPlanScene } from '../../src/drawing/voidPlan.ts';
import { widenScene } from '../../src/drawing/widen.ts';
import type { Section } from '../../src/job/section.ts';
import { outerSize } from '../../src/job/section.ts';
import type { PlanBundle } from '../../src/plan/plan.ts';
import { trialPair } from '../plan/trialPlan.ts';

const { job, plan } = trialPair();
const [v1, v2] = job.voids;
const ROOM = { width: 180, height: 80 };

function flat(shapes: Shape[], dx = 0, dy = 0): { shape: Shape; dx: number; dy: number }[] {
  return shapes.flatMap((shape) =>
    shape.kind === 'group' ? flat(shape.shapes, dx + shape.at.x, dy + shape.at.y) : [{ shape, dx, dy }],
  );
}

function namesIn(shapes: Shape[]): string[] {
  return shapes.flatMap((shape) =>
    shape.kind === 'group' ? [...(shape.name === undefined ? [] : [shape.name]), ...namesIn(shape.shapes)] : [],
  );
}

/** Shapes that reach out of the scene's frame, words by their estimated width. */
function beyond(scene: Scene): Shape[] {
  const slack = 0.6;
  return flat(scene.shapes)
    .filter(({ shape, dx, dy }) =>
      cornersOf(shape).some(
        ([x, y]) => x + dx < -slack || y + dy < -slack || x + dx > scene.width + slack || y + dy > scene.height + slack,
      ),
    )
    .map(({ shape }) => shape);
}

function cornersOf(shape: Shape): [number, number][] {
  switch (shape.kind) {
    case 'line':
      return [
        [shape.from.x, shape.from.y],
        [shape.to.x, shape.to.y],
      ];
    case 'polyline':
    case 'polygon':
      return shape.points.map((point) => [point.x, point.y]);
    case 'rect':
      return [
        [shape.x, shape.y],
        [shape.x + shape.width, shape.y + shape.height],
      ];
    case 'circle':
      return [
        [shape.x - shape.radius, shape.y - shape.radius],
        [shape.x + shape.radius, shape.y + shape.radius],
      ];
    case 'text': {
      const width = textWidth(shape.text, shape.size, shape.bold) * 0.9;
      const start = { start: 0, middle: -width / 2, end: -width }[shape.anchor];
      if (shape.turn)
        return [
          [shape.x, shape.y - start],
          [shape.x, shape.y - start - width],
        ];
      return [
        [shape.x + start, shape.y],
        [shape.x + start + width, shape.y - 0.73 * shape.size],
      ];
    }
    case 'group':
      return [];
  }
}

const scenes: [string, Scene][] = [
  ['bar', barScene(job, plan.bars[0]!, { width: 170 })],
  ['bundle', bundleScene(plan.bundles[2]!, { width: 50, height: 50 })],
  ['plan', voidPlanScene(v1!, plan, ROOM)],
  ['plan of a tier', voidPlanScene(v1!, plan, { ...ROOM, tier: 2 })],
  ['plan athwartships', voidPlanScene(v2!, plan, ROOM)],
  ['long section', voidLongScene(v1!, plan, ROOM)],
  ['cross-section', voidCrossScene(v2!, plan, 350, ROOM)],
  ['vessel', vesselScene(job, plan, ROOM)],
  ['list', listedScene({ before: -1.2, after: 0.4 }, { width: 140, height: 40 })],
  ['template', templateScene(laidVoid(v2!, plan), 350)],
];

describe.each(scenes)('the scene of a %s', (_, scene) => {
  test('keeps every shape in its frame', () => {
    expect(beyond(scene)).toEqual([]);
  });

  test('becomes SVG with a role, a title and a description, and no script or style', () => {
    const svg = svgOf(scene, { id: 'x' });
    expect(svg).toMatch(/^<svg [^>]*role="img" aria-labelledby="x-t" aria-describedby="x-d"/);
    expect(svg).toContain(`<title id="x-t">`);
    expect(svg).not.toMatch(/<script|style=|NaN|undefined|Infinity/);
    const opened = svg.match(/<(g|svg|text|title|desc)[ >]/g)!.length;
    expect(svg.match(/<\/(g|svg|text|title|desc)>/g)!.length).toBe(opened);
  });
});

test('on a page a drawing is as wide as its smallest letters ask; a file of its own has its size in mm', () => {
  const scene = voidPlanScene(v1!, plan, ROOM);
  const svg = svgOf(scene);
  const least = Math.min(...[...svg.matchAll(/font-size="([\d.]+)"/g)].map(([, size]) => Number(size)));
  const [, width] = /<svg [^>]*width="([\d.]+)rem"/.exec(svg)!;
  expect((Number(width) * 16 * least) / scene.width).toBeGreaterThan(11);
  expect(svgOf(scene, { standalone: true })).toMatch(/ width="[\d.]+mm" height="[\d.]+mm"/);
});

describe('pictures of a void', () => {
  test('from above have every bundle, and by tiers each bundle in its tier', () => {
    const all = plan.bundles.filter((bundle) => bundle.void === 'V1');
    expect(namesIn(voidPlanScene(v1!, plan, ROOM).shapes).sort()).toEqual(all.map((bundle) => bundle.bundle).sort());
    const upper = all.filter((bundle) => bundle.tier === 2).map((bundle) => bundle.bundle);
    expect(namesIn(voidPlanScene(v1!, plan, { ...ROOM, tier: 2 }).shapes).sort()).toEqual(upper.sort());
  });

  test('show only the bundles that are there', () => {
    const present = new Set(['V1-01']);
    expect(namesIn(voidPlanScene(v1!, plan, { ...ROOM, present }).shapes)).toEqual(['V1-01']);
  });

  test('draw starboard below where bars lie fore-and-aft and forward above where they lie athwartships', () => {
    const y = (void_: typeof v1, id: string): number => {
      const found = voidPlanScene(void_!, plan, ROOM).shapes.find((s) => s.kind === 'group' && s.name === id);
      const box = found?.kind === 'group' ? found.shapes[0] : undefined;
      return box?.kind === 'rect' ? box.y : Number.NaN;
    };
    expect(y(v1, 'V1-05')).toBeGreaterThan(y(v1, 'V1-04'));
    expect(y(v2, 'V2-02')).toBeLessThan(y(v2, 'V2-01'));
  });

  test('are to the scale that they state', () => {
    const scene = voidPlanScene(v1!, plan, { ...ROOM, scale: 10 });
    const outline = scene.shapes.find((shape) => shape.kind === 'polygon' && shape.role === 'void');
    const xs = outline?.kind === 'polygon' ? outline.points.map((point) => point.x) : [];
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(v1!.length / 10, 6);
  });

  test('tell numbers by their ranges', () => {
    expect(rangesOf([7, 1, 2, 3, 9, 10])).toBe('1–3, 7, 9–10');
    expect(rangesOf([])).toBe('');
  });
});

describe('the edge of an opening', () => {
  test('passes behind no number: where it would, the number stands on a plate over it', () => {
    const number = plan.bundles.find((one) => one.void === 'V1' && one.tier === 1)!;
    const middle = number.at.along + number.size.along / 2;
    const opening = (along: number) => ({
      ...v1!,
      opening: { along: 300, across: 2000, endFirst: true, deck: 20, at: { along, across: 0 } },
    });
    const platesIn = (along: number) => {
      const shapes = flat(voidPlanScene(opening(along), plan, { ...ROOM, tier: 1 }).shapes).map(({ shape }) => shape);
      const edge = shapes.findIndex((shape) => shape.kind === 'rect' && shape.role === 'opening');
      return shapes.flatMap((shape, i) => {
        if (shape.kind !== 'rect' || shape.role !== 'plate') return [];
        expect(i).toBeGreaterThan(edge);
        const next = shapes[i + 1];
        return [next?.kind === 'text' ? next.text : ''];
      });
    };
    expect(platesIn(middle + 150)).toContain(String(number.order));
    expect(platesIn(middle)).not.toContain(String(number.order));
  });
});

test('a width worked out between stations is told to the millimetre', () => {
  const at = (half: number) => [
    { up: 0, from: -half, to: half },
    { up: v1!.height, from: -half, to: half },
  ];
  const stations = [
    { along: 0, at: at(165) },
    { along: 1000, at: at(166) },
  ];
  const scene = voidCrossScene({ ...v1!, stations }, plan, 35, ROOM);
  const words = flat(scene.shapes).flatMap(({ shape }) => (shape.kind === 'text' ? [shape.text] : []));
  expect(words).toContain('330');
});

describe('a void so narrow that its words do not fit under it', () => {
  const empty = { ...plan, bundles: [], runs: [] };
  const narrow = voidCrossScene(
    { ...v1!, width: 0.42, stations: undefined, keepOut: [], opening: undefined },
    empty,
    350,
    ROOM,
  );

  test('has them apart from each other and in the frame', () => {
    const words = flat(narrow.shapes).flatMap(({ shape }) => (shape.kind === 'text' ? [shape] : []));
    const [port, starboard] = ['port', 'starboard'].map((name) => words.find((one) => one.text === name)!);
    expect([port!.anchor, starboard!.anchor]).toEqual(['end', 'start']);
    expect(port!.x).toBeLessThan(starboard!.x);
    expect(beyond(narrow)).toEqual([]);
  });

  test('is set in the middle of a wider scene, so that a page does not blow it up', () => {
    const wide = widenScene(narrow, 60);
    expect(wide.width).toBe(60);
    const line = (scene: Scene) =>
      flat(scene.shapes).find(({ shape }) => shape.kind === 'line' && shape.role === 'guide')!;
    expect(line(wide).dx - line(narrow).dx).toBeCloseTo((60 - narrow.width) / 2, 9);
    expect(beyond(wide)).toEqual([]);
    expect(widenScene(wide, 40)).toBe(wide);
  });
});

describe('the outline of a void', () => {
  const laid = laidVoid(v2!, plan);

  test('passes through the readings and runs straight between stations', () => {
    expect(sidesAt(laid, 350, 80)).toEqual({ from: -130, to: 125 });
    expect(sidesAt(laid, 175, 160)).toEqual({ from: -157.5, to: 145 });
    expect(sidesAt(laid, 350, 40)).toEqual({ from: -117.5, to: 112.5 });
    expect(bottomAt(laid, 175)).toBe(10);
    expect(bottomAt(laid, 525)).toBe(3);
  });

  test('closes from bottom to top', () => {
    const ups = crossOutline(laid, 350).map((point) => point.y);
    expect(Math.min(...ups)).toBe(0);
    expect(Math.max(...ups)).toBe(160);
  });

  test('turns with its bars: a keep-out of a void laid athwartships keeps its place in the vessel', () => {
    const either = { ...v1!, axis: 'either' as const };
    const turnedPlan = { ...plan, voids: [{ ...plan.voids[0]!, axis: 'athwartships' as const }] };
    const turned = laidVoid(either, turnedPlan);
    expect([turned.length, turned.width]).toEqual([260, 1000]);
    expect(turned.keepOut[0]!.along).toEqual([110, 150]);
    expect(turned.keepOut[0]!.across).toEqual([60, 100]);
  });
});

describe('the bars of a bundle', () => {
  const bundleOf = (section: Section, columns: number[], nested: boolean): PlanBundle => {
    const bar = outerSize(section);
    const high = nested ? bar.up * (1 + ((columns.length - 1) * Math.sqrt(3)) / 2) : bar.up * columns.length;
    const equal = nested ? columns.filter((count, i) => i > 0 && count === columns[i - 1]).length : 0;
    const across = (Math.max(...columns) + equal / 2) * bar.across + 4;
    const bars = columns.reduce((sum, count) => sum + count, 0);
    return {
      ...plan.bundles[0]!,
      section,
      columns,
      rows: columns.length,
      arrangement: nested ? 'nested' : 'grid',
      slots: Array.from({ length: bars }, (_, i) => [`p${i}`]),
      size: { along: 500, across, up: high + 4 },
    };
  };

  test('nested rounds touch their neighbours and never overlap, whatever the rows', () => {
    const rows = fc
      .tuple(fc.integer({ min: 3, max: 6 }), fc.array(fc.constantFrom(-1, 0, 1), { maxLength: 4 }))
      .map(([first, steps]) => {
        const columns = [first];
        for (const step of steps) columns.push(Math.max(1, columns.at(-1)! + step));
        return columns;
      });
    fc.assert(
      fc.property(rows, (columns) => {
        const bundle = bundleOf({ shape: 'round', diameter: 24 }, columns, true);
        const places = barPlaces(bundle);
        expect(places).toHaveLength(bundle.slots.length);
        for (const [i, p] of places.entries()) {
          expect(p.across - 12).toBeGreaterThan(0);
          expect(p.across + 12).toBeLessThan(bundle.size.across);
          expect(p.up + 12).toBeLessThan(bundle.size.up);
          for (const q of places.slice(i + 1)) {
            expect(Math.hypot(p.across - q.across, p.up - q.up)).toBeGreaterThan(24 - 1e-6);
          }
        }
      }),
    );
  });

  test('a jointed one is crossed inside its own outline, however small it is drawn', () => {
    const bundle = bundleOf({ shape: 'square', side: 20 }, [3, 3], false);
    const slots = bundle.slots.map((slot, i) => (i === 1 ? [...slot, 'half'] : slot));
    for (const scale of [1, 1 / 3, 1 / 10, 1 / 30]) {
      const strokes = bundleSteel({ ...bundle, slots }, 0, 0, scale).flatMap((shape) =>
        shape.kind === 'line' && shape.role === 'joint' ? [shape.from, shape.to] : [],
      );
      expect(strokes).toHaveLength(4);
      for (const { x, y } of strokes) {
        expect(Math.abs(x - 32 * scale)).toBeLessThan(10 * scale);
        expect(Math.abs(y - (bundle.size.up - 12) * scale)).toBeLessThan(10 * scale);
      }
    }
  });

  test('a short top row of a grid stands at the least-across side', () => {
    const places = barPlaces(bundleOf({ shape: 'square', side: 20 }, [3, 1], false));
    expect(places.map((place) => Math.round(place.across))).toEqual([12, 32, 52, 12]);
    expect(places.map((place) => Math.round(place.up))).toEqual([12, 12, 12, 32]);
  });
});

describe('hatching', () => {
  test('stays inside any box and its lines are the spacing apart', () => {
    const side = fc.integer({ min: 1, max: 50 });
    fc.assert(
      fc.property(side, side, side, side, (x, y, w, h) => {
        const corners = [
          { x, y },
          { x: x + w, y },
          { x: x + w, y: y + h },
          { x, y: y + h },
        ];
        const lines = hatchPolygon(corners, 2);
        expect(lines.length).toBeGreaterThanOrEqual(Math.floor((w + h) / 2) - 1);
        for (const { from, to } of lines) {
          for (const point of [from, to]) {
            expect(point.x).toBeGreaterThanOrEqual(x - 1e-9);
            expect(point.x).toBeLessThanOrEqual(x + w + 1e-9);
            expect(point.y).toBeGreaterThanOrEqual(y - 1e-9);
            expect(point.y).toBeLessThanOrEqual(y + h + 1e-9);
          }
        }
      }),
    );
  });
});

describe('what the user wrote', () => {
  test('can not break out of an SVG', () => {
    const evil = '"><script>alert(1)</script>&\u0000\ud800';
    const evilPlan = { ...plan, bundles: plan.bundles.map((bundle) => ({ ...bundle, bundle: evil })) };
    const svg = svgOf(voidPlanScene({ ...v1!, name: evil }, evilPlan, ROOM), { id: evil });
    expect(svg).not.toContain('<script');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: looked for on purpose
    expect(svg).not.toMatch(/[\u0000\ud800]/u);
    expect(svg.match(/aria-labelledby="[\w -]+"/)).not.toBeNull();
  });

  test('labels of a bar say each length, or leave it to the table where there is no room', () => {
    const bar = plan.bars[0]!;
    const labels = flat(barScene(job, bar, { width: 170 }).shapes)
      .map(({ shape }) => shape)
      .filter((shape): shape is Text => shape.kind === 'text')
      .map((shape) => shape.text);
    for (const piece of bar.pieces) expect(labels).toContain(String(piece.to - piece.from));
  });
});
