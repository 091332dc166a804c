/** Characters in marks and names that are never printed: a tag could not be told from its like. */
import type { Fault } from '../fault.ts';
import { SEEN } from './label.ts';
import { pathText } from './schemaFaults.ts';

/**
 * A control character, line breaks and tabs among them, half of a letter, or what turns the direction of all that follows on
 * its line: letters read from right to left turn by themselves.
 */
const UNPRINTED = /[\p{Cc}\p{Cs}\u202a-\u202e\u2066-\u2069]/u;

/** The fields of a job that hold the user's own words in one line; its notes may have several. */
const ONE_LINE: ReadonlySet<string> = new Set(['name', 'lot', 'void', 'what', 'leg', 'zone', 'by', 'into', 'reason']);

/** Those of a cut list. */
export const ONE_LINE_IN_LIST: ReadonlySet<string> = new Set(['mark']);

/** Every such field of a file as written that holds one, with its path; `fields` are those of a job unless told. */
export function unprintedFaults(raw: unknown, fields: ReadonlySet<string> = ONE_LINE): Fault[] {
  const faults: Fault[] = [];
  const look = (value: unknown, path: (string | number)[]): void => {
    const name = path.at(-1);
    if (typeof value === 'string') {
      if (typeof name === 'string' && fields.has(name)) faults.push(...faultOf(value, name, pathText(path)));
      return;
    }
    if (typeof value !== 'object' || value === null) return;
    if (Array.isArray(value)) for (const [i, item] of value.entries()) look(item, [...path, i]);
    else for (const [key, item] of Object.entries(value)) look(item, [...path, key]);
  };
  look(raw, []);
  return faults;
}

function faultOf(words: string, name: string, path: string): Fault[] {
  const [found] = UNPRINTED.exec(words) ?? [];
  // What is only spaces is told as that.
  if (found === undefined || !SEEN.test(words)) return [];
  const code = (found.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
  const message = `“${name}” holds a line break, a tab or another character that is never printed (U+${code}).`;
  return [{ path, code: 'out-of-range', message, remedy: 'Write it anew, in one line and without tabs.' }];
}
