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
  /** The faults of a row or a list; `id` is that of what they are about. */
  showFaults(faults: Fault[], id: string): string;
}

export function compileFields(): FieldMarkup {
  const field = compile('field', ['field', 'showFaults']);
  const faults = compile('faults', ['faults', 'id']);
  const showFaults = (some: Fault[], id: string): string => (some.length === 0 ? '' : faults({ faults: some, id }));
  return { showFaults, showField: (shown) => field({ field: shown, showFaults }) };
}

function compile(name: string, destructuredLocals: string[]): (locals: object) => string {
  const text = readFileSync(join(packageFolder(), 'views', 'partials', `${name}.ejs`), 'utf8');
  return ejs.compile(text, { strict: true, destructuredLocals });
}
