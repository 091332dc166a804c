/** What the page shows while a form is being typed, before it is saved: how each text was read, sums, drawings, faults. */
import type { Fault } from '../../src/fault.ts';
import type { Units } from '../words.ts';
import type { Draft, Posted } from './apply.ts';
import { echoOf } from './echo.ts';
import { idOf, listAt, parsePath, type Step, valueAt } from './path.ts';
import { type FieldView, type FormView, type RowsView, showForm, WHOLE } from './show.ts';
import { sketchVoid, VIEWS, type View } from './sketch.ts';
import { sketchLot } from './sketchLot.ts';
import { type PileSum, pileSum } from './sums.ts';

export interface FormSketch {
  /** By field name: how a text was read that does not say it in the field's own unit; or that it could not be read. */
  echoes: Record<string, string>;
  /** By field name, only where there are any. */
  faults: Record<string, Fault[]>;
  faultCount: number;
  sums: PileSum;
  /** By id of the void, or of the lot, that has the focus: its drawings. */
  drawings: Record<string, Record<string, string>>;
}

/** `draft` is what `typed` makes of the job; `focus` is the name of the field being typed in. */
export function sketchForm(draft: Draft, typed: Posted, faults: Fault[], focus: string, units: Units): FormSketch {
  const fields = fieldsOf(showForm(draft, faults, { ...WHOLE, blanks: 0 }));
  const echoes: Record<string, string> = {};
  const faulty: Record<string, Fault[]> = {};
  for (const field of fields) {
    const value = valueAt(draft, parsePath(field.name) as Step[]);
    const echo = echoOf(field, value, typed.get(field.name) ?? '', units);
    if (echo !== '') echoes[field.name] = echo;
    if (field.faults.length > 0) faulty[field.name] = field.faults;
  }
  return { echoes, faults: faulty, faultCount: faults.length, sums: pileSum(draft), drawings: drawFocus(draft, focus) };
}

function drawFocus(draft: Draft, focus: string): FormSketch['drawings'] {
  const [, index, station] = /^voids\[(\d{1,4})\](?:\.stations\[(\d{1,4})\])?/.exec(focus) ?? [];
  if (index === undefined) return drawLot(draft, focus);
  const space = listAt(draft, ['voids'])[Number(index)];
  const drawn: Record<string, string> = {};
  for (const view of Object.keys(VIEWS) as View[]) {
    const svg = sketchVoid(space, view, `void-${index}-${view}`, Number(station ?? -1));
    if (svg !== null) drawn[view] = svg;
  }
  return { [idOf(`voids[${index}]`)]: drawn };
}

function drawLot(draft: Draft, focus: string): FormSketch['drawings'] {
  const index = /^pile\[(\d{1,5})\]/.exec(focus)?.[1];
  if (index === undefined) return {};
  const { section, bar } = sketchLot(draft, Number(index));
  return { [idOf(`pile[${index}]`)]: { section: section ?? '', bar: bar ?? '' } };
}

/** Every field of the form, in the order of the page. */
export function fieldsOf(form: FormView): FieldView[] {
  return [
    form.name,
    ...form.pile.flatMap((lot) => [...lot.fields, lot.shape, lot.sizes, ...lot.more.fields]),
    ...form.saw,
    ...form.steel,
    ...form.bundle.fields,
    ...form.voids.flatMap((space) => [
      ...space.fields,
      ...space.more.flatMap((group) => group.fields),
      ...fieldsOfRows(space.rows),
    ]),
    ...form.vessel.fields,
    ...form.lift.fields,
    ...fieldsOfRows([form.openings, form.legs]),
    ...form.aims,
  ];
}

function fieldsOfRows(lists: RowsView[]): FieldView[] {
  return lists.flatMap(({ rows }) => rows.flatMap((row) => row.fields));
}
