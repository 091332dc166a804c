/** A field of the job page. Paths are relative to their row where there is one. */
import type { Kind } from './kinds.ts';

export interface Field {
  path: string;
  label: string;
  kind: Kind;
  unit?: string;
  /** What holds where nothing is typed, in words. */
  usual?: string;
  /** Explains the term where it stands. */
  help?: string;
  /** Of a field with a notation of its own, how it is written; it stands in the hint, too. */
  example?: string;
  /** Of some millimetres or centimetres: who wrote it otherwise is shown examples of that size. */
  small?: boolean;
  /** Takes the room of two. */
  wide?: boolean;
  /** Stands in one frame with the field beside it of the same words, which are told to who listens. */
  pair?: string;
  options?: readonly (readonly [value: string, label: string])[];
  /** The value that says the same as nothing chosen; a file may hold it. */
  asBlank?: string;
}

/** Fields that stand together; those under `more` are folded away until one of them is used. */
export interface Group {
  title: string;
  fields: readonly Field[];
  /** Which part of a void it is, where the page adds something of its own to it. */
  part?: 'lift' | 'hold';
  /** Lists that belong to it. */
  rows?: readonly RowList[];
}

/** A list of rows that grows by a button: stations, bolts to stay off, straps. */
export interface RowList {
  /** Its path in the void, or in the job. */
  list: string;
  title: string;
  /** The words of the button that adds one, and of the one that takes one out. */
  add: string;
  remove: string;
  fields: readonly Field[];
}
