/** Where each field of a draft stands: the one list that reading a form and showing one both follow. */
import type { Field, RowList } from './field.ts';
import { AIM_FIELDS, BUNDLE_FIELDS, OPENINGS, SAW_FIELDS, STEEL_FIELDS, VESSEL_FIELDS } from './jobFields.ts';
import { LEGS, LIFT_RULES, ZONES } from './liftFields.ts';
import { listAt, parsePath } from './path.ts';
import { LOT_FIELDS, LOT_MORE } from './pileFields.ts';
import { VOID_FIELDS, VOID_MORE, VOID_ROWS } from './voidFields.ts';

/** A field at its full path in the draft. */
export interface Place {
  path: string;
  field: Field;
}

export const NAME_FIELD: Field = { path: 'name', label: 'Name of the job', kind: 'text' };

/** Lists of rows of the job as a whole. */
export const JOB_ROWS: readonly RowList[] = [OPENINGS, LEGS, ZONES];

/** The fields that are asked once a job. */
export const ONCE: readonly Field[] = [
  NAME_FIELD,
  ...STEEL_FIELDS,
  ...SAW_FIELDS,
  ...BUNDLE_FIELDS,
  ...VESSEL_FIELDS,
  ...LIFT_RULES,
  ...AIM_FIELDS,
];

/** The fields of a draft that are asked once, and those of the rows of the job as a whole. */
export function placesOnce(draft: unknown): Place[] {
  return [
    ...ONCE.map((field) => ({ path: field.path, field })),
    ...JOB_ROWS.flatMap((rows) => placesOfRows(draft, '', rows)),
  ];
}

/** The fields of a lot, but for its section, which has two of its own (`.section.shape` and `.section.sizes`). */
export function placesOfLot(index: number): Place[] {
  return [...LOT_FIELDS, ...LOT_MORE].map((field) => ({ path: `pile[${index}].${field.path}`, field }));
}

/** The fields of a void and of its rows, as many as the draft has. */
export function placesOfVoid(draft: unknown, index: number): Place[] {
  const own = `voids[${index}]`;
  const fields = [...VOID_FIELDS, ...VOID_MORE.flatMap((group) => group.fields)];
  return [
    ...fields.map((field) => ({ path: `${own}.${field.path}`, field })),
    ...VOID_ROWS.flatMap((rows) => placesOfRows(draft, `${own}.`, rows)),
  ];
}

/** The rows of a list at `base`, a path that ends with its point, or ''. */
function placesOfRows(draft: unknown, base: string, { list, fields }: RowList): Place[] {
  const path = `${base}${list}`;
  return listAt(draft, parsePath(path) ?? []).flatMap((_, n) =>
    fields.map((field) => ({ path: `${path}[${n}].${field.path}`, field })),
  );
}
