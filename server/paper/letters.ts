/**
 * Words on a PDF page: measured with the very font, broken into lines, set on a base line. Sizes and places in points
 * (1/72 inch) from the upper left corner of the page. A character that the font lacks is printed as □.
 */
import { createRequire } from 'node:module';
import { type Font, openSync } from 'fontkit';
import { pairedFont } from './pairedFont.ts';

export type Doc = PDFKit.PDFDocument;

const require = createRequire(import.meta.url);
const FONT_FILES = {
  plain: require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf'),
  bold: require.resolve('dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf'),
} as const;
const MISSING = '□';
const ELLIPSIS = '…';
/** Where a line may be broken: not within `1' 6 3/4"`, of which the beginning would be read as another length. */
export const BREAK = /(?<!\d')(?!(?<=\d)\s+\d+\/\d+")\s+/u;

/** Characters kept from the end where words must be shortened. */
const TAIL = 5;
/** Of the em: the distance from one base line to the next. */
export const LEADING = 1.22;

export type Weight = keyof typeof FONT_FILES;

/** Fonts read so far: reading one takes as long as setting a page, and documents may share it. */
const FONTS: Partial<Record<Weight, Font>> = {};

function fontOf(weight: Weight): Font {
  FONTS[weight] ??= pairedFont(openSync(FONT_FILES[weight]) as Font);
  return FONTS[weight];
}

/** Reads the fonts and sets what papers are full of once, to nowhere: for whoever has a moment before papers are wanted. */
export function readFonts(): void {
  for (const weight of ['plain', 'bold'] as const)
    fontOf(weight).layout('0123456789 ABCDEFGHIJKLMNOPQRSTUVWXYZ abcdefghijklmnopqrstuvwxyz,.;:–×');
}

export interface Lettering {
  size: number;
  weight?: Weight;
  colour?: string;
  align?: 'left' | 'centre' | 'right';
}

/** A font as pdfkit holds it: what of it is used here. */
interface OpenFont {
  widthOfString(text: string, size: number, features?: []): number;
  layout(text: string, features?: [], onlyWidth?: boolean): unknown;
  font: { hasGlyphForCodePoint(codePoint: number): boolean };
  layoutCache: Record<string, unknown>;
}

/** What is known of words so far, for all documents; begun anew where it has grown to so many. */
const MOST_WORDS = 20_000;
const PRINTABLE = new Map<string, string>();
const WIDTHS: Record<Weight, Map<string, number>> = { plain: new Map(), bold: new Map() };
/** What pdfkit keeps of the words that a document sets, and of lines of them: the places of their glyphs, the same in every document. */
const LAYOUTS: Record<Weight, Record<string, unknown>> = { plain: Object.create(null), bold: Object.create(null) };
const LINES: Record<Weight, Map<string, unknown>> = { plain: new Map(), bold: new Map() };

/** Letters that are read from right to left, with the marks on them. */
const FROM_RIGHT = String.raw`[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}]\p{Mn}*`;
const STRETCHES = new RegExp(`(?:${FROM_RIGHT})+(?:\\s+(?:${FROM_RIGHT})+)*|(?:(?!${FROM_RIGHT})[^])+`, 'gu');
const ANY_FROM_RIGHT = new RegExp(FROM_RIGHT, 'u');

/**
 * A line in stretches that are read one way each, in the order in which they are set from the left: words from right to
 * left in turned order, while figures and marks keep their own, so that `-10` after such a word stays `-10`.
 */
export function stretchesOf(shown: string): string[] {
  if (!ANY_FROM_RIGHT.test(shown)) return [shown];
  // A space beside such a word would be turned with it, to its other side: it is a stretch of its own.
  return (shown.match(STRETCHES) ?? []).flatMap((stretch) =>
    ANY_FROM_RIGHT.test(stretch) ? stretch.split(/(\s+)/u).reverse() : [stretch],
  );
}

function remember<V>(known: Map<string, V>, words: string, what: V): V {
  if (known.size >= MOST_WORDS) known.clear();
  known.set(words, what);
  return what;
}

/** Measures and sets words on one document. */
export class Letters {
  readonly #doc: Doc;
  readonly #fonts: Record<Weight, OpenFont>;

  /** `fonts` are those of another document, where these letters are only measured. */
  constructor(doc: Doc, fonts?: Record<Weight, OpenFont>) {
    this.#doc = doc;
    const open = (weight: Weight): OpenFont => {
      // pdfkit takes an open font, which its types do not say.
      doc.registerFont(weight, fontOf(weight) as unknown as string);
      doc.font(weight);
      const font = (doc as unknown as { _font: OpenFont })._font;
      if (Object.keys(LAYOUTS[weight]).length >= MOST_WORDS) LAYOUTS[weight] = Object.create(null);
      font.layoutCache = LAYOUTS[weight];
      // A line that is set is asked for twice, and most lines stand on several papers.
      const layout = font.layout.bind(font);
      font.layout = (line, features, onlyWidth) => {
        const known = features ? undefined : LINES[weight].get(line);
        if (known !== undefined) return known;
        const own = layout(line, features, onlyWidth);
        return features || onlyWidth ? own : remember(LINES[weight], line, own);
      };
      return font;
    };
    this.#fonts = fonts ?? { plain: open('plain'), bold: open('bold') };
  }

  /** The same letters, set on `doc`, which must not be a file: it has no fonts of its own. */
  onto(doc: Doc): Letters {
    return new Letters(doc, this.#fonts);
  }

  /** The words with every character that has no glyph replaced, line breaks and other controls as spaces. */
  printable(words: string): string {
    const known = PRINTABLE.get(words);
    if (known !== undefined) return known;
    const font = this.#fonts.plain.font;
    const shown = (character: string): string => {
      if (/\p{Mn}|\p{Cf}/u.test(character)) {
        return font.hasGlyphForCodePoint(character.codePointAt(0)!) ? character : '';
      }
      if (/[\p{Cc}\p{Zl}\p{Zp}]/u.test(character)) return ' ';
      return font.hasGlyphForCodePoint(character.codePointAt(0)!) ? character : MISSING;
    };
    return remember(PRINTABLE, words, [...words.normalize('NFC')].map(shown).join(''));
  }

  /** Measured word by word, as the words are also set: nothing is kerned over a space. */
  width(words: string, size: number, weight: Weight = 'plain'): number {
    return size * this.#width(this.printable(words), weight);
  }

  /** The width of printable words at size 1. */
  #width(shown: string, weight: Weight): number {
    return stretchesOf(shown).reduce((sum, stretch) => {
      const words = stretch.split(' ');
      const last = words.pop()!;
      return words.reduce(
        (all, word) => all + this.#wordWidth(`${word} `, weight),
        sum + this.#wordWidth(last, weight),
      );
    }, 0);
  }

  /** The width of one printable word, or of one and the space after it, at size 1. */
  #wordWidth(word: string, weight: Weight): number {
    if (word === '') return 0;
    return WIDTHS[weight].get(word) ?? remember(WIDTHS[weight], word, this.#fonts[weight].widthOfString(word, 1));
  }

  /** Sets one line on the base line `y`; `x` is its left, middle or right by `align`. Never breaks or cuts. */
  set(words: string, x: number, y: number, lettering: Lettering): void {
    const { size, weight = 'plain', colour = '#1c1a17', align = 'left' } = lettering;
    const shown = this.printable(words);
    if (shown.trim() === '') return;
    const back = align === 'left' ? 0 : this.width(words, size, weight) * (align === 'right' ? 1 : 0.5);
    this.#doc.font(weight).fontSize(size).fillColor(colour);
    let at = x - back;
    for (const stretch of stretchesOf(shown)) {
      if (stretch.trim() !== '') this.#doc.text(stretch, at, y, { lineBreak: false, baseline: 'alphabetic' });
      at += size * this.#width(stretch, weight);
    }
  }

  /** Lines no wider than `width`: broken at spaces, and inside a word where it alone is wider. */
  lines(words: string, width: number, size: number, weight: Weight = 'plain'): string[] {
    const room = width / size;
    const lines: string[] = [];
    let line = '';
    // The width of the line and a space after it.
    let reach = 0;
    for (const word of this.printable(words).split(BREAK)) {
      if (word === '') continue;
      const own = this.#wordWidth(word, weight);
      if (line !== '' && reach + own > room) {
        lines.push(line);
        line = '';
        reach = 0;
      }
      if (own <= room) {
        line = line === '' ? word : `${line} ${word}`;
        reach += this.#wordWidth(`${word} `, weight);
        continue;
      }
      for (const character of word) {
        const step = this.#wordWidth(character, weight);
        if (line !== '' && reach + step > room) {
          lines.push(line);
          line = '';
          reach = 0;
        }
        line += character;
        reach += step;
      }
      reach += this.#wordWidth(' ', weight);
    }
    if (line !== '') lines.push(line);
    return lines;
  }

  /** Sets lines from the top `y` downward; returns the `y` below the last. */
  block(lines: string[], x: number, y: number, lettering: Lettering): number {
    const step = lettering.size * LEADING;
    lines.forEach((line, i) => {
      this.set(line, x, y + lettering.size * 0.95 + i * step, lettering);
    });
    return y + lines.length * step;
  }

  /** Wraps and sets a paragraph; returns the `y` below it. */
  paragraph(words: string, x: number, y: number, width: number, lettering: Lettering): number {
    const left = x + (lettering.align === 'right' ? width : lettering.align === 'centre' ? width / 2 : 0);
    return this.block(this.lines(words, width, lettering.size, lettering.weight), left, y, lettering);
  }

  /**
   * The words in a box, as large as fits from `size` down to `least`, over as many lines as its height allows; where not
   * even the least size fits, an ellipsis stands for what is left out before the end.
   */
  fit(
    words: string,
    width: number,
    height: number,
    size: number,
    least: number,
    weight: Weight = 'plain',
  ): FittedWords {
    const parts = this.printable(words).split(BREAK);
    const longest = Math.max(...parts.map((word) => this.#wordWidth(word, weight)));
    for (let at = size; at > least; at = Math.max(least, at * 0.93)) {
      const lines = this.lines(words, width, at, weight);
      if (lines.length * at * LEADING <= height + 0.01 && longest * at <= width) return { lines, size: at };
    }
    const lines = this.lines(words, width, least, weight);
    const room = Math.max(1, Math.floor(height / (least * LEADING)));
    if (lines.length <= room) return { lines, size: least };
    return {
      lines: [...lines.slice(0, room - 1), this.#shorten(lines.slice(room - 1), width, least, weight)],
      size: least,
    };
  }

  /** One line of the beginning and the very end of what is left: the end of a mark is what tells it from its like. */
  #shorten(left: string[], width: number, size: number, weight: Weight): string {
    const end = [...left.at(-1)!].slice(-TAIL).join('');
    const start = [...left[0]!];
    while (start.length > 0 && this.width(start.join('') + ELLIPSIS + end, size, weight) > width) start.pop();
    return start.join('') + ELLIPSIS + end;
  }

  /** {@link fit} and set, the lines from the top `y`; returns the `y` below them. */
  fitted(
    words: string,
    x: number,
    y: number,
    box: { width: number; height: number; least: number },
    lettering: Lettering,
  ): number {
    const { lines, size } = this.fit(words, box.width, box.height, lettering.size, box.least, lettering.weight);
    const left = x + (lettering.align === 'right' ? box.width : lettering.align === 'centre' ? box.width / 2 : 0);
    return this.block(lines, left, y, { ...lettering, size });
  }
}

export interface FittedWords {
  lines: string[];
  size: number;
}
