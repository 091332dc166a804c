/** A list as people write it: `1 to port`, `0.5° starboard`, `0`. In degrees, to starboard positive. */
import { parseNumber } from '../../src/units.ts';

const WRITTEN = /^(.*?)\s*(?:°|deg\.?|degrees?)?\s*(?:to\s+)?(port|starboard|stbd\.?)$/i;

/** Null where the text is none. A bare number is to starboard, or with a minus to port; a side and a minus is neither. */
export function parseList(text: string): number | null {
  const [, figure, side] = WRITTEN.exec(text.trim()) ?? [];
  if (figure === undefined || side === undefined) {
    return parseNumber(text.trim().replace(/\s*(?:°|deg\.?|degrees?)$/i, ''));
  }
  const size = parseNumber(figure);
  if (size === null || size < 0) return null;
  return side.toLowerCase() === 'port' ? 0 - size : size;
}

/** The exact inverse of {@link parseList}, with the side in words. */
export function printList(degrees: number): string {
  return degrees === 0 ? '0' : `${Math.abs(degrees)} to ${degrees < 0 ? 'port' : 'starboard'}`;
}
