/** Sentences that carry metric figures, for who wants inches, feet and pounds first: each figure in both. */
import { printFeet } from '../src/units.ts';
import type { Units } from './words.ts';

const FACTORS = { kg: [1 / 0.453_592_37, 'lb', 0], cm: [1 / 2.54, 'in', 1], m: [1 / 0.3048, 'ft', 2] } as const;
type Metric = keyof typeof FACTORS | 'mm';

/**
 * A figure or two (`0.28 to 0.40`) with its unit, and a range in brackets after it; never a part of a unit such as kg·m,
 * nor the last of several sizes (`700 × 340 mm`).
 */
const FIGURES =
  /(?<![\d.]|× )(-?\d+(?:\.\d+)?)(?: to (-?\d+(?:\.\d+)?))? (kg|cm|mm|m)(?![\p{L}·²³]| per)( \((-?[\d.]+) to (-?[\d.]+)\))?/gu;

/** `Down 3.4 cm` becomes `Down 1.3 in (3.4 cm)`, with its range `Down about 1.3 in (1.1 to 1.6; 3.4 cm)`. Metric stays as it is. */
export function tellIn(units: Units, text: string): string {
  if (units === 'metric') return text;
  return text.replace(FIGURES, (whole, first: string, second: string | undefined, metric: Metric, ...more) => {
    const [range, low, high] = more as [string | undefined, string, string];
    if (metric === 'mm') {
      const feet = [first, second].flatMap((mm) => (mm === undefined ? [] : [printFeet(Number(mm))])).join(' to ');
      return range === undefined ? `${feet} (${whole})` : whole;
    }
    const [factor, unit, digits] = FACTORS[metric];
    // A few pounds to the tenth, as everywhere: a lift limit rounded to the next whole pound would be passed.
    const other = (figure: string): string => {
      const value = Number(figure) * factor;
      return metric === 'kg' && Math.abs(value) < 100 ? String(Number(value.toFixed(1))) : value.toFixed(digits);
    };
    const figures = second === undefined ? other(first) : `${other(first)} to ${other(second)}`;
    if (range === undefined) return `${figures} ${unit} (${whole})`;
    return `${figures} ${unit} (${other(low)} to ${other(high)}; ${first} ${metric})`;
  });
}
