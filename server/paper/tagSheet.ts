/** How tags lie on their sheet, all in mm: rows and columns on a page, or one a page for a roll printer. */
import { z } from 'zod';
import type { Fault, Read } from '../../src/fault.ts';

const SHEETS = { a4: { width: 210, height: 297 }, letter: { width: 215.9, height: 279.4 } } as const;

/** The least tag that can still be read and scanned, mm. */
export const LEAST_TAG = { width: 40, height: 30 } as const;

const margin = z.coerce.number().min(0).max(100);
const side = z.coerce.number().max(400);

export const tagSheetSchema = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('grid'),
    rows: z.coerce.number().int().min(1).max(30),
    columns: z.coerce.number().int().min(1).max(10),
    marginX: margin,
    marginY: margin,
    gapX: margin,
    gapY: margin,
  }),
  z.object({
    kind: z.literal('roll'),
    width: side.min(LEAST_TAG.width),
    height: side.min(LEAST_TAG.height),
  }),
]);

export type TagSheet = z.infer<typeof tagSheetSchema>;

/** Eight tags on A4 or Letter. */
export const DEFAULT_TAGS: TagSheet = {
  kind: 'grid',
  rows: 4,
  columns: 2,
  marginX: 8,
  marginY: 10,
  gapX: 4,
  gapY: 3,
};

/** Size of one tag of a grid, mm. */
export function tagSize(grid: TagSheet & { kind: 'grid' }, paper: 'a4' | 'letter'): { width: number; height: number } {
  const sheet = SHEETS[paper];
  return {
    width: (sheet.width - 2 * grid.marginX - (grid.columns - 1) * grid.gapX) / grid.columns,
    height: (sheet.height - 2 * grid.marginY - (grid.rows - 1) * grid.gapY) / grid.rows,
  };
}

/** A sheet as a form or a query gives it, figures as text; every fault at once, also where tags come out too small. */
export function readTagSheet(fields: unknown, paper: 'a4' | 'letter'): Read<TagSheet> {
  const read = tagSheetSchema.safeParse(fields);
  if (!read.success) {
    const faults = read.error.issues.map(
      (issue): Fault => ({
        path: issue.path.join('.'),
        code: 'out-of-range',
        message: `The layout of the tags can not be used: ${issue.message}.`,
        remedy: 'Give rows and columns with margins and gaps, or the width and height of one tag of a roll, in mm.',
      }),
    );
    return { ok: false, faults };
  }
  if (read.data.kind === 'grid') {
    const size = tagSize(read.data, paper);
    if (size.width < LEAST_TAG.width || size.height < LEAST_TAG.height) {
      const [width, height] = [size.width, size.height].map((mm) => mm.toFixed(0));
      const message = `Tags of ${width} × ${height} mm can not be read and scanned.`;
      const remedy = `Take fewer rows or columns: at least ${LEAST_TAG.width} × ${LEAST_TAG.height} mm a tag.`;
      return { ok: false, faults: [{ path: 'rows', code: 'out-of-range', message, remedy }] };
    }
  }
  return { ok: true, value: read.data };
}
