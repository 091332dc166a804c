/**
 * How a bar across shares what it holds between its two ends. The stow is stiff, so that what lifts it acts where its weight
 * does: e mm aside of the middle of the span L the nearer end has 1/2 + e/L of the bar's load, and its bolts are the measure.
 * The bar itself bends most where it is loaded in the middle, M = F·a·(L − a)/L·(1 − c/2L) about a from one end, and is
 * reckoned so (`beam.ts`). Mm.
 */
import type { Cover } from './cover.ts';

/** Signed as across in the void; `share`, 0.5 to 1, is of the nearer end. */
export interface Lean {
  aside: number;
  share: number;
}

const EVEN: Lean = { aside: 0, share: 0.5 };

/**
 * Of the runs under it the one whose weight lies farthest aside counts, as if it were all that the bar holds. Where no
 * plan says how they lie, both ends share alike. `middle` is where across the void the middle of the span lies.
 */
export function leanOf(span: number, middle: number, mark: string, { over }: Pick<Cover, 'over'>): Lean {
  const asides = over
    .filter(({ marks }) => marks.includes(mark))
    .flatMap(({ run }) => (run.centre === undefined ? [] : [run.centre - middle]));
  const aside = asides.reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most), 0);
  if (aside === 0) return EVEN;
  return { aside, share: Math.min(1, 0.5 + Math.abs(aside) / span) };
}
