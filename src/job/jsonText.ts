/** From the bytes of a file to its JSON value: size, encoding, depth, syntax with line and column, fields written twice. */
import { createScanner, type JSONPath, type ParseError, parse, visit } from 'jsonc-parser';
import type { Fault, Read } from '../fault.ts';
import { pathText } from './schemaFaults.ts';

/** The largest file that is read, bytes: 5 MB. */
const FILE_LIMIT = 5 * 1024 * 1024;
/** A file may nest so deep; the formats themselves need fewer than ten levels. */
const DEEPEST = 32;

/** The value of a JSON text, or why it has none. A byte order mark is allowed; comments and trailing commas are not. */
export function readJson(input: string | Uint8Array): Read<unknown> {
  const size = typeof input === 'string' ? utf8Length(input) : input.byteLength;
  if (size > FILE_LIMIT) {
    const message = `The file holds ${(size / 1024 / 1024).toFixed(1)} MB; at most 5 MB is read.`;
    const remedy = 'Take out what is not needed, or state alike bars as one lot with a count.';
    return refuse({ path: '', code: 'too-large', message, remedy });
  }
  const text = typeof input === 'string' ? input.replace(/^\uFEFF/, '') : decode(input);
  if (text === null) {
    const remedy = 'Save it again with the encoding UTF-8.';
    return refuse({ path: '', code: 'not-json', message: 'The file is not text in UTF-8.', remedy });
  }
  const deep = tooDeepAt(text);
  if (deep !== null) return refuse(faultBefore(text, deep));
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return refuse(syntaxFault(text));
  }
  const faults = fieldsWrittenTwice(text);
  return faults.length > 0 ? { ok: false, faults } : { ok: true, value };
}

function refuse(fault: Fault): Read<never> {
  return { ok: false, faults: [fault] };
}

/** Length of a text in UTF-8 without encoding it, counting only as far as it matters. */
function utf8Length(text: string): number {
  return text.length > FILE_LIMIT ? text.length : new TextEncoder().encode(text).byteLength;
}

function decode(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

function syntaxFault(text: string): Fault {
  if (text.trim() === '') {
    const remedy = 'Choose the file that the job was saved in.';
    return { path: '', code: 'not-json', message: 'The file is empty.', remedy };
  }
  const [first] = parseErrors(text);
  if (first) return errorFault(text, first);
  const remedy = 'Open it in an editor that checks JSON, and mend it there.';
  return { path: '', code: 'not-json', message: 'The file is not JSON.', remedy };
}

/** What is wrong before the first bracket that nests too deep, which stands at `end`; where nothing is, that bracket itself. */
function faultBefore(text: string, end: number): Fault {
  const first = parseErrors(text.slice(0, end)).find(({ offset }) => offset < end);
  if (first) return errorFault(text, first);
  const message = `${placeIn(text, end)}: more than ${DEEPEST} brackets are open here.`;
  const remedy = 'Close those before it, or take out what is too many: no file of kentledge has so many.';
  return { path: '', code: 'too-large', message, remedy };
}

function parseErrors(text: string): ParseError[] {
  const errors: ParseError[] = [];
  parse(text, errors, { disallowComments: true, allowTrailingComma: false });
  return errors;
}

function errorFault(text: string, { error, offset }: ParseError): Fault {
  const [what, remedy] = WORDS[error] ?? ['something that JSON does not have', 'Mend that place.'];
  return { path: '', code: 'not-json', message: `${placeIn(text, offset)}: ${what}.`, remedy };
}

/** By the parser's error number: what was found, and what to do. */
const WORDS: Record<number, [string, string]> = {
  1: ['a word that JSON does not know', 'Put text in double quotation marks; true, false and null are written small.'],
  2: ['a number that is not written as JSON wants it', 'Write it like 12 or 12.5, with a point and no leading nought.'],
  3: ['a field name is missing', 'Put the name in double quotation marks, and leave no comma after the last field.'],
  4: ['a value is missing', 'Write the value, or take out the comma or the field name that stands alone.'],
  5: ['a colon is missing', 'Write a colon between a field name and its value.'],
  6: ['a comma is missing', 'Write a comma between one value and the next.'],
  7: ['a closing brace is missing', 'Write } where the object ends; the file may have been cut off.'],
  8: ['a closing bracket is missing', 'Write ] where the list ends; the file may have been cut off.'],
  9: ['something stands after the end', 'Take out what follows the last closing brace.'],
  10: ['a comment, and JSON has none', 'Take the comment out, or put it in a “note” field.'],
  11: ['a comment that does not end, and JSON has none', 'Take the comment out.'],
  12: ['a text that does not end', 'Write the closing quotation mark; a line break inside a text is written \\n.'],
  13: ['a number that does not end', 'Write the number in full, like 12.5.'],
  14: ['an escaped letter that does not exist', 'Write \\u and four hexadecimal digits, or the letter itself.'],
  15: ['a backslash before a letter that needs none', 'Write \\\\ for a backslash.'],
  16: ['a letter that can not stand in a text as it is', 'Write a tab as \\t and a line break as \\n.'],
};

/** `Line 3, column 12` of an offset in the text. */
function placeIn(text: string, offset: number): string {
  const before = text.slice(0, offset).split('\n');
  return `Line ${before.length}, column ${(before.at(-1) ?? '').length + 1}`;
}

/** By the scanner's token number of an opening bracket, that of the one which closes it: of braces and of brackets. */
const CLOSES = new Map([
  [1, 2],
  [3, 4],
]);
const END_OF_TEXT = 17;

/**
 * Where the first bracket opens that nests too deep, found without walking down; null where none does. One that is closed
 * by the wrong kind stays open, as it does for the parser, which would otherwise go down until nothing holds it.
 */
function tooDeepAt(text: string): number | null {
  const scanner = createScanner(text, true);
  const open: number[] = [];
  for (let token = scanner.scan(); token !== END_OF_TEXT; token = scanner.scan()) {
    const closing = CLOSES.get(token);
    if (closing !== undefined) open.push(closing);
    else if (token === open.at(-1)) open.pop();
    if (open.length > DEEPEST) return scanner.getTokenOffset();
  }
  return null;
}

/** JSON keeps the last of two fields of one name and says nothing; the person meant one of them. */
function fieldsWrittenTwice(text: string): Fault[] {
  const faults: Fault[] = [];
  const open: Set<string>[] = [];
  visit(text, {
    onObjectBegin: () => void open.push(new Set()),
    onObjectEnd: () => void open.pop(),
    onObjectProperty: (name, _offset, _length, line, _column, where: () => JSONPath) => {
      const names = open.at(-1);
      if (names?.has(name)) {
        const path = pathText([...where(), name]);
        const message = `The field stands here twice, the second time in line ${line + 1}.`;
        faults.push({
          path,
          code: 'not-unique',
          message,
          remedy: 'Keep the one that is right and take the other out.',
        });
      }
      names?.add(name);
    },
  });
  return faults;
}
