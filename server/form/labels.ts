/**
 * Names and paths of the job file in the words of the page: `saw.shortestPiece` is “Shortest piece” there, and `pile[0]`
 * is lot 1. Whoever works on a page sees labels, and never a path.
 */
import type { Field, RowList } from './field.ts';
import { JOB_ROWS, ONCE } from './layout.ts';
import { valueAt } from './path.ts';
import { LOT_FIELDS, LOT_MORE } from './pileFields.ts';
import { VOID_FIELDS, VOID_MORE, VOID_ROWS } from './voidFields.ts';

/** By path with every number of a row left out: `voids[].keepOut[].along`. */
const LABELS: ReadonlyMap<string, string> = new Map([
  ['pile', 'The salvaged pile'],
  ['pile[].section', 'Section'],
  ['voids', 'Voids'],
  ['voids[].opening', 'The opening everything passes'],
  ['voids[].opening.at', 'Its middle, along'],
  ['voids[].otherOpenings[].at', 'Its middle, along'],
  ['voids[].stations[].batten', 'Down from the batten'],
  ...labelsOf('', ONCE),
  ...labelsOf('pile[].', [...LOT_FIELDS, ...LOT_MORE]),
  ...labelsOf('voids[].', [...VOID_FIELDS, ...VOID_MORE.flatMap((group) => group.fields)]),
  ...JOB_ROWS.flatMap((rows) => labelsOfRows('', rows)),
  ...VOID_ROWS.flatMap((rows) => labelsOfRows('voids[].', rows)),
]);

/** What a row of a list is called, with its number. */
const ROWS: Record<string, string> = { pile: 'lot', voids: 'void', 'lift.legs': 'way' };

/** What only who writes a file has to know. */
const FILE_WORDS: readonly (readonly [string, string])[] = [
  ['text in quotation marks', 'text'],
  ['a list in brackets [ ]', 'a list'],
  ['an object in braces { }', 'a group of fields'],
  ['a pair [from, to]', 'a pair'],
  ['“to” must be greater than “from”.', 'Write the lesser figure first.'],
];

/** A sentence about what stands at `path`, with labels in place of names and paths of the file. */
export function inPageWords(sentence: string, path = ''): string {
  const scopes = scopesOf(path.replaceAll(/\[\d+\]/g, '[]'));
  const labelOf = (name: string) => labelWithin(scopes, name);
  const words = sentence
    .replaceAll(
      /\b(pile|voids|lift\.legs)\[(\d+)\]/g,
      (_, list: string, at: string) => `${ROWS[list]} ${Number(at) + 1}`,
    )
    .replaceAll(/“([A-Za-z]+)(?:\[(\d+)\])?”/g, (whole, name: string, at: string | undefined, offset: number) => {
      const label = labelOf(name);
      if (label === undefined || at === undefined) return label === undefined ? whole : `“${label}”`;
      return `${offset === 0 ? 'Number' : 'number'} ${Number(at) + 1} of “${label}”`;
    });
  return FILE_WORDS.reduce((text, [of, to]) => text.replaceAll(of, to), labelled(words, labelOf));
}

/** A sentence of a plan, with labels in place of the paths in it, as `aims.kgPerHour`; all else stays as it is. */
export function pathsInPageWords(sentence: string): string {
  return labelled(sentence, (name) => labelWithin(scopesOf(''), name));
}

function labelled(sentence: string, labelOf: (name: string) => string | undefined): string {
  return sentence.replaceAll(/\b[a-z][A-Za-z]*(?:\.[a-z][A-Za-z]*)+\b/g, (whole) => {
    const label = labelOf(whole);
    return label === undefined ? whole : `“${label}”`;
  });
}

function labelWithin(scopes: readonly string[], name: string): string | undefined {
  for (const scope of scopes) {
    const label = LABELS.get(`${scope}${name}`);
    if (label !== undefined) return label;
  }
  return undefined;
}

/**
 * What the page calls the place of a path, `voids[].height` or `saw.kerf`, with its number where it is one of a row; the path
 * itself where no field has a name there.
 */
export function labelAt(path: string): string {
  const number = /\[(\d+)\]/.exec(path)?.[1];
  const isRow = (at: string) => at === '' || at === 'pile[]' || at === 'voids[]';
  for (let at = path.replaceAll(/\[\d+\]/g, '[]'); !isRow(at); at = at.replace(/\[\]$|(^|\.)?[^.[\]]+$/, '')) {
    const label = LABELS.get(at);
    if (label !== undefined) return number === undefined ? label : `${label} (${Number(number) + 1})`;
  }
  return path;
}

/** The same with the lot or the void in `draft` that it is of, by its mark: `Lot A, Length of a bar`. */
export function whereIn(draft: unknown, path: string): string {
  const [row, list, at] = /^(pile|voids)\[(\d+)\]/.exec(path) ?? [];
  if (row === undefined) return labelAt(path);
  const [name, word] = list === 'pile' ? ['lot', 'Lot'] : ['void', 'Void'];
  const mark = valueAt(draft, [String(list), Number(at), name]) ?? Number(at) + 1;
  return `${word} ${mark}, ${labelAt(path.replace(row, `${list}[]`))}`;
}

/** What a name may be short for, the nearest first; a name at the foot of a sentence without a place may be of any void or lot. */
function scopesOf(path: string): string[] {
  const scopes = [...path.matchAll(/\./g)].map(({ index }) => path.slice(0, index + 1)).reverse();
  return [...scopes, '', 'voids[].', 'pile[].'];
}

function labelsOf(base: string, fields: readonly Field[]): [string, string][] {
  return fields.map(({ path, label }) => [`${base}${path}`, label]);
}

function labelsOfRows(base: string, { list, title, fields }: RowList): [string, string][] {
  const [label = title] = title.split(/[:,]/);
  return [[`${base}${list}`, label], ...labelsOf(`${base}${list}[].`, fields)];
}
