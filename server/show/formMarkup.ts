/**
 * The parts of a form as markup. Each is a template like every other, compiled once and called as a function: the job page
 * of a large vessel has two thousand fields, and looking a template up for each takes longer than all the rest.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import ejs from 'ejs';
import type { Fault } from '../../src/fault.ts';
import type { FieldView, LotView, RowsView, VoidView } from '../form/show.ts';
import type { VoidSketch } from '../form/sketch.ts';
import type { LotSketch } from '../form/sketchLot.ts';
import { packageFolder } from '../place.ts';

export interface FormMarkup {
  /** Fields in order; two that belong together in one frame. */
  showFields(fields: FieldView[]): string;
  /** The faults of a row or a list; `id` is that of what they are about. */
  showFaults(faults: Fault[], id: string): string;
  /** The rows of a list; '' where it has none. */
  showRows(list: RowsView): string;
  showLot(shown: ShownLot): string;
  showVoid(shown: ShownVoid): string;
}

interface ShownLot {
  lot: LotView;
  /** Its sums, in words. */
  sum: string;
  sketch: LotSketch;
}

interface ShownVoid {
  space: VoidView;
  sketch: VoidSketch;
  /** What each view is called. */
  views: Record<string, string>;
  /** What its way in suggests as a lift limit; null for nothing. */
  suggestion: string | null;
  /** True where enough is told to draw the lift into it. */
  lifter: boolean;
  job: number;
  revision: number;
  /** Its place in the job, from 1. */
  number: number;
}

export function compileForm(): FormMarkup {
  const faults = compile('faults', ['faults', 'id']);
  const showFaults = (some: Fault[], id: string): string => (some.length === 0 ? '' : faults({ faults: some, id }));
  const frames = compile('fields', ['frames', 'showFaults']);
  const showFields = (fields: FieldView[]): string => frames({ frames: framesOf(fields), showFaults });
  const rows = compile('rows', ['list', 'showFields', 'showFaults']);
  const showRows = (list: RowsView): string => rows({ list, showFields, showFaults });
  const all = { showFaults, showFields, showRows };
  const lot = compile('lot', ['lot', 'sum', 'sketch', ...Object.keys(all)]);
  const space = compile('void', [
    ...['space', 'sketch', 'views', 'suggestion', 'lifter', 'job', 'revision', 'number'],
    ...Object.keys(all),
  ]);
  return { ...all, showLot: (shown) => lot({ ...shown, ...all }), showVoid: (shown) => space({ ...shown, ...all }) };
}

/** Neighbours of the same pair together, and those of none. */
function framesOf(fields: FieldView[]): FieldView[][] {
  const frames: FieldView[][] = [];
  for (const field of fields) {
    const last = frames.at(-1);
    if (last && last[0]?.pair === field.pair) last.push(field);
    else frames.push([field]);
  }
  return frames;
}

/** A template of `views/partials`, with the names that it is handed. */
function compile(name: string, destructuredLocals: string[]): (locals: object) => string {
  const text = readFileSync(join(packageFolder(), 'views', 'partials', `${name}.ejs`), 'utf8');
  return ejs.compile(text, { strict: true, destructuredLocals, escape: escaped });
}

/** What the library would change in a text; nearly all texts of a form have nothing of it, and looking takes less time. */
const TO_ESCAPE = /[&<>'"]/;

function escaped(value?: unknown): string {
  const text = String(value ?? '');
  return TO_ESCAPE.test(text) ? ejs.escapeXML(text) : text;
}
