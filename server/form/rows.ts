/** What the buttons of the job page do to rows: add, copy, take out. */
import type { Fault } from '../../src/fault.ts';
import { LOTS_AT_MOST, stationSchema, VOIDS_AT_MOST } from '../../src/job/job.ts';
import { readingsBetween } from '../../src/job/stationSides.ts';
import { DEFAULT_ZONES } from '../../src/lift/zones.ts';
import { type Draft, nextLot, nextVoid } from './apply.ts';
import { isRecord, listAt, parsePath, type Step, setAt, valueAt } from './path.ts';

/** A button's order, `verb path`: `copy pile[2]`, `add voids`, `drop voids[0].colour`. */
export interface RowOrder {
  verb: string;
  path: Step[];
  text: string;
}

/** What a new row begins with, by the name of its list; of what is fitted in a void nothing, for a figure would look measured. */
const NEW_ROWS = new Map<string, object>([
  ['keepOut', {}],
  ['bearers', {}],
  ['otherOpenings', {}],
  ['straps', { kind: 'over' }],
  ['bars', { count: 1 }],
  ['openings', { name: '' }],
  ['legs', { leg: '' }],
  ['rows', { zone: '' }],
]);

const VERBS = ['add', 'copy', 'remove', 'drop', 'shape', 'unshape'];

export function parseOrder(text: string): RowOrder | null {
  const [verb = '', path = ''] = text.split(' ', 2);
  const steps = parsePath(path);
  return VERBS.includes(verb) && steps ? { verb, path: steps, text: path } : null;
}

/** So many rows a list of the job holds. */
const AT_MOST = { pile: LOTS_AT_MOST, voids: VOIDS_AT_MOST };

/** Why an order is not carried out: it would add to a list that is full already. Null where there is room. */
export function refusalOf(draft: Draft, { verb, path }: RowOrder): Fault | null {
  const list = verb === 'add' ? path : verb === 'copy' ? path.slice(0, -1) : [];
  return list.length === 1 && (list[0] === 'pile' || list[0] === 'voids') ? fullFault(draft, list[0]) : null;
}

/** The fault of one more row for the pile or the voids of a job; null where there is room for it. */
export function fullFault(draft: Draft, list: keyof typeof AT_MOST): Fault | null {
  if (listAt(draft, [list]).length < AT_MOST[list]) return null;
  const [rows, one] = list === 'pile' ? ['lots', 'lot'] : ['voids', 'void'];
  const message = `A job holds at most ${AT_MOST[list]} ${rows}: none was added.`;
  return { path: list, code: 'out-of-range', message, remedy: `Take a ${one} out first. What was typed is kept.` };
}

/** Carries an order out on the draft. Returns the path of the row to show next. */
export function applyOrder(draft: Draft, { verb, path, text }: RowOrder): string {
  if (verb === 'add') return addRow(draft, path, text);
  if (verb === 'copy') return copyRow(draft, path);
  if (verb === 'shape') return measureStations(draft, path, text);
  setAt(draft, verb === 'unshape' ? [...path, 'stations'] : path, undefined);
  return text.replace(/[.[][^.[]*$/, '');
}

function addRow(draft: Draft, path: Step[], text: string): string {
  const at = listAt(draft, path).length;
  const list = path.at(-1);
  if (list === 'stations') return addStation(draft, path, text);
  // The user's own table begins as the one it stands in for.
  if (text === 'lift.zones.rows' && at === 0) {
    setAt(draft, path, structuredClone(DEFAULT_ZONES));
    return text;
  }
  const row = list === 'voids' ? { void: nextVoid(draft) } : NEW_ROWS.get(String(list));
  if (row) setAt(draft, [...path, at], structuredClone(row));
  return `${text}[${at}]`;
}

function copyRow(draft: Draft, path: Step[]): string {
  const list = path.slice(0, -1);
  const row = structuredClone(valueAt(draft, path));
  if (isRecord(row) && list[0] === 'pile') row.lot = nextLot(draft);
  if (isRecord(row) && list[0] === 'voids' && list.length === 1) row.void = nextVoid(draft);
  const at = listAt(draft, list).length;
  if (row !== undefined && at > 0) setAt(draft, [...list, at], row);
  return `${list.join('.')}[${at}]`;
}

/** "It is not a box": stations at both ends, beginning with the readings of the box. What is not typed yet is left to be filled in. */
function measureStations(draft: Draft, path: Step[], text: string): string {
  const space = valueAt(draft, path);
  if (!isRecord(space)) return text;
  const { width, height, length } = space;
  const at = (): object => {
    if (typeof width !== 'number' || typeof height !== 'number') return {};
    return { at: [0, height].map((up) => ({ up, from: -width / 2, to: width / 2 })) };
  };
  space.stations = [
    { along: 0, ...at() },
    { ...(typeof length === 'number' ? { along: length } : {}), ...at() },
  ];
  return `${text}.stations`;
}

/** A station where the next one is expected ({@link nextStation}), in its place along the void. Returns its path. */
function addStation(draft: Draft, path: Step[], text: string): string {
  const stations = listAt(draft, path);
  const { index, row } = nextStation(stations, valueAt(draft, [...path.slice(0, -1), 'length']));
  stations.splice(index, 0, row);
  setAt(draft, path, stations);
  return `${text}[${index}]`;
}

/**
 * The next station of a void, and where in the list it comes: at the after end where none stands there, past the last
 * while that is not at the forward end, by as much as that is past the one before; else halfway over the widest stretch, with the
 * readings that straight lines between its ends give: those say nothing new until it is measured. Where that can not be
 * told its place is left to be filled in.
 */
function nextStation(stations: unknown[], length: unknown): { index: number; row: object } {
  const placed = stations
    .flatMap((station, index) => {
      const along = valueAt(station, ['along']);
      return typeof along === 'number' ? [{ along, index, station }] : [];
    })
    .sort((one, other) => one.along - other.along);
  const [first, last, before] = [placed[0], placed.at(-1), placed.at(-2)];
  if (!first || !last) return { index: stations.length, row: stations.length === 0 ? { along: 0 } : {} };
  if (first.along > 0) return { index: first.index, row: { along: 0 } };
  const end = typeof length === 'number' ? length : null;
  if (end === null ? !before : last.along < end) {
    const step = before ? last.along - before.along : Number.POSITIVE_INFINITY;
    const along = end === null ? null : tenths(Math.min(end, last.along + step));
    return { index: last.index + 1, row: along === null ? {} : { along } };
  }
  const gaps = placed.slice(1).map((to, n) => ({ from: placed[n]!, to }));
  const wide = gaps.reduce((one, other) =>
    other.to.along - other.from.along > one.to.along - one.from.along ? other : one,
  );
  const along = tenths((wide.from.along + wide.to.along) / 2);
  const [p, q] = [wide.from, wide.to].map(({ station }) => stationSchema.safeParse(station).data);
  return { index: wide.from.index + 1, row: { along, ...(p && q ? { at: readingsBetween(p, q) } : {}) } };
}

/** To a tenth of a millimetre. */
function tenths(mm: number): number {
  return Math.round(mm * 10) / 10;
}
