/** The table of the bench of whole plans, its sums, and the fit of a growth. */
import type { Effort } from '../../src/plan/plan.ts';
import type { HandPlan } from './outside.ts';

/** What was measured of one job at one effort; masses kg. */
export interface Row {
  name: string;
  effort: Effort;
  voids: number;
  lots: number;
  bars: number;
  firstMs: number | null;
  wholeMs: number;
  /** Peak resident memory of its own process, and what that was before planning. */
  peakMiB: number;
  beforeMiB: number;
  value: number | null;
  valueAtMost: number | null;
  gap: number | null;
  placed: number;
  scrap: number;
  cutUp: number;
  stops: number;
  bundles: number;
  hand: HandPlan | null;
  /** Steel placed at `kgPerHour` 0 over that of the hand plan. */
  ratio: number | null;
  faults: string[];
  checksum: string;
}

const COLUMNS: [string, number, (row: Row) => string][] = [
  ['job', -28, (row) => row.name],
  ['effort', -8, (row) => row.effort],
  ['first s', 7, (row) => (row.firstMs === null ? '' : (row.firstMs / 1000).toFixed(2))],
  ['all s', 7, (row) => (row.wholeMs / 1000).toFixed(2)],
  ['value', 9, (row) => row.value?.toFixed(1) ?? 'nothing'],
  ['at most', 9, (row) => row.valueAtMost?.toFixed(1) ?? ''],
  ['gap %', 7, (row) => percent(row.gap)],
  ['placed', 9, (row) => row.placed.toFixed(1)],
  ['scrap %', 8, (row) => percent(row.cutUp > 0 ? row.scrap / row.cutUp : null)],
  ['stops', 6, (row) => String(row.stops)],
  ['MiB', 6, (row) => String(row.peakMiB)],
  ['to hand', 8, (row) => row.ratio?.toFixed(3) ?? ''],
  ['checksum', 13, (row) => row.checksum],
];

function percent(share: number | null): string {
  return share === null ? '' : (100 * share).toFixed(2);
}

function pad(text: string, width: number): string {
  return width < 0 ? text.padEnd(-width) : text.padStart(width);
}

export const table = {
  head: (): string => COLUMNS.map(([name, width]) => pad(name, width)).join(' '),
  line: (row: Row): string => COLUMNS.map(([, width, cell]) => pad(cell(row), width)).join(' '),
};

/** Over all jobs of each effort: worst gap, worst times, scrap shares, the ratio to the hand plan. */
export function printSums(rows: Row[]): void {
  for (const effort of new Set(rows.map((row) => row.effort))) {
    const own = rows.filter((row) => row.effort === effort);
    const sum = (of: (row: Row) => number): number => own.reduce((total, row) => total + of(row), 0);
    const gaps = own.flatMap((row) => (row.gap === null ? [] : [row.gap]));
    const firsts = own.flatMap((row) => (row.firstMs === null ? [] : [row.firstMs]));
    console.log(
      `${effort}: ${own.length} jobs, ${own.filter((row) => row.faults.length > 0).length} with faults; ` +
        `gap mean ${percent(gaps.reduce((a, b) => a + b, 0) / gaps.length)} %, worst ${percent(Math.max(...gaps))} %; ` +
        `slowest first plan ${(Math.max(...firsts) / 1000).toFixed(2)} s; ` +
        `scrap ${percent(sum((row) => row.scrap) / sum((row) => row.cutUp))} % of the steel cut up; ` +
        `peak ${Math.max(...own.map((row) => row.peakMiB))} MiB`,
    );
    const ratios = own.flatMap((row) => (row.ratio === null ? [] : [row.ratio]));
    if (ratios.length === 0) continue;
    const byHand = sum((row) => row.hand?.scrap ?? 0) / sum((row) => row.hand?.cutUp ?? 0);
    console.log(
      `${effort}: to the plan by hand, labour for nothing: mean ${(ratios.reduce((a, b) => a + b, 0) / ratios.length).toFixed(3)}, ` +
        `least ${Math.min(...ratios).toFixed(3)}; by hand ${percent(byHand)} % of the steel cut up is scrap`,
    );
  }
}

/** The exponent p of time ~ size^p by least squares over the logarithms. */
export function fittedExponent(points: [number, number][]): number {
  const logs = points.map(([size, time]) => [Math.log(size), Math.log(time)] as const);
  const mean = (of: 0 | 1): number => logs.reduce((sum, point) => sum + point[of], 0) / logs.length;
  const [x, y] = [mean(0), mean(1)];
  const over = logs.reduce((sum, point) => sum + (point[0] - x) * (point[1] - y), 0);
  return over / logs.reduce((sum, point) => sum + (point[0] - x) ** 2, 0);
}
