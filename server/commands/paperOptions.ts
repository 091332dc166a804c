/** The options that say how a command's papers are laid out: page size, tags, the address in their codes. */
import { type Command, InvalidArgumentError, Option } from 'commander';
import type { Read } from '../../src/fault.ts';
import type { PaperOptions } from '../paper/page.ts';
import { DEFAULT_TAGS, readTagSheet } from '../paper/tagSheet.ts';

/** As the command line gives them; two figures, at the sides or across first, stay text until all are read together. */
export interface PaperChoice {
  base?: string;
  paper?: 'a4' | 'letter';
  feet?: boolean;
  tags?: TagLayout;
  tagMargins?: Pair;
  tagGaps?: Pair;
}

type Pair = readonly [string, string];

interface TagLayout {
  figures: Pair;
  roll: boolean;
}

/** The option that each figure of a tag sheet comes from. */
const OPTION: Record<string, string> = {
  rows: '--tags',
  columns: '--tags',
  width: '--tags',
  height: '--tags',
  marginX: '--tag-margins',
  marginY: '--tag-margins',
  gapX: '--tag-gaps',
  gapY: '--tag-gaps',
};

export function addPaperOptions(command: Command): Command {
  return command
    .option('--base <url>', "the address under which tags' codes are looked up", readBase)
    .addOption(new Option('--paper <size>', 'the size of the pages').choices(['a4', 'letter']).default('a4'))
    .option('--feet', 'feet, inches and pounds as well, on every paper and here')
    .option(
      '--tags <layout>',
      'tags across and down a page, 3x8; or one a page of a roll printer, 100x62mm',
      readLayout,
    )
    .option('--tag-margins <mm>', 'free at the sides, and at top and bottom, 8x10', readPair)
    .option('--tag-gaps <mm>', 'free between tags across, and down, 4x3', readPair);
}

/** What the papers are written with, or every fault in it; paths are the options' names. */
export function readPaperChoice(choice: PaperChoice): Read<Omit<PaperOptions, 'date'>> {
  const paper = choice.paper ?? 'a4';
  const base = { ...(choice.base === undefined ? {} : { base: choice.base }), ...(choice.feet ? { feet: true } : {}) };
  if (!choice.tags && !choice.tagMargins && !choice.tagGaps) return { ok: true, value: { paper, ...base } };
  const read = readTagSheet(fieldsOf(choice), paper);
  const faults = read.ok ? [] : read.faults.map((fault) => ({ ...fault, path: OPTION[fault.path] ?? '--tags' }));
  if (choice.tags?.roll && (choice.tagMargins || choice.tagGaps)) {
    const message = 'A roll carries one tag a page, without margins and gaps.';
    const remedy = 'Take --tag-margins and --tag-gaps out, or give --tags across and down a page.';
    faults.push({ path: '--tags', code: 'contradiction', message, remedy });
  }
  if (!read.ok || faults.length > 0) return { ok: false, faults };
  return { ok: true, value: { paper, tags: read.value, ...base } };
}

function fieldsOf({ tags, tagMargins, tagGaps }: PaperChoice): Record<string, unknown> {
  if (tags?.roll) return { kind: 'roll', width: tags.figures[0], height: tags.figures[1] };
  return {
    ...DEFAULT_TAGS,
    ...(tags ? { columns: tags.figures[0], rows: tags.figures[1] } : {}),
    ...(tagMargins ? { marginX: tagMargins[0], marginY: tagMargins[1] } : {}),
    ...(tagGaps ? { gapX: tagGaps[0], gapY: tagGaps[1] } : {}),
  };
}

const PAIR = /^\s*(\d+(?:[.,]\d+)?)\s*[x×]\s*(\d+(?:[.,]\d+)?)\s*(mm)?\s*$/i;

function readLayout(text: string): TagLayout {
  const [, first, second, unit] = PAIR.exec(text) ?? [];
  if (first === undefined || second === undefined) {
    throw new InvalidArgumentError('Give tags across and down, such as 3x8, or one tag of a roll, such as 100x62mm.');
  }
  return { figures: [first, second], roll: unit !== undefined };
}

function readPair(text: string): Pair {
  const [, first, second] = PAIR.exec(text) ?? [];
  if (first === undefined || second === undefined)
    throw new InvalidArgumentError('Give two lengths in mm, such as 8x10.');
  return [first, second];
}

function readBase(text: string): string {
  if (!/^https?:\/\//.test(text) || !URL.canParse(text)) {
    throw new InvalidArgumentError('Give an address that begins with http:// or https://.');
  }
  return text.replace(/\/+$/, '');
}
