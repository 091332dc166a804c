/**
 * Cuts from sets of three pieces. Halving and rounding up the three demand rows gives, for plans in whole numbers,
 *
 *     Σ_p ⌈(a_ip + a_jp + a_kp) / 2⌉ · x_p  ≥  ⌈(demand_i + demand_j + demand_k) / 2⌉
 *
 * (a Chvátal–Gomory cut of rank 1), which cuts off fractions that share three odd pieces out in pairs.
 */

/** What a pattern cuts: rows, and how many pieces of each. */
export interface Cutter {
  rows: readonly number[];
  counts: readonly number[];
}

export interface OddSet {
  rows: [number, number, number];
  least: number;
  /** Patterns with a coefficient above 0, and the coefficients. */
  patterns: number[];
  coefficients: number[];
  /** By how much the fraction at hand fails it. */
  violation: number;
}

const VIOLATED = 0.01;

/** The most violated cuts at x, at most `most`; `skip` holds keys of those there already. Exact over pairs that x joins. */
export function violatedOddSets(
  patterns: readonly Cutter[],
  demand: ArrayLike<number>,
  x: ArrayLike<number>,
  most: number,
  skip: Set<string>,
): OddSet[] {
  const joined = joinPairs(patterns, x);
  const cutters: number[][] = [];
  patterns.forEach(({ rows }, p) => {
    if (x[p]! > 1e-9) for (const row of rows) cutters[row] = [...(cutters[row] ?? []), p];
  });
  const found: { rows: [number, number, number]; violation: number }[] = [];
  for (const [i, partners] of joined) {
    for (const [j, first] of partners) {
      if (j <= i) continue;
      for (const [k, second] of joined.get(j) ?? []) {
        if (k <= j || (demand[i]! + demand[j]! + demand[k]!) % 2 === 0) continue;
        const third = partners.get(k) ?? 0;
        if (first + second + third <= 1 + VIOLATED && demand[i]! + demand[j]! + demand[k]! === 3) continue;
        const rows: [number, number, number] = [i, j, k];
        if (skip.has(rows.join())) continue;
        const violation = Math.ceil((demand[i]! + demand[j]! + demand[k]!) / 2) - activity(rows, patterns, cutters, x);
        if (violation > VIOLATED) found.push({ rows, violation });
      }
    }
  }
  found.sort(
    (a, b) => b.violation - a.violation || a.rows[0] - b.rows[0] || a.rows[1] - b.rows[1] || a.rows[2] - b.rows[2],
  );
  return found.slice(0, most).map(({ rows, violation }) => {
    skip.add(rows.join());
    return makeOddSet(rows, violation, patterns, demand);
  });
}

/** For every row, the rows that patterns in x cut together with it, and how much of x does. */
function joinPairs(patterns: readonly Cutter[], x: ArrayLike<number>): Map<number, Map<number, number>> {
  const joined = new Map<number, Map<number, number>>();
  patterns.forEach(({ rows }, p) => {
    if (!(x[p]! > 1e-9)) return;
    for (const a of rows) {
      for (const b of rows) {
        if (a === b) continue;
        let partners = joined.get(a);
        if (partners === undefined) {
          partners = new Map();
          joined.set(a, partners);
        }
        partners.set(b, (partners.get(b) ?? 0) + x[p]!);
      }
    }
  });
  return joined;
}

function activity(
  rows: readonly number[],
  patterns: readonly Cutter[],
  cutters: readonly (readonly number[] | undefined)[],
  x: ArrayLike<number>,
): number {
  const touched = new Set<number>();
  for (const row of rows) for (const p of cutters[row] ?? []) touched.add(p);
  let sum = 0;
  for (const p of touched) sum += coefficient(rows, patterns[p]!) * x[p]!;
  return sum;
}

function coefficient(rows: readonly number[], pattern: Cutter): number {
  let sum = 0;
  for (let k = 0; k < pattern.rows.length; k++) if (rows.includes(pattern.rows[k]!)) sum += pattern.counts[k]!;
  return (sum + 1) >> 1;
}

function makeOddSet(
  rows: [number, number, number],
  violation: number,
  all: readonly Cutter[],
  demand: ArrayLike<number>,
): OddSet {
  const patterns: number[] = [];
  const coefficients: number[] = [];
  all.forEach((pattern, p) => {
    const value = coefficient(rows, pattern);
    if (value === 0) return;
    patterns.push(p);
    coefficients.push(value);
  });
  return {
    rows,
    least: Math.ceil((demand[rows[0]]! + demand[rows[1]]! + demand[rows[2]]!) / 2),
    patterns,
    coefficients,
    violation,
  };
}
