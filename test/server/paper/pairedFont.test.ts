import { createRequire } from 'node:module';
import { type Font, type GlyphRun, openSync } from 'fontkit';
import { expect, test } from 'vitest';
import { pairedFont } from '../../../server/paper/pairedFont.ts';
import { Dice } from '../../../src/plan/dice.ts';

const require = createRequire(import.meta.url);
const FILES = ['DejaVuSansCondensed', 'DejaVuSansCondensed-Bold'];
const open = (file: string): Font => openSync(require.resolve(`dejavu-fonts-ttf/ttf/${file}.ttf`)) as Font;

const LATIN = charactersOf(0x20, 0x7e);
/** Letters with marks, Greek, Cyrillic, Hebrew, Arabic, signs, joiners, marks that go over the letter before, and half an emoji. */
const ALL = [
  ...LATIN,
  ...charactersOf(0xa1, 0x24f),
  ...'ΑΒΓαβгджאבגדابتपफ–—…×·→’“″□±≤÷',
  '\u0301',
  '\u0308',
  '\u200d',
  '\ud83d',
];

function charactersOf(from: number, to: number): string[] {
  return Array.from({ length: to - from + 1 }, (_, i) => String.fromCharCode(from + i));
}

function told({ glyphs, positions, advanceWidth }: GlyphRun) {
  const at = positions.map(({ xAdvance, yAdvance, xOffset, yOffset }) => [xAdvance, yAdvance, xOffset, yOffset]);
  return { glyphs: glyphs.map(({ id }) => id), at, advanceWidth };
}

test.each(FILES)('%s: words laid out by pairs are as the library lays them out', (file) => {
  const whole = open(file);
  const paired = pairedFont(open(file));
  const dice = new Dice(7);
  for (let i = 0; i < 3000; i++) {
    const letters = i % 3 === 0 ? ALL : LATIN;
    const word = Array.from({ length: dice.below(8) }, () => letters[dice.below(letters.length)]).join('');
    expect(told(paired.layout(word)), JSON.stringify(word)).toEqual(told(whole.layout(word)));
  }
  for (const word of ['AVATAR', 'Total', 'fine', 'office', 'flat', 'e\u0301', '-10 שלום', '']) {
    expect(told(paired.layout(word)), word).toEqual(told(whole.layout(word)));
  }
});

test('a pair is asked of the library once, however many words it stands in', () => {
  const font = open(FILES[0]!);
  let asked = 0;
  const { layout } = font;
  font.layout = (...words) => {
    asked++;
    return layout.apply(font, words);
  };
  const paired = pairedFont(font);
  for (let i = 0; i < 500; i++) paired.layout(`V${i}-${i % 7}`);
  const [characters, pairs] = [12, 10 + 10 * 10 + 10 + 7];
  expect(asked).toBeLessThanOrEqual(characters + pairs);
});

test('features that are asked for are left to the library', () => {
  const plain = told(open(FILES[0]!).layout('AVA', { kern: false }));
  expect(told(pairedFont(open(FILES[0]!)).layout('AVA', { kern: false }))).toEqual(plain);
  expect(plain.advanceWidth).toBeGreaterThan(told(open(FILES[0]!).layout('AVA')).advanceWidth);
});
