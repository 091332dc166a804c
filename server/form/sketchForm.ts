/** What the page shows while a form is being typed, before it is saved: how each text was read, sums, drawings, faults. */
import type { Fault } from '../../src/fault.ts';
import type { Units } from '../../src/units.ts';
import type { Draft, Posted } from './apply.ts';
import type { DraftRead } from './draftRead.ts';
import { echoOf } from './echo.ts';
import { readField } from './kinds.ts';
import { idOf, listAt, parsePath, type Step, valueAt } from './path.ts';
import { type FieldView, type FormView, type RowsView, showForm, WHOLE } from './show.ts';
import { sketchVoid, type VoidSketch } from './sketch.ts';
import { sketchLot } from './sketchLot.ts';
import { type PileSum, pileSum } from './sums.ts';
import { type Questions, questionsOf, type Wanted, wantedOf } from './wanted.ts';

export interface FormSketch {
  /** By field name: how a text was read that does not say it in the field's own unit; or that it could not be read. */
  echoes: Record<string, string>;
  /** By field name, only where there are any. */
  faults: Record<string, Fault[]>;
  /** By field name, only where there is one. */
  doubts: Record<string, string>;
  faultCount: number;
  /** Of the pile as a whole, and of the voids. */
  lists: { pile: Fault[]; voids: Fault[] };
  wanted: Wanted[];
  questions: Questions;
  sums: PileSum;
  /** By lot of the pile, in the same order, the id of the line it is typed in. */
  lines: string[];
  /** By field name: what follows from another field that was typed, as its own field would show it. */
  follows: Record<string, string>;
  /** By id of the lot that has the focus: its drawings. */
  drawings: Record<string, Record<string, string>>;
  /** By id of the void that has the focus. */
  voids: Record<string, VoidSketch>;
}

/**
 * `draft` is what `typed` makes of the job, `read` what was read of it, `lines` the number of the line in which each of its
 * lots is typed; `focus` is the name of the field being typed in; for `pageOf` see {@link wantedOf}.
 */
export function sketchForm(
  { draft, lines }: { draft: Draft; lines: number[] },
  typed: Posted,
  read: DraftRead,
  focus: string,
  units: Units,
  pageOf?: (path: string) => string,
): FormSketch {
  const form = showForm(draft, read, { ...WHOLE, blanks: 0, units });
  // A blank line between others is no lot: those below it stand further down the page than in the pile.
  const onPage = (name: string): string =>
    name.replace(/^(pile[[-])(\d+)/, (_, list, lot) => `${list}${lines[Number(lot)] ?? lot}`);
  const all = form.all.map((told) => ({ ...told, id: told.id === null ? null : onPage(told.id) }));
  const sketch: FormSketch = {
    echoes: {},
    faults: {},
    doubts: {},
    faultCount: form.all.length,
    lists: { pile: form.pileFaults, voids: form.voidsFaults },
    wanted: wantedOf({ ...form, all }, pageOf),
    questions: onPageOf(questionsOf(form, draft, pageOf), onPage),
    sums: pileSum(draft, read.whole?.job ?? null),
    lines: lines.map((line) => idOf(`pile[${line}]`)),
    follows: {},
    drawings: drawLot(draft, lines, focus, units),
    voids: drawVoid(draft, focus, units),
  };
  for (const field of fieldsOf(form)) {
    const value = valueAt(draft, parsePath(field.name) as Step[]);
    const name = onPage(field.name);
    const text = typed.get(name);
    const echo = echoOf(field, value, text ?? '', units);
    if (echo !== '') sketch.echoes[name] = echo;
    if (field.faults.length > 0) sketch.faults[name] = field.faults;
    if (field.doubt !== '') sketch.doubts[name] = field.doubt;
    if (field.kind === 'readings' && text !== undefined && !sameReadings(text, value))
      sketch.follows[name] = field.value;
  }
  return sketch;
}

/** The same questions, with links to the lines of the page. */
function onPageOf({ count, places }: Questions, onPage: (name: string) => string): Questions {
  const linked = (to: string) => to.replace(/#.*/, (id) => `#${onPage(id.slice(1))}`);
  return {
    count,
    places: places.map(({ where, fields }) => ({
      where,
      fields: fields.map(({ to, label }) => ({ to: linked(to), label })),
    })),
  };
}

/** True of readings that say what is typed; those worked out from a batten do not. */
function sameReadings(text: string, value: unknown): boolean {
  return JSON.stringify(readField('readings', text)) === JSON.stringify(value);
}

function drawVoid(draft: Draft, focus: string, units: Units): FormSketch['voids'] {
  const [, index, row] = /^voids\[(\d{1,4})\](?:\.(.+))?$/.exec(focus) ?? [];
  if (index === undefined) return {};
  const space = listAt(draft, ['voids'])[Number(index)];
  const id = idOf(`voids[${index}]`);
  return { [id]: sketchVoid(space, id, placeOf(space, row ?? ''), undefined, units) };
}

/** Where along a void the row lies that is being typed: a station, or the middle of something to stay off. */
function placeOf(space: unknown, row: string): number | undefined {
  const [path] = /^(stations|keepOut|bearers)\[\d{1,4}\]/.exec(row) ?? [];
  const along = path === undefined ? undefined : valueAt(space, [...(parsePath(path) ?? []), 'along']);
  const ends = Array.isArray(along) ? along : [along, along];
  const [from, to] = ends;
  return typeof from === 'number' && typeof to === 'number' ? (from + to) / 2 : undefined;
}

function drawLot(draft: Draft, lines: number[], focus: string, units: Units): FormSketch['drawings'] {
  const line = /^pile\[(\d{1,5})\]/.exec(focus)?.[1];
  if (line === undefined) return {};
  const { section, bar } = sketchLot(draft, lines.indexOf(Number(line)), units);
  return { [idOf(`pile[${line}]`)]: { section: section ?? '', bar: bar ?? '' } };
}

/** Every field of the form, in the order of the page. */
export function fieldsOf(form: FormView): FieldView[] {
  return [
    form.name,
    ...form.pile.flatMap((lot) => [...lot.fields, lot.shape, lot.sizes, ...lot.more.fields]),
    ...[form.saw, form.bundle, form.aims].flatMap((part) => [...part.fields, ...part.more.fields]),
    ...form.voids.flatMap((space) => [
      ...space.fields,
      ...space.more.flatMap((group) => [...group.fields, ...fieldsOfRows(group.rows)]),
      ...fieldsOfRows(space.rows),
    ]),
    ...form.vessel.fields,
    ...form.lift.fields,
    ...fieldsOfRows([form.openings, form.legs, form.zones]),
  ];
}

function fieldsOfRows(lists: RowsView[]): FieldView[] {
  return lists.flatMap(({ rows }) => rows.flatMap((row) => row.fields));
}
