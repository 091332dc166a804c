/**
 * Words laid out from pairs of letters. Of a word in which no letter joins another or takes its place, each letter stands
 * where it stands after the one before, whatever the rest: so pairs are asked of the library, each once, and not every
 * word, which takes five times as long. All other words are left to it.
 */
import type { Font, Glyph, GlyphPosition, GlyphRun } from 'fontkit';

/** Words of which each UTF-16 unit is a character. */
const WHOLE = /^[^\ud800-\udfff]+$/;

/** The font with its `layout` made quick where no features are asked for. The runs have the glyphs and positions that they had. */
export function pairedFont(font: Font): Font {
  const layout = font.layout.bind(font);
  const glyphs = new Map<string, Glyph | null>();
  const advances = new Map<string, number | null>();

  /** The glyph of a character, where it is the same in a word. */
  function glyphOf(character: string): Glyph | null {
    const known = glyphs.get(character);
    if (known !== undefined) return known;
    const run = layout(character);
    const plain = font.glyphForCodePoint(character.codePointAt(0)!);
    const glyph = isPlain(run, [plain]) && run.positions[0]!.xAdvance === plain.advanceWidth ? run.glyphs[0]! : null;
    glyphs.set(character, glyph);
    return glyph;
  }

  /** How far the second of two characters stands from the first; null where the pair is anything but the two side by side. */
  function advanceOf(pair: string): number | null {
    const known = advances.get(pair);
    if (known !== undefined) return known;
    const own = [...pair].map(glyphOf);
    const run = layout(pair);
    const [first, second] = run.positions;
    const apart = own.every((glyph) => glyph !== null) && isPlain(run, own);
    const advance = apart && second!.xAdvance === own[1]!.advanceWidth ? first!.xAdvance : null;
    advances.set(pair, advance);
    return advance;
  }

  font.layout = (words, features, ...others) => {
    const whole = () => layout(words, features, ...others);
    if (features !== undefined || others.length > 0 || !WHOLE.test(words)) return whole();
    const run = new Run();
    for (let i = 0; i < words.length; i++) {
      const glyph = glyphOf(words[i]!);
      const advance = i === words.length - 1 ? glyph?.advanceWidth : advanceOf(words.slice(i, i + 2));
      if (!glyph || advance === null || advance === undefined) return whole();
      run.glyphs.push(glyph);
      run.positions.push({ xAdvance: advance, yAdvance: 0, xOffset: 0, yOffset: 0 });
    }
    return run as unknown as GlyphRun;
  };
  return font;
}

/** True of a run of just these glyphs, none of them out of the line. */
function isPlain({ glyphs, positions }: GlyphRun, own: readonly Glyph[]): boolean {
  return (
    glyphs.length === own.length &&
    glyphs.every((glyph, i) => glyph.id === own[i]!.id) &&
    positions.every(({ yAdvance, xOffset, yOffset }) => yAdvance === 0 && xOffset === 0 && yOffset === 0)
  );
}

/** What is used of a run. Whoever has it scales its positions, and its width with them. */
class Run {
  readonly glyphs: Glyph[] = [];
  readonly positions: Omit<GlyphPosition, 'advanceWidth'>[] = [];

  get advanceWidth(): number {
    return this.positions.reduce((sum, { xAdvance }) => sum + xAdvance, 0);
  }
}
