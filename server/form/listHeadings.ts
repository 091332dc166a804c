/** The words of spreadsheets: what a column may be headed, the unit its heading names, and how lists call shapes and coatings. */

export type Column =
  | 'lot'
  | 'shape'
  | 'sizes'
  | 'length'
  | 'lengths'
  | 'count'
  | 'massPerMetre'
  | 'mass'
  | 'coating'
  | 'spoiled'
  | 'note';

/** What each column may be headed, without regard to case, spaces and units. */
const HEADINGS: Record<Column, readonly string[]> = {
  lot: ['lot', 'mark', 'name', 'pos', 'position'],
  shape: ['section', 'shape', 'profile', 'description', 'type', 'sectiontype'],
  sizes: ['sizes', 'size', 'diameter', 'dia', 'dimensions', 'dimension', 'dim', 'dims', 'sectionsize', 'crosssection'],
  length: ['length', 'len', 'barlength', 'lengthofabar', 'lengtheach', 'lengthperbar'],
  lengths: ['lengths', 'eachbar', 'eachbarasmeasured'],
  count: ['count', 'bars', 'number', 'quantity', 'qty', 'pieces', 'pcs', 'noofbars', 'numberofbars', 'noof'],
  massPerMetre: ['kg/m', 'lb/ft', 'weighed', 'masspermetre', 'weightpermetre', 'masspermeter', 'weightpermeter'],
  mass: ['weighteach', 'masseach', 'kgeach', 'lbeach', 'weightofabar', 'massofabar', 'weightperbar', 'massperbar'],
  coating: ['coating', 'surface', 'state', 'finish', 'surfacefinish'],
  spoiled: ['spoiled', 'holes'],
  note: ['note', 'notes', 'remark', 'remarks', 'comment', 'comments'],
};

/** Each column in the words of the page, in the order in which they are offered. */
export const COLUMNS: readonly (readonly [Column, string])[] = [
  ['lot', 'lot'],
  ['shape', 'section, with or without its sizes'],
  ['sizes', 'sizes of the section'],
  ['length', 'length of a bar'],
  ['lengths', 'each bar as measured'],
  ['count', 'bars'],
  ['massPerMetre', 'kg/m, weighed'],
  ['mass', 'one whole bar, weighed'],
  ['coating', 'coating'],
  ['spoiled', 'spoiled'],
  ['note', 'note'],
];

/** Names of units as headings have them, and how they are written behind a figure. */
const UNITS = new Map(
  [
    ['mm', 'millimetres', 'millimeters'],
    ['cm', 'centimetres', 'centimeters'],
    ['m', 'metres', 'meters', 'mtr'],
    ['in', 'inch', 'inches', '"', '″'],
    ['ft', 'feet', 'foot', "'", '′'],
    ['kg', 'kgs', 'kilograms'],
    ['lb', 'lbs', 'pounds'],
    ['kg/m'],
    ['lb/ft', 'lbs/ft'],
  ].flatMap(([unit, ...others]) => [unit as string, ...others].map((name): [string, string] => [name, unit as string])),
);

/** `Length [m]`, `Weight (kg) each`: a unit in brackets; and `Length, m`, `length in m`, `kg/m`: the last word. */
const IN_BRACKETS = /[([{]\s*(?:in\s+)?([^\s)\]}]+?)\.?\s*[)\]}]/i;
const LAST_WORD = /(?:^|[\s,;:_]+(?:in\s+)?)([a-z"″'′/]+)\.?\s*$/i;

/** What a column is read as, null where its heading is not known; and the unit its heading names, '' for none. */
export function readHeading(heading: string): { column: Column | null; unit: string } {
  const found = [IN_BRACKETS, LAST_WORD]
    .map((pattern) => pattern.exec(heading))
    .find((one) => UNITS.has(one?.[1]?.toLowerCase() ?? ''));
  const named = UNITS.get(found?.[1]?.toLowerCase() ?? '') ?? '';
  const plain = heading
    .replace(found?.[0] ?? '', ' ')
    .toLowerCase()
    .replaceAll(/\(.*?\)|\[.*?\]/g, '')
    .replaceAll(/[^a-z/]/g, '');
  if (named.includes('/') && /^(weight|mass)?$/.test(plain)) return { column: 'massPerMetre', unit: named };
  const unit = named === '' && /^(kg|lb)each$/.test(plain) ? plain.slice(0, 2) : named;
  for (const [column, names] of Object.entries(HEADINGS))
    if (names.includes(plain)) return { column: column as Column, unit };
  return { column: null, unit };
}

/** Other names of shapes and coatings. “Black” is none: it may be scale or paint, so it is asked about. */
export const SHAPE_WORDS: ReadonlyMap<string, string> = new Map(
  Object.entries({
    rebar: 'deformed',
    ribbed: 'deformed',
    rhs: 'box',
    shs: 'box',
    chs: 'tube',
    pipe: 'tube',
    hex: 'hexagon',
  }),
);

export const COATING_WORDS: ReadonlyMap<string, string> = new Map(
  Object.entries({
    galv: 'zinc',
    galvanised: 'zinc',
    galvanized: 'zinc',
    hdg: 'zinc',
    'hot dip galvanised': 'zinc',
    'hot dip galvanized': 'zinc',
    'zinc coated': 'zinc',
    'zinc plated': 'zinc',
    painted: 'paint',
    primed: 'paint',
    uncoated: 'bare',
    unpainted: 'bare',
    bright: 'bare',
    '?': 'unknown',
    'not known': 'unknown',
  }),
);
