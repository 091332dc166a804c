/** Templates lie on as few sheets as they take, turned where that helps. */
import { describe, expect, test } from 'vitest';
import { outside, overlapping, textOf } from './readPdf.ts';
import { stackedPair } from './stackedPlan.ts';
import { read } from './writePaper.ts';

/** Voids of width 10 + 58 × across − 4 mm and height 53 mm. */
async function templates(voids: number, across: number): Promise<string[]> {
  const { job, plan } = stackedPair({ voids, runs: 1, tiers: 1, across });
  const pages = await read('try-first.pdf', job, plan);
  expect(outside(pages)).toEqual([]);
  expect(overlapping(pages)).toEqual([]);
  return pages.map((page) => textOf([page])).filter((text) => text.includes('Template:'));
}

const count = (text: string, words: string) => text.split(words).length - 1;

describe('templates', () => {
  test('that go on a sheet only on their side are turned, and say so', async () => {
    const [page, ...rest] = await templates(1, 3);
    expect(rest).toEqual([]);
    expect(page?.replace(/\s+/g, ' ')).toContain('turned: its top to the right, port up');
    expect(page).toContain('row 1 of 1, column 1 of 1');
  });

  test('that need several sheets either way, or go upright, are not turned', async () => {
    for (const across of [1, 5]) expect((await templates(1, across)).join()).not.toContain('turned');
    expect((await templates(1, 5)).join()).toContain('column 2 of 2');
  });

  test('say what lies to the left, since cardboard can be held up either way round', async () => {
    const { job, plan } = stackedPair({ voids: 2, runs: 1, tiers: 1, across: 1 });
    const voids = job.voids.map((space, i) => (i === 0 ? space : { ...space, axis: 'athwartships' as const }));
    const axes = plan.voids.map((one, i) => (i === 0 ? one : { ...one, axis: 'athwartships' as const }));
    const pages = await read('try-first.pdf', { ...job, voids }, { ...plan, voids: axes });
    const text = textOf(pages).replace(/\s+/g, ' ');
    expect(text).toMatch(/Template: V1[^:]*; port to the left/);
    expect(text).toMatch(/Template: V2[^:]*; aft to the left/);
  });

  test('go several on a sheet, each sheet with its check line', async () => {
    const pages = await templates(5, 1);
    expect(pages.length).toBeLessThan(5);
    expect(pages.reduce((sum, page) => sum + count(page, 'Template:'), 0)).toBe(5);
    for (const page of pages) expect(count(page, 'must measure 100 mm')).toBe(1);
  });
});
