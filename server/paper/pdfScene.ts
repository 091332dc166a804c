/** A scene of `src/drawing` on a PDF page: the same shapes as its SVG, the same styles by role. */
import type { Point, Role, Scene, Shape } from '../../src/drawing/scene.ts';
import { STYLES } from '../../src/drawing/style.ts';
import { MM } from './figures.ts';
import type { Doc, Letters } from './letters.ts';

/** Draws `scene` with its upper left corner at (`x`, `y`) points, one mm of the scene on one mm of paper. */
export function drawScene(doc: Doc, letters: Letters, scene: Scene, x: number, y: number): void {
  for (const shape of scene.shapes) draw(doc, letters, shape, { x, y });
}

function draw(doc: Doc, letters: Letters, shape: Shape, origin: Point): void {
  const px = (mm: number) => origin.x + mm * MM;
  const py = (mm: number) => origin.y + mm * MM;
  switch (shape.kind) {
    case 'line':
      doc.moveTo(px(shape.from.x), py(shape.from.y)).lineTo(px(shape.to.x), py(shape.to.y));
      paint(doc, shape.role, false);
      break;
    case 'polyline':
    case 'polygon': {
      shape.points.forEach((point, i) => {
        if (i === 0) doc.moveTo(px(point.x), py(point.y));
        else doc.lineTo(px(point.x), py(point.y));
      });
      if (shape.kind === 'polygon') doc.closePath();
      paint(doc, shape.role, shape.kind === 'polygon');
      break;
    }
    case 'rect':
      doc.rect(px(shape.x), py(shape.y), shape.width * MM, shape.height * MM);
      paint(doc, shape.role, true);
      break;
    case 'circle':
      doc.circle(px(shape.x), py(shape.y), Math.max(0, shape.radius) * MM);
      paint(doc, shape.role, true);
      break;
    case 'text': {
      const lettering = {
        size: shape.size * MM,
        weight: shape.bold ? ('bold' as const) : ('plain' as const),
        colour: STYLES[shape.role].fill ?? '#000000',
        align:
          shape.anchor === 'middle'
            ? ('centre' as const)
            : shape.anchor === 'end'
              ? ('right' as const)
              : ('left' as const),
      };
      if (shape.turn) doc.save().rotate(shape.turn, { origin: [px(shape.x), py(shape.y)] });
      letters.set(shape.text, px(shape.x), py(shape.y), lettering);
      if (shape.turn) doc.restore();
      break;
    }
    case 'group':
      for (const part of shape.shapes) draw(doc, letters, part, { x: px(shape.at.x), y: py(shape.at.y) });
  }
}

function paint(doc: Doc, role: Role, closed: boolean): void {
  const style = STYLES[role];
  const fill = closed ? style.fill : undefined;
  if (style.stroke) {
    doc.lineWidth((style.width ?? 0.2) * MM);
    if (style.dash) {
      const [on = 1, off = on] = style.dash;
      doc.dash(on * MM, { space: off * MM });
    } else doc.undash();
  }
  if (fill && style.stroke) doc.fillAndStroke(fill, style.stroke);
  else if (fill) doc.fill(fill);
  else if (style.stroke) doc.stroke(style.stroke);
}
