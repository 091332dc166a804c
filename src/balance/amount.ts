/** A figure or a range in words. */
import { fixed } from '../units.ts';
import type { Range } from './range.ts';

/** One figure where it is known, the range where it is estimated; `unit` is '' where it has none. */
export function amount(range: Range, digits: number, unit: string): string {
  const space = unit === '°' || unit === '' ? '' : ' ';
  const [low, likely, high] = [range.low, range.likely, range.high].map((value) => fixed(value, digits));
  return low === high ? `${likely}${space}${unit}` : `about ${likely}${space}${unit} (${low} to ${high})`;
}
