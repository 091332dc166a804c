/** Checks a cutting plan against its problem by the rules of the format alone, and finds optima by trying everything. */
import type { CutPlan, CutProblem } from '../../src/cut/problem.ts';

const SMALL = 1e-6;

/** What is wrong with `plan`, one line a fault. */
export function recount(problem: CutProblem, plan: CutPlan): string[] {
  const faults: string[] = [];
  const made = problem.pieces.map(() => 0);
  const used = problem.stock.map(() => 0);
  let cost = 0;
  for (const bar of plan.bars) {
    const type = problem.stock[bar.stock];
    if (type === undefined) return [`no stock ${bar.stock}`];
    used[bar.stock] = (used[bar.stock] ?? 0) + bar.times;
    if (bar.spans.length !== type.spans.length) faults.push('spans of bar and stock differ in number');
    if (bar.spans.every((span) => span.length === 0)) faults.push('a bar without pieces');
    bar.spans.forEach((pieces, s) => {
      const span = type.spans[s];
      if (span === undefined) return;
      const total = pieces.reduce((sum, piece) => sum + (problem.pieces[piece]?.length ?? Number.NaN), 0);
      const need = pieces.length === 0 ? 0 : total + (pieces.length - 1) * problem.kerf;
      if (!(need <= span.to - span.from + SMALL)) faults.push(`span of ${span.to - span.from} holds ${need}`);
      for (const piece of pieces) made[piece] = (made[piece] ?? 0) + bar.times;
    });
    const barCost = costOfBar(problem, bar.stock, bar.spans);
    if (Math.abs(barCost - bar.cost) > SMALL * Math.max(1, barCost))
      faults.push(`bar costs ${barCost}, not ${bar.cost}`);
    cost += barCost * bar.times;
  }
  problem.pieces.forEach(({ count }, piece) => {
    const short = plan.short.filter((s) => s.piece === piece).reduce((sum, s) => sum + s.count, 0);
    if (made[piece] !== count - short) faults.push(`piece ${piece}: ${made[piece]} cut, ${short} short of ${count}`);
  });
  problem.stock.forEach(({ count }, t) => {
    if (count !== null && (used[t] ?? 0) > count) faults.push(`stock ${t}: ${used[t]} of ${count}`);
  });
  if (Math.abs(cost - plan.cost) > SMALL * Math.max(1, cost)) faults.push(`costs ${cost}, not ${plan.cost}`);
  if (plan.bound > plan.cost + SMALL) faults.push('bound above cost');
  return faults;
}

function costOfBar(problem: CutProblem, stock: number, spans: readonly (readonly number[])[]): number {
  const type = problem.stock[stock];
  if (type === undefined) return Number.NaN;
  const rules = problem.patternCost;
  if (rules === undefined) return type.price;
  const scrapPerMm = type.scrapPerMm ?? rules.scrapPerMm;
  let cost = type.price;
  spans.forEach((pieces, s) => {
    const span = type.spans[s];
    if (span === undefined) return;
    let at = span.from;
    const cutPlaces = new Set<number>();
    for (const piece of pieces) {
      if (at > 0) cutPlaces.add(Math.round(at * 10));
      const end = at + (problem.pieces[piece]?.length ?? Number.NaN);
      // The end of one piece and the start of the next are one cut, one kerf wide.
      if (Math.abs(end - type.length) > SMALL) cutPlaces.add(Math.round((end + problem.kerf) * 10));
      at = end + problem.kerf;
    }
    const remainder = Math.max(0, span.to - (pieces.length === 0 ? span.from : at));
    cost += cutPlaces.size * rules.perCut + (remainder < rules.keepFrom ? remainder * scrapPerMm : 0);
  });
  return cost;
}

/** The least weight short and, with that, the least cost, by trying everything: a handful of pieces and bars only. */
export function tryEverything(problem: CutProblem): { short: number; cost: number } {
  const pieces = problem.pieces.flatMap(({ count }, piece) => new Array<number>(count).fill(piece));
  const bars = problem.stock.flatMap(({ count }, stock) =>
    Array.from({ length: Math.min(count ?? pieces.length, pieces.length) }, () => stock),
  );
  const held = bars.map((stock) => (problem.stock[stock]?.spans ?? []).map((): number[] => []));
  const room = bars.map((stock) => (problem.stock[stock]?.spans ?? []).map(({ from, to }) => to - from + problem.kerf));
  const best = { short: Infinity, cost: Infinity };
  const place = (n: number, short: number): void => {
    if (short > best.short + SMALL) return;
    const piece = pieces[n];
    if (piece === undefined) {
      const cost = bars.reduce((sum, stock, b) => {
        const spans = held[b] ?? [];
        return spans.some((span) => span.length > 0) ? sum + costOfBar(problem, stock, spans) : sum;
      }, 0);
      if (short < best.short - SMALL || cost < best.cost) Object.assign(best, { short, cost });
      return;
    }
    const { length, weight } = problem.pieces[piece] ?? { length: Number.NaN };
    const seen = new Set<string>();
    held.forEach((spans, b) => {
      const key = `${bars[b]} ${JSON.stringify(spans)}`;
      if (seen.has(key)) return;
      seen.add(key);
      spans.forEach((span, s) => {
        const left = room[b]?.[s] ?? 0;
        const size = length + problem.kerf;
        if (size > left + SMALL) return;
        span.push(piece);
        if (room[b] !== undefined) room[b][s] = left - size;
        place(n + 1, short);
        span.pop();
        if (room[b] !== undefined) room[b][s] = left;
      });
    });
    place(n + 1, short + (weight ?? length));
  };
  place(0, 0);
  return best;
}
