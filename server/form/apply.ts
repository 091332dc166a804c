/** From a posted form to a draft: only what was changed on the page is changed in the draft. */
import { battenSchema, fromBatten } from '../../src/job/batten.ts';
import { takeFarEnds } from './farEnds.ts';
import { hasLines, type Kind, MEASURED_AT_MOST, readField, readSection, showField, showSection } from './kinds.ts';
import { type Place, placesOfLot, placesOfVoid, placesOnce } from './layout.ts';
import { isRecord, listAt, parsePath, type Step, setAt, valueAt } from './path.ts';
import { takeSizes } from './stationSizes.ts';

export type Draft = Record<string, unknown>;
/** A form as posted: text by field name. */
export type Posted = ReadonlyMap<string, string>;

/** A form may bring so many new lines of the pile at once. */
const NEW_LINES = 500;

/** The draft that `base` becomes by what was typed over it. `base` itself is left as it is. */
export function applyForm(base: Draft, posted: Posted): Draft {
  return applyLines(base, posted).draft;
}

/** The same, and by lot of that draft the number of the line it is typed in: a blank line on the page is no lot. */
export function applyLines(base: Draft, posted: Posted): { draft: Draft; lines: number[] } {
  const draft = structuredClone(base);
  const lots = listAt(base, ['pile']).length;
  const places = [
    ...placesOnce(base),
    ...Array.from({ length: lots }, (_, index) => placesOfLot(index)).flat(),
    ...listAt(base, ['voids']).flatMap((_, index) => placesOfVoid(base, index)),
  ];
  for (const place of places) applyField(draft, base, posted, place);
  for (let index = 0; index < lots; index++) applySection(draft, base, posted, `pile[${index}].section`);
  workOutBattens(draft, base);
  takeSizes(draft, base);
  const lines = [...Array.from({ length: lots }, (_, index) => index), ...appendLines(draft, posted, lots)];
  takeFarEnds(draft, base);
  return { draft, lines };
}

function applyField(draft: Draft, base: unknown, posted: Posted, { path, field }: Place): void {
  const typed = posted.get(path);
  if (typed === undefined) return;
  const steps = parsePath(path) as Step[];
  if (sameText(typed, showField(field.kind, valueAt(base, steps)), hasLines(field.kind))) return;
  setAt(draft, steps, readTyped(draft, field.kind, typed, listAt(draft, steps).length));
}

/** Lengths are read for as many bars as the pile has room for, the `own` that they take the place of among them. */
function readTyped(draft: Draft, kind: Kind, typed: string, own = 0): unknown {
  const text = typed.replaceAll('\r\n', '\n');
  if (kind !== 'lengths') return readField(kind, text);
  const measured = listAt(draft, ['pile']).reduce<number>((sum, lot) => sum + listAt(lot, ['lengths']).length, 0);
  return readField(kind, text, MEASURED_AT_MOST - measured + own);
}

function applySection(draft: Draft, base: unknown, posted: Posted, path: string): void {
  const steps = parsePath(path) as Step[];
  const shown = showSection(valueAt(base, steps));
  const shape = posted.get(`${path}.shape`) ?? shown.shape;
  const sizes = posted.get(`${path}.sizes`) ?? shown.sizes;
  if (shape === shown.shape && sameText(sizes, shown.sizes, false)) return;
  setAt(draft, steps, readSection(shape, sizes));
}

/** Where a batten was typed, what is clear at each height follows from it, and stands beside it. */
function workOutBattens(draft: Draft, base: Draft): void {
  for (const [v, space] of listAt(draft, ['voids']).entries()) {
    for (const [n, station] of listAt(space, ['stations']).entries()) {
      const path = ['voids', v, 'stations', n];
      const batten = battenSchema.safeParse(valueAt(station, ['batten']));
      if (!batten.success || sameJson(batten.data, valueAt(base, [...path, 'batten']))) continue;
      setAt(draft, [...path, 'at'], fromBatten(batten.data));
    }
  }
}

function sameJson(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

/** Lines typed below the last lot become lots, in order; one that was not marked gets the next free letter. Returns their numbers. */
function appendLines(draft: Draft, posted: Posted, lots: number): number[] {
  const typed: number[] = [];
  for (let index = lots; index < lots + NEW_LINES; index++) {
    const line: Draft = {};
    for (const place of placesOfLot(index)) {
      const value = readTyped(draft, place.field.kind, posted.get(place.path) ?? '');
      if (value !== undefined) setAt(line, parsePath(place.field.path) as Step[], value);
    }
    const own = `pile[${index}].section`;
    const section = readSection(posted.get(`${own}.shape`) ?? '', posted.get(`${own}.sizes`) ?? '');
    if (section) line.section = section;
    if (Object.keys(line).length === 0) continue;
    const lot = line.lot ?? nextLot(draft);
    setAt(draft, ['pile', listAt(draft, ['pile']).length], { lot, ...line });
    typed.push(index);
  }
  return typed;
}

/** The first of A … Z, AA … ZZ, AAA … that no lot carries yet. */
export function nextLot(draft: unknown): string {
  return freeMarks(listAt(draft, ['pile']))();
}

/** Gives at each call the next of A … Z, AA … ZZ, AAA … that none of these lots carries. */
export function freeMarks(lots: unknown[]): () => string {
  const taken = new Set(lots.map((lot) => (isRecord(lot) ? lot.lot : null)));
  let n = 0;
  return () => {
    do n++;
    while (taken.has(letters(n)));
    return letters(n);
  };
}

/** The n-th of A … Z, AA … ZZ, AAA …, from 1. */
function letters(n: number): string {
  const before = Math.floor((n - 1) / 26);
  return `${before > 0 ? letters(before) : ''}${String.fromCharCode(65 + ((n - 1) % 26))}`;
}

/** The first of V1, V2 … that no void carries yet. */
export function nextVoid(draft: unknown): string {
  const taken = new Set(listAt(draft, ['voids']).map((space) => (isRecord(space) ? space.void : null)));
  for (let n = 1; ; n++) if (!taken.has(`V${n}`)) return `V${n}`;
}

/**
 * True where a posted text is what was shown: browsers send line ends of their own, and a field of one line has none.
 */
function sameText(typed: string, shown: string, lines: boolean): boolean {
  const ends = lines ? '\n' : '';
  return typed.replaceAll(LINE_END, ends) === shown.replaceAll(LINE_END, ends);
}

const LINE_END = /\r\n|\r|\n/g;
