/** How tags lie on their sheet, all in mm: rows and columns on a page, or one a page for a roll printer. */

export type TagSheet =
  | { kind: 'grid'; rows: number; columns: number; marginX: number; marginY: number; gapX: number; gapY: number }
  | { kind: 'roll'; width: number; height: number };

export const DEFAULT_TAGS: TagSheet = {
  kind: 'grid',
  rows: 4,
  columns: 2,
  marginX: 8,
  marginY: 10,
  gapX: 4,
  gapY: 3,
};
