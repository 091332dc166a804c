/** Where voids lie on the stowage sheets: whole on a page where they go, several on one where they are small. */
import { PassThrough } from 'node:stream';
import { describe, expect, test } from 'vitest';
import { heightOf } from '../../../server/paper/measure.ts';
import { newPage, openPaper, writeParagraph } from '../../../server/paper/page.ts';
import { writeTable } from '../../../server/paper/table.ts';
import { holdDownSchema } from '../../../src/job/holdDown.ts';
import { outside, overlapping, type ReadPage, textOf } from './readPdf.ts';
import { stackedPair } from './stackedPlan.ts';
import { DATE, read, TRIAL } from './writePaper.ts';

/** Pages of the voids, after those of the loading sequence. */
function pagesOf(pages: ReadPage[], space: string): number[] {
  return pages.flatMap((page, i) => (page.words.some(({ text }) => text.startsWith(`${space} `)) ? [i] : []));
}

const small = stackedPair({ voids: 6, runs: 1, tiers: 1, across: 1, name: (n) => `Pocket ${n}` });

describe('small voids', () => {
  test('go several on a page, each whole with its list', async () => {
    const pages = await read('stowage.pdf', small.job, small.plan);
    expect(outside(pages)).toEqual([]);
    expect(overlapping(pages)).toEqual([]);
    const titles = pages.map((page) => page.words.filter(({ text }) => /^V\d Pocket \d$/.test(text)).length);
    expect(titles.reduce((sum, count) => sum + count, 0)).toBe(6);
    expect(Math.max(...titles)).toBeGreaterThan(1);
    for (const { void: space, bundle } of small.plan.bundles) {
      const [title] = pagesOf(pages, space);
      const list = pages.flatMap((page, i) => (page.words.some(({ text }) => text === bundle) ? [i] : [])).at(-1);
      expect(list, space).toBe(title);
    }
    // What is so of every void is said once on each of their pages.
    const said = textOf(pages).split('Breaking out:').length - 1;
    expect(said).toBe(titles.filter((count) => count > 0).length);
  });

  test('share no page where one is held and the other is not', async () => {
    const by = { by: 'the floors', carries: 50 };
    const holdDown = holdDownSchema.parse({
      straps: [{ kind: 'over', count: 4, lashingCapacity: 50, angle: 60 }],
      blocked: { forward: by, aft: by, port: by, starboard: by },
    });
    const held = new Set(['V3', 'V4']);
    const voids = small.job.voids.map((space) => (held.has(space.void) ? { ...space, holdDown } : space));
    const pages = await read('stowage.pdf', { ...small.job, voids }, small.plan);
    for (const space of voids) {
      const [page] = pagesOf(pages, space.void);
      expect(textOf([pages[page!]!]).includes('NOT SECURED'), space.void).toBe(!held.has(space.void));
    }
  });
});

test('bundles that stand over the run beside theirs are told, since no chock can keep them from sliding over it', async () => {
  const { job, plan } = stackedPair({ voids: 1, runs: 2, tiers: 2, across: 2 });
  const told = async (bundles: typeof plan.bundles) =>
    textOf(await read('stowage.pdf', job, { ...plan, bundles })).replace(/\s+/g, ' ');
  expect(await told(plan.bundles)).not.toContain('from sliding over that run');
  const high = plan.bundles.filter(({ run, tier }) => run === 1 && tier === 2).map(({ bundle }) => bundle);
  expect(await told(plan.bundles.filter(({ run, tier }) => run === 1 || tier === 1))).toContain(
    `${high.join(', ')} of run 1 stand higher than run 2 beside them: nothing keeps them from sliding over that run`,
  );
});

test('an end of a run that no chock keeps is told on the stowage sheet and the hold-down sheet', async () => {
  const { job, plan } = stackedPair({ voids: 1, runs: 2, tiers: 1, across: 2 });
  const told = async (file: string, voids: typeof job.voids) =>
    textOf(await read(file, { ...job, voids }, plan)).replace(/\s+/g, ' ');
  const over = job.voids.map((space) => ({
    ...space,
    keepOut: [{ ...space.keepOut[0]!, across: [-space.width / 2, space.width / 2] as [number, number] }],
  }));
  for (const file of ['stowage.pdf', 'hold-down.pdf']) {
    expect(await told(file, over), file).toMatch(/of run 2 may slide \d+ mm forward, up to seacock/);
    expect(await told(file, job.voids), file).not.toContain('may slide');
  }
});

test('what is written to nowhere is as high as on the page', async () => {
  const paper = openPaper('Height', TRIAL.job, TRIAL.plan, { date: DATE }, new PassThrough());
  newPage(paper);
  const write = async (onto: typeof paper) => {
    writeParagraph(onto, 'Words that go over the end of a line. '.repeat(9), { size: 9 }, { above: 3, below: 2 });
    await writeTable(onto, [{ head: 'a' }, { head: 'b' }], [['word '.repeat(60), '2']]);
  };
  const high = await heightOf(paper, write);
  const before = paper.y;
  expect(high).toBeGreaterThan(40);
  await write(paper);
  expect(paper.y - before).toBeCloseTo(high, 6);
});
