/** How tags lie on their sheet, all in mm: rows and columns on a page, or one a page for a roll printer. */
import { z } from 'zod';
import type { Fault, Read } from '../../src/fault.ts';
import { parseLength } from '../../src/units.ts';

const SHEETS = { a4: { width: 210, height: 297 }, letter: { width: 215.9, height: 279.4 } } as const;

/** The least tag that can still be read and scanned, mm. */
export const LEAST_TAG = { width: 40, height: 30 } as const;

/** What each figure may be: tags down and across a page, margins and gaps, the sides of a tag of a roll, mm. */
const RANGES = {
  rows: { least: 1, most: 30, what: 'Tags down the page' },
  columns: { least: 1, most: 10, what: 'Tags across the page' },
  marginX: { least: 0, most: 100, what: 'The margin at the sides' },
  marginY: { least: 0, most: 100, what: 'The margin at top and bottom' },
  gapX: { least: 0, most: 100, what: 'The gap across' },
  gapY: { least: 0, most: 100, what: 'The gap down' },
  width: { least: LEAST_TAG.width, most: 400, what: 'The width of a tag' },
  height: { least: LEAST_TAG.height, most: 400, what: 'The height of a tag' },
} as const;

type Figure = keyof typeof RANGES;

const FIGURES = {
  grid: ['rows', 'columns', 'marginX', 'marginY', 'gapX', 'gapY'],
  roll: ['width', 'height'],
} as const;

function within(name: Figure): z.ZodNumber {
  return z.number().min(RANGES[name].least).max(RANGES[name].most);
}

export const tagSheetSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('grid'),
    rows: within('rows').int(),
    columns: within('columns').int(),
    marginX: within('marginX'),
    marginY: within('marginY'),
    gapX: within('gapX'),
    gapY: within('gapY'),
  }),
  z.object({ kind: z.literal('roll'), width: within('width'), height: within('height') }),
]);

export type TagSheet = z.infer<typeof tagSheetSchema>;
export type TagGrid = TagSheet & { kind: 'grid' };
export type TagRoll = TagSheet & { kind: 'roll' };

/** Eight tags on A4 or Letter. */
export const DEFAULT_TAGS: TagGrid = {
  kind: 'grid',
  rows: 4,
  columns: 2,
  marginX: 8,
  marginY: 10,
  gapX: 4,
  gapY: 3,
};

/** A usual label of a roll printer. */
export const DEFAULT_ROLL: TagRoll = { kind: 'roll', width: 100, height: 62 };

/** Size of one tag of a grid, mm. */
export function tagSize(grid: TagGrid, paper: 'a4' | 'letter'): { width: number; height: number } {
  const sheet = SHEETS[paper];
  return {
    width: (sheet.width - 2 * grid.marginX - (grid.columns - 1) * grid.gapX) / grid.columns,
    height: (sheet.height - 2 * grid.marginY - (grid.rows - 1) * grid.gapY) / grid.rows,
  };
}

/**
 * A sheet as a form or a command gives it: `kind` and figures as numbers or as text like `7.5`, `7,5` or `1/4"`. Every
 * fault at once, its path the name of the figure; also where tags come out too small on `paper`.
 */
export function readTagSheet(fields: unknown, paper: 'a4' | 'letter'): Read<TagSheet> {
  const given = (typeof fields === 'object' && fields !== null ? fields : {}) as Record<string, unknown>;
  const { kind } = given;
  if (kind !== 'grid' && kind !== 'roll') {
    const message = 'How the tags lie is not stated.';
    const remedy = 'Choose tags on pages, with tags across and down, or one a page for a roll printer.';
    return { ok: false, faults: [{ path: 'kind', code: 'missing-field', message, remedy }] };
  }
  const faults: Fault[] = [];
  const values = FIGURES[kind].map((name) => [name, readFigure(name, given[name], faults)] as const);
  if (faults.length > 0) return { ok: false, faults };
  const sheet = tagSheetSchema.parse({ kind, ...Object.fromEntries(values) });
  const small = sheet.kind === 'grid' ? tooSmall(sheet, paper) : null;
  return small ? { ok: false, faults: [small] } : { ok: true, value: sheet };
}

function readFigure(name: Figure, given: unknown, faults: Fault[]): number {
  const { least, most, what } = RANGES[name];
  const counts = name === 'rows' || name === 'columns';
  const value = typeof given === 'number' ? given : parseLength(String(given ?? ''));
  const range = `from ${least} to ${most}${counts ? '' : ' mm'}`;
  const remedy = `Give ${counts ? 'a whole number' : 'a length'} ${range}.`;
  if (value === null) {
    const message =
      String(given ?? '').trim() === '' ? 'is missing' : `could not be read: “${String(given).slice(0, 40)}”`;
    faults.push({ path: name, code: 'wrong-type', message: `${what} ${message}.`, remedy });
  } else if (value < least || value > most || (counts && !Number.isInteger(value))) {
    faults.push({ path: name, code: 'out-of-range', message: `${what} can not be ${value}.`, remedy });
  }
  return value ?? 0;
}

function tooSmall(sheet: TagGrid, paper: 'a4' | 'letter'): Fault | null {
  const { width, height } = tagSize(sheet, paper);
  if (width >= LEAST_TAG.width && height >= LEAST_TAG.height) return null;
  const [wide, high] = [width, height].map((mm) => Math.max(0, mm).toFixed(0));
  return {
    path: width < LEAST_TAG.width ? 'columns' : 'rows',
    code: 'out-of-range',
    message: `Tags would be ${wide} × ${high} mm: that can not be read and scanned.`,
    remedy: `Take fewer across or down, or less margin and gap: at least ${LEAST_TAG.width} × ${LEAST_TAG.height} mm a tag.`,
  };
}
