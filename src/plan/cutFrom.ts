/** From whole bars that yield about what is wanted to a cutting: what is too much is not cut, or cut shorter where that is wanted. */
import { type Pattern, patternOf } from './barPattern.ts';
import type { Cutting } from './cutting.ts';
import type { Use } from './master.ts';
import type { Problem } from './problem.ts';

/** The cutting of `bars` into what `uses` ask for; what they do not yield is told as short. */
export function cutFrom(problem: Problem, uses: Use[], bars: Pattern[]): Cutting {
  const left = problem.steels.map(() => new Map<number, number>());
  for (const { steel, length, bars: count } of uses) left[steel]!.set(length, count);
  const take = (steel: number, length: number) => {
    const count = left[steel]!.get(length) ?? 0;
    if (count > 0) left[steel]!.set(length, count - 1);
    return count > 0;
  };
  const kept = bars.map(({ kind, spans }) =>
    spans.map((own) => own.map((length) => ({ length, cut: take(kind.steel, length) }))),
  );
  const shorter = (steel: number, length: number) => {
    const wanted = [...left[steel]!].filter(([other, count]) => count > 0 && other < length).map(([other]) => other);
    return wanted.length > 0 ? Math.max(...wanted) : 0;
  };
  const cut = bars.flatMap(({ kind }, i) => {
    const spans = kept[i]!.map((own) =>
      own.flatMap(({ length, cut }) => {
        if (cut) return [length];
        const other = shorter(kind.steel, length);
        if (other > 0) take(kind.steel, other);
        return other > 0 ? [other] : [];
      }),
    );
    return spans.some((own) => own.length > 0) ? [patternOf(kind, spans, problem.job, problem.labour)] : [];
  });
  return {
    bars: cut,
    short: left.flatMap((own, steel) =>
      [...own].flatMap(([length, count]) => (count > 0 ? [{ steel, length, bars: count }] : [])),
    ),
    joints: [],
    cost: cut.reduce((sum, pattern) => sum + pattern.cost, 0),
  };
}
