/** A scene as it is seen from the other side: left and right change places, words stay readable. */
import type { Point, Scene, Shape } from './scene.ts';

/** How high figures and capitals stand, of the em. */
const CAPITAL = 0.73;

export function mirrorScene(scene: Scene): Scene {
  return { ...scene, shapes: scene.shapes.map((shape) => mirrored(shape, scene.width)) };
}

function mirrored(shape: Shape, width: number): Shape {
  const flip = ({ x, y }: Point): Point => ({ x: width - x, y });
  switch (shape.kind) {
    case 'line':
      return { ...shape, from: flip(shape.from), to: flip(shape.to) };
    case 'polyline':
    case 'polygon':
      return { ...shape, points: shape.points.map(flip) };
    case 'rect':
      return { ...shape, x: width - shape.x - shape.width };
    case 'circle':
      return { ...shape, x: width - shape.x };
    case 'text': {
      // Words that stand upright in the margin keep to their own side of it.
      const x = width - shape.x - (shape.turn ? Math.sign(shape.turn) * CAPITAL * shape.size : 0);
      const anchor = shape.turn
        ? shape.anchor
        : ({ start: 'end', middle: 'middle', end: 'start' } as const)[shape.anchor];
      return { ...shape, x, anchor };
    }
    case 'group':
      return {
        ...shape,
        at: { x: -shape.at.x, y: shape.at.y },
        shapes: shape.shapes.map((one) => mirrored(one, width)),
      };
  }
}
