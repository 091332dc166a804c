/** Sentences that carry metric figures, for who wants inches, feet and pounds first: each figure in both. */
import { type OtherOf, printFeet, printOther, printPoundsFinely, type Units } from '../src/units.ts';

const N = String.raw`-?\d+(?:\.\d+)?`;
/** Between figures of one unit; `and` only of two places, `at 200 and 580 mm`: elsewhere the first may count something. */
const BETWEEN = String.raw`(?: to | × |(?<=\b(?:at|between) ${N}) and )`;
const UNIT = 'kg per cm|kg·m|kg/m|kg|kN|cm²|m²|cm|mm|m';

/**
 * Figures with their unit (`0.28 to 0.40 m`, `700 × 340 mm`), and a range in brackets after them; never a part of a unit
 * such as kg/m³, nor one that is told in other units already.
 */
const FIGURES = new RegExp(
  String.raw`(?<![\d.,\u202f]|(?:lbf?|lb·ft|lb/ft|ft²?|in²?|") \((?:[\d.]+ (?:×|to|and) )*)(${N}(?:${BETWEEN}${N})*) (${UNIT})(?![\p{L}·²³/]| per)( \((${N}) to (${N})\))?`,
  'gu',
);

/** The section of a flat bar, which has no unit of its own: `40 × 10 flat`. */
const FLAT = new RegExp(String.raw`(?<![\d.]|× )(${N} × ${N}) (?=flat\b|on edge\b)`, 'g');

/**
 * `Down 3.4 cm` becomes `Down 1.3 in (3.4 cm)`, with its range `Down about 1.3 in (1.1 to 1.6; 3.4 cm)`. Metric stays as it
 * is. Which of them is a limit no sentence tells, so that they are told finely: inches to the 32nd, pounds to a hundredth
 * below a hundred, to a tenth above.
 */
export function tellIn(units: Units, text: string): string {
  if (units === 'metric') return text;
  // What is quoted is a name, or what somebody typed.
  return text
    .split(/(“[^”]*”)/)
    .map((part, i) => (i % 2 === 1 ? part : toldIn(units, part)))
    .join('');
}

function toldIn(units: Units, text: string): string {
  const told = text.replace(FIGURES, (whole, figures: string, unit: OtherOf, ...more) => {
    const [range, low, high] = more as [string | undefined, string, string];
    // Only lengths are multiplied to a size: `2 × 5.00 kN` are two of them.
    const times = unit === 'mm' || unit === 'm' ? -1 : figures.lastIndexOf(' × ');
    if (times >= 0) return `${figures.slice(0, times)} × ${toldIn(units, whole.slice(times + 3))}`;
    const other = otherFigures(figures, unit);
    if (range === undefined) return `${other} (${whole})`;
    return `${other} (${otherFigures(`${low} to ${high}`, unit).replace(/ [^\d"']+$/, '')}; ${figures} ${unit})`;
  });
  return told.replace(FLAT, (_, sizes: string) => `${otherFigures(sizes, 'mm')} (${sizes} mm) `);
}

/** So that no line ends within `1' 6 3/4"`: its beginning would be read as another length. */
export function unbroken(feet: string): string {
  return feet.replaceAll(' ', '\u00a0');
}

/** `0.92 to 1.31 ft`: the unit once, behind the last; inches have theirs at each. */
function otherFigures(figures: string, unit: OtherOf): string {
  const parts = figures.split(/( to | × | and )/);
  const last = parts.length - 1;
  return parts.map((part, i) => (i % 2 === 1 ? part : otherFigure(part, unit, i < last))).join('');
}

function otherFigure(figure: string, unit: OtherOf, bare: boolean): string {
  const value = Number(figure);
  const decimals = figure.split('.')[1]?.length ?? 0;
  if (unit === 'mm') return unbroken(printFeet(value, 32));
  const other =
    unit === 'kg' ? printPoundsFinely(value) : printOther(value, unit, 'nearest', unit === 'm' ? decimals : 0);
  return bare ? other.slice(0, other.indexOf(' ')) : other;
}
