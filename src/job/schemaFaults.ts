/** What a zod schema found wrong, in plain words: path as in the file, what stands there, what is wanted, what to do. */
import type { z } from 'zod';
import type { Fault } from '../fault.ts';
import { SEEN } from './label.ts';
import { nearestName } from './nearestName.ts';

type Issue = z.core.$ZodIssue;
type Path = readonly PropertyKey[];

/** `['pile', 2, 'spoiled', 0, 'to']` as `pile[2].spoiled[0].to`. */
export function pathText(path: Path): string {
  let text = '';
  for (const part of path) text += typeof part === 'number' ? `[${part}]` : `${text === '' ? '' : '.'}${String(part)}`;
  return text;
}

/** Every fault that `schema` finds in `raw`, none where it parses. `file` names the whole in sentences: `job`, `plan`. */
export function schemaFaults(schema: z.ZodType, raw: unknown, file: string): Fault[] {
  const issues = schema.safeParse(raw).error?.issues ?? [];
  const isAsked = issues.some(({ code }) => code === 'unrecognized_keys');
  const owners = isAsked ? ownersIn(schema) : new Map<string, string[]>();
  return issues
    .filter((issue, n) => !isLooser(issue, issues[n + 1]))
    .flatMap((issue) => faultsOf(issue, raw, schema, owners, file));
}

/** True of the widest limit of a whole number, where the limit of its own field is told behind it. */
function isLooser(issue: Issue, next: Issue | undefined): boolean {
  if ((issue.code !== 'too_big' && issue.code !== 'too_small') || issue.origin !== 'int') return false;
  return next?.code === issue.code && pathText(next.path) === pathText(issue.path);
}

/**
 * What `raw` says, where nothing is wrong with it but fields that nobody knows; undefined where there is more, or where such
 * a field may be a known one misspelt, since what it was to say is then missing.
 */
export function readKnown<T extends z.ZodType>(schema: T, raw: unknown): z.output<T> | undefined {
  const parsed = schema.safeParse(raw);
  if (parsed.success) return parsed.data;
  let known = raw;
  for (const issue of parsed.error.issues) {
    if (issue.code !== 'unrecognized_keys') return undefined;
    const fields = fieldsAt(schema, issue.path, raw);
    if (issue.keys.some((key) => nearestName(key, fields) !== undefined)) return undefined;
    known = withoutKeys(known, issue.path, issue.keys);
  }
  return schema.safeParse(known).data;
}

/** A copy of `value` without some fields of the object at `path`; only what lies on the way there is copied. */
function withoutKeys(value: unknown, path: Path, keys: readonly string[]): unknown {
  const [part, ...rest] = path;
  const copy: Record<PropertyKey, unknown> = Array.isArray(value)
    ? (value.slice() as unknown as Record<PropertyKey, unknown>)
    : { ...(value as Record<PropertyKey, unknown>) };
  if (part === undefined) for (const key of keys) delete copy[key];
  else copy[part] = withoutKeys(copy[part], rest, keys);
  return copy;
}

function faultsOf(
  issue: Issue,
  raw: unknown,
  schema: z.ZodType,
  owners: ReadonlyMap<string, string[]>,
  file: string,
): Fault[] {
  const path = pathText(issue.path);
  const found = valueAt(raw, issue.path);
  const name = nameOf(issue.path, file);
  if (issue.code === 'unrecognized_keys') {
    const known = fieldsAt(schema, issue.path, raw);
    return issue.keys.map((key) => {
      const elsewhere = (owners.get(key) ?? []).map((owner) => (owner === '' ? file : owner));
      return unknownField(pathText([...issue.path, key]), key, { name, known, elsewhere });
    });
  }
  if (found === undefined) {
    const remedy = `Add “${name}”${wanted(issue)}.`;
    return [{ path, code: 'missing-field', message: `“${name}” is missing.`, remedy }];
  }
  const [code, message, remedy] = sentence(issue, name, found);
  return [{ path, code, message, remedy }];
}

function sentence(issue: Issue, name: string, found: unknown): [Fault['code'], string, string] {
  switch (issue.code) {
    case 'invalid_type':
      return wrongType(issue.expected, name, found);
    case 'too_small': {
      const least = issue.minimum;
      if (issue.origin === 'string') return ['out-of-range', `“${name}” is empty.`, 'Write at least one letter.'];
      if (issue.origin === 'array') return tooFew(name, found, Number(least));
      const limit = issue.inclusive ? `at least ${least}` : `more than ${least}`;
      return ['out-of-range', `“${name}” is ${shown(found)}; it must be ${limit}.`, `Write a number of ${limit}.`];
    }
    case 'too_big': {
      const most = issue.maximum;
      if (issue.origin === 'string')
        return ['out-of-range', `“${name}” is longer than ${most} letters.`, 'Shorten it.'];
      if (issue.origin === 'array') {
        const length = Array.isArray(found) ? found.length : 0;
        return ['out-of-range', `“${name}” has ${length} entries; at most ${most} are read.`, 'Take out the rest.'];
      }
      return [
        'out-of-range',
        `“${name}” is ${shown(found)}; it can be at most ${most}.`,
        'Check the number and its unit.',
      ];
    }
    case 'invalid_format':
      if (typeof found === 'string' && !SEEN.test(found))
        return ['out-of-range', `“${name}” is only spaces.`, 'Write at least one letter.'];
      return notPossible(name, found);
    case 'invalid_value':
      return notOneOf(name, found, issue.values.map(String));
    case 'invalid_union':
      return notOneOf(name, found, choices(issue));
    default:
      return notPossible(name, found);
  }
}

function notPossible(name: string, found: unknown): [Fault['code'], string, string] {
  return [
    'out-of-range',
    `“${name}” is ${shown(found)}, and that is not possible.`,
    'Write it as the format page says.',
  ];
}

function wrongType(expected: string, name: string, found: unknown): [Fault['code'], string, string] {
  const number = expected === 'number' || expected === 'int';
  if (number && isTooLarge(found))
    return ['out-of-range', `“${name}” is too large a number.`, 'Write a smaller number.'];
  if (number && typeof found === 'string') {
    const value = Number(found.trim().replace(',', '.'));
    const plain = found.trim() !== '' && Number.isFinite(value);
    const remedy = plain
      ? `Write ${value} without quotation marks.`
      : 'Write the number alone: no unit, no quotation marks.';
    return ['wrong-type', `“${name}” is text (${shown(found)}); a number is wanted.`, remedy];
  }
  if (expected === 'int')
    return ['wrong-type', `“${name}” is ${shown(found)}; a whole number is wanted.`, 'Write a whole number.'];
  const kind = KINDS[expected] ?? expected;
  return ['wrong-type', `“${name}” is ${shown(found)}; ${kind} is wanted.`, `Write ${kind}.`];
}

/** True of a number, or a text that is one, beyond what the machine holds, on either side of nought: 1e999. */
function isTooLarge(found: unknown): boolean {
  const value = typeof found === 'string' && /\d/.test(found) ? Number(found.trim().replace(',', '.')) : found;
  return value === Number.POSITIVE_INFINITY || value === Number.NEGATIVE_INFINITY;
}

const KINDS: Record<string, string> = {
  number: 'a number',
  int: 'a whole number',
  string: 'text in quotation marks',
  boolean: 'true or false',
  object: 'an object in braces { }',
  array: 'a list in brackets [ ]',
  tuple: 'a pair [from, to]',
};

function tooFew(name: string, found: unknown, least: number): [Fault['code'], string, string] {
  const length = Array.isArray(found) ? found.length : 0;
  const have = length === 0 ? 'is empty' : `has ${length} ${length === 1 ? 'entry' : 'entries'}`;
  return ['out-of-range', `“${name}” ${have}; at least ${least} must stand there.`, 'Add what is missing.'];
}

function notOneOf(name: string, found: unknown, values: string[]): [Fault['code'], string, string] {
  const near = typeof found === 'string' ? nearestName(found, values) : undefined;
  const list = values.join(', ');
  const remedy = near === undefined ? `Write one of: ${list}.` : `Did you mean “${near}”? It can be: ${list}.`;
  return ['out-of-range', `“${name}” is ${shown(found)}, and that is not known.`, remedy];
}

/** Where a field stands that is not known there, the names that are, and the places in the file where it is known. */
interface Unknown {
  name: string;
  known: string[];
  elsewhere: string[];
}

/** A name that is known in more places says little of where it belongs. */
const PLACES_TOLD = 3;

function unknownField(path: string, key: string, { name, known, elsewhere }: Unknown): Fault {
  const near = nearestName(key, known);
  const message = `“${key}” is not a field that this version knows in “${name}”.`;
  const isTold = elsewhere.length > 0 && elsewhere.length <= PLACES_TOLD;
  const belongs = isTold ? `It belongs in ${elsewhere.map((owner) => `“${owner}”`).join(' or ')}` : '';
  if (near !== undefined) {
    const remedy = `Did you mean “${near}”? If not, take it out${isTold ? `. ${belongs}` : ''}.`;
    return { path, code: 'unknown-field', message, remedy };
  }
  return { path, code: 'unknown-field', message, remedy: isTold ? `${belongs}: move it there.` : 'Take it out.' };
}

function wanted(issue: Issue): string {
  if (issue.code === 'invalid_type') return `: ${KINDS[issue.expected] ?? issue.expected}`;
  if (issue.code === 'invalid_value') return `: ${issue.values.map(String).join(', ')}`;
  if (issue.code === 'invalid_union') return `: one of ${choices(issue).join(', ')}`;
  return '';
}

function choices(issue: Extract<Issue, { code: 'invalid_union' }>): string[] {
  const options = (issue as { options?: unknown }).options;
  if (Array.isArray(options)) return options.map(String);
  return issue.errors.flat().flatMap((inner) => (inner.code === 'invalid_value' ? inner.values.map(String) : []));
}

/** The last field name of a path; of an entry of a list, the list's name and the number: `pile[2]`. */
function nameOf(path: Path, file: string): string {
  const at = path.findLastIndex((part) => typeof part !== 'number');
  return path.length === 0 ? file : pathText(path.slice(Math.max(at, 0)));
}

function shown(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object' && value !== null) return 'an object';
  const text = typeof value === 'string' ? JSON.stringify(value) : String(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}

function valueAt(raw: unknown, path: Path): unknown {
  let value = raw;
  for (const part of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, part)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[part];
  }
  return value;
}

/** The field names that the schema knows at a path. */
function fieldsAt(schema: z.ZodType, path: Path, raw: unknown): string[] {
  let at: unknown = bare(schema);
  for (const [i, part] of path.entries()) {
    const node = at as { element?: z.ZodType; shape?: Record<string, z.ZodType> };
    const next = typeof part === 'number' ? node.element : node.shape?.[String(part)];
    at = next && chosen(bare(next), valueAt(raw, path.slice(0, i + 1)));
  }
  return Object.keys((at as { shape?: object } | undefined)?.shape ?? {});
}

/** By name of a field the places of a schema whose objects know it, as `saw` or `voids[].opening`; '' is the whole. */
function ownersIn(schema: z.ZodType): Map<string, string[]> {
  const owners = new Map<string, string[]>();
  const walk = (at: z.ZodType, place: string): void => {
    const {
      shape = {},
      element,
      options,
    } = bare(at) as {
      shape?: Record<string, z.ZodType>;
      element?: z.ZodType;
      options?: unknown[];
    };
    if (element) walk(element, `${place}[]`);
    // Those of a union; a choice of words has words.
    for (const option of options ?? []) if (typeof option === 'object') walk(option as z.ZodType, place);
    for (const [name, of] of Object.entries(shape)) {
      const known = owners.get(name) ?? [];
      if (!known.includes(place)) owners.set(name, [...known, place]);
      walk(of, place === '' ? name : `${place}.${name}`);
    }
  };
  walk(schema, '');
  return owners;
}

/** Without the wrappers of optional, nullable, defaulted and converted fields. */
function bare(schema: z.ZodType): unknown {
  let at: unknown = schema;
  for (let inner: unknown = at; inner !== undefined; ) {
    at = inner;
    const { def } = at as { def: { innerType?: unknown; in?: unknown } };
    inner = def.innerType ?? def.in;
  }
  return at;
}

/** Of a union told apart by one field, the member that the value says it is. */
function chosen(schema: unknown, value: unknown): unknown {
  const { options, def } = schema as { options?: unknown; def?: { discriminator?: string } };
  const key = def?.discriminator;
  if (!Array.isArray(options) || key === undefined) return schema;
  const says = (value as Record<string, unknown> | undefined)?.[key];
  return options.find((option) => option.shape?.[key]?.safeParse(says).success) ?? schema;
}
