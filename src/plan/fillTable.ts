/**
 * The table of an unbounded knapsack that is filled exactly: value[c] is the most that pieces are worth whose weights come to
 * c, −Infinity where none do. Three ways to the same table, each the quickest where it is used.
 */

/** Up to so many pieces the table is filled from the sums that can be reached. */
const FEW = 48;
/** Pieces in a row are worth looking at together where there are so many times fewer rows. */
const IN_A_ROW = 8;
/** Every sum may be worth most. */
const NO_WASTE: Waste = { perUnit: 0, ending: Number.MAX_VALUE, least: null };
/** Worths lie on a line where they are within this of it. */
const ON_LINE = 1e-10;

/** The worth of every sum, and the piece that comes to it last; −1 where none does; once it is filled, the sums that pieces come to, rising. */
export interface Table {
  value: Float64Array;
  choice: Int32Array;
  sums: Int32Array;
}

/** Room for one table at a time: what was filled before is gone. */
export class TableRoom {
  private value = new Float64Array(0);
  private choice = new Int32Array(0);
  private sums = new Int32Array(0);

  /** A table of sums up to `size` that holds nothing yet. */
  empty(size: number): Table {
    if (this.value.length <= size) {
      this.value = new Float64Array(size + 1);
      this.choice = new Int32Array(size + 1);
      this.sums = new Int32Array(size + 1);
    }
    const value = this.value.subarray(0, size + 1).fill(Number.NEGATIVE_INFINITY);
    value[0] = 0;
    return { value, choice: this.choice.subarray(0, size + 1).fill(-1), sums: this.sums };
  }
}

/** Pieces by their place: weights, rising, and worths; `own` lists those that may be taken. */
export interface Pieces {
  own: Int32Array;
  weights: Int32Array;
  worths: Float64Array;
}

/** What a unit of weight left over costs at most, and what a sum may gain by coming out just so. */
export interface Waste {
  perUnit: number;
  ending: number;
  /** Sums that are part of nothing sought; null where everything is. */
  least: Least | null;
}

/** A sum of c is part of nothing that is sought where it is worth less than rate × c − over[k], k the first whose room is not less than c. */
export interface Least {
  rate: number;
  /** Rising. */
  rooms: Int32Array;
  over: Float64Array;
}

/**
 * Fills an empty table. Pieces in a row, as far apart in worth as in weight, are one sliding maximum: the cost is the size of the table
 * times the rows, not the pieces. Given what waste costs, pieces are added only to sums that may be part of what is worth most and sought; the others
 * are left out of the table where they are not come to from such a sum.
 */
export function fillTable(table: Table, pieces: Pieces, waste: Waste | null = null): void {
  if (waste || pieces.own.length <= FEW) {
    fillForward(table, pieces, waste ?? NO_WASTE);
    return;
  }
  const rows = rowsOf(pieces);
  if (rows.length * IN_A_ROW <= pieces.own.length) fillByRows(table, pieces, rows);
  else fillEach(table, pieces);
  table.sums = sumsOf(table);
}

function sumsOf({ value, sums }: Table): Int32Array {
  let count = 0;
  for (let c = 1; c < value.length; c++) if (value[c]! !== Number.NEGATIVE_INFINITY) sums[count++] = c;
  return sums.subarray(0, count);
}

/** From each sum that can be reached, smallest first, unless a smaller one is worth as much with the waste between them paid for. */
function fillForward(table: Table, { own, weights, worths }: Pieces, { perUnit, ending, least }: Waste): void {
  const { value, choice, sums } = table;
  const size = value.length - 1;
  const count = own.length;
  const ownWeights = new Int32Array(count);
  const ownWorths = new Float64Array(count);
  for (let n = 0; n < count; n++) {
    ownWeights[n] = weights[own[n]!]!;
    ownWorths[n] = worths[own[n]!]!;
  }
  let smaller = Number.NEGATIVE_INFINITY;
  let k = 0;
  let reached = 0;
  for (let c = 0; c <= size; c++) {
    smaller -= perUnit;
    const filled = value[c]!;
    if (filled === Number.NEGATIVE_INFINITY) continue;
    if (c > 0) sums[reached++] = c;
    if (filled + ending <= smaller) continue;
    if (least) {
      while (k < least.rooms.length && least.rooms[k]! < c) k++;
      if (k === least.rooms.length || filled < least.rate * c - least.over[k]!) continue;
    }
    if (filled > smaller) smaller = filled;
    for (let n = 0; n < count; n++) {
      const to = c + ownWeights[n]!;
      if (to > size) break;
      const more = filled + ownWorths[n]!;
      if (more <= value[to]!) continue;
      value[to] = more;
      choice[to] = own[n]!;
    }
  }
  table.sums = sums.subarray(0, reached);
}

/** With one piece after the other. */
function fillEach({ value, choice }: Table, { own, weights, worths }: Pieces): void {
  const size = value.length - 1;
  for (const i of own) {
    const worth = worths[i]!;
    for (let c = weights[i]!, from = 0; c <= size; c++, from++) {
      const more = value[from]! + worth;
      if (more <= value[c]!) continue;
      value[c] = more;
      choice[c] = i;
    }
  }
}

/** Pieces from `first` on, `count` of them, each `step` heavier and worth `slope` more for every unit of it. */
interface Row {
  first: number;
  count: number;
  step: number;
  slope: number;
}

function rowsOf({ own, weights, worths }: Pieces): Row[] {
  const rows: Row[] = [];
  let row: Row | null = null;
  for (const i of own) {
    if (row && i === row.first + row.count) {
      const { first, count } = row;
      const over = weights[i]! - weights[first]!;
      if (count === 1) {
        row.step = over;
        row.slope = (worths[i]! - worths[first]!) / over;
      }
      const onLine = Math.abs(worths[i]! - worths[first]! - row.slope * over) <= ON_LINE;
      if (over === count * row.step && onLine) {
        row.count++;
        continue;
      }
    }
    row = { first: i, count: 1, step: 1, slope: 0 };
    rows.push(row);
  }
  return rows;
}

/** Sums that a row may add a piece to, worth less and less for their place: a queue for each remainder by the row's step. */
class Window {
  private readonly row: Row;
  private readonly lightest: number;
  private readonly room: number;
  private readonly sums: Int32Array;
  private readonly keys: Float64Array;
  private readonly heads: Int32Array;
  private readonly tails: Int32Array;

  constructor(row: Row, weights: Int32Array) {
    this.row = row;
    this.lightest = weights[row.first]!;
    this.room = row.count + 2;
    this.sums = new Int32Array(row.step * this.room);
    this.keys = new Float64Array(row.step * this.room);
    this.heads = new Int32Array(row.step);
    this.tails = new Int32Array(row.step);
  }

  /** The sum that the best piece of the row makes up to `c`; −1 for none. Asked for every c in turn. */
  best(c: number, value: Float64Array): number {
    const { row, room, sums, keys, heads, tails } = this;
    const sum = c - this.lightest;
    if (sum < 0) return -1;
    const queue = sum % row.step;
    const start = queue * room;
    let head = heads[queue]!;
    let tail = tails[queue]!;
    const worth = value[sum]!;
    if (worth !== Number.NEGATIVE_INFINITY) {
      const key = worth - row.slope * sum;
      while (tail !== head) {
        const last = tail === 0 ? room - 1 : tail - 1;
        if (keys[start + last]! > key) break;
        tail = last;
      }
      sums[start + tail] = sum;
      keys[start + tail] = key;
      tail = tail + 1 === room ? 0 : tail + 1;
      tails[queue] = tail;
    }
    const least = sum - (row.count - 1) * row.step;
    while (head !== tail && sums[start + head]! < least) head = head + 1 === room ? 0 : head + 1;
    heads[queue] = head;
    return head === tail ? -1 : sums[start + head]!;
  }
}

/** Sum by sum, of each row the piece that fits best. */
function fillByRows({ value, choice }: Table, { weights, worths }: Pieces, rows: Row[]): void {
  const windows = rows.map((row) => new Window(row, weights));
  for (let c = 1; c < value.length; c++) {
    let most = Number.NEGATIVE_INFINITY;
    let best = -1;
    for (let r = 0; r < rows.length; r++) {
      const sum = windows[r]!.best(c, value);
      if (sum < 0) continue;
      const { first, step } = rows[r]!;
      const i = first + (c - sum - weights[first]!) / step;
      const worth = value[sum]! + worths[i]!;
      if (worth <= most) continue;
      most = worth;
      best = i;
    }
    value[c] = most;
    choice[c] = best;
  }
}
