/**
 * How each kind of field is written on the page and read back. What can not be read stays in the draft as it was typed,
 * for `readJob` to fault beside its field.
 */
import { SHORTEST_BAR } from '../../src/job/lotFaults.ts';
import type { Section, Shape } from '../../src/job/section.ts';
import { parseForce, parseLength, parseMass, parseMassPerMetre, parseNumber } from '../../src/units.ts';
import { parseList, parseSided, printList } from './listKind.ts';
import { isRecord } from './path.ts';
import { countBefore, splitList } from './splitList.ts';

export type Kind =
  | 'text'
  | 'note'
  | 'mm'
  | 'kg'
  | 'kgPerMetre'
  | 'kN'
  | 'metres'
  | 'offset'
  | 'number'
  | 'list'
  | 'choice'
  | 'lengths'
  | 'spans'
  | 'range'
  | 'metreRange'
  | 'readings'
  | 'taped'
  | 'names';

/** True of a field of several lines. */
export function hasLines(kind: Kind): boolean {
  return kind === 'note' || kind === 'readings' || kind === 'taped' || kind === 'lengths';
}

/** The sizes of each section shape, in the order in which they are written: `40 × 20`. */
const SIZES: Record<Shape, readonly string[]> = {
  round: ['diameter'],
  square: ['side'],
  flat: ['width', 'thickness'],
  hexagon: ['acrossFlats'],
  deformed: ['nominal'],
  angle: ['leg', 'otherLeg', 'thickness'],
  tube: ['diameter', 'wall'],
  box: ['width', 'height', 'wall'],
  other: ['width', 'height'],
};

/** A value of the draft as text for its field; the exact inverse of {@link readField} for what that can give. */
export function showField(kind: Kind, value: unknown): string {
  if (value === undefined) return '';
  if (typeof value === 'string') return value;
  if (value === null) return '';
  if (kind === 'list' && typeof value === 'number') return printList(value);
  if (Array.isArray(value)) {
    if (kind === 'lengths' && value.every(isScalar)) return printLengths(value);
    if (kind === 'names' && value.every(isScalar)) return value.map(String).join('; ');
    if (kind === 'spans' && value.every((span) => isRecord(span) && isScalar(span.from) && isScalar(span.to))) {
      return value.map((span) => `${span.from} to ${span.to}`).join('; ');
    }
    if ((kind === 'range' || kind === 'metreRange') && value.every(isScalar)) return value.map(String).join(' to ');
    if (kind === 'readings' && value.every(isReading)) {
      return value.map((reading) => `${reading.up}: ${reading.from} to ${reading.to}`).join('\n');
    }
    if (kind === 'taped' && value.every(isTaped))
      return value.map((reading) => `${reading.across}: ${reading.down}`).join('\n');
  }
  return typeof value === 'object' ? JSON.stringify(value) : String(value);
}

/** Fewer alike are each told by themselves; a count has at most four figures. */
const ALIKE = { least: 3, most: 9999 };

/** `5480; 5475; 5210 × 3`, as people write it and {@link readLengths} reads it. */
function printLengths(lengths: readonly (string | number)[]): string {
  const items: string[] = [];
  for (let at = 0; at < lengths.length; ) {
    const length = lengths[at]!;
    let end = at + 1;
    while (end < lengths.length && lengths[end] === length && end - at < ALIKE.most) end++;
    // Of what is no length of a bar the count could be taken for one.
    const isCounted = end - at >= ALIKE.least && typeof length === 'number' && length >= SHORTEST_BAR;
    items.push(...(isCounted ? [`${length} × ${end - at}`] : lengths.slice(at, end).map(String)));
    at = end;
  }
  return items.join('; ');
}

/** So many bars a pile takes one by one, each with its own length. */
export const MEASURED_AT_MOST = 100_000;

/**
 * What the draft holds for a typed text; undefined for nothing. Text that can not be read comes back as it is, and so do
 * lengths of more than `most` bars, before `3000 × 9999` over and over fills the memory.
 */
export function readField(kind: Kind, typed: string, most = MEASURED_AT_MOST): unknown {
  const text = kind === 'note' ? typed : typed.trim();
  if (text === '') return undefined;
  switch (kind) {
    case 'text':
    case 'note':
      return text;
    case 'choice':
      return text === 'true' ? true : text === 'false' ? false : text;
    case 'names':
      return text
        .split(';')
        .map((name) => name.trim())
        .filter((name) => name !== '');
    case 'lengths':
      return readLengths(text, most) ?? text;
    case 'spans':
      return readAll(splitList(text), readSpan) ?? text;
    case 'readings':
      return readAll(splitLines(text), readReading) ?? text;
    case 'taped':
      return readAll(splitLines(text), readTaped) ?? text;
    case 'range':
      return readPair(text, (part) => parseLength(part)) ?? text;
    case 'metreRange':
      return readPair(text, readMetres) ?? text;
    default:
      return READERS[kind](text) ?? text;
  }
}

const READERS: Record<
  'mm' | 'kg' | 'kgPerMetre' | 'kN' | 'metres' | 'offset' | 'number' | 'list',
  (text: string) => number | null
> = {
  mm: (text) => parseLength(text),
  kg: parseMass,
  kgPerMetre: (text) => parseMassPerMetre(text) ?? weighedBar(text),
  kN: parseForce,
  metres: readMetres,
  offset: (text) => parseSided(text, readMetres),
  number: parseNumber,
  list: parseList,
};

/** A size with no unit of its own. */
const BARE = /^[\d.,/ -]*\d\s*$/;

/** The unit behind the last size, which holds for bare ones before it. */
const UNIT = /\d\s*([^\d\s]+)$/;

/**
 * A section from its shape and its sizes as typed (`40 × 20`, `2 × 1 1/4"`). Too many sizes stay together as text, to be
 * faulted.
 */
export function readSection(shape: string, typed: string): Record<string, unknown> | undefined {
  const text = typed.trim().replace(/^[Øø⌀∅]\s*(?=\d)/, '');
  if (shape === '' && text === '') return undefined;
  const names = Object.hasOwn(SIZES, shape) ? SIZES[shape as Shape] : ['width', 'height', 'wall'];
  const parts = text === '' ? [] : text.split(/\s*[x×*]\s*/i);
  const section: Record<string, unknown> = shape === '' ? {} : { shape };
  if (parts.length > names.length) return { ...section, [names[0] as string]: text };
  const filled = shape === 'angle' && parts.length === 2 ? ['leg', 'thickness'] : names;
  const last = parts.at(-1) ?? '';
  const unit = parseLength(last) === null ? '' : (UNIT.exec(last)?.[1] ?? '');
  for (const [index, part] of parts.entries())
    section[filled[index] as string] = readField('mm', BARE.test(part) ? part + unit : part);
  return section;
}

/** A section's shape and sizes as they stand in the two fields. */
export function showSection(section: unknown): { shape: string; sizes: string } {
  if (typeof section === 'string') return { shape: '', sizes: section };
  if (!isRecord(section)) return { shape: '', sizes: '' };
  const shape = typeof section.shape === 'string' ? section.shape : '';
  const names = Object.hasOwn(SIZES, shape) ? SIZES[shape as Section['shape']] : ['width', 'height', 'wall'];
  const sizes = names.map((name) => showField('mm', section[name])).filter((size) => size !== '');
  return { shape, sizes: sizes.join(' × ') };
}

/** One bar on a scale: `12.3 kg / 3200 mm`, to a gram a metre. Either may have a fraction: the stroke between parts two measures. */
function weighedBar(text: string): number | null {
  for (const { index } of text.matchAll(/\//g)) {
    const mass = parseMass(text.slice(0, index));
    const length = parseLength(text.slice(index + 1));
    if (mass !== null && length !== null && length > 0) return Math.round((mass / length) * 1e6) / 1000;
  }
  return null;
}

function readMetres(text: string): number | null {
  const length = parseLength(text, 'm');
  return length === null ? null : length / 1000;
}

/** Of a text of several items, those that can not be read, each as it was typed; none of a kind that holds one value. */
export function unreadItems(kind: Kind, text: string): string[] {
  const [split, read] = ITEMS[kind] ?? [];
  return split && read ? split(text).filter((item) => read(item) === null) : [];
}

const ITEMS: Partial<Record<Kind, [split: (text: string) => string[], read: (item: string) => unknown]>> = {
  lengths: [splitList, readAlike],
  spans: [splitList, readSpan],
  readings: [splitLines, readReading],
  taped: [splitLines, readTaped],
};

/** How many bars a text of lengths stands for; null where it can not be read. */
export function countLengths(text: string): number | null {
  const alike = readAll(splitList(text), readAlike);
  return alike && barsOf(alike);
}

interface Alike {
  length: number;
  bars: number;
}

function barsOf(alike: Alike[]): number {
  return alike.reduce((sum, { bars }) => sum + bars, 0);
}

/** `5480; 5475`, and `5480 × 3` for three bars alike. */
function readLengths(text: string, most: number): number[] | null {
  const alike = readAll(splitList(text), readAlike);
  if (alike === null || barsOf(alike) > most) return null;
  return alike.flatMap(({ length, bars }) => new Array<number>(bars).fill(length));
}

/** `2 × 1985` as well as `1985 × 2`, where only one of the two can be a bar. */
function readAlike(item: string): Alike | null {
  if (isSpaced(item)) return null;
  const counted = readCounted(item);
  if (counted) return counted;
  const [, one, times] = /^(.*?)(?:\s*[x×*]\s*(\d{1,4}))?$/.exec(item) ?? [];
  const length = parseLength(one ?? '');
  return length === null ? null : { length, bars: Number(times ?? 1) };
}

/** True of two numbers with nothing but a space between: in a list a comma was forgotten there as likely as thousands are meant. */
export function isSpaced(item: string): boolean {
  return /\d[ \t]+\d+(?![\d/])/.test(item);
}

/** An item that begins with its count; null for any other. */
function readCounted(item: string): Alike | null {
  const bars = countBefore(item);
  if (bars === null) return null;
  const length = parseLength(item.replace(/^.*?[x×*]\s*/i, ''));
  return length === null || length < SHORTEST_BAR ? null : { length, bars };
}

/** Two values apart by `to`, by dots or by a long or spaced dash. */
function readPair(text: string, read: (part: string) => number | null): [number, number] | null {
  const parts = text.split(/\s*(?:\bto\b|\.\.+|…|–)\s*|\s+-\s+/);
  const [from, to] = parts.length === 2 ? parts : (/^([^-]+)-([^-]+)$/.exec(text)?.slice(1) ?? []);
  const low = from === undefined ? null : read(from);
  const high = to === undefined ? null : read(to);
  return low === null || high === null ? null : [low, high];
}

function readSpan(text: string): { from: number; to: number } | null {
  const pair = readPair(text, (part) => parseLength(part));
  return pair && { from: pair[0], to: pair[1] };
}

/** `165: -160 to 155`: the height, then the sides; `165: 160` is the same half-breadth on both. */
function readReading(line: string): { up: number; from: number; to: number } | null {
  const [, height, sides] = /^\s*([^:]+):\s*(.+?)\s*$/.exec(line) ?? [];
  const up = parseLength(height ?? '');
  if (up === null || sides === undefined) return null;
  const half = parseLength(sides);
  if (half !== null) return { up, from: -half, to: half };
  const pair = readPair(sides, (part) => parseLength(part));
  return pair && { up, from: pair[0], to: pair[1] };
}

/** `-160: 245`: how far across, then how far down from the batten. */
function readTaped(line: string): { across: number; down: number } | null {
  const [, place, depth] = /^\s*([^:]+):\s*(.+?)\s*$/.exec(line) ?? [];
  const across = parseLength(place ?? '');
  const down = parseLength(depth ?? '');
  return across === null || down === null ? null : { across, down };
}

function splitLines(text: string): string[] {
  return text.split(/[\n;]/).filter((line) => line.trim() !== '');
}

function readAll<T>(parts: string[], read: (part: string) => T | null): T[] | null {
  const all = parts.map(read);
  return all.includes(null) ? null : (all as T[]);
}

function isScalar(value: unknown): value is string | number {
  return typeof value === 'number' || typeof value === 'string';
}

function isReading(value: unknown): value is { up: unknown; from: unknown; to: unknown } {
  return isRecord(value) && [value.up, value.from, value.to].every(isScalar) && Object.keys(value).length === 3;
}

function isTaped(value: unknown): value is { across: unknown; down: unknown } {
  return isRecord(value) && isScalar(value.across) && isScalar(value.down) && Object.keys(value).length === 2;
}
