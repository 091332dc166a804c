/** Where on the pages of a plan a thing is that is known by its mark, as on a tag, on a bar or on a drawing. */
import type { Job } from '../../src/job/job.ts';
import { nearestName } from '../../src/job/nearestName.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { placesOfBars, placesOfVoids } from './planPage.ts';

/** A longer text is no mark. */
const LONGEST = 200;
/** With more marks the nearest is not looked for. */
const MOST_COMPARED = 20_000;

/** What a plan does not have, as it was typed, and what was probably meant. */
export interface NotFound {
  mark: string;
  nearest: string | undefined;
}

/** The page of a plan, and the place on it, that shows the void, bundle or bar of this mark, its letters of either case. */
export function findMark(serial: number, job: Job, plan: Plan, mark: string): string | null {
  const asked = mark.trim().toLowerCase();
  const byCase = <T>(places: Iterable<[string, T]>): T | undefined => {
    const all = [...places];
    return (all.find(([own]) => own === mark.trim()) ?? all.find(([own]) => own.toLowerCase() === asked))?.[1];
  };
  const space = byCase(placesOfVoids(plan));
  if (space !== undefined) return `/plans/${serial}${space}`;
  const bundle = byCase(plan.bundles.map(({ bundle: own }) => [own, own]));
  if (bundle !== undefined) return `/b/${serial}/${encodeURIComponent(bundle)}`;
  const bar = byCase(placesOfBars(job, plan));
  return bar === undefined ? null : `/plans/${serial}${bar}`;
}

/** Of a mark in an address that nothing of the plan has; null where none is asked for. */
export function notFoundIn(asked: unknown, plan: Plan): NotFound | null {
  if (typeof asked !== 'string' || asked.trim() === '') return null;
  const mark = asked.trim().slice(0, LONGEST);
  const known = [
    ...plan.voids.map((each) => each.void),
    ...plan.bundles.map(({ bundle }) => bundle),
    ...plan.bars.map(({ bar }) => bar),
  ];
  return { mark, nearest: known.length > MOST_COMPARED ? undefined : nearestName(mark, known) };
}
