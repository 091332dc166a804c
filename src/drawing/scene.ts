/**
 * A drawing as plain data: shapes in millimetres as they are to appear on paper, x to the right and y downward from the
 * upper left corner. What a thing looks like follows from its role (`style.ts`), never from a colour named here, so that
 * the same scene becomes SVG for a page (`svg.ts`) and lines in a PDF (the server's `paper/pdfScene.ts`).
 */

export interface Point {
  x: number;
  y: number;
}

/** What a shape stands for. `style.ts` says how each is drawn. */
export type Role =
  | 'void'
  | 'clearance'
  | 'keepOut'
  | 'opening'
  | 'bearer'
  | 'drain'
  | 'doubt'
  | 'halo'
  | 'strap'
  | 'unsettled'
  | 'hatch'
  | 'dunnage'
  | 'chock'
  | 'bundle'
  | 'marked'
  | 'plate'
  | 'darkPlate'
  | 'faint'
  | 'steel'
  | 'hollow'
  | 'cutEnd'
  | 'joint'
  | 'spoiled'
  | 'keep'
  | 'scrap'
  | 'kerf'
  | 'dimension'
  | 'guide'
  | 'scaleBar'
  | 'ink'
  | 'label'
  | 'labelOnDark'
  | 'note';

export interface Line {
  kind: 'line';
  role: Role;
  from: Point;
  to: Point;
}

export interface Polyline {
  kind: 'polyline';
  role: Role;
  points: Point[];
}

export interface Polygon {
  kind: 'polygon';
  role: Role;
  points: Point[];
}

export interface Rect {
  kind: 'rect';
  role: Role;
  x: number;
  y: number;
  width: number;
  height: number;
}

export interface Circle {
  kind: 'circle';
  role: Role;
  x: number;
  y: number;
  radius: number;
}

/** One line of text; `y` is its base line, `size` its em height in mm, `turn` degrees clockwise about its anchor point. */
export interface Text {
  kind: 'text';
  role: Role;
  x: number;
  y: number;
  text: string;
  size: number;
  anchor: 'start' | 'middle' | 'end';
  bold?: boolean;
  turn?: number;
}

/** Shapes moved together by `at`. `name` says what they are (a bundle's id, a bar's mark); `title` is told to who hovers. */
export interface Group {
  kind: 'group';
  at: Point;
  shapes: Shape[];
  name?: string;
  title?: string;
}

export type Shape = Line | Polyline | Polygon | Rect | Circle | Text | Group;

export interface Scene {
  width: number;
  height: number;
  /** Short name of the picture. */
  title: string;
  /** The picture in words, for who can not see it. */
  description: string;
  shapes: Shape[];
}

export function line(role: Role, x1: number, y1: number, x2: number, y2: number): Line {
  return { kind: 'line', role, from: { x: x1, y: y1 }, to: { x: x2, y: y2 } };
}

export function rect(role: Role, x: number, y: number, width: number, height: number): Rect {
  return { kind: 'rect', role, x, y, width, height };
}

export function circle(role: Role, x: number, y: number, radius: number): Circle {
  return { kind: 'circle', role, x, y, radius };
}

export function polygon(role: Role, points: Point[]): Polygon {
  return { kind: 'polygon', role, points };
}

export function polyline(role: Role, points: Point[]): Polyline {
  return { kind: 'polyline', role, points };
}

export function group(at: Point, shapes: Shape[], name?: string, title?: string): Group {
  return {
    kind: 'group',
    at,
    shapes,
    ...(name === undefined ? {} : { name }),
    ...(title === undefined ? {} : { title }),
  };
}

/** Text standing on the base line `y`. */
export function text(
  role: Role,
  x: number,
  y: number,
  words: string,
  size: number,
  anchor: Text['anchor'] = 'start',
  bold = false,
): Text {
  return { kind: 'text', role, x, y, text: words, size, anchor, ...(bold ? { bold } : {}) };
}

/** Text whose capitals and figures are centred on (`x`, `y`): half their height, 0.73 em, lies below the middle. */
export function centredText(role: Role, x: number, y: number, words: string, size: number, bold = false): Text {
  return text(role, x, y + 0.365 * size, words, size, 'middle', bold);
}
