/** Long lists are shown page by page. */

export interface PageLink {
  page: number;
  from: number;
  to: number;
  here: boolean;
}

/**
 * Where a page of a long list begins, from its address: the first page for anything that is no number of a page, the last
 * for one past the end of a list of `length`.
 */
export function firstOf(query: unknown, shown: number, length = Number.POSITIVE_INFINITY): number {
  const page = typeof query === 'string' && /^\d{1,5}$/.test(query) ? Number(query) : 1;
  const last = Math.max(1, Math.ceil(length / shown));
  return (Math.min(last, Math.max(1, page)) - 1) * shown;
}

/** The pages of a long list; none where one page shows it all. */
export function pagesOf(length: number, first: number, shown: number): PageLink[] {
  if (length <= shown) return [];
  return Array.from({ length: Math.ceil(length / shown) }, (_, n) => ({
    page: n + 1,
    from: n * shown + 1,
    to: Math.min(length, (n + 1) * shown),
    here: n * shown === first,
  }));
}
