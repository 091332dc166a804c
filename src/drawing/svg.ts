/**
 * A scene as an SVG text. Everything that came from the user is escaped; there is no script and no style attribute, so
 * the strictest content security policy lets it through. Colours are presentation attributes: a page's style sheet
 * overrides them by `.k-<role>`, and a picture saved alone still has them.
 * The width, too: on a page it is the least at which the letters can be read.
 */
import type { Scene, Shape } from './scene.ts';
import { STYLES } from './style.ts';

export interface SvgOptions {
  /** Makes the ids of title and description unique on a page that shows several pictures. */
  id?: string;
  /** True for a file of its own: an XML head and a size in mm. */
  standalone?: boolean;
  /** How wide it is on a page, rem; default: what {@link readableWidth} asks for. */
  width?: number;
}

export function svgOf(scene: Scene, options: SvgOptions = {}): string {
  const id = (options.id ?? 'drawing').replace(/[^A-Za-z0-9_-]/g, '_');
  const size = options.standalone
    ? ` width="${figure(scene.width)}mm" height="${figure(scene.height)}mm"`
    : ` width="${figure(options.width ?? readableWidth(scene))}rem"`;
  const head = options.standalone ? '<?xml version="1.0" encoding="UTF-8"?>\n' : '';
  return (
    `${head}<svg xmlns="http://www.w3.org/2000/svg" class="k-drawing"${size} ` +
    `viewBox="0 0 ${figure(scene.width)} ${figure(scene.height)}" role="img" ` +
    `aria-labelledby="${id}-t" aria-describedby="${id}-d" font-family="DejaVu Sans Condensed, DejaVu Sans, sans-serif">` +
    `<title id="${id}-t">${escaped(scene.title)}</title><desc id="${id}-d">${escaped(scene.description)}</desc>` +
    `${scene.shapes.map(markup).join('')}</svg>`
  );
}

/** Lettering is this high on a page, rem: 11 px and a little more, larger where the browser's letters are. */
const LETTER = 0.7;
/** Letters that were shrunk further to fit, mm, do not make the whole drawing larger yet; the tables tell them too. */
const SMALLEST = 1.7;

/** How wide a scene is at least to be shown on a page, rem, so that its smallest letters can be read; 0 where it has none. */
export function readableWidth(scene: Scene): number {
  const least = Math.min(...letterSizes(scene.shapes));
  return Number.isFinite(least) ? (scene.width * LETTER) / Math.max(SMALLEST, least) : 0;
}

function letterSizes(shapes: readonly Shape[]): number[] {
  return shapes.flatMap((shape) =>
    shape.kind === 'text' ? [shape.size] : shape.kind === 'group' ? letterSizes(shape.shapes) : [],
  );
}

function markup(shape: Shape): string {
  switch (shape.kind) {
    case 'line':
      return `<line${look(shape.role)} x1="${figure(shape.from.x)}" y1="${figure(shape.from.y)}" x2="${figure(shape.to.x)}" y2="${figure(shape.to.y)}"/>`;
    case 'polyline':
    case 'polygon': {
      const points = shape.points.map((point) => `${figure(point.x)},${figure(point.y)}`).join(' ');
      const fill = shape.kind === 'polyline' ? 'none' : undefined;
      return `<${shape.kind}${look(shape.role, fill)} points="${points}"/>`;
    }
    case 'rect':
      return `<rect${look(shape.role)} x="${figure(shape.x)}" y="${figure(shape.y)}" width="${figure(shape.width)}" height="${figure(shape.height)}"/>`;
    case 'circle':
      return `<circle${look(shape.role)} cx="${figure(shape.x)}" cy="${figure(shape.y)}" r="${figure(shape.radius)}"/>`;
    case 'text': {
      const turn = shape.turn ? ` transform="rotate(${figure(shape.turn)} ${figure(shape.x)} ${figure(shape.y)})"` : '';
      const bold = shape.bold ? ' font-weight="bold"' : '';
      return (
        `<text class="k-${shape.role}" fill="${STYLES[shape.role].fill ?? 'currentColor'}" x="${figure(shape.x)}" ` +
        `y="${figure(shape.y)}" font-size="${figure(shape.size)}" text-anchor="${shape.anchor}"${bold}${turn}>` +
        `${escaped(shape.text)}</text>`
      );
    }
    case 'group': {
      const name = shape.name === undefined ? '' : ` data-name="${escaped(shape.name)}"`;
      const title = shape.title === undefined ? '' : `<title>${escaped(shape.title)}</title>`;
      const move =
        shape.at.x === 0 && shape.at.y === 0
          ? ''
          : ` transform="translate(${figure(shape.at.x)} ${figure(shape.at.y)})"`;
      return `<g${name}${move}>${title}${shape.shapes.map(markup).join('')}</g>`;
    }
  }
}

function look(role: keyof typeof STYLES, fill?: string): string {
  const style = STYLES[role];
  let attributes = ` class="k-${role}" fill="${fill ?? style.fill ?? 'none'}"`;
  if (style.stroke) attributes += ` stroke="${style.stroke}" stroke-width="${style.width}"`;
  if (style.dash) attributes += ` stroke-dasharray="${style.dash.join(' ')}"`;
  return attributes;
}

/** At most two decimals: a hundredth of a millimetre is finer than any printer. */
function figure(value: number): string {
  return String(Math.round(value * 100) / 100 || 0);
}

/** Characters that XML can not carry at all, lone surrogates among them, become the replacement character. */
function escaped(words: string): string {
  return words.replace(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`).replace(NOT_XML, '\ufffd');
}

const NOT_XML = /[^\t\n\r\u{20}-\u{d7ff}\u{e000}-\u{fffd}\u{10000}-\u{10ffff}]/gu;
