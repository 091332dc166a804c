/**
 * Lengths and masses as people write them: `1280`, `1.28 m`, `128 cm`, `4' 2 1/2"`, `4'-2 1/2"`, `4ft 2.5in`, `7-1/4"`,
 * `31 lb`, `6,5 kg`.
 *
 * A bare number is in the unit that the field asks for, but for a fraction of a length (`50 1/2`): nobody measures in
 * halves of a millimetre, so it lacks its unit and is refused. A decimal comma is read as a decimal point, but one with
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

const KG: Record<string, number> = {
  kg: 1,
  g: 0.001,
  t: 1000,
  tonne: 1000,
  tonnes: 1000,
  lb: 0.45359237,
  lbs: 0.45359237,
  oz: 0.45359237 / 16,
};

/** Forces in kN; labels of straps have daN. */
const KN: Record<string, number> = { kn: 1, dan: 0.01, n: 0.001 };

const KG_PER_METRE: Record<string, number> = { 'kg/m': 1, 'g/m': 0.001, 'lb/ft': 0.45359237 / 0.3048 };

/** Units so large that `5,480 m` can only be a decimal comma. */
const LARGE: ReadonlySet<string> = new Set(['m', 't', 'tonne', 'tonnes', 'kn', ...Object.keys(KG_PER_METRE)]);

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

/** A force in kN, to a newton, from `5`, `5 kN`, `500 daN` or `5000 N`; null where the text is not one. */
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

/** A number that was reckoned, without the dust of reckoning: 169.86, and not 169.85999999999999. */
export function withoutDust(value: number): number {
  return Number(value.toPrecision(12));
}

const POWERS = [1, 10, 100, 1000, 10_000];

/**
 * With so many decimals, at most 4: halves go away from nought as they are read, and nought has no sign. (`toFixed` goes
 * by the number in the machine: it makes 113.3 of 113.35, and a sum that ends a hair under the half goes down.)
 */
export function fixed(value: number, decimals: number): string {
  const power = POWERS[decimals]!;
  const text = (Math.round(Math.abs(value) * power + 1e-7) / power).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `-${text}` : text;
}

/** Feet and inches to the nearest sixteenth, or 32nd: `4' 2 3/8"`; under a foot inches alone. */
export function printFeet(mm: number, parts: 16 | 32 = 16): string {
  const all = Math.round(Math.abs(mm) / (25.4 / parts));
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
export function printPounds(kg: number): string {
  const pounds = kg / 0.45359237;
  return `${Math.abs(pounds) < 100 ? Math.round(pounds * 10) / 10 : Math.round(pounds)} lb`;
}

/** A number (whole, decimal, or a fraction, mixed or not), then its unit if any. */
const QUANTITY = /\s*(\d+(?: | ?- ?)\d+\/\d+|\d+\/\d+|\d+[.,]?\d*|[.,]\d+)\s*([a-z]+(?:\/[a-z]+)?|["'])?/y;

/**
 * One quantity, or several of falling unit one after the other (feet and inches); the sign of the first holds for all.
 * A last part without a unit is inches.
 */
function parseSum(text: string, units: Record<string, number>, bare: string, step: number): number | null {
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
    sum += value * size;
    last = unit === undefined ? 0 : size;
    before = unit;
  }
  if (last === Number.POSITIVE_INFINITY) return null;
  const perUnit = Math.round(1 / step);
  return Math.round(sign * sum * perUnit) / perUnit;
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
  return Number(text.replace(',', '.'));
}

/** One spelling of signs, primes and spaces; a thin space between figures is a thousands mark and goes. */
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
    .replaceAll(/(\d)[\u2009\u202f\u00a0 ](?=\d{3}(?!\d|\/))/g, '$1')
    .replaceAll(/\s+/g, ' ')
    .trim();
}
