/** A list as people write it: `1 to port`, `0.5° starboard`, `0`. In degrees, to starboard positive. */
import { parseNumber } from '../../src/units.ts';

const SIDE = /(?:\bto\s+)?(port|starboard|stbd\.?)$/i;

/**
 * What is written with its side in words: `1 to port`. Null where the text is none. What `read` reads alone is to starboard,
 * or with a minus to port; a side and a minus is neither.
 */
export function parseSided(text: string, read: (figure: string) => number | null): number | null {
  const typed = text.trim();
  const side = SIDE.exec(typed);
  if (!side) return read(typed);
  const size = read(typed.slice(0, side.index).trim());
  if (size === null || size < 0) return null;
  return side[1]!.toLowerCase() === 'port' ? 0 - size : size;
}

/** Null where the text is none. */
export function parseList(text: string): number | null {
  return parseSided(text, (figure) => parseNumber(figure.replace(/\s*(?:°|deg\.?|degrees?)$/i, '')));
}

/** The exact inverse of {@link parseList}, with the side in words. */
export function printList(degrees: number): string {
  return degrees === 0 ? '0' : `${Math.abs(degrees)} to ${degrees < 0 ? 'port' : 'starboard'}`;
}
