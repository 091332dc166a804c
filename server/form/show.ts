/** From a draft and what was read of it to what the job page shows: every field with its text, its words and its faults. */
import type { Fault } from '../../src/fault.ts';
import { LOTS_AT_MOST, VOIDS_AT_MOST } from '../../src/job/job.ts';
import type { StatedParts } from '../../src/job/jobFaults.ts';
import { jobDoubts } from '../../src/plan/jobDoubts.ts';
import type { Units } from '../../src/units.ts';
import { tellIn } from '../otherUnits.ts';
import type { Draft } from './apply.ts';
import { type DraftRead, readDraft } from './draftRead.ts';
import { echoOf } from './echo.ts';
import { FaultBoard, type ToldFault } from './faultBoard.ts';
import type { Field, Group, RowList } from './field.ts';
import { AIM_FIELDS, BUNDLE_FIELDS, OPENINGS, SAW_FIELDS, STEEL_FIELDS, VESSEL_FIELDS } from './jobFields.ts';
import { showField, showSection } from './kinds.ts';
import { NAME_FIELD } from './layout.ts';
import { LEGS, LIFT_RULES, ZONES } from './liftFields.ts';
import { idOf, listAt, parsePath, type Step, valueAt } from './path.ts';
import { LOT_FIELDS, LOT_MORE, SHAPES } from './pileFields.ts';
import type { Teller } from './plainFault.ts';
import { takenSizes } from './stationSizes.ts';
import { VOID_FIELDS, VOID_LISTS, VOID_MORE } from './voidFields.ts';

export interface FieldView extends Field {
  name: string;
  /** The field's id on the page, and with `-…` the ids of what describes it. */
  id: string;
  value: string;
  /** The value in other words, under the field. */
  echo: string;
  faults: Fault[];
  /** What of the value is hardly meant, though it is no fault; '' for nothing. */
  doubt: string;
}

export interface GroupView {
  title: string;
  fields: FieldView[];
  /** Lists that belong to it, each with the rows that it has. */
  rows: RowsView[];
  /** True where something in it is faulted or doubtful: then it is shown unfolded. */
  open: boolean;
  /** What is typed in it, in one line. */
  used: string;
}

/** Fields of which the first are always in sight, and the others folded away. */
export interface PartView {
  fields: FieldView[];
  more: GroupView;
}

export interface LotView {
  path: string;
  id: string;
  mark: string;
  fields: FieldView[];
  shape: FieldView;
  sizes: FieldView;
  more: GroupView;
  faults: Fault[];
  /** Of the empty lines below the last lot which it is, from 1; 0 for a lot. */
  blank: number;
}

export interface RowView {
  path: string;
  id: string;
  fields: FieldView[];
  faults: Fault[];
}

export interface RowsView extends RowList {
  /** Full path of the list. */
  path: string;
  id: string;
  rows: RowView[];
  faults: Fault[];
}

export interface VoidView {
  path: string;
  id: string;
  mark: string;
  fields: FieldView[];
  more: (GroupView & { part: Group['part'] })[];
  /** The lists that are always in sight. */
  rows: RowsView[];
  faults: Fault[];
}

export interface FormView {
  name: FieldView;
  pile: LotView[];
  saw: PartView;
  bundle: PartView;
  voids: VoidView[];
  vessel: GroupView;
  openings: RowsView;
  lift: GroupView;
  legs: RowsView;
  zones: RowsView;
  aims: PartView;
  pileFaults: Fault[];
  voidsFaults: Fault[];
  /** Faults of no field: those of the file as a whole, and unknown fields, which can be taken out. */
  others: Fault[];
  /** The marks of all lots and voids of the job. */
  marks: { lots: string[]; voids: string[] };
  /** What is hardly meant, by path of its field: of all of the job. */
  doubts: ReadonlyMap<string, string>;
  /** Every fault with the id of the field or row that shows it; of a group that is missing, once for each of its fields. */
  all: ToldFault[];
}

/** What one page shows of a long job; the rest is left as it is. */
export interface Slice {
  /** Empty lines below the last lot, where the page reaches it. */
  blanks: number;
  /** The first lot and the first void shown, and how many. */
  firstLot: number;
  lots: number;
  firstVoid: number;
  voids: number;
  units: Units;
}

/** So many fields of each part are always in sight. */
const IN_SIGHT = { saw: 3, bundle: 1, aims: 2 };

/** Under a size of a void that its stations have, too. */
const AS_READ = 'as the stations read';

/** Everything, in metric. */
export const WHOLE: Slice = {
  blanks: 1,
  firstLot: 0,
  lots: LOTS_AT_MOST,
  firstVoid: 0,
  voids: VOIDS_AT_MOST,
  units: 'metric',
};

/** The job page's form; the draft is read unless it was read before. */
export function showForm(draft: Draft, read = readDraft(draft), slice: Slice = WHOLE): FormView {
  const board = new FaultBoard(read.faults, draft, slice.units);
  const doubts = doubtsOf(read.parts);
  const taken = takenSizes(draft);
  const field = (
    name: string,
    id: string,
    shape: Field,
    stated: unknown,
    faults: Fault[],
    value = showField(shape.kind, stated),
  ): FieldView => ({
    name,
    id,
    value,
    echo: [
      ...(slice.units === 'metric' ? [] : [echoOf(shape, stated, value, slice.units)]),
      ...(taken.has(name) ? [AS_READ] : []),
    ]
      .filter((part) => part !== '')
      .join('; '),
    faults,
    doubt: tellIn(slice.units, doubts.get(name) ?? ''),
    // Last: an object that begins as a copy takes seven times as long to make.
    ...withBlank(shape, value),
  });
  // A row is looked up once, not for each of its fields.
  const fields = (base: string, shapes: readonly Field[]): FieldView[] => {
    const row = valueAt(draft, steps(base));
    const [before, id] = base === '' ? ['', ''] : [`${base}.`, `${idOf(base)}-`];
    return shapes.map((shape) => {
      const faults = board.ofField(base, shape.path, shape);
      return field(before + shape.path, id + idOf(shape.path), shape, valueAt(row, shape.path.split('.')), faults);
    });
  };
  const group = (title: string, shown: FieldView[], lists: RowsView[] = []): GroupView => ({
    title,
    fields: shown,
    rows: lists,
    open: shown.some(isMarked) || lists.some(isFaulty),
    used: [usedLine(shown, slice.units), ...lists.map(countLine)].filter((part) => part !== '').join(' · '),
  });

  const part = (title: string, shapes: readonly Field[], shown: number): PartView => {
    const all = fields('', shapes);
    return { fields: all.slice(0, shown), more: group(title, all.slice(shown)) };
  };

  function lot(index: number, blank: number): LotView {
    const path = `pile[${index}]`;
    const section = valueAt(draft, ['pile', index, 'section']);
    const written = showSection(section);
    const sectionField = (name: 'shape' | 'sizes', shape: Field, faults: Fault[]): FieldView => {
      const own = `${path}.section.${name}`;
      return field(own, idOf(own), shape, valueAt(section, [name]), faults, written[name]);
    };
    const more = group('Weighed, spoiled', fields(path, LOT_MORE));
    return {
      path,
      id: idOf(path),
      mark: showField('text', valueAt(draft, ['pile', index, 'lot'])),
      fields: fields(path, LOT_FIELDS),
      shape: sectionField('shape', SHAPE, board.ofField(path, 'section.shape', SHAPE)),
      sizes: sectionField('sizes', SIZES, board.of(`${path}.section`, SIZES_TELLER, `${path}.section.sizes`)),
      more,
      faults: board.of(path, { label: 'Lot' }),
      blank,
    };
  }

  function rows(base: string, list: RowList): RowsView {
    const path = `${base}${list.list}`;
    const shown = listAt(draft, steps(path)).map((_, n) => {
      const own = `${path}[${n}]`;
      return {
        path: own,
        id: idOf(own),
        fields: fields(own, list.fields),
        faults: board.of(own, { label: list.title }),
      };
    });
    return { path, id: idOf(path), rows: shown, faults: board.of(path, { label: list.title }), ...list };
  }

  function space(index: number): VoidView {
    const path = `voids[${index}]`;
    const view = {
      path,
      id: idOf(path),
      mark: showField('text', valueAt(draft, ['voids', index, 'void'])),
      fields: fields(path, VOID_FIELDS),
      more: VOID_MORE.map(({ title, part: name, fields: shapes, rows: lists = [] }) => ({
        ...group(
          title,
          fields(path, shapes),
          lists.map((list) => rows(`${path}.`, list)),
        ),
        part: name,
      })),
      rows: VOID_LISTS.map((list) => rows(`${path}.`, list)),
    };
    return { ...view, faults: board.of(path, { label: 'Void' }) };
  }

  const lots = listAt(draft, ['pile']).length;
  const lotNumbers = numbers(slice.firstLot, slice.lots, lots);
  const isLast = slice.firstLot + slice.lots >= lots;
  const blanks = isLast ? Array.from({ length: slice.blanks }, (_, n) => lot(lots + n, n + 1)) : [];
  const voidNumbers = numbers(slice.firstVoid, slice.voids, listAt(draft, ['voids']).length);
  const isShown = ({ path }: Fault): boolean => {
    const [, list, index] = /^(pile|voids)\[(\d+)\]/.exec(path) ?? [];
    return list === undefined || (list === 'pile' ? lotNumbers : voidNumbers).includes(Number(index));
  };
  const view = {
    name: fields('', [NAME_FIELD])[0] as FieldView,
    pile: [...lotNumbers.map((index) => lot(index, 0)), ...blanks],
    saw: part('More about the saw', [...SAW_FIELDS, ...STEEL_FIELDS], IN_SIGHT.saw),
    bundle: part('More about bundles', BUNDLE_FIELDS, IN_SIGHT.bundle),
    voids: voidNumbers.map(space),
    vessel: group('What is known of her', fields('', VESSEL_FIELDS)),
    openings: rows('', OPENINGS),
    lift: group('Rules for lifting', fields('', LIFT_RULES)),
    legs: rows('', LEGS),
    zones: rows('', ZONES),
    aims: part('More aims', AIM_FIELDS, IN_SIGHT.aims),
    pileFaults: board.at('pile', { label: 'Pile' }),
    voidsFaults: board.at('voids', { label: 'Voids' }),
  };
  const marks = { lots: marksOf(draft, 'pile', 'lot'), voids: marksOf(draft, 'voids', 'void') };
  return { ...view, marks, doubts, others: board.rest().filter(isShown), all: board.all() };
}

/**
 * The group of fields of one void that begins with the field `first`, and nothing else of the job: pages that follow the
 * typing ask for it again and again. Undefined where the job has no such void.
 */
export function showVoidGroup(
  draft: Draft,
  index: number,
  first: string,
  read: DraftRead,
  units: Units,
): GroupView | undefined {
  const slice = { ...WHOLE, units, lots: 0, blanks: 0, firstVoid: index, voids: 1 };
  const [space] = showForm(draft, read, slice).voids;
  return space?.more.find(({ fields }) => fields[0]?.name === `voids[${index}].${first}`);
}

/** `count` numbers from `first`, below `end`. */
function numbers(first: number, count: number, end: number): number[] {
  return Array.from({ length: Math.max(0, Math.min(count, end - first)) }, (_, n) => first + n);
}

const SHAPE: Field = { path: 'shape', label: 'Section', kind: 'choice', options: SHAPES };
const SIZES: Field = {
  path: 'sizes',
  label: 'Sizes',
  kind: 'text',
  unit: 'mm',
  help: 'Round 32. Flat 40 × 20: width, thickness. Angle 50 × 40 × 5: legs, thickness. Tube 48 × 3, box 40 × 30 × 3: wall last.',
};

const SIZES_TELLER: Teller = { label: 'Section', small: true };

/** `Bow 3 mm in 1 m · Note: odd lengths`; long texts are cut. */
function usedLine(fields: FieldView[], units: Units): string {
  const used = fields.filter((field) => field.value !== '');
  return used
    .map(({ label, value, unit, kind, options = [] }) => {
      // What was chosen, in the words in which it stands there to be chosen.
      const said = options.find(([of]) => of === value)?.[1] ?? value;
      const told = `${said.length > 40 ? `${said.slice(0, 40)}…` : said}${unit && kind !== 'list' ? ` ${unit}` : ''}`;
      // Of several lengths only the last has its unit, and words are whoever wrote them's.
      const stays = kind === 'text' || kind === 'note' || value.includes(';');
      return `${label} ${stays ? told : tellIn(units, told)}`;
    })
    .join(' · ');
}

function isFaulty({ rows, faults }: RowsView): boolean {
  return faults.length > 0 || rows.some((row) => row.faults.length > 0 || row.fields.some(isMarked));
}

function isMarked({ faults, doubt }: FieldView): boolean {
  return faults.length > 0 || doubt !== '';
}

/** Nothing chosen, and the value that says the same, are one: of the two there is the one to choose that stands there. */
function withBlank(shape: Field, value: string): Field {
  const { options = [], asBlank } = shape;
  if (asBlank === undefined || value !== asBlank) return shape;
  return { ...shape, options: options.map(([of, label]) => [of === '' ? asBlank : of, label]) };
}

/** By path of the field. */
function doubtsOf(parts: StatedParts): ReadonlyMap<string, string> {
  const doubts = new Map<string, string>();
  for (const { path, text } of jobDoubts(parts)) {
    const before = doubts.get(path);
    doubts.set(path, before === undefined ? text : `${before} ${text}`);
  }
  return doubts;
}

/** `Bearers: 3`. */
function countLine({ title, rows }: RowsView): string {
  return rows.length === 0 ? '' : `${title.split(':')[0]}: ${rows.length}`;
}

function marksOf(draft: Draft, list: string, name: string): string[] {
  return listAt(draft, [list]).map((_, index) => showField('text', valueAt(draft, [list, index, name])));
}

function steps(path: string): Step[] {
  return parsePath(path) ?? [];
}
