/** What the bars of the pile are worth at some prices when cut into pieces of few lengths: quickly, and about. */
import { type Prices, worthAt } from './prices.ts';
import type { BarKind, Problem } from './problem.ts';
import { SCRAP_RATE } from './value.ts';

const NOTHING = Number.NEGATIVE_INFINITY;

/**
 * One table of exact fills for each steel, in whole millimetres. A kerf that is no whole number is rounded down, so that
 * patterns count that just do not fit, and scrap is made a little much of; otherwise the worth is exact.
 */
export class BarsWorth {
  private readonly problem: Problem;
  private readonly kinds: BarKind[][];
  private readonly kerf: number;
  /** By the sum that pieces with their kerfs come to: the most they are worth. */
  private readonly value: Float64Array;
  /** By room: the most that pieces within it are worth, what they leave of it being scrap, or kept. */
  private readonly scrapped: Float64Array;
  private readonly kept: Float64Array;

  constructor(problem: Problem) {
    this.problem = problem;
    this.kerf = Math.floor(problem.job.saw.kerf + 1e-9);
    this.kinds = problem.steels.map(({ index }) => problem.barKinds.filter(({ steel }) => steel === index));
    const size = Math.max(0, ...this.kinds.map((kinds) => this.sizeFor(kinds))) + 1;
    this.value = new Float64Array(size);
    this.scrapped = new Float64Array(size);
    this.kept = new Float64Array(size);
  }

  /** What all bars are worth together, kg, each cut by its best pattern of pieces of `lengths` (whole mm), or not at all. */
  of(prices: Prices, lengths: number[]): number {
    let sum = 0;
    this.kinds.forEach((kinds, steel) => {
      if (kinds.length === 0) return;
      const perScrap = (SCRAP_RATE * this.problem.steels[steel]!.heaviest) / 1000;
      this.fill(this.sizeFor(kinds), prices.pieces[steel]!, lengths, perScrap);
      for (const kind of kinds) sum += kind.count * Math.max(0, this.bestOf(kind, perScrap));
    });
    return sum;
  }

  private sizeFor(kinds: BarKind[]): number {
    return Math.max(0, ...kinds.flatMap(({ spans }) => spans.map(({ from, to }) => Math.floor(to - from) + this.kerf)));
  }

  private fill(size: number, pieces: Prices['pieces'][number], lengths: number[], perScrap: number): void {
    const { value, scrapped, kept, kerf } = this;
    value.fill(NOTHING, 0, size + 1);
    value[0] = 0;
    for (const length of lengths) {
      const weight = length + kerf;
      const worth = worthAt(pieces, length) - this.problem.labour.cut;
      // A piece may pay for its cut by the scrap it saves.
      if (worth + perScrap * weight <= 0) continue;
      for (let c = weight; c <= size; c++) {
        const filled = value[c - weight]! + worth;
        if (filled > value[c]!) value[c] = filled;
      }
    }
    let withScrap = 0;
    let most = 0;
    for (let c = 0; c <= size; c++) {
      const filled = value[c]!;
      withScrap = Math.max(filled, withScrap - perScrap);
      most = Math.max(filled, most);
      scrapped[c] = withScrap;
      kept[c] = most;
    }
  }

  private bestOf({ spans, length }: BarKind, perScrap: number): number {
    const { value, scrapped, kept, kerf } = this;
    const { labour, job } = this.problem;
    let worth = 0;
    for (const { from, to } of spans) {
      const room = Math.floor(to - from);
      const over = room - Math.ceil(job.saw.keepFrom);
      let best = Math.max(scrapped[room]!, over >= 0 ? kept[over]! : NOTHING);
      // The last kerf may run off the end of the span; at the bar's own end a cut is saved.
      for (let c = room + 1; c <= room + kerf; c++) if (value[c]! > best) best = value[c]!;
      if (to >= length - 0.01) best = Math.max(best, value[room + kerf]! + labour.cut);
      const uncut = over >= 0 ? 0 : -perScrap * room;
      worth += from > 0.01 ? Math.max(best - labour.cut, uncut) : best;
    }
    return worth;
  }
}
