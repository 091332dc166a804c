/** How the papers of the command are laid out: page size and tags as the user's own sheets have them. */
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { addPaperOptions, type PaperChoice, readPaperChoice } from '../../../server/commands/paperOptions.ts';
import { runPlan } from '../../../server/commands/plan.ts';
import { EXIT } from '../../../server/exit.ts';
import { DEFAULT_TAGS } from '../../../server/paper/tagSheet.ts';
import { Capture } from '../capture.ts';
import { readPdf } from '../paper/readPdf.ts';
import { stackedPair } from '../paper/stackedPlan.ts';

const MM = 72 / 25.4;

function choose(...args: string[]): PaperChoice {
  const command = addPaperOptions(new Command());
  command.exitOverride().configureOutput({ writeErr: () => {} });
  return command.parse(args, { from: 'user' }).opts<PaperChoice>();
}

function paths(...args: string[]): string[] | null {
  const read = readPaperChoice(choose(...args));
  return read.ok ? null : read.faults.map((fault) => fault.path);
}

describe('what is asked for', () => {
  test('nothing: A4 and the usual tags', () => {
    expect(readPaperChoice(choose())).toEqual({ ok: true, value: { paper: 'a4' } });
  });

  test('feet', () => {
    expect(readPaperChoice(choose('--feet', '--tags', '3x8'))).toMatchObject({ ok: true, value: { feet: true } });
    expect(readPaperChoice(choose('--feet'))).toEqual({ ok: true, value: { paper: 'a4', feet: true } });
  });

  test('tags across and down, margins and gaps, commas and spaces as people write them', () => {
    const read = readPaperChoice(choose('--tags', '3 x 8', '--tag-margins', '0x4,5', '--tag-gaps', '2.5×0'));
    const tags = { kind: 'grid', columns: 3, rows: 8, marginX: 0, marginY: 4.5, gapX: 2.5, gapY: 0 };
    expect(read).toEqual({ ok: true, value: { paper: 'a4', tags } });
    const margins = readPaperChoice(choose('--tag-margins', '12x9', '--paper', 'letter'));
    expect(margins.ok && margins.value).toEqual({
      paper: 'letter',
      tags: { ...DEFAULT_TAGS, marginX: 12, marginY: 9 },
    });
  });

  test('one tag a page of a roll', () => {
    const read = readPaperChoice(choose('--tags', '100x62mm', '--base', 'http://b.example/'));
    const tags = { kind: 'roll', width: 100, height: 62 };
    expect(read).toEqual({ ok: true, value: { paper: 'a4', tags, base: 'http://b.example' } });
  });

  test('what can not be is told, every fault at once, by the name of its option', () => {
    expect(paths('--tags', '3x80', '--tag-margins', '150x8')).toEqual(['--tags', '--tag-margins']);
    expect(paths('--tags', '2.5x4')).toEqual(['--tags']);
    expect(paths('--tags', '4x9')).toEqual(['--tags']);
    expect(paths('--tags', '20x20mm')).toEqual(['--tags', '--tags']);
    expect(paths('--tags', '100x62mm', '--tag-gaps', '1x1')).toEqual(['--tags']);
    expect(paths('--tags', '20x20mm', '--tag-gaps', '1x1')).toEqual(['--tags', '--tags', '--tags']);
    for (const wrong of ['3', 'axb', '3x', '-3x8', '3x8in']) expect(() => choose('--tags', wrong)).toThrow();
    expect(() => choose('--tag-gaps', 'none')).toThrow();
    expect(() => choose('--paper', 'a3')).toThrow();
  });
});

describe('the plan command', () => {
  const { job, plan } = stackedPair({ voids: 1, runs: 1, tiers: 2, across: 2 });
  let folder = '';
  beforeEach(async () => {
    folder = await mkdtemp(path.join(tmpdir(), 'kentledge-'));
    await writeFile(
      path.join(folder, 'job.json'),
      JSON.stringify({ ...job, voids: job.voids.map(({ keepOut: _, ...space }) => space) }),
    );
  });
  afterEach(() => rm(folder, { recursive: true, force: true }));

  const run = async (options: PaperChoice) => {
    const [out, err] = [new Capture(), new Capture()];
    const to = path.join(folder, 'out');
    const world = {
      out,
      err,
      plan: async () => ({ kind: 'plan' as const, plan }),
      now: () => new Date(0),
      onInterrupt: () => () => {},
    };
    const status = await runPlan(
      path.join(folder, 'job.json'),
      { out: to, effort: 'quick', seed: 1, ...options },
      world,
    );
    return { status, err: err.text, read: async (file: string) => readPdf(await readFile(path.join(to, file))) };
  };

  test('writes tags and pages as asked', async () => {
    const { status, read } = await run(choose('--tags', '1x3', '--paper', 'letter'));
    expect(status).toBe(EXIT.done);
    expect(await read('tags.pdf')).toHaveLength(Math.ceil(plan.bundles.length / 3));
    expect((await read('saw-sheet.pdf'))[0]!.height).toBeCloseTo(792, 1);
    const roll = await (await run(choose('--tags', '90x60mm'))).read('tags.pdf');
    expect(roll).toHaveLength(plan.bundles.length);
    expect(roll[0]!.width).toBeCloseTo(90 * MM, 1);
    expect(roll[0]!.height).toBeCloseTo(60 * MM, 1);
  });

  test('refuses tags too small to read before it plans', async () => {
    const { status, err } = await run(choose('--tags', '9x9'));
    expect(status).toBe(EXIT.refused);
    expect(err).toMatch(/^--tags: Tags would be \d+ × \d+ mm.*at least 40 × 30 mm a tag\.\n$/);
  });
});
