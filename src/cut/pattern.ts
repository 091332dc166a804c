/**
 * Pricing: the best way to fill a span, a bounded knapsack over its capacity.
 *
 *     best(k, c) = max over 0 ≤ q ≤ bound_k, q·size_k ≤ c  of  q·value_k + best(k + 1, c − q·size_k),   best(K, c) = end(c)
 *
 * One table serves all stock types and spans: a span of capacity c begins at best(0, c). Values are whole numbers held in
 * doubles, so sums are exact. Where the table would be too large its capacities are divided by `scale` and sizes
 * rounded down: best is then an upper bound that guides the same depth-first search to the exact answer.
 */

/** The most table cells that are filled; above it capacities are scaled down. */
const CELLS = 3_000_000;

/** A filled span: rows of the problem, rising, and how many pieces of each. */
export interface Fill {
  rows: number[];
  counts: number[];
  /** Capacity that is left. */
  left: number;
  /** Value of the pieces and of the end. */
  value: number;
}

export class PatternTable {
  readonly scale: number;
  private readonly sizes: Int32Array;
  private readonly stride: number;
  private table: Float64Array;
  private readonly base: Float64Array;
  private readonly endOf: ((left: number) => number) | null;
  /** Rows that may be used, by falling size; then their sizes, values and bounds. */
  private readonly active: Int32Array;
  private readonly size: Int32Array;
  private readonly value: Float64Array;
  private readonly bound: Int32Array;
  private readonly taken: Int32Array;
  private activeCount = 0;
  private smallest = 0;
  // State of one search.
  private floor = 0;
  private nodesLeft = 0;
  private wanted = 1;
  private raise = true;
  /** The active piece that every filling holds one of beyond `taken`; -1 for none. */
  private forced = -1;
  private found: Fill[] = [];

  /**
   * For pieces of `sizes` (falling) and spans of at most `most` units. `endOf(left)` is the value, in the units of the
   * values, of leaving so much capacity; absent, it is 0.
   */
  constructor(sizes: Int32Array, most: number, endOf: ((left: number) => number) | null = null) {
    const count = sizes.length;
    this.sizes = sizes;
    this.endOf = endOf;
    this.scale = Math.max(1, Math.ceil(((count + 1) * (most + 1)) / CELLS));
    this.stride = Math.floor(most / this.scale) + 1;
    this.table = new Float64Array(0);
    this.base = new Float64Array(this.stride);
    this.active = new Int32Array(count);
    this.size = new Int32Array(count);
    this.value = new Float64Array(count);
    this.bound = new Int32Array(count);
    this.taken = new Int32Array(count);
    if (endOf !== null) this.fillBase(endOf);
  }

  /** What an end is worth at best with so much scaled capacity left, made not falling where capacities are scaled. */
  private fillBase(endOf: (left: number) => number): void {
    let best = -Infinity;
    for (let c = 0; c < this.stride; c++) {
      if (this.scale === 1) best = endOf(c);
      else for (let left = c * this.scale; left < (c + 1) * this.scale; left++) best = Math.max(best, endOf(left));
      this.base[c] = best;
    }
  }

  /** Fills the table for these values and at most so many of each piece. `values` are whole numbers. Returns the cells filled. */
  fill(values: Float64Array, bounds: Int32Array): number {
    let count = 0;
    for (let i = 0; i < this.sizes.length; i++) {
      const value = values[i]!;
      const bound = bounds[i]!;
      // A piece worth nothing still fills a bar. Where ends cost, one worth less than nothing may still save scrap.
      if (bound <= 0 || (value < 0 && this.endOf === null)) continue;
      this.active[count] = i;
      this.size[count] = this.sizes[i]!;
      this.value[count] = value;
      this.bound[count] = bound;
      count++;
    }
    this.activeCount = count;
    this.smallest = count > 0 ? this.size[count - 1]! : Infinity;
    const { stride } = this;
    if (this.table.length < (count + 1) * stride) this.table = new Float64Array((count + 1) * stride);
    this.table.set(this.base, count * stride);
    for (let k = count - 1; k >= 0; k--) this.fillRow(k);
    return count * stride;
  }

  private fillRow(k: number): void {
    const { stride } = this;
    const next = this.table.subarray((k + 1) * stride, (k + 2) * stride);
    const row = this.table.subarray(k * stride, (k + 1) * stride);
    const size = Math.floor(this.size[k]! / this.scale);
    const value = this.value[k]!;
    row.set(next);
    if (size >= stride) return;
    if (size === 0) {
      const all = Math.max(0, value * this.bound[k]!);
      for (let c = 0; c < stride; c++) row[c] = next[c]! + all;
      return;
    }
    const bound = Math.min(this.bound[k]!, Math.floor((stride - 1) / size));
    if (bound * size + size >= stride) {
      // The bound never binds before the capacity does.
      for (let c = size; c < stride; c++) {
        const other = row[c - size]! + value;
        if (other > row[c]!) row[c] = other;
      }
    } else if (bound <= 3) {
      for (let q = 1; q <= bound; q++) {
        const gain = q * value;
        for (let c = q * size; c < stride; c++) {
          const other = next[c - q * size]! + gain;
          if (other > row[c]!) row[c] = other;
        }
      }
    } else this.fillRowByWindow(next, row, size, value, bound);
  }

  /** Sliding maximum of next[c − q·size] + q·value over q ≤ bound, one residue class of c after the other. */
  private fillRowByWindow(next: Float64Array, row: Float64Array, size: number, value: number, bound: number): void {
    const { stride } = this;
    const queue = new Int32Array(Math.floor(stride / size) + 2);
    for (let residue = 0; residue < size && residue < stride; residue++) {
      let head = 0;
      let tail = 0;
      for (let c = residue, t = 0; c < stride; c += size, t++) {
        const level = next[c]! - t * value;
        while (tail > head && next[residue + queue[tail - 1]! * size]! - queue[tail - 1]! * value <= level) tail--;
        queue[tail++] = t;
        if (queue[head]! < t - bound) head++;
        const from = queue[head]!;
        row[c] = next[residue + from * size]! + (t - from) * value;
      }
    }
  }

  /** No filling of a span of this capacity is worth more. Exact where `scale` is 1. */
  atMost(capacity: number): number {
    return this.table[Math.floor(capacity / this.scale)]!;
  }

  /**
   * The best filling of a span worth more than `floor`; null when there is none. Exact unless `exhausted` says that
   * `nodes` were used up.
   */
  best(capacity: number, floor: number, nodes: number): { fill: Fill | null; exhausted: boolean } {
    const guided = this.scale === 1;
    const top = this.atMost(capacity);
    if (top <= floor) return { fill: null, exhausted: false };
    const exhausted = this.search(capacity, guided ? top - 0.5 : floor, nodes, 1, !guided);
    return { fill: this.found.at(-1) ?? null, exhausted };
  }

  /**
   * For one piece after the other that `covered` does not mark yet: the best filling with it, where it is worth more than
   * `floor`; its pieces are marked. A best for which `nodes` do not suffice may be less than the best.
   */
  bestWithEach(capacity: number, floor: number, nodes: number, covered: Uint8Array): Fill[] {
    const fills: Fill[] = [];
    for (let k = 0; k < this.activeCount; k++) {
      if (covered[this.active[k]!] === 1 || this.size[k]! > capacity) continue;
      const fill = this.bestWith(k, capacity - this.size[k]!, floor, nodes);
      if (fill === null) continue;
      for (const row of fill.rows) covered[row] = 1;
      fills.push(fill);
    }
    return fills;
  }

  /** The best filling with the longest piece that may be used; null where it does not fit. */
  bestWithLongest(capacity: number, nodes: number): Fill | null {
    if (this.activeCount === 0 || this.size[0]! > capacity) return null;
    return this.bestWith(0, capacity - this.size[0]!, 0, nodes);
  }

  /** The best filling that holds active piece k, with `left` for the rest. */
  private bestWith(k: number, left: number, floor: number, nodes: number): Fill | null {
    const value = this.value[k]!;
    const top = this.atMost(left) + value;
    if (top <= floor) return null;
    this.forced = k;
    this.bound[k]!--;
    this.search(left, (this.scale === 1 ? top - 0.5 : floor) - value, nodes, 1, true);
    if (this.found.length === 0 && this.scale === 1) this.search(left, floor - value, nodes, 1, true);
    this.bound[k]!++;
    this.forced = -1;
    return this.found.at(-1) ?? null;
  }

  /** Every filling worth more than `floor`, the empty one too; null when there are more than `most` or `nodes` don't suffice. */
  all(capacity: number, floor: number, nodes: number, most: number): Fill[] | null {
    const exhausted = this.search(capacity, floor, nodes, most + 1, false);
    return exhausted || this.found.length > most ? null : this.found;
  }

  private search(capacity: number, floor: number, nodes: number, wanted: number, raise: boolean): boolean {
    this.floor = floor;
    this.nodesLeft = nodes;
    this.wanted = wanted;
    this.raise = raise;
    this.found = [];
    if (this.atMost(capacity) > floor) this.walk(0, capacity, 0);
    return this.nodesLeft <= 0;
  }

  /** Depth first from active piece k on. Returns true when the search is over. */
  private walk(start: number, capacity: number, sofar: number): boolean {
    const { stride, scale, table } = this;
    let k = start;
    while (k < this.activeCount && capacity >= this.smallest) {
      if (--this.nodesLeft <= 0) return true;
      const size = this.size[k]!;
      const next = (k + 1) * stride;
      if (size <= capacity) {
        const most = Math.min(this.bound[k]!, Math.floor(capacity / size));
        for (let q = most; q > 0; q--) {
          const left = capacity - q * size;
          const at = scale === 1 ? left : Math.floor(left / scale);
          if (sofar + q * this.value[k]! + table[next + at]! <= this.floor) continue;
          this.taken[k] = q;
          const over = this.walk(k + 1, left, sofar + q * this.value[k]!);
          this.taken[k] = 0;
          if (over) return true;
        }
      }
      const at = scale === 1 ? capacity : Math.floor(capacity / scale);
      if (sofar + table[next + at]! <= this.floor) return false;
      k++;
    }
    return this.reachEnd(capacity, sofar);
  }

  private reachEnd(left: number, sofar: number): boolean {
    const value = sofar + (this.endOf === null ? 0 : this.endOf(left));
    if (value <= this.floor) return false;
    const whole = this.forced < 0 ? value : value + this.value[this.forced]!;
    const fill: Fill = { rows: [], counts: [], left, value: whole };
    for (let k = this.activeCount - 1; k >= 0; k--) {
      const count = this.taken[k]! + (k === this.forced ? 1 : 0);
      if (count === 0) continue;
      fill.rows.unshift(this.active[k]!);
      fill.counts.unshift(count);
    }
    this.found.push(fill);
    if (this.raise) this.floor = value;
    return !this.raise && this.found.length >= this.wanted;
  }
}
