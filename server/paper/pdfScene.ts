/**
 * A scene of `src/drawing` on a PDF page: the same shapes as its SVG, the same styles by role. Lines and areas are written
 * as PDF operators, a run of them at a time (PDF 32000-1, 8.5): one call of the library for each would cost most of the
 * time and memory of a long paper.
 */
import type { Point, Role, Scene, Shape, Text } from '../../src/drawing/scene.ts';
import { STYLES } from '../../src/drawing/style.ts';
import { MM } from './figures.ts';
import type { Doc, Letters } from './letters.ts';

/** Draws `scene` with its upper left corner at (`x`, `y`) points, one mm of the scene on one mm of paper. */
export function drawScene(doc: Doc, letters: Letters, scene: Scene, x: number, y: number): void {
  const pen = new Pen(doc, letters);
  for (const shape of scene.shapes) pen.draw(shape, { x, y });
  pen.flush();
}

/** Of a quarter circle's radius: how far its control points stand off, for a cubic curve. */
const ROUND = 0.5523;

class Pen {
  readonly #doc: Doc;
  readonly #letters: Letters;
  #operators: string[] = [];
  #role: Role | null = null;

  constructor(doc: Doc, letters: Letters) {
    this.#doc = doc;
    this.#letters = letters;
  }

  /** Writes what is waiting, inside its own graphics state. */
  flush(): void {
    if (this.#operators.length > 0) this.#doc.addContent(`q\n${this.#operators.join('\n')}\nQ`);
    this.#operators = [];
    this.#role = null;
  }

  draw(shape: Shape, origin: Point): void {
    const px = (mm: number): number => origin.x + mm * MM;
    const py = (mm: number): number => origin.y + mm * MM;
    switch (shape.kind) {
      case 'line':
        this.#paint(
          shape.role,
          `${at(px(shape.from.x), py(shape.from.y))} m ${at(px(shape.to.x), py(shape.to.y))} l`,
          false,
        );
        break;
      case 'polyline':
      case 'polygon': {
        const steps = shape.points.map((point, i) => `${at(px(point.x), py(point.y))} ${i === 0 ? 'm' : 'l'}`);
        this.#paint(shape.role, steps.join(' '), shape.kind === 'polygon');
        break;
      }
      case 'rect': {
        const size = at(shape.width * MM, shape.height * MM);
        this.#paint(shape.role, `${at(px(shape.x), py(shape.y))} ${size} re`, true);
        break;
      }
      case 'circle':
        if (shape.radius > 0) this.#paint(shape.role, circlePath(px(shape.x), py(shape.y), shape.radius * MM), true);
        break;
      case 'text':
        this.flush();
        this.#write(shape, px(shape.x), py(shape.y));
        break;
      case 'group':
        for (const part of shape.shapes) this.draw(part, { x: px(shape.at.x), y: py(shape.at.y) });
    }
  }

  #paint(role: Role, path: string, area: boolean): void {
    const style = STYLES[role];
    const fill = area && style.fill !== undefined;
    const stroke = style.stroke !== undefined;
    if (!fill && !stroke) return;
    if (role !== this.#role) this.#operators.push(stateOf(role));
    this.#role = role;
    const ending = fill ? (stroke ? 'b' : 'f') : area ? 's' : 'S';
    this.#operators.push(`${path} ${ending}`);
  }

  #write(shape: Text, x: number, y: number): void {
    const doc = this.#doc;
    if (shape.turn) doc.save().rotate(shape.turn, { origin: [x, y] });
    this.#letters.set(shape.text, x, y, {
      size: shape.size * MM,
      weight: shape.bold ? 'bold' : 'plain',
      colour: STYLES[shape.role].fill ?? '#000000',
      align: shape.anchor === 'middle' ? 'centre' : shape.anchor === 'end' ? 'right' : 'left',
    });
    if (shape.turn) doc.restore();
  }
}

/** Colours, width and dashes of a role. */
function stateOf(role: Role): string {
  const { fill, stroke, width = 0.2, dash } = STYLES[role];
  const dashes = (dash ?? []).map((mm) => figure(mm * MM)).join(' ');
  return [
    ...(fill === undefined ? [] : [`${colour(fill)} rg`]),
    ...(stroke === undefined ? [] : [`${colour(stroke)} RG ${figure(width * MM)} w [${dashes}] 0 d`]),
  ].join(' ');
}

/** `#rrggbb` as three figures from 0 to 1. */
function colour(hex: string): string {
  return [1, 3, 5].map((i) => figure(Number.parseInt(hex.slice(i, i + 2), 16) / 255)).join(' ');
}

function circlePath(x: number, y: number, r: number): string {
  const k = r * ROUND;
  return [
    `${at(x + r, y)} m`,
    `${at(x + r, y + k)} ${at(x + k, y + r)} ${at(x, y + r)} c`,
    `${at(x - k, y + r)} ${at(x - r, y + k)} ${at(x - r, y)} c`,
    `${at(x - r, y - k)} ${at(x - k, y - r)} ${at(x, y - r)} c`,
    `${at(x + k, y - r)} ${at(x + r, y - k)} ${at(x + r, y)} c`,
  ].join(' ');
}

function at(x: number, y: number): string {
  return `${figure(x)} ${figure(y)}`;
}

/** PDF numbers have no exponent; a thousandth of a point is finer than any printer. */
function figure(value: number): string {
  return String(Math.round(value * 1000) / 1000 || 0);
}
