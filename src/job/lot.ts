/** What follows from a lot as it was stated: its bars, its mass per metre, the spans of a bar that pieces may come from. */
import { Defect } from '../fault.ts';
import type { Job, Lot, Saw } from './job.ts';
import { massPerMetre } from './section.ts';

/** A stretch of a bar, mm from its squared end's side. */
export interface Span {
  from: number;
  to: number;
}

/** Length of every bar of the lot, mm, in the order stated. */
export function barLengths(lot: Lot): number[] {
  return lot.lengths ?? new Array<number>(lot.count ?? 1).fill(lot.length ?? 0);
}

/** Mass per metre, kg/m: as weighed, else from the section and the density. */
export function lotMassPerMetre(lot: Lot, density: number): number {
  const value = lot.massPerMetre ?? massPerMetre(lot.section, density);
  if (value === null) throw new Defect(`lot ${lot.lot} has no mass per metre`);
  return value;
}

/** What is cut off each end of a bar of the lot to true it, mm. */
export function lotSquaring(lot: Pick<Lot, 'squaring'>, saw: Pick<Saw, 'squaring'>): number {
  return lot.squaring ?? saw.squaring;
}

/**
 * The usable spans of a bar of `length` mm, from its start: less squaring at both ends, less the spoiled spans (touching
 * or overlapping ones count as one). No kerf is owed at a spoiled edge, so a spoiled span narrower than the kerf counts
 * as one kerf.
 */
export function usableSpans(
  lot: Pick<Lot, 'squaring' | 'spoiled'>,
  length: number,
  saw: Pick<Saw, 'squaring' | 'kerf'>,
): Span[] {
  const squaring = lotSquaring(lot, saw);
  const end = length - squaring;
  const spans: Span[] = [];
  let at = squaring;
  for (const spoiled of [...lot.spoiled].sort((p, q) => p.from - q.from)) {
    if (spoiled.from > at) spans.push({ from: at, to: Math.min(spoiled.from, end) });
    at = Math.max(at, spoiled.to, spoiled.from + saw.kerf);
  }
  spans.push({ from: at, to: end });
  return spans.filter((span) => span.to > span.from);
}

/** The mark of the n-th bar (from 1) of a lot: `A-01`. */
export function barMark(lot: Lot, n: number): string {
  return `${lot.lot}-${String(n).padStart(2, '0')}`;
}

/** Mass of the whole pile, kg. */
export function pileMass(job: Job): number {
  let mass = 0;
  for (const lot of job.pile) {
    const perMetre = lotMassPerMetre(lot, job.steel.density);
    for (const length of barLengths(lot)) mass += (length * perMetre) / 1000;
  }
  return mass;
}
