import { describe, expect, test } from 'vitest';
import { firstOf, pagesOf } from '../../../server/show/paging.ts';

describe('long lists page by page', () => {
  test.each([
    ['1', 0],
    ['2', 12],
    ['3', 24],
    ['4', 24],
    ['99999', 24],
    ['0', 0],
    ['-1', 0],
    ['two', 0],
    [undefined, 0],
    [['2', '3'], 0],
  ])('page %j of 30 things, 12 a page, begins at %i', (query, first) => {
    expect(firstOf(query, 12, 30)).toBe(first);
    expect(pagesOf(30, first, 12).filter(({ here }) => here)).toHaveLength(1);
  });

  test('an empty list has a first page; where the length is not known every page is taken as it comes', () => {
    expect(firstOf('7', 12, 0)).toBe(0);
    expect(firstOf('7', 12)).toBe(72);
    expect(pagesOf(12, 0, 12)).toEqual([]);
  });

  test('of very many pages the first, the last, those near and every tenth are told, and where some are left out', () => {
    const pages = pagesOf(10_000, 54 * 60, 60);
    expect(pages.map(({ page }) => page)).toEqual([
      1, 10, 20, 30, 40, 50, 53, 54, 55, 56, 57, 60, 70, 80, 90, 100, 110, 120, 130, 140, 150, 160, 167,
    ]);
    expect(pages.find(({ here }) => here)).toMatchObject({ page: 55, from: 3241, to: 3300 });
    expect(pages.at(-1)).toMatchObject({ from: 9961, to: 10_000 });
    expect(pages.filter(({ skips }) => !skips).map(({ page }) => page)).toEqual([1, 54, 55, 56, 57]);
    const few = pagesOf(12 * 60, 0, 60);
    expect(few.map(({ page, skips }) => [page, skips])).toEqual(Array.from({ length: 12 }, (_, n) => [n + 1, false]));
  });

  test('every page can be turned to in a few steps', () => {
    const count = 167;
    const steps = Array.from({ length: count }, () => Number.POSITIVE_INFINITY);
    steps[0] = 0;
    const open = [1];
    for (let page = open.shift(); page !== undefined; page = open.shift())
      for (const next of pagesOf(count * 60, (page - 1) * 60, 60)) {
        if (steps[next.page - 1] !== Number.POSITIVE_INFINITY) continue;
        steps[next.page - 1] = steps[page - 1]! + 1;
        open.push(next.page);
      }
    expect(Math.max(...steps)).toBeLessThanOrEqual(4);
  });
});
