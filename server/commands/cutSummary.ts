/** A cutting plan told in words on the terminal. */
import type { CutPlanBar, CutPlanFile } from '../../src/cut/cutlist.ts';
import type { CutList } from '../../src/job/cutlist.ts';
import { usableSpans } from '../../src/job/lot.ts';

const CAUTION =
  'Caution: clamp bar and piece, guard eyes, ears and lungs; zinc and paint burnt by a disc are poisonous to breathe. Measure the first cuts and correct the kerf.';

/** Lines of text for `plan`, the bars that are cut most often first. */
export function cutLines(list: CutList, plan: CutPlanFile): string[] {
  const bars = plan.bars.toSorted((a, b) => b.times - a.times);
  return [
    `${some(plan.used, 'bar')}, cost ${plan.cost}: ${verdict(plan)}`,
    '',
    ...bars.map((bar) => barLine(list, bar)),
    ...shortLines(plan),
    '',
    CAUTION,
  ];
}

function verdict({ cost, bound, proven }: CutPlanFile): string {
  if (proven) return 'no plan costs less.';
  if (bound <= 0) return 'nothing better was found.';
  const gap = ((cost - bound) / cost) * 100;
  return `no plan costs less than ${bound}, so this is within ${gap.toFixed(2)} % of the best.`;
}

/** `  3 × 6000: 470 A, 470 A, 310 B; left over 1190`. */
function barLine(list: CutList, bar: CutPlanBar): string {
  const stock = list.stock[bar.stock];
  const pieces = bar.pieces.map((length, k) => [length, bar.marks?.[k]].filter((part) => part).join(' '));
  return `  ${bar.times} × ${stock?.length}: ${pieces.join(', ')}; left over ${remainders(list, bar).join(' and ') || 'nothing'}`;
}

/** What is left in each usable span after its last kerf, mm; nothing where nothing is. */
function remainders(list: CutList, bar: CutPlanBar): number[] {
  const stock = list.stock[bar.stock];
  if (stock === undefined) return [];
  const { kerf } = list.saw;
  const spans = bar.spans ?? [bar.pieces];
  return usableSpans(stock, stock.length, list.saw)
    .map(({ from, to }, s) => {
      const pieces = spans[s] ?? [];
      const used = pieces.reduce((sum, length) => sum + length + kerf, 0);
      return Math.round(Math.max(0, to - from - used) * 100) / 100;
    })
    .filter((left) => left > 0);
}

function shortLines({ short }: CutPlanFile): string[] {
  if (short.length === 0) return [];
  const lines = short.map(
    ({ length, count, mark }) => `  ${some(count, 'piece')} of ${length}${mark ? ` ${mark}` : ''}`,
  );
  return ['', 'The stock can not yield, so these are short:', ...lines];
}

function some(count: number, one: string): string {
  return `${count} ${one}${count === 1 ? '' : 's'}`;
}
