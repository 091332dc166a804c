/**
 * What can be wrong, and how it is told.
 *
 * Bad input is a value: a list of {@link Fault}, every one at once. A broken invariant of kentledge's own is thrown
 * as a {@link Defect}; nothing else is thrown on purpose.
 */

/** One thing wrong with what the user gave. `path` is written as in the file (`pile[2].spoiled[0].to`); '' is the whole file. */
export interface Fault {
  path: string;
  code: FaultCode;
  message: string;
  /** What the user can do about it, as a full sentence. */
  remedy: string;
}

/** The catalogue of faults in input. DEVELOPERS.md lists the same codes; a test keeps the two alike. */
export const FAULTS = {
  'not-json': 'The file is not JSON.',
  'wrong-type': 'A field holds another kind of value than it should.',
  'missing-field': 'A required field is absent.',
  'unknown-field': 'A field that this version does not know.',
  'out-of-range': 'A number or text is outside what is possible.',
  'not-unique': 'Two things carry the same name.',
  contradiction: 'Two fields can not both be right.',
  'wrong-unit': 'A number looks like another unit.',
  'newer-file': 'The file was written by a newer kentledge.',
  'too-large': 'The file is larger, or nests deeper, than kentledge reads.',
} as const;

export type FaultCode = keyof typeof FAULTS;

/** Either the value that was read, or every fault that kept it from being read. */
export type Read<T> = { ok: true; value: T } | { ok: false; faults: Fault[] };

/** A broken invariant inside kentledge: its own mistake, never the user's. Exit status 1, HTTP 500. */
export class Defect extends Error {
  override name = 'Defect';
}
