/** What the cut bench measures the engine against: first fit, and a plain program in whole numbers given to the solver. */
import type { CutProblem } from '../../src/cut/problem.ts';
import type { LinearEngine } from '../../src/linear/model.ts';

/** Larger programs are not tried: building them alone would take longer than the limit. */
const MOST_COLUMNS = 40_000;

interface Bin {
  stock: number;
  left: number;
}

/** First fit, longest first, opening the bar that costs least for its length; Infinity where the stock does not suffice. */
export function firstFit({ stock, pieces, kerf }: CutProblem): number {
  const bins: Bin[] = [];
  const used = stock.map(() => 0);
  const order = stock
    .map((_, t) => t)
    .sort((a, b) => stock[a]!.price / stock[a]!.length - stock[b]!.price / stock[b]!.length);
  for (const { length, count } of pieces.toSorted((a, b) => b.length - a.length)) {
    for (let n = 0; n < count; n++) {
      let bin = bins.find(({ left }) => left >= length + kerf);
      if (bin === undefined) {
        const t = order.find((t) => used[t]! < (stock[t]!.count ?? Infinity) && stock[t]!.length >= length);
        if (t === undefined) return Infinity;
        used[t]!++;
        bin = { stock: t, left: stock[t]!.length + kerf };
        bins.push(bin);
      }
      bin.left -= length + kerf;
    }
  }
  return bins.reduce((sum, bin) => sum + stock[bin.stock]!.price, 0);
}

/**
 * The assignment program: how many of each piece each bar yields, bars of a type used in order; as many bars as first fit
 * opens, or as there are. Returns Infinity where nothing was found in time, null where the program is too large.
 */
export function assignmentProgram(engine: LinearEngine, problem: CutProblem, seconds: number): number | null {
  const { stock, pieces, kerf } = problem;
  const most = Math.max(1, ...stock.map(({ price }) => firstFit(problem) / price));
  const bars = stock.flatMap(({ count }, t) =>
    Array.from(
      { length: Math.min(count ?? Infinity, Number.isFinite(most) ? Math.ceil(most) : (count ?? 0)) },
      () => t,
    ),
  );
  if (bars.length * pieces.length > MOST_COLUMNS) return null;
  using model = engine.create();
  for (const { count } of pieces) model.addRow(count, count);
  const whole: number[] = [];
  let before = { stock: -1, column: -1 };
  for (const t of bars) {
    const room = model.addRow(-Infinity, 0);
    const used = model.addColumn({
      cost: stock[t]!.price,
      upper: 1,
      rows: [room],
      values: [-(stock[t]!.length + kerf)],
    });
    whole.push(used);
    if (before.stock === t) model.addRow(0, Infinity, [before.column, used], [1, -1]);
    before = { stock: t, column: used };
    pieces.forEach(({ length, count }, i) => {
      const fits = Math.floor((stock[t]!.length + kerf) / (length + kerf));
      if (fits === 0) return;
      const upper = Math.min(count, fits);
      whole.push(model.addColumn({ cost: 0, upper, rows: [i, room], values: [1, length + kerf] }));
    });
  }
  const end = performance.now() + seconds * 1000;
  const solved = model.solve({ wholeNumbers: whole, shouldStop: () => performance.now() > end });
  return solved.feasible ? solved.value : Infinity;
}
