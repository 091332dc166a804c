/**
 * Where joints may lie in a bundle: at most a share of its bars is jointed, none at the outer end of a row, and no two
 * joints of touching bars lie within 50 mm of each other. Lengths mm; slots are counted as in the plan file, bottom row
 * first, least across first.
 */
import type { BundleRules } from '../job/job.ts';
import type { Tie } from '../stow/bundle.ts';

/** Joints of touching bars stand at least this far apart, mm. */
const APART = 50;
/** Placements looked at for one bundle before the best so far is taken. */
const TRIED = 4000;

export type JointRules = NonNullable<BundleRules['joints']>;
/** The bars of a bundle, as tied. */
export type Rows = Pick<Tie, 'arrangement' | 'columns'>;

/** Bars butted alike: the lengths of their pieces, in any order, and how many such bars there are. */
export interface JointedBars {
  parts: number[];
  count: number;
}

/** Of each slot of a bundle the pieces of its jointed bar, from least along; null where the bar is whole. */
export type Placed = (number[] | null)[];

/** The most bars of a bundle that may be jointed by their share alone. */
function mostJointed({ columns }: Rows, { share }: JointRules): number {
  return Math.floor(share * columns.reduce((sum, count) => sum + count, 0) + 1e-9);
}

/** Slots that are not at the outer end of their row. */
function innerSlots({ columns }: Rows): number[] {
  const inner: number[] = [];
  let first = 0;
  for (const count of columns) {
    for (let k = 1; k < count - 1; k++) inner.push(first + k);
    first += count;
  }
  return inner;
}

/**
 * The slots before each slot whose bars may touch its own. Nested rows do not say which way they shift, so that a bar is
 * held against three of the row below.
 */
function touchingBefore({ arrangement, columns }: Rows): number[][] {
  const reach = arrangement === 'nested' ? 1 : 0;
  const touching: number[][] = [];
  let below = 0;
  let first = 0;
  columns.forEach((count, row) => {
    for (let k = 0; k < count; k++) {
      const own = k > 0 ? [first + k - 1] : [];
      for (let m = Math.max(0, k - reach); row > 0 && m <= Math.min(columns[row - 1]! - 1, k + reach); m++)
        own.push(below + m);
      touching.push(own);
    }
    below = first;
    first += count;
  });
  return touching;
}

/** Where the pieces of a bar meet, mm from its start. */
function jointsOf(parts: number[]): number[] {
  let at = 0;
  return parts.slice(0, -1).map((length) => {
    at += length;
    return at;
  });
}

/** Every order of the pieces of a bar that differs from the others. */
function ordersOf(parts: number[]): number[][] {
  if (parts.length < 2) return [parts];
  const orders = parts.flatMap((first, i) =>
    parts.indexOf(first) < i ? [] : ordersOf(parts.filter((_, j) => j !== i)).map((rest) => [first, ...rest]),
  );
  return orders;
}

function isClear(joints: number[], others: number[]): boolean {
  return joints.every((place) => others.every((other) => Math.abs(place - other) >= APART));
}

/**
 * Places as many of `bars` in a bundle as its rules allow. Exact for bundles of common size; where more than a few
 * thousand placements would have to be looked at, the best of those looked at.
 */
export function placeJoints(rows: Rows, rules: JointRules, bars: JointedBars[]): Placed {
  const inner = innerSlots(rows);
  const touching = touchingBefore(rows);
  const left = bars.map(({ count }) => count);
  const most = Math.min(
    mostJointed(rows, rules),
    left.reduce((sum, count) => sum + count, 0),
    inner.length,
  );
  const choices = bars.flatMap(({ parts }, kind) =>
    ordersOf(parts).map((order) => ({ kind, order, joints: jointsOf(order) })),
  );
  const placed: Placed = touching.map(() => null);
  const joints: number[][] = touching.map(() => []);
  let best: Placed = [...placed];
  let bestCount = 0;
  let tried = 0;
  const place = (i: number, count: number): void => {
    if (count > bestCount) {
      best = [...placed];
      bestCount = count;
    }
    if (bestCount === most || Math.min(most, count + inner.length - i) <= bestCount || ++tried > TRIED) return;
    const slot = inner[i]!;
    for (const { kind, order, joints: own } of choices) {
      if (left[kind] === 0 || !touching[slot]!.every((other) => isClear(own, joints[other]!))) continue;
      left[kind]!--;
      placed[slot] = order;
      joints[slot] = own;
      place(i + 1, count + 1);
      left[kind]!++;
      placed[slot] = null;
      joints[slot] = [];
      if (bestCount === most) return;
    }
    place(i + 1, count);
  };
  place(0, 0);
  return best;
}

/** How many bars of a bundle may be jointed where their joints can be staggered freely. */
export function jointRoom(rows: Rows, rules: JointRules): number {
  const placed = placeJoints(rows, rules, [{ parts: [1, 1 + APART], count: mostJointed(rows, rules) }]);
  return placed.filter((bar) => bar !== null).length;
}

/** Deals jointed bars of one length out over bundles, in turn; `left` is what found no place. */
export function dealJoints(
  bundles: Rows[],
  rules: JointRules,
  bars: JointedBars[],
): { placed: Placed[]; left: JointedBars[] } {
  const left = bars.map((entry) => ({ ...entry }));
  const placed = bundles.map((rows) => {
    const own = placeJoints(rows, rules, left);
    for (const bar of own) {
      if (bar === null) continue;
      left.find(({ parts, count }) => count > 0 && sameParts(parts, bar))!.count--;
    }
    return own;
  });
  return { placed, left: left.filter(({ count }) => count > 0) };
}

function sameParts(parts: number[], others: number[]): boolean {
  const sorted = (list: number[]) => [...list].sort((a, b) => a - b).join();
  return sorted(parts) === sorted(others);
}
