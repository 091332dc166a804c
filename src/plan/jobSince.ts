/**
 * A job that was corrected since it was planned, and what of that comes along into what is left of it: lots go by their
 * marks, voids by their names. Lengths mm, masses kg.
 */
import type { Job, Lot, Saw, Void } from '../job/job.ts';
import { barLengths, lotMassPerMetre, usableSpans } from '../job/lot.ts';
import { layVoid } from '../stow/laid.ts';
import type { WeighedMasses } from './massNow.ts';
import type { Plan, PlanBar } from './plan.ts';

/** Lengths nearer than this are one, mm. */
const ALIKE = 0.05;

/**
 * The job as it stands now, but with every void in which something stands: one that was taken out of the job, or in which
 * bars can no longer lie the way they do, is as it was planned.
 */
export function jobSince(planned: Job, now: Job, plan: Plan, stowed: ReadonlySet<string>): Job {
  const inUse = new Set(plan.bundles.flatMap((own) => (stowed.has(own.bundle) ? [own.void] : [])));
  const before = new Map(planned.voids.map((stated) => [stated.void, stated]));
  const gone = planned.voids.filter((stated) => inUse.has(stated.void) && !now.voids.some(sameVoid(stated)));
  const liesSo = (stated: Void) => {
    const axis = plan.voids.find(sameVoid(stated))?.axis ?? layVoid(before.get(stated.void) ?? stated)[0]!.axis;
    return layVoid(stated).some((way) => way.axis === axis);
  };
  return {
    ...now,
    voids: [
      ...now.voids.map((stated) =>
        inUse.has(stated.void) && !liesSo(stated) ? (before.get(stated.void) ?? stated) : stated,
      ),
      ...gone,
    ],
  };
}

function sameVoid(stated: { void: string }): (other: { void: string }) => boolean {
  return (other) => other.void === stated.void;
}

/**
 * What bundles weigh: by the scale where they were weighed, else by the masses per metre and the wrapping that the job has
 * now, where those are not the ones planned with.
 */
export function massesSince(planned: Job, now: Job, plan: Plan, weighed: WeighedMasses): WeighedMasses {
  const more = new Map(
    planned.pile.map((lot) => {
      const stated = now.pile.find((own) => own.lot === lot.lot);
      if (!stated) return [lot.lot, 0];
      return [lot.lot, lotMassPerMetre(stated, now.steel.density) - lotMassPerMetre(lot, planned.steel.density)];
    }),
  );
  const added = new Map(plan.bundles.map(({ bundle }) => [bundle, now.bundle.wrapping - planned.bundle.wrapping]));
  for (const { lot, pieces } of plan.bars)
    for (const { from, to, bundle } of pieces)
      added.set(bundle, (added.get(bundle) ?? 0) + ((to - from) * (more.get(lot) ?? 0)) / 1000);
  const otherwise = plan.bundles.flatMap(({ bundle, mass }): [string, number][] => {
    const own = added.get(bundle) ?? 0;
    return Math.abs(own) < 0.005 ? [] : [[bundle, mass + own]];
  });
  return new Map([...otherwise, ...weighed]);
}

/**
 * A bar with its pieces and remainders where they came to lie by the kerf that the saw turned out to have: each cut moves what
 * lies behind it in its span.
 */
export function atKerf(bar: PlanBar, lot: Lot, planned: Saw, kerf: number): PlanBar {
  const more = kerf - planned.kerf;
  if (more === 0) return bar;
  const spans = usableSpans(lot, bar.length, planned);
  const shiftAt = (at: number) => {
    const span = spans.find(({ from, to }) => at >= from - ALIKE && at <= to + ALIKE);
    return more * bar.pieces.filter(({ from }) => span && from >= span.from - ALIKE && from < at - ALIKE).length;
  };
  const pieces = bar.pieces.map((piece) => {
    const shift = shiftAt(piece.from);
    return { ...piece, from: piece.from + shift, to: piece.to + shift };
  });
  const remainders = bar.remainders
    .map((own) => ({ ...own, from: own.from + shiftAt(own.from) }))
    .filter(({ from, to }) => to > from);
  return { ...bar, pieces, remainders };
}

/** A bar of the plan: how long it is taken to be, whether anybody said so of it, whether any of it is cut. */
export interface BarNow {
  bar: string;
  planned: number;
  length: number;
  isFound: boolean;
  isBegun: boolean;
}

/**
 * Whole bars of a lot by the lengths that the job has for it now, and lengths of begun bars that follow from it. `whole` are
 * those that are whole by the lengths planned with, `bars` those of the plan.
 *
 * A length that is there no longer is that of a whole bar where there is one of it; else of a begun one, whose length is
 * the nearest of those that were added. So a bar that is cut does not come back as a whole one where its length was put right.
 */
export function barsSince(
  lot: Lot,
  now: Lot,
  whole: readonly number[],
  bars: readonly BarNow[],
): { whole: number[]; found: Map<string, number> } {
  const [before, after] = [barLengths(lot), barLengths(now)];
  const gone = without(before, after);
  const added = without(after, before);
  // Said of the bar, and written into the job as well.
  for (const { planned, length, isFound } of bars)
    if (isFound && indexOf(gone, planned) >= 0 && indexOf(added, length) >= 0) {
      gone.splice(indexOf(gone, planned), 1);
      added.splice(indexOf(added, length), 1);
    }
  const left = [...whole];
  const found = new Map<string, number>();
  const open = bars.filter(({ isFound, isBegun }) => isBegun && !isFound);
  for (const length of gone) {
    const at = indexOf(left, length);
    if (at >= 0) {
      left.splice(at, 1);
      continue;
    }
    const nearest = nearestTo(added, length);
    if (nearest < 0) continue;
    const [instead] = added.splice(nearest, 1) as [number];
    const bar = open.find((own) => Math.abs(own.planned - length) < ALIKE && !found.has(own.bar));
    if (bar) found.set(bar.bar, instead);
  }
  return { whole: [...left, ...added], found };
}

/** The lengths but those, one for one. */
export function without(lengths: readonly number[], taken: readonly number[]): number[] {
  const left = [...lengths];
  for (const length of taken) {
    const at = indexOf(left, length);
    if (at >= 0) left.splice(at, 1);
  }
  return left;
}

function indexOf(lengths: readonly number[], length: number): number {
  return lengths.findIndex((other) => Math.abs(other - length) < ALIKE);
}

function nearestTo(lengths: readonly number[], length: number): number {
  return lengths.reduce((best, own, i) => {
    if (best < 0) return i;
    return Math.abs(own - length) < Math.abs(lengths[best]! - length) ? i : best;
  }, -1);
}
