/** The layout of tags as it was last asked for: kept for the next time, and shown in its form. */
import { z } from 'zod';
import type { Fault } from '../../src/fault.ts';
import { DEFAULT_ROLL, DEFAULT_TAGS, readTagSheet, type TagSheet, tagSheetSchema } from '../paper/tagSheet.ts';
import type { Settings } from '../store/store.ts';

const SETTING = 'tag sheet';

const keptSchema = z.object({ sheet: tagSheetSchema, paper: z.enum(['a4', 'letter']) });

export type KeptTags = z.infer<typeof keptSchema>;

/** One figure of the form as it stands. */
export interface TagField {
  name: string;
  label: string;
  unit: string;
  value: string;
  faults: readonly Fault[];
}

export interface TagSheetView {
  /** For pages, and for a roll. */
  grid: TagField[];
  roll: TagField[];
  paper: 'a4' | 'letter';
  /** What was asked for last; null where nothing was. */
  kind: 'grid' | 'roll' | null;
}

const LABELS = {
  columns: ['Tags across', ''],
  rows: ['Tags down', ''],
  marginX: ['Free at the sides', 'mm'],
  marginY: ['Free at top, bottom', 'mm'],
  gapX: ['Gap across', 'mm'],
  gapY: ['Gap down', 'mm'],
  width: ['Width of a tag', 'mm'],
  height: ['Height of a tag', 'mm'],
} as const;

export function keepTagSheet(settings: Settings, kept: KeptTags): void {
  settings.set(SETTING, JSON.stringify(kept));
}

/** The layout kept, where its tags can still be read on pages of this size; null where there is none. */
export function keptTagSheet(settings: Settings, paper: 'a4' | 'letter'): TagSheet | null {
  const kept = readKept(settings);
  return kept && readTagSheet(kept.sheet, paper).ok ? kept.sheet : null;
}

/** The two forms with what was `typed` and its faults, else with the layout kept. */
export function showTagSheet(
  settings: Settings,
  typed: Record<string, string> | null = null,
  faults: readonly Fault[] = [],
): TagSheetView {
  const kept = readKept(settings);
  const known = { ...DEFAULT_TAGS, ...DEFAULT_ROLL, ...kept?.sheet };
  const kind = typed?.kind ?? kept?.sheet.kind;
  const values: Record<string, string | number> = { ...known, ...typed };
  const field = (name: keyof typeof LABELS): TagField => ({
    name,
    label: LABELS[name][0],
    unit: LABELS[name][1],
    value: String(values[name]).slice(0, 40),
    faults: faults.filter((fault) => fault.path === name),
  });
  return {
    grid: (['columns', 'rows', 'marginX', 'marginY', 'gapX', 'gapY'] as const).map(field),
    roll: (['width', 'height'] as const).map(field),
    paper: (typed?.size ?? kept?.paper) === 'letter' ? 'letter' : 'a4',
    kind: kind === 'roll' || kind === 'grid' ? kind : null,
  };
}

function readKept(settings: Settings): KeptTags | null {
  const text = settings.get(SETTING);
  const read = text === null ? null : keptSchema.safeParse(JSON.parse(text));
  return read?.success ? read.data : null;
}
