/** The rows of a master that bind the mass of layouts, or its moments. */
import type { Load } from './load.ts';
import type { MissPrices, Problem } from './problem.ts';

/** What binds the mass as a whole or by its moments: a row whose entry for a layout is `of(load)`. */
export interface LoadRow {
  name: string;
  /** Index of its void; null for the whole plan. */
  space: number | null;
  /** Upper bound of the row. */
  most: number;
  of(load: Load): number;
  /** The aim that it states; absent for a cap. */
  aim?: keyof MissPrices;
  row: number;
}

/** The rows on loads that the job's caps and aims make. A target may be passed by less than the lightest bundle. */
export function loadRowsOf(problem: Problem): LoadRow[] {
  const { job, spaces } = problem;
  const rows: LoadRow[] = [];
  const add = (name: string, space: number | null, most: number, of: (load: Load) => number, aim?: keyof MissPrices) =>
    rows.push({ name, space, most, of, row: -1, ...(aim && { aim }) });
  const { ballast, centre, spread } = job.aims;
  if (ballast !== undefined) {
    add('ballast', null, ballast + Math.min(...spaces.map((space) => space.heaviest)), (load) => load.mass);
  }
  for (const { index, stated, heaviest } of spaces) {
    if (stated.target !== undefined) add('target', index, stated.target + heaviest, (load) => load.mass);
    if (stated.most !== undefined) add('most', index, stated.most, (load) => load.mass);
  }
  for (const axis of ['x', 'y', 'z'] as const) {
    const range = centre?.[axis];
    if (!range) continue;
    add('centre', null, 0, (load) => load[axis] - range[1] * load.mass, axis);
    add('centre', null, 0, (load) => range[0] * load.mass - load[axis], axis);
  }
  if (spread !== undefined) add('spread', null, 0, (load) => load.xx - spread * spread * load.mass, 'spread');
  return rows;
}
