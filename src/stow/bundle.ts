/**
 * Bundles: how many bars in which rows, how large, by the rules of the plan format. Sizes mm, masses kg.
 *
 * With wrap w, end cover e, tolerance t, bar a across × b up, bow s = bow·(length/1000)²:
 *   along  = length + t + 2e
 *   grid   across = columns·a + 2w + s,  up = rows·b + 2w + s
 *   nested across = widest·d (+ d/2 where two neighbouring rows are equal) + 2w + s,  up = d + (rows−1)·d·√3/2 + 2w + s
 * each rounded up to 0.5 mm.
 */
import type { BundleRules, Saw } from '../job/job.ts';
import { outerSize, rolls, type Section, turnsOnEdge } from '../job/section.ts';
import { ceilHalf } from './half.ts';

export type Arrangement = 'grid' | 'nested';

/** One way of tying bars: rows from the bottom, and the size in bar widths that they need. */
export interface Tie {
  arrangement: Arrangement;
  columns: number[];
  bars: number;
  /** Width in bar widths: the widest row, plus a half where nested rows are equal. */
  widest: number;
}

/** Sag of a bar of `length` mm of a section that bows `bow` mm in 1 m. */
export function sagOf(bow: number, length: number): number {
  return bow * (length / 1000) * (length / 1000);
}

/** Size along of a bundle of `length` mm. */
export function alongSize(length: number, saw: Saw, rules: BundleRules): number {
  return ceilHalf(length + saw.tolerance + 2 * rules.endCover);
}

/** The longest whole-millimetre bundle whose size along is at most `along` mm. */
export function longestIn(along: number, saw: Saw, rules: BundleRules): number {
  return Math.floor(along - saw.tolerance - 2 * rules.endCover + 1e-9);
}

/** Height of a bundle of `rows` rows, mm. */
export function upSize(section: Section, onEdge: boolean, rows: number, rules: BundleRules, sag: number): number {
  const bar = outerSize(section, onEdge);
  const stack = rolls(section) ? bar.up + (rows - 1) * bar.up * (Math.sqrt(3) / 2) : rows * bar.up;
  return ceilHalf(stack + 2 * rules.wrap + sag);
}

/** Width of a bundle `widest` bar widths wide, mm. */
export function acrossSize(section: Section, onEdge: boolean, widest: number, rules: BundleRules, sag: number): number {
  return ceilHalf(widest * outerSize(section, onEdge).across + 2 * rules.wrap + sag);
}

/** The ways a bar may lie: flat, and on edge where that differs. */
export function lies(section: Section): boolean[] {
  return turnsOnEdge(section) ? [false, true] : [false];
}

/**
 * The ways to tie up to `most` bars in exactly `rows` rows, narrowest first, each wider one with more bars; empty where
 * there is none. Nested rows have the widest lowest, as the trade has it; `anyWay` takes any that nest.
 */
export function tiesOf(section: Section, rows: number, most: number, anyWay = false): Tie[] {
  if (most < rows) return [];
  return rolls(section) && rows > 1 ? nestedTies(rows, most, anyWay) : gridTies(rows, most);
}

/** The tie of exactly `bars` bars in `rows` rows, the narrowest there is; null where there is none. */
export function tieOf(section: Section, rows: number, bars: number): Tie | null {
  const ties = tiesOf(section, rows, bars);
  const last = ties[ties.length - 1];
  return last && last.bars === bars ? last : null;
}

function gridTies(rows: number, most: number): Tie[] {
  const ties: Tie[] = [];
  for (let width = 1; ; width++) {
    const bars = Math.min(rows * width, most);
    const topRow = bars - (rows - 1) * width;
    if (topRow < 1) break;
    const columns = new Array<number>(rows).fill(width);
    columns[rows - 1] = topRow;
    ties.push({ arrangement: 'grid', columns, bars, widest: width });
    if (bars === most) break;
  }
  return ties;
}

/**
 * Nested rows differ by one bar, or are equal and shifted half a bar. For each width in half bars the most bars, at most
 * `most`; the rows are lowered from the top, so that the widest lie lowest.
 */
function nestedTies(rows: number, most: number, anyWay: boolean): Tie[] {
  const ties: Tie[] = [];
  let best = 0;
  for (let halves = 3; best < most && halves <= 2 * most + 1; halves++) {
    const widest = Math.floor(halves / 2);
    const shifted = halves % 2 === 1;
    if (!shifted && widest < 2) continue;
    const columns = shifted
      ? loweredTo(new Array<number>(rows).fill(widest), most, 1, anyWay)
      : fuller(
          loweredTo(turnAbout(rows, widest, 0), most, 2, anyWay),
          anyWay ? loweredTo(turnAbout(rows, widest, 1), most, 2, true) : null,
        );
    if (!columns) continue;
    const bars = sum(columns);
    if (bars <= best) continue;
    best = bars;
    ties.push({ arrangement: 'nested', columns, bars, widest: nestedWidth(columns) });
  }
  return ties;
}

/** Rows of `widest` and one less turn about, the first of them `widest` where `first` is 0. */
function turnAbout(rows: number, widest: number, first: 0 | 1): number[] {
  return Array.from({ length: rows }, (_, row) => (row % 2 === first ? widest : widest - 1));
}

function fuller(a: number[] | null, b: number[] | null): number[] | null {
  if (!a || !b) return a ?? b;
  return sum(b) > sum(a) ? b : a;
}

/** Width of nested rows in bar widths. */
export function nestedWidth(columns: number[]): number {
  const equal = columns.some((count, row) => row > 0 && count === columns[row - 1]);
  return Math.max(...columns) + (equal ? 0.5 : 0);
}

/** Lowers rows by `step` bars at a time, the topmost that may be (the lowest only `anyWay`), until they hold at most `most`; null where they can not. */
function loweredTo(rows: number[], most: number, step: number, anyWay: boolean): number[] | null {
  const columns = [...rows];
  let bars = sum(columns);
  while (bars > most) {
    const row = columns.findLastIndex((count, i) => (i > 0 || anyWay) && mayLower(columns, i, count - step));
    if (row < 0) return null;
    columns[row]! -= step;
    bars -= step;
  }
  return columns;
}

/** True where a row may hold `count` bars: it nests with the rows next to it. */
function mayLower(columns: number[], row: number, count: number): boolean {
  if (count < 1) return false;
  const below = columns[row - 1];
  const above = columns[row + 1];
  return (below === undefined || Math.abs(below - count) <= 1) && (above === undefined || Math.abs(above - count) <= 1);
}

function sum(counts: number[]): number {
  return counts.reduce((total, count) => total + count, 0);
}
