/**
 * Lengths and masses as people write them: `1280`, `1.28 m`, `128 cm`, `4' 2 1/2"`, `4'-2 1/2"`, `4ft 2.5in`, `7-1/4"`,
 * `31 lb`, `6,5 kg`.
 *
 * A bare number is in the unit that the field asks for, but for a fraction of a length (`50 1/2`): nobody measures in
 * halves of a millimetre, so it lacks its unit and is refused. Inches that make a foot by themselves beside feet are a
 * slip (`9' 14"`), and refused. A decimal comma is read as a decimal point, but one with
 * three figures after it (`1,280`, `1,400 lb`) could be either a thousand or a little over one: it is not guessed at, it
 * is refused, unless the unit is one of which nobody has a thousand ({@link LARGE}). Everything is exact to the rounding
 * stated.
 */

const MM: Record<string, number> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  inch: 25.4,
  inches: 25.4,
  '"': 25.4,
  ft: 304.8,
  foot: 304.8,
  feet: 304.8,
  "'": 304.8,
};

const KG_PER_POUND = 0.45359237;

const KG: Record<string, number> = {
  kg: 1,
  g: 0.001,
  t: 1000,
  tonne: 1000,
  tonnes: 1000,
  lb: KG_PER_POUND,
  lbs: KG_PER_POUND,
  oz: KG_PER_POUND / 16,
};

/** Forces in kN; labels of straps have daN, or pounds. */
const KN_PER_POUND = (KG_PER_POUND * 9.80665) / 1000;
const KN: Record<string, number> = {
  kn: 1,
  dan: 0.01,
  n: 0.001,
  lbf: KN_PER_POUND,
  lb: KN_PER_POUND,
  lbs: KN_PER_POUND,
};

const KG_PER_METRE: Record<string, number> = { 'kg/m': 1, 'g/m': 0.001, 'lb/ft': KG_PER_POUND / 0.3048 };

/** Units so large that `5,480 m` can only be a decimal comma. */
const LARGE: ReadonlySet<string> = new Set(['m', 't', 'tonne', 'tonnes', 'kn', ...Object.keys(KG_PER_METRE)]);

/** Beside feet inches stay under so many. */
const INCHES_IN_A_FOOT = 12;

/** After these, inches may follow behind a dash: `4'-2 1/2"`. */
const FEET: ReadonlySet<string | undefined> = new Set(['ft', 'foot', 'feet', "'"]);

const FRACTIONS: Record<string, string> = {
  '½': ' 1/2',
  '¼': ' 1/4',
  '¾': ' 3/4',
  '⅛': ' 1/8',
  '⅜': ' 3/8',
  '⅝': ' 5/8',
  '⅞': ' 7/8',
};

/** A length in mm, to 0.01 mm; null where the text is not one. `bare` is the unit of a number without one. */
export function parseLength(text: string, bare: 'mm' | 'm' = 'mm'): number | null {
  return parseSum(text, MM, bare, 0.01);
}

/** A mass in kg, to a gram; null where the text is not one. */
export function parseMass(text: string): number | null {
  return parseSum(text, KG, 'kg', 0.001);
}

/** A mass per metre in kg/m, to a gram a metre; null where the text is not one. */
export function parseMassPerMetre(text: string): number | null {
  return parseSum(text, KG_PER_METRE, 'kg/m', 0.001);
}

/** A force in kN, to a newton, from `5`, `5 kN`, `500 daN`, `5000 N` or `1100 lbf`; null where the text is not one. */
export function parseForce(text: string): number | null {
  return parseSum(text, KN, 'kn', 0.001);
}

/** A plain number; null where the text is not one, or could be read two ways. */
export function parseNumber(text: string): number | null {
  return readNumber(tidy(text));
}

/** What a text with one comma before three figures could mean, without the comma and with a point: null for any other. */
export function twoReadings(text: string): [string, string] | null {
  const [, before, after, unit = ''] = /^\s*([-+−]?[1-9]\d{0,2}),(\d{3})(?!\d)\s*(\D*?)\s*$/.exec(text) ?? [];
  if (before === undefined || LARGE.has(unit.toLowerCase())) return null;
  const behind = unit === '' || /^["'′″]/.test(unit) ? unit : ` ${unit}`;
  return [`${before}${after}${behind}`, `${before}.${after}${behind}`];
}

/** True of a fraction with no unit behind it, `50 1/2`: of a length it is refused. */
export function isBareFraction(text: string): boolean {
  return /^[-+]?(\d+(?: | ?- ?))?\d+\/\d+$/.test(tidy(text));
}

/** True of a length that is refused for its inches alone, which make a foot or more beside feet: `9' 14"`. */
export function hasFootOfInches(text: string): boolean {
  return parseLength(text) === null && parseSum(text, MM, 'mm', 0.01, Number.POSITIVE_INFINITY) !== null;
}

/** A number that was reckoned, without the dust of reckoning: 169.86, and not 169.85999999999999. */
export function withoutDust(value: number): number {
  return Number(value.toPrecision(12));
}

const POWERS = [1, 10, 100, 1000, 10_000];

/**
 * With so many decimals, at most 4: halves go away from nought as they are read, and nought has no sign; up and down are of
 * the size. (`toFixed` goes by the number in the machine: it makes 113.3 of 113.35, and a sum that ends a hair under the
 * half goes down.)
 */
export function fixed(value: number, decimals: number, towards: Towards = 'nearest'): string {
  const power = POWERS[decimals]!;
  const size = Math.abs(value) * power;
  const text = ((towards === 'nearest' ? Math.round(size + 1e-7) : WHOLE[towards](size)) / power).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `-${text}` : text;
}

/** How a job's lengths and masses are shown: in metric, or with feet, inches and pounds first. */
export type Units = 'metric' | 'inches';

/** Where a figure goes that is not whole: a limit must not be passed by its rounding, a load not made less by it. */
export type Towards = 'nearest' | 'up' | 'down';

/** Ties at halves go up; a whole number with the dust of reckoning on it stays what it is. */
const WHOLE: Record<Towards, (value: number) => number> = {
  nearest: Math.round,
  up: (value) => Math.ceil(value - 1e-6),
  down: (value) => Math.floor(value + 1e-6),
};

/** Feet and inches to a sixteenth, or 32nd: `4' 2 3/8"`; under a foot inches alone. Up and down are of the size. */
export function printFeet(mm: number, parts: 16 | 32 = 16, towards: Towards = 'nearest'): string {
  const all = WHOLE[towards](Math.abs(mm) / (25.4 / parts));
  const feet = Math.floor(all / (12 * parts));
  const inches = Math.floor((all % (12 * parts)) / parts);
  const rest = all % parts;
  const divisor = [16, 8, 4, 2].find((size) => rest % size === 0) ?? 1;
  const fraction = rest === 0 ? '' : `${rest / divisor}/${parts / divisor}`;
  const small = [inches > 0 || fraction === '' ? String(inches) : '', fraction].filter((part) => part !== '').join(' ');
  const sign = mm < 0 && all > 0 ? '-' : '';
  return feet === 0 ? `${sign}${small}"` : `${sign}${feet}' ${small}"`;
}

/** Pounds, to a tenth below a hundred. */
export function printPounds(kg: number, towards: Towards = 'nearest'): string {
  const pounds = kg / KG_PER_POUND;
  return `${roundTo(pounds, Math.abs(pounds) < 100 ? 1 : 0, towards)} lb`;
}

/** Pounds to a hundredth below a hundred, above to a tenth: as fine as a limit must be told where nobody knows it for one. */
export function printPoundsFinely(kg: number): string {
  const pounds = kg / KG_PER_POUND;
  return `${roundTo(pounds, Math.abs(pounds) < 100 ? 2 : 1, 'nearest')} lb`;
}

/** What a metric unit is told in besides, how many of those it is, and the decimals of a figure from ten, and from a hundred, on. */
const OTHERS = {
  cm: ['in', 1 / 2.54, 1, 1],
  m: ['ft', 1 / 0.3048, 2, 2],
  'kg/m': ['lb/ft', 0.3048 / KG_PER_POUND, 2, 1],
  kg·m: ['lb·ft', 1 / 0.3048 / KG_PER_POUND, 1, 0],
  'kg per cm': ['lb per in', 2.54 / KG_PER_POUND, 0, 0],
  kN: ['lbf', 1000 / 9.80665 / KG_PER_POUND, 0, 0],
  'm²': ['ft²', 1 / 0.3048 ** 2, 1, 0],
  'cm²': ['in²', 1 / 2.54 ** 2, 1, 0],
} as const;

/** The metric units that {@link printOther} knows. */
export type OtherOf = keyof typeof OTHERS | 'mm' | 'kg';

/**
 * A metric figure in the units of feet and pounds: `13.1 lb`, `562 lbf`, `9.35 ft`. `decimals` are the fewest that it is
 * told with, where its own rounding is finer than usual.
 */
export function printOther(value: number, unit: OtherOf, towards: Towards = 'nearest', decimals = 0): string {
  if (unit === 'mm') return printFeet(value, 16, towards);
  if (unit === 'kg') return printPounds(value, towards);
  const [name, factor, few, many] = OTHERS[unit];
  const other = value * factor;
  // What is not nothing is not told as nothing: 0.1 cm as 0.04 in.
  const little = unit === 'cm' && value !== 0 && Math.abs(other) < 0.05 ? 2 : 0;
  const usual = Math.max(little, Math.abs(other) < 100 ? few : many);
  return `${roundTo(other, Math.max(usual, decimals), towards).toFixed(Math.max(usual, decimals))} ${name}`;
}

function roundTo(value: number, decimals: number, towards: Towards): number {
  const power = POWERS[decimals]!;
  const size = WHOLE[towards](Math.abs(value) * power) / power;
  return value < 0 && size !== 0 ? -size : size;
}

/** A number (whole, decimal, or a fraction, mixed or not), then its unit if any. */
const QUANTITY = /\s*(\d+(?: | ?- ?)\d+\/\d+|\d+\/\d+|\d+[.,]?\d*|[.,]\d+)\s*([a-z]+(?:\/[a-z]+)?|["'])?/y;

/**
 * One quantity, or several of falling unit one after the other (feet and inches); the sign of the first holds for all.
 * A last part without a unit is inches, which beside feet are fewer than `inchesUnder`.
 */
function parseSum(
  text: string,
  units: Record<string, number>,
  bare: string,
  step: number,
  inchesUnder = INCHES_IN_A_FOOT,
): number | null {
  const written = tidy(text).toLowerCase();
  const sign = written.startsWith('-') ? -1 : 1;
  const unsigned = written.replace(/^[-+]\s*/, '');
  const pattern = new RegExp(QUANTITY);
  let sum = 0;
  let last = Number.POSITIVE_INFINITY;
  let before: string | undefined;
  while (pattern.lastIndex < unsigned.length) {
    const first = pattern.lastIndex === 0;
    if (FEET.has(before))
      pattern.lastIndex += /^\s*-(?=\s*\d)/.exec(unsigned.slice(pattern.lastIndex))?.[0].length ?? 0;
    const found = pattern.exec(unsigned);
    if (!found) return null;
    const [, figures, unit] = found;
    if (units === MM && unit === undefined && first && isBareFraction(figures as string)) return null;
    const name = unit ?? (first ? bare : 'in');
    const size = Object.hasOwn(units, name) ? units[name] : undefined;
    const value = readNumber(figures as string, LARGE.has(unit ?? ''));
    if (size === undefined || value === null || size >= last) return null;
    if (FEET.has(before) && size === MM.in && value >= inchesUnder) return null;
    sum += value * size;
    last = unit === undefined ? 0 : size;
    before = unit;
  }
  if (last === Number.POSITIVE_INFINITY) return null;
  const perUnit = Math.round(1 / step);
  return ifHeld(Math.round(sign * sum * perUnit) / perUnit);
}

/** Null for a number of so many figures that the machine does not hold it. */
function ifHeld(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

/** A number or a mixed fraction (`2 1/2`, `2-1/2`). `large` makes a comma before three figures a decimal comma. */
function readNumber(text: string, large = false): number | null {
  const mixed = /^(?:(\d+)(?: | ?- ?))?(\d+)\/(\d+)$/.exec(text);
  if (mixed) {
    const below = Number(mixed[3]);
    return below === 0 ? null : Number(mixed[1] ?? 0) + Number(mixed[2]) / below;
  }
  if (!large && twoReadings(text)) return null;
  if (!/^[-+]?(\d+([.,]\d*)?|[.,]\d+)$/.test(text)) return null;
  return ifHeld(Number(text.replace(',', '.')));
}

/**
 * Figures in groups of three, apart by spaces, of which the first has three at most: `1 280`. In `2400 980` a comma between
 * two numbers was forgotten.
 */
const GROUPED = /(?<![\d.,/])\d{1,3}(?:[\u2009\u202f\u00a0 ]\d{3})+(?!\d|\/)/g;

/** One spelling of signs, primes and spaces; a space between groups of figures is a thousands mark and goes. */
function tidy(text: string): string {
  let tidied = text
    .trim()
    .replaceAll('−', '-')
    .replaceAll('–', '-')
    .replaceAll(/[′’ʹ]/g, "'")
    .replaceAll(/[″”ʺ]/g, '"')
    .replaceAll("''", '"');
  for (const [mark, written] of Object.entries(FRACTIONS)) tidied = tidied.replaceAll(mark, written);
  return tidied
    .replaceAll(GROUPED, (figures) => figures.replaceAll(/\D/g, ''))
    .replaceAll(/\s+/g, ' ')
    .trim();
}
