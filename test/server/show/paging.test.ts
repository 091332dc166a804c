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
});
