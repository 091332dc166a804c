/**
 * A field of a form as markup. It is a template like every other, compiled once and called as a function: the job page
 * of a large vessel has two thousand fields, and looking a template up for each takes longer than all the rest.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import ejs from 'ejs';
import type { Fault } from '../../src/fault.ts';
import type { FieldView } from '../form/show.ts';
import { packageFolder } from '../place.ts';

export interface FieldMarkup {
  showField(field: FieldView): string;
  /** Fields in order; two that belong together in one frame. */
  showFields(fields: FieldView[]): string;
  /** The faults of a row or a list; `id` is that of what they are about. */
  showFaults(faults: Fault[], id: string): string;
}

export function compileFields(): FieldMarkup {
  const field = compile('field', ['field', 'showFaults']);
  const faults = compile('faults', ['faults', 'id']);
  const showFaults = (some: Fault[], id: string): string => (some.length === 0 ? '' : faults({ faults: some, id }));
  const showField = (shown: FieldView): string => field({ field: shown, showFaults });
  const pair = compile('pair', ['title', 'fields', 'showField']);
  const showFields = (fields: FieldView[]): string =>
    framesOf(fields)
      .map((frame) => {
        const title = frame[0]?.pair;
        return title === undefined ? frame.map(showField).join('') : pair({ title, fields: frame, showField });
      })
      .join('');
  return { showFaults, showField, showFields };
}

/** Neighbours of the same pair together, every other field alone. */
function framesOf(fields: FieldView[]): FieldView[][] {
  const frames: FieldView[][] = [];
  for (const field of fields) {
    const last = frames.at(-1);
    if (field.pair !== undefined && last?.[0]?.pair === field.pair) last.push(field);
    else frames.push([field]);
  }
  return frames;
}

function compile(name: string, destructuredLocals: string[]): (locals: object) => string {
  const text = readFileSync(join(packageFolder(), 'views', 'partials', `${name}.ejs`), 'utf8');
  return ejs.compile(text, { strict: true, destructuredLocals });
}
