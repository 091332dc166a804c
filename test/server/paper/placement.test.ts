/** Each length and mass where it belongs: beside its bundle, above its piece, in the row of its void. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_TAGS, tagSize } from '../../../server/paper/tagSheet.ts';
import type { Job } from '../../../src/job/job.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { fittedPair } from './fittedPlan.ts';
import type { ReadPage, Words } from './readPdf.ts';
import { stackedPair } from './stackedPlan.ts';
import { DATE, read, TRIAL } from './writePaper.ts';

const MM = 72 / 25.4;
const PAIRS: [string, { job: Job; plan: Plan }][] = [
  ['trial', TRIAL],
  ['fitted', fittedPair()],
  ['stacked', stackedPair({ voids: 3, runs: 2, tiers: 2, across: 3 })],
];

/** Words that stand on one base line with `word`, from left to right. */
function lineOf(page: ReadPage, word: Words, slack = 3): string {
  const middle = (word.bottom + word.top) / 2;
  return page.words
    .filter((each) => Math.abs((each.bottom + each.top) / 2 - middle) <= slack)
    .sort((p, q) => p.left - q.left)
    .map((each) => each.text)
    .join(' ');
}

function places(pages: ReadPage[], text: string): { page: ReadPage; word: Words }[] {
  return pages.flatMap((page) => page.words.filter((word) => word.text === text).map((word) => ({ page, word })));
}

function textWithin(page: ReadPage, box: { left: number; right: number; bottom: number; top: number }): string {
  return page.words
    .filter((w) => w.left >= box.left && w.right <= box.right && w.bottom >= box.bottom && w.top <= box.top)
    .map((w) => w.text)
    .join(' ');
}

describe.each(PAIRS)('in the papers of %s', (_, { job, plan }) => {
  const voids = new Map(job.voids.map((space) => [space.void, space]));

  test('a tag has the mark, name, mass, bars, length and place of one bundle, and of no other', async () => {
    const pages = await read('tags.pdf', job, plan);
    const { width, height } = tagSize(DEFAULT_TAGS, 'a4');
    const tags = pages.flatMap((page) =>
      Array.from({ length: DEFAULT_TAGS.rows * DEFAULT_TAGS.columns }, (__, i) => {
        const left = (DEFAULT_TAGS.marginX + (i % 2) * (width + DEFAULT_TAGS.gapX)) * MM;
        const top = page.height - (DEFAULT_TAGS.marginY + Math.floor(i / 2) * (height + DEFAULT_TAGS.gapY)) * MM;
        return textWithin(page, { left, right: left + width * MM, bottom: top - height * MM, top });
      }),
    );
    const filled = tags.filter((text) => text !== '');
    expect(filled).toHaveLength(plan.bundles.length);
    for (const bundle of plan.bundles) {
      const own = filled.filter((text) => text.split(' ')[0] === bundle.bundle);
      expect(own, bundle.bundle).toHaveLength(1);
      expect(own[0]).toContain(voids.get(bundle.void)!.name);
      expect(own[0]).toContain(` ${bundle.mass} kg run ${bundle.run}, tier ${bundle.tier}, order ${bundle.order}`);
      expect(own[0]).toContain(`${bundle.slots.length} × ${bundle.length} mm`);
      expect(own[0]).toContain('tied stowed');
    }
  });

  test('a bundle sheet has each mass on the line of its bundle, and length, size and pieces below it', async () => {
    const pages = await read('bundle-sheet.pdf', job, plan);
    for (const page of pages) {
      const heads = page.words
        .filter((word) => plan.bundles.some((bundle) => bundle.bundle === word.text))
        .sort((p, q) => q.top - p.top);
      for (const [i, head] of heads.entries()) {
        const bundle = plan.bundles.find((each) => each.bundle === head.text)!;
        expect(lineOf(page, head, 6)).toContain(`${bundle.mass} kg ±`);
        const bottom = heads[i + 1]?.top ?? 0;
        const text = textWithin(page, { left: 0, right: page.width, bottom, top: head.top });
        expect(text).toContain(`${bundle.slots.length} × ${bundle.length} mm`);
        expect(text).toContain(`tied size ${bundle.size.along} × ${bundle.size.across} × ${bundle.size.up} mm`);
        for (const piece of bundle.slots.flat()) expect(text).toContain(piece);
      }
    }
  });

  test('a saw sheet has the stop of each piece above it and its bundle under it', async () => {
    const pages = await read('saw-sheet.pdf', job, plan);
    for (const piece of plan.bars.flatMap((bar) => bar.pieces)) {
      const found = places(pages, piece.piece);
      expect(found, piece.piece).toHaveLength(1);
      const { page, word } = found[0]!;
      const column = page.words.filter((each) => Math.abs(each.left - word.left) < 1).sort((p, q) => q.top - p.top);
      const above = column.filter((each) => each.bottom > word.bottom + 1);
      const head = above.findLastIndex((each) => each.text === String(piece.to - piece.from));
      expect(head, `${piece.piece} under its stop`).toBeGreaterThanOrEqual(0);
      const below = column.find((each) => each.top < word.top - 1);
      expect(below?.text.startsWith(piece.bundle), `${piece.piece} over its bundle`).toBe(true);
    }
  });

  test('the order in has the mass, bars and corner of each bundle in its row', async () => {
    const pages = await read('stowage.pdf', job, plan);
    for (const bundle of plan.bundles) {
      const rows = places(pages, bundle.bundle).map(({ page, word }) => lineOf(page, word));
      expect(rows).toHaveLength(2);
      // All masses of a column have the decimals of the one with most.
      const mass = `${String(bundle.mass).replace('.', '\\.')}(\\.?0+)? kg`;
      for (const row of rows) expect(row).toMatch(new RegExp(` ${mass}`));
      const order = rows.find((row) => new RegExp(`^${bundle.order} ${bundle.bundle} ${mass}`).test(row));
      expect(order).toContain(`${bundle.slots.length} × ${bundle.length}`);
      expect(order).toContain(`${bundle.at.along} / ${bundle.at.across} ${bundle.at.up}`);
    }
  });

  test('the register has the mass and number of bundles of each void in its row, and what was weighed', async () => {
    const bundle = plan.bundles[0]!;
    const weighed = new Map([[bundle.bundle, bundle.mass + 0.01]]);
    const pages = await read('ballast-register.pdf', job, plan, { weighed, date: DATE });
    for (const entry of plan.voids.filter((each) => each.bundles > 0)) {
      const space = voids.get(entry.void)!;
      const title = space.name ? `${space.void} ${space.name}` : space.void;
      const rows = places(pages, title).map(({ page, word }) => lineOf(page, word));
      const told = new RegExp(
        ` ${entry.bundles} ${`${Math.round(entry.mass * 100) / 100}`.replace('.', '\\.')}(\\.?0+)? kg`,
      );
      const row = rows.find((each) => told.test(each));
      expect(row, entry.void).toBeDefined();
      if (entry.void === bundle.void) expect(row).toContain(`(1 of ${entry.bundles})`);
    }
  });
});
