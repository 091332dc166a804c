/** Long lists are shown page by page. */

export interface PageLink {
  page: number;
  from: number;
  to: number;
  here: boolean;
  /** Pages before it are left out. */
  skips: boolean;
}

/** Of so many pages all are told. */
const ALL_TOLD = 12;
/** Of more, those within so many of the one shown, every so many, the first and the last. */
const NEAR = 2;
const EVERY = 10;

/**
 * Where a page of a long list begins, from its address: the first page for anything that is no number of a page, the last
 * for one past the end of a list of `length`.
 */
export function firstOf(query: unknown, shown: number, length = Number.POSITIVE_INFINITY): number {
  const page = typeof query === 'string' && /^\d{1,5}$/.test(query) ? Number(query) : 1;
  const last = Math.max(1, Math.ceil(length / shown));
  return (Math.min(last, Math.max(1, page)) - 1) * shown;
}

/** The pages of a long list, of very many only those near and some far; none where one page shows it all. */
export function pagesOf(length: number, first: number, shown: number): PageLink[] {
  if (length <= shown) return [];
  const count = Math.ceil(length / shown);
  const own = Math.floor(first / shown) + 1;
  const isTold = (page: number): boolean =>
    count <= ALL_TOLD || page === 1 || page === count || page % EVERY === 0 || Math.abs(page - own) <= NEAR;
  const pages = Array.from({ length: count }, (_, n) => n + 1).filter(isTold);
  return pages.map((page, n) => ({
    page,
    from: (page - 1) * shown + 1,
    to: Math.min(length, page * shown),
    here: page === own,
    skips: page - (pages[n - 1] ?? 0) > 1,
  }));
}
