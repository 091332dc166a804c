/** Where each field of a draft stands: the one list that reading a form and showing one both follow. */
import type { Field } from './field.ts';
import { AIM_FIELDS, BUNDLE_FIELDS, SAW_FIELDS, STEEL_FIELDS, VESSEL_FIELDS } from './jobFields.ts';
import { listAt, type Step } from './path.ts';
import { LOT_FIELDS, LOT_MORE } from './pileFields.ts';
import { KEEP_OUT_FIELDS, STATION_FIELDS, VOID_FIELDS, VOID_MORE } from './voidFields.ts';

/** A field at its full path in the draft. */
export interface Place {
  path: string;
  field: Field;
}

export const NAME_FIELD: Field = { path: 'name', label: 'Name of the job', kind: 'text' };

const ONCE: readonly Field[] = [
  NAME_FIELD,
  ...STEEL_FIELDS,
  ...SAW_FIELDS,
  ...BUNDLE_FIELDS,
  ...VESSEL_FIELDS,
  ...AIM_FIELDS,
];

/** The fields of a draft that are asked once. */
export function placesOnce(): Place[] {
  return ONCE.map((field) => ({ path: field.path, field }));
}

/** The fields of a lot, but for its section, which has two of its own (`.section.shape` and `.section.sizes`). */
export function placesOfLot(index: number): Place[] {
  return [...LOT_FIELDS, ...LOT_MORE].map((field) => ({ path: `pile[${index}].${field.path}`, field }));
}

/** The fields of a void, of its keep-outs and of its stations, as many as the draft has. */
export function placesOfVoid(draft: unknown, index: number): Place[] {
  const at = (path: string, fields: readonly Field[]): Place[] =>
    fields.map((field) => ({ path: `${path}.${field.path}`, field }));
  const own = `voids[${index}]`;
  const rows = (name: string, fields: readonly Field[]): Place[] =>
    listAt(draft, ['voids', index, name] as Step[]).flatMap((_, n) => at(`${own}.${name}[${n}]`, fields));
  return [
    ...at(own, VOID_FIELDS),
    ...VOID_MORE.flatMap((group) => at(own, group.fields)),
    ...rows('keepOut', KEEP_OUT_FIELDS),
    ...rows('stations', STATION_FIELDS),
  ];
}
