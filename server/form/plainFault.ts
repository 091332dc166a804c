/** A fault as the page tells it: there an empty field is no mistake, labels stand for names, and nobody is asked for JSON. */
import type { Fault } from '../../src/fault.ts';
import { LOTS_AT_MOST, VOIDS_AT_MOST } from '../../src/job/job.ts';
import { hasFootOfInches, isBareFraction, parseLength, twoReadings } from '../../src/units.ts';
import { farEndOf } from './farEnds.ts';
import type { Field } from './field.ts';
import { countLengths, isSpaced, type Kind, MEASURED_AT_MOST, unreadItems } from './kinds.ts';
import { inPageWords } from './labels.ts';
import { listAt } from './path.ts';

/** The field, row or list that tells a fault. */
export type Teller = Pick<Field, 'label'> & Partial<Pick<Field, 'kind' | 'example' | 'small'>>;

const LENGTHS: ReadonlySet<Kind> = new Set<Kind>(['mm', 'metres', 'offset']);

/** Kinds that hold several lengths, and a fraction in one of them with no unit behind it. */
const SEVERAL: ReadonlySet<Kind> = new Set<Kind>(['lengths', 'spans', 'range', 'metreRange', 'readings', 'taped']);
const BARE_FRACTION = /(?<![\d'])(?:\d+[ -])?\d+\/\d+(?![\d/]|\s*["″”a-z'′’])/i;

/** What parts the lengths of a text of several. */
const BETWEEN = /[;:\n]|\s*[×*]\s*|\s+(?:to|x|-)\s+/;
/** What to do where the inches beside feet are a slip. */
export const INCHES_BESIDE_FEET = 'Inches beside feet go up to 11 and a fraction: 9\' 14" is written 10\' 2".';

/** Longer texts are cut where they are told again. */
const TOLD_AT_MOST = 60;

const NONE_YET = {
  pile: { message: 'No bars yet.', remedy: 'Type the first line below.' },
  voids: { message: 'No void yet.', remedy: 'Add the first one below.' },
};

const TOO_MANY = {
  pile: {
    message: `A job holds at most ${LOTS_AT_MOST} lots, and this one has more.`,
    remedy: 'Put alike bars into one lot with a count, or take lots out.',
  },
  voids: {
    message: `A job holds at most ${VOIDS_AT_MOST} voids, and this one has more.`,
    remedy: 'Take voids out, or plan the rest as a job of their own.',
  },
};

const BEFORE_BAR = /^pile\[\d+\]\.spoiled\[\d+\]\.(?:from|to)$/;
const STILL_EMPTY = 'Still to fill in.';

/** `value` is what the draft holds at the fault's path. */
export function plainFault(fault: Fault, value: unknown, teller: Partial<Teller> = {}): Fault {
  if (isEmpty(fault)) return { ...fault, message: STILL_EMPTY, remedy: '' };
  if (fault.code === 'out-of-range' && (fault.path === 'pile' || fault.path === 'voids'))
    return { ...fault, ...(listAt(value, []).length === 0 ? NONE_YET : TOO_MANY)[fault.path] };
  if (fault.code === 'wrong-type' && typeof value === 'string') return unreadable(fault, value, teller);
  const { path } = fault;
  if (BEFORE_BAR.test(path) && typeof value === 'number' && value < 0) {
    const message = `A spoiled stretch begins or ends at ${value} mm, before its bar.`;
    return {
      ...fault,
      message,
      remedy: 'Measure it from the end where cutting begins; the far end is written last 60.',
    };
  }
  // A name that is taken is told as it is, even where it is a name of the file.
  const message = fault.code === 'not-unique' ? withoutPaths(fault.message) : inPageWords(fault.message, path);
  return { ...fault, message, remedy: inPageWords(fault.remedy, path) };
}

function withoutPaths(sentence: string): string {
  const [, name, rest] = /^(.*“.*” )(.*)$/s.exec(sentence) ?? ['', '', sentence];
  return `${name}${inPageWords(rest as string)}`;
}

function unreadable(fault: Fault, text: string, { kind = 'mm', example = '', small }: Partial<Teller>): Fault {
  const single = !/list|pair/.test(fault.message);
  const readings = twoReadings(text);
  if (readings && single) {
    const message = `“${text}” could be a thousand or a little over one.`;
    return { ...fault, message, remedy: `Write ${readings.join(' or ')}.` };
  }
  if (single && isBareFraction(text) && LENGTHS.has(kind)) {
    const written = text.trim();
    return { ...fault, message: `“${written}” lacks its unit.`, remedy: `Write ${written}" if it is inches.` };
  }
  if (single && LENGTHS.has(kind) && hasFootOfInches(text.replace(/\s+to\s.*/, ''))) {
    const message = `“${text.trim()}” has a foot or more in its inches.`;
    return { ...fault, message, remedy: INCHES_BESIDE_FEET };
  }
  const bars = kind === 'lengths' ? countLengths(text) : null;
  if (bars !== null) {
    const message = `A pile takes ${MEASURED_AT_MOST} bars measured one by one, and these are ${bars} more.`;
    return { ...fault, message, remedy: 'Check the counts; bars alike need one length and their count.' };
  }
  const told = text.length > TOLD_AT_MOST ? `${text.slice(0, TOLD_AT_MOST - 1)}…` : text;
  if (/^pile\[\d+\]\.length$/.test(fault.path) && /[\d"'″′”’]\s*(;|,\s|×)\s*\d/.test(text)) {
    const message = `“${told}” are several lengths.`;
    return { ...fault, message, remedy: 'Put them under “Each bar as measured”: 5480; 5475; 5210 × 3.' };
  }
  if ((kind === 'range' || kind === 'metreRange') && parseLength(text) !== null) {
    const message = `“${told}” is one figure, and a range is wanted.`;
    return { ...fault, message, remedy: `Write its least and its most: ${example}.` };
  }
  const unread = unreadItems(kind, text);
  if (kind === 'spans' && unread.length > 0 && unread.every((item) => farEndOf(item) !== null)) {
    const message = `“${unread[0]}” can be read where all bars of a lot have one length.`;
    return { ...fault, message, remedy: `Where they differ, make a lot of each length; else write ${example}.` };
  }
  const remedy = HOW_TO_WRITE[kind]?.(small ? SMALL : example) ?? inPageWords(fault.remedy, fault.path);
  const fraction = SEVERAL.has(kind) ? BARE_FRACTION.exec(text)?.[0] : undefined;
  const unit = fraction === undefined ? '' : ` A fraction needs its unit: ${fraction}" if it is inches.`;
  const inches = SEVERAL.has(kind) && text.split(BETWEEN).some(hasFootOfInches) ? ` ${INCHES_BESIDE_FEET}` : '';
  return {
    ...fault,
    message: `${unreadOf(kind, text) ?? `“${told}”`} can not be read here.`,
    remedy: `${remedy}${unit}${inches}${kind === 'lengths' && unread.some(isSpaced) ? ` ${APART}` : ''}`,
  };
}

const APART = 'A comma or a semicolon goes between two lengths, and no space into one.';

/** Of so many unreadable items each is told. */
const ITEMS_TOLD = 3;

/** Which of several items can not be read: ten lengths off a sheet are not looked through for the slip in one. Null where they are too long to tell. */
function unreadOf(kind: Kind, text: string): string | null {
  const items = unreadItems(kind, text).map((item) => item.trim());
  const told = items.slice(0, ITEMS_TOLD);
  if (told.length === 0 || told.some((item) => item.length > TOLD_AT_MOST)) return null;
  const more = items.length > told.length ? ` and ${items.length - told.length} more` : '';
  return `${told.map((item) => `“${item}”`).join(', ')}${more}`;
}

/** Lengths of some millimetres, in place of those of a bar or a void. */
const SMALL = '30, 3 cm or 1 1/4"';

/** How a field of each kind is written, for who wrote it otherwise; `example` is the one that stands in its hint. */
const HOW_TO_WRITE: Partial<Record<Kind, (example: string) => string>> = {
  mm: (example) => `Write it as ${example || '1280, 1.28 m, 128 cm or 4\' 2 1/2"'}.`,
  metres: () => 'Write it as 4.2, 4200 mm or 13\' 9".',
  offset: () => 'Write it as 0.9 to starboard, 0.9 to port, or -0.9; 900 mm is read, too.',
  kg: () => 'Write it as 6.5, 6.5 kg or 14 lb.',
  kgPerMetre: () => 'Write it as 6.28, 4.2 lb/ft or 12.3 kg / 3200 mm.',
  kN: () => 'Write it as 5, 5 kN or 500 daN.',
  number: () => 'Write a number.',
  list: () => 'Write it as 1 to port, or 1 to starboard; 0 where she floats upright.',
  lengths: (example) => `Write them as ${example}.`,
  spans: (example) => `Write them as ${example}.`,
  range: (example) => `Write it as ${example}.`,
  metreRange: (example) => `Write it as ${example}.`,
  readings: (example) => `Write one a line, the height and then the sides: ${example}.`,
  taped: (example) => `Write one a line, how far across and then how far down: ${example}.`,
};

/** True where nothing stands yet in a field that the job needs. */
export function isEmpty({ code, message }: Fault): boolean {
  return code === 'missing-field' && /^“.*” is missing\.$/.test(message);
}

/** As {@link isEmpty}, of a fault as the page tells it; one that no field shows is told as it was. */
export function isStillEmpty(fault: Fault): boolean {
  return fault.message === STILL_EMPTY || isEmpty(fault);
}
