/** Figures typed into a form that is only looked at: what was typed stays as it was typed, and is told how it was read. */
import { vesselSchema } from '../../src/job/job.ts';
import { hasFootOfInches, parseLength, parseMass, parseNumber, twoReadings } from '../../src/units.ts';
import { echoOf } from '../form/echo.ts';
import { parseList } from '../form/listKind.ts';
import { INCHES_BESIDE_FEET } from '../form/plainFault.ts';

export interface Asked {
  text: string;
  /** In the unit of its field. Null where nothing was typed, or nothing that can be read or meant. */
  value: number | null;
  faulty: boolean;
  /** What is wrong, and how to write it; '' where nothing is. */
  fault: string;
  remedy: string;
  /** How it was read, where that is not what stands there. */
  echo: string;
  /** A keyboard with figures alone is enough for it. */
  figures: boolean;
}

/** The unit of a field; a bare number is in it. `''` counts. */
export type Unit = 'kg' | 'm' | 'cm' | 'mm' | 's' | '%' | '';

/** What a figure may be, both ends included. */
export interface Bounds {
  least?: number;
  most?: number;
}

/** Farther than this nothing is meant. */
const MOST = 10_000_000;

/** Reads one figure: masses and lengths in any unit that the manual lists, decimal commas, real minus signs. */
export function readFigure(text: string, unit: Unit, { least = -MOST, most = MOST }: Bounds = {}): Asked {
  const asked = { text, value: null, faulty: false, fault: '', remedy: '', echo: '', figures: !MEASURES.has(unit) };
  const typed = text.trim();
  if (typed === '') return asked;
  const wrong = (fault: string, remedy: string): Asked => ({ ...asked, faulty: true, fault, remedy });
  const value = READERS[unit](typed);
  if (value === null) {
    const readings = twoReadings(typed);
    if (readings)
      return wrong(`“${typed}” could be a thousand or a little over one.`, `Write ${readings.join(' or ')}.`);
    if (LENGTHS.has(unit) && hasFootOfInches(typed))
      return wrong('This has a foot or more in its inches.', INCHES_BESIDE_FEET);
    return wrong(unit === 'kg' ? 'This is no amount.' : 'This is no number.', HOW_TO_WRITE[unit]);
  }
  const told = (limit: number): string => (unit === '' ? String(limit) : `${limit} ${unit}`);
  if (value < least) return wrong(`This is less than ${told(least)}.`, HOW_TO_WRITE[unit]);
  if (value > most) return wrong(`This is more than ${told(most)}.`, HOW_TO_WRITE[unit]);
  const same = Number(typed) === value;
  return { ...asked, value, echo: same ? '' : `= ${Number(value.toFixed(4))}${unit === '' ? '' : ` ${unit}`}` };
}

const READERS: Record<Unit, (text: string) => number | null> = {
  kg: parseMass,
  m: (text) => inUnit(parseLength(text, 'm'), 1000),
  cm: (text) => parseNumber(text) ?? inUnit(parseLength(text), 10),
  mm: (text) => parseLength(text),
  s: parseNumber,
  '%': (text) => parseNumber(text.replace(/\s*%$/, '')),
  '': parseNumber,
};

const LENGTHS: ReadonlySet<Unit> = new Set<Unit>(['m', 'cm', 'mm']);
const MEASURES: ReadonlySet<Unit> = new Set<Unit>(['kg', ...LENGTHS]);

const HOW_TO_WRITE: Record<Unit, string> = {
  kg: 'Write it as 42.5, 42.5 kg or 94 lb.',
  m: 'Write it as 0.86, 86 cm or 2\' 10".',
  cm: 'Write it as 3.5, 35 mm or 1 3/8".',
  mm: 'Write it as 1500, 1.5 m or 4\' 11".',
  s: 'Write seconds, as 2.6.',
  '%': 'Write it as 80.',
  '': 'Write a number, as 5.',
};

function inUnit(mm: number | null, size: number): number | null {
  return mm === null ? null : mm / size;
}

/** What she lists now, as it is typed; more than the job file holds is none. */
export function readListNow(text: string): Asked {
  const asked = { text, value: null, faulty: false, fault: '', remedy: '', echo: '', figures: false };
  if (text.trim() === '') return asked;
  const value = parseList(text);
  if (value !== null && vesselSchema.shape.list.safeParse(value).success)
    return { ...asked, value, echo: echoOf({ kind: 'list' }, value, text, 'metric') };
  const fault = value === null ? 'This is no list.' : 'She would hardly lie so.';
  return { ...asked, faulty: true, fault, remedy: 'Write it as 1 to port, or 1 to starboard; 0 where she is upright.' };
}
