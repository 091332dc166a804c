/**
 * Among plans of one cost, a handier one: fewer ways of cutting a bar, then what is left over gathered into fewer and
 * longer remainders (the sum of their squares grows). Pieces are moved and exchanged between two bars while that helps;
 * the bars used, and so the cost, stay as they are. Heuristic, in counted steps. Only for bars of one usable span where
 * nothing but their prices costs.
 */
import { makePattern, type Pattern } from './columns.ts';
import type { Scaled } from './scale.ts';

/** Exchanges weighed at most. */
const STEPS = 300_000;
/** And pairs of bars looked at: of many thousands of bars most are alike. */
const PAIRS = 30_000_000;

interface Bar {
  stock: number;
  /** Rows of the pieces, one entry a piece. */
  pieces: number[];
  left: number;
  key: string;
}

/** The plan with its bars tidied and sorted, longest pieces first, so that stops change seldom. */
export function tidyPlan(scaled: Scaled, plan: readonly Pattern[]): Pattern[] {
  const plain = scaled.ends.length === 0 && scaled.stocks.every((stock) => stock.capacities.length === 1);
  if (!plain || plan.length === 0) return [...plan];
  const tidying = new Tidying(scaled, plan);
  tidying.run();
  return tidying.patterns();
}

class Tidying {
  private readonly scaled: Scaled;
  private readonly bars: Bar[];
  private readonly alike = new Map<string, number>();
  private steps = 0;

  constructor(scaled: Scaled, plan: readonly Pattern[]) {
    this.scaled = scaled;
    this.bars = plan.map(({ stock, fills }) => {
      const { rows, counts, left } = fills[0]!;
      const pieces = rows.flatMap((row, k) => new Array<number>(counts[k]!).fill(row));
      return makeBar(stock, pieces, left);
    });
    for (const { key } of this.bars) this.count(key, 1);
  }

  run(): void {
    let pairs = 0;
    const over = (): boolean => this.steps >= STEPS || pairs >= PAIRS;
    for (let better = true; better && !over(); ) {
      better = false;
      for (let a = 0; a < this.bars.length && !over(); a++) {
        pairs += this.bars.length;
        for (let b = 0; b < this.bars.length; b++) {
          if (a !== b && this.bars[a]!.key !== this.bars[b]!.key) better = this.improve(a, b) || better;
        }
      }
    }
  }

  patterns(): Pattern[] {
    const { scaled } = this;
    const sorted = this.bars.filter(({ pieces }) => pieces.length > 0).sort(compareBars);
    return sorted.map(({ stock, pieces, left }) => {
      const rows = [...new Set(pieces)];
      const counts = rows.map((row) => pieces.filter((piece) => piece === row).length);
      return makePattern(scaled, stock, [{ rows, counts, left, value: 0 }]);
    });
  }

  /** Gives a piece of bar a to bar b, for one of b's or for nothing, if that is handier. */
  private improve(a: number, b: number): boolean {
    const [from, to] = [this.bars[a]!, this.bars[b]!];
    const { sizes } = this.scaled;
    for (const give of new Set(from.pieces)) {
      for (const get of [-1, ...new Set(to.pieces)]) {
        this.steps++;
        const shift = sizes[give]! - (get < 0 ? 0 : sizes[get]!);
        // Only towards the fuller bar, so that what is left gathers in the other.
        if (give === get || shift < 0 || shift > to.left) continue;
        if (get < 0 && from.pieces.length === 1) continue;
        const newFrom = makeBar(from.stock, exchange(from.pieces, give, get), from.left + shift);
        const newTo = makeBar(to.stock, exchange(to.pieces, get, give), to.left - shift);
        if (!this.isHandier([from, to], [newFrom, newTo])) continue;
        for (const bar of [from, to]) this.count(bar.key, -1);
        for (const bar of [newFrom, newTo]) this.count(bar.key, 1);
        this.bars[a] = newFrom;
        this.bars[b] = newTo;
        return true;
      }
    }
    return false;
  }

  private isHandier(old: Bar[], now: Bar[]): boolean {
    const before = this.alike.size;
    for (const { key } of old) this.count(key, -1);
    for (const { key } of now) this.count(key, 1);
    const after = this.alike.size;
    for (const { key } of now) this.count(key, -1);
    for (const { key } of old) this.count(key, 1);
    if (after !== before) return after < before;
    const squares = (bars: Bar[]): number => bars.reduce((sum, { left }) => sum + left * left, 0);
    return squares(now) > squares(old);
  }

  private count(key: string, by: number): void {
    const count = (this.alike.get(key) ?? 0) + by;
    if (count === 0) this.alike.delete(key);
    else this.alike.set(key, count);
  }
}

function makeBar(stock: number, pieces: number[], left: number): Bar {
  const sorted = pieces.toSorted((p, q) => p - q);
  return { stock, pieces: sorted, left, key: `${stock}|${sorted.join()}` };
}

/** The pieces without one `out` (-1: none) and with one `into` (-1: none). */
function exchange(pieces: readonly number[], out: number, into: number): number[] {
  const rest = out < 0 ? [...pieces] : pieces.toSpliced(pieces.indexOf(out), 1);
  return into < 0 ? rest : [...rest, into];
}

function compareBars(a: Bar, b: Bar): number {
  for (let k = 0; k < a.pieces.length && k < b.pieces.length; k++) {
    if (a.pieces[k] !== b.pieces[k]) return a.pieces[k]! - b.pieces[k]!;
  }
  return b.pieces.length - a.pieces.length || a.stock - b.stock;
}
