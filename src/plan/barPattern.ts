/**
 * Cutting patterns of a bar, and the pattern worth most at given prices.
 *
 * A span of S mm yields pieces of total length P with n − 1 kerfs of k between them where P + (n − 1)k ≤ S. Each piece
 * counted with one kerf, the span has room for S + k; what is left of S + k beyond one kerf is the remainder. One table of
 * exact fills serves every span of every bar kind of equal steel and mass per metre.
 */
import type { Job } from '../job/job.ts';
import type { Span } from '../job/lot.ts';
import { fillTable, type Least, type Pieces, TableRoom } from './fillTable.ts';
import type { BarKind } from './problem.ts';
import { type LabourRates, SCRAP_RATE } from './value.ts';

/** One way of cutting a bar: the lengths of the pieces of each usable span, longest first. */
export interface Pattern {
  kind: BarKind;
  spans: number[][];
  /** Scrap, mm, kept remainders not counted. */
  scrap: number;
  cuts: number;
  /** kg of value that cutting so costs: scrap and labour. */
  cost: number;
}

/** What one more piece of each length is worth, kg; lengths rising, whole mm. */
export interface PiecePrices {
  lengths: ArrayLike<number>;
  worth: ArrayLike<number>;
}

/**
 * What a table is for. To find patterns that can be cut a kerf is kept to the tenth of a millimetre, and rounded up beyond;
 * where no pattern may be worth more than the table says, which prices every length, it is rounded down to the half.
 */
export type TableUse = 'patterns' | 'bound';

/** Table units in a millimetre: the fewest of these that make the kerf whole, else the most. */
const SCALES: Record<TableUse, number[]> = { patterns: [1, 2, 4, 5, 10], bound: [1, 2] };

/** A bar of which only patterns are sought that are worth more than this, kg. */
export interface Sought {
  spans: Span[];
  least: number;
}

function tableScale(kerf: number, use: TableUse): number {
  const scales = SCALES[use];
  return scales.find((scale) => Math.abs(kerf * scale - Math.round(kerf * scale)) < 1e-9) ?? scales.at(-1)!;
}

/** Makes the pattern of a bar from the pieces of each span: counts its scrap, cuts and cost. */
export function patternOf(kind: BarKind, spans: number[][], job: Job, labour: LabourRates): Pattern {
  const { kerf, keepFrom } = job.saw;
  let scrap = 0;
  let cuts = 0;
  kind.spans.forEach((span, i) => {
    const pieces = spans[i]!;
    const rest = remainder(span, pieces, kerf);
    if (rest < keepFrom) scrap += rest;
    cuts += cutsOf(span, pieces, kerf, kind.length);
  });
  const cost = (SCRAP_RATE * scrap * kind.perMetre) / 1000 + cuts * labour.cut;
  return { kind, spans: spans.map((pieces) => [...pieces].sort((a, b) => b - a)), scrap, cuts, cost };
}

/** The pattern of as many pieces of one length as a bar yields; null where it yields none. */
export function evenPattern(kind: BarKind, length: number, job: Job, labour: LabourRates): Pattern | null {
  const { kerf } = job.saw;
  const spans = kind.spans.map(({ from, to }) =>
    new Array<number>(Math.max(0, Math.floor((to - from + kerf) / (length + kerf) + 1e-9))).fill(length),
  );
  return spans.some((pieces) => pieces.length > 0) ? patternOf(kind, spans, job, labour) : null;
}

/** A key that is the same for the same cutting of the same kind of bar. */
export function patternKey(pattern: Pattern): string {
  return `${pattern.kind.index}:${pattern.spans.map((pieces) => pieces.join(',')).join(';')}`;
}

/** Patterns with how often each is among the bars, one entry a bar. */
export function timesOf(bars: Pattern[]): { pattern: Pattern; count: number }[] {
  const times = new Map<string, { pattern: Pattern; count: number }>();
  for (const pattern of bars) {
    const key = patternKey(pattern);
    const known = times.get(key);
    if (known) known.count++;
    else times.set(key, { pattern, count: 1 });
  }
  return [...times.values()];
}

/** What is left of a span after the last kerf, mm. */
function remainder(span: Span, pieces: number[], kerf: number): number {
  const size = span.to - span.from;
  const used = pieces.reduce((sum, length) => sum + length + kerf, 0);
  return Math.max(0, size - used);
}

/** Cuts made for the pieces of a span: each piece end that is not a bar end, two ends one kerf apart being one. */
function cutsOf(span: Span, pieces: number[], kerf: number, barLength: number): number {
  if (pieces.length === 0) return 0;
  const used = pieces.reduce((sum, length) => sum + length + kerf, 0) - kerf;
  const endsAtBarEnd = span.from + used >= barLength - 0.01;
  return pieces.length + (span.from > 0.01 ? 1 : 0) - (endsAtBarEnd ? 1 : 0);
}

/** The best values of exact fills of a bar, for one steel and mass per metre, at one set of prices. */
export class FillTable {
  private readonly scale: number;
  /** The kerf as rounded, mm, and how much of each true kerf that leaves out. */
  private readonly kerf: number;
  private readonly leftOut: number;
  private readonly lightest: number;
  private readonly value: Float64Array;
  /** The sums that pieces come to, rising. */
  private readonly sums: Int32Array;
  private readonly choice: Int32Array;
  private readonly weights: Int32Array;
  private readonly prices: PiecePrices;

  /**
   * `longest`: the longest span, mm; `sought`: all bars that the table is for, where not every pattern of theirs is; `room`:
   * where the table lies, until another is filled there. Cost: longest × lengths that may pay.
   */
  constructor(
    longest: number,
    kerf: number,
    perMetre: number,
    prices: PiecePrices,
    labour: LabourRates,
    use: TableUse,
    sought: Sought[] | null = null,
    room: TableRoom = new TableRoom(),
  ) {
    this.scale = tableScale(kerf, use);
    this.prices = prices;
    const kerfUnits = use === 'bound' ? Math.floor(kerf * this.scale + 1e-9) : Math.ceil(kerf * this.scale - 1e-9);
    this.kerf = kerfUnits / this.scale;
    const size = Math.floor((longest + this.kerf) * this.scale + 1e-6);
    const { lengths, worth } = prices;
    this.weights = new Int32Array(lengths.length);
    const perScrap = (SCRAP_RATE * perMetre) / 1000;
    const worths = new Float64Array(lengths.length);
    const paying: number[] = [];
    let record = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < lengths.length; i++) {
      this.weights[i] = lengths[i]! * this.scale + kerfUnits;
      worths[i] = worth[i]! - labour.cut;
      // A piece may pay for its cut by the scrap it saves.
      if (worths[i]! + perScrap * (lengths[i]! + kerf) <= 0) continue;
      // A longer piece is never the better where a shorter one, its scrap and a cut to it paid for, is worth as much.
      const net = worths[i]! + perScrap * lengths[i]!;
      if (net + labour.cut <= record) continue;
      record = Math.max(record, net);
      paying.push(i);
    }
    const table = room.empty(size);
    const pieces = { own: Int32Array.from(paying), weights: this.weights, worths };
    const ending = labour.cut + 1e-9;
    const least = sought && this.leastOf(sought, size, pieces, ending);
    fillTable(table, pieces, use === 'patterns' ? { perUnit: perScrap / this.scale, ending, least } : null);
    this.leftOut = Math.max(0, kerf - this.kerf);
    this.lightest = Math.max(1, this.weights[0] ?? 1);
    this.value = table.value;
    this.sums = table.sums;
    this.choice = table.choice;
  }

  /**
   * What a sum is worth at least that is part of a pattern sought: with all room beside it filled at the best rate of a
   * piece, its bar is worth what is asked of it.
   */
  private leastOf(sought: Sought[], size: number, { own, weights, worths }: Pieces, ending: number): Least {
    const rate = own.reduce((most, i) => Math.max(most, worths[i]! / weights[i]!), 0);
    // By the room of a bar's longest span, what all its room is worth over what is asked of it; then of all bars with that room or more.
    const found = sought
      .map(({ spans, least }) => {
        const rooms = spans.map(({ from, to }) => Math.floor((to - from + this.kerf) * this.scale + 1e-6));
        const over = rooms.reduce((sum, room) => sum + rate * room + ending, -least) + 1e-9;
        return { room: Math.min(size, Math.max(...rooms)), over };
      })
      .sort((p, q) => p.room - q.room);
    const over = Float64Array.from(found, (bar) => bar.over);
    for (let k = over.length - 2; k >= 0; k--) over[k] = Math.max(over[k]!, over[k + 1]!);
    return { rate, rooms: Int32Array.from(found, ({ room }) => room), over };
  }

  /** The pieces of a span worth most once its remainder and its cuts are paid for, and what they come to. */
  bestOfSpan(
    span: Span,
    barLength: number,
    perMetre: number,
    job: Job,
    labour: LabourRates,
  ): { worth: number; fill: number } {
    const { keepFrom } = job.saw;
    const { kerf, scale, value, sums } = this;
    const size = span.to - span.from;
    const perScrap = (SCRAP_RATE * perMetre) / 1000;
    const startCut = span.from > 0.01 ? labour.cut : 0;
    const empty = size < keepFrom ? -perScrap * size : 0;
    const most = Math.min(value.length - 1, Math.floor((size + kerf) * scale + 1e-6));
    const endsAtBarEnd = span.to >= barLength - 0.01;
    let worth = empty;
    let fill = 0;
    for (let n = 0; n < sums.length && sums[n]! <= most; n++) {
      const c = sums[n]!;
      const filled = value[c]!;
      // No fill is worth more than its pieces and the cut that the bar's own end may save.
      if (filled + labour.cut <= worth) continue;
      const used = c / scale;
      const rest = size - used;
      let net = filled - startCut;
      if (rest < keepFrom) net -= perScrap * Math.max(0, rest - this.leftOut * Math.floor(c / this.lightest));
      if (endsAtBarEnd && used - kerf >= size - 0.01) net += labour.cut;
      if (net > worth + 1e-12) {
        worth = net;
        fill = c;
      }
    }
    return { worth, fill };
  }

  /**
   * What the other pieces of a span are worth at most, scrap paid for and cuts within the span, by the room in mm that one
   * piece leaves of it. Cost: one pass over the table, then little for each room.
   */
  besides(perMetre: number, keepFrom: number): (room: number) => number {
    const { value, scale, kerf } = this;
    const perUnit = (SCRAP_RATE * perMetre) / 1000 / scale;
    const scrapped = value.slice();
    const most = value.slice();
    for (let c = 1; c < value.length; c++) {
      scrapped[c] = Math.max(value[c]!, scrapped[c - 1]! - perUnit);
      most[c] = Math.max(value[c]!, most[c - 1]!);
    }
    const at = (list: Float64Array, mm: number) =>
      mm < 0 ? Number.NEGATIVE_INFINITY : list[Math.min(list.length - 1, Math.floor(mm * scale + 1e-6))]!;
    return (room) => {
      let worth = Math.max(at(scrapped, room - kerf), at(most, room - kerf - keepFrom));
      const end = Math.min(value.length - 1, Math.floor(room * scale + 1e-6));
      // The last kerf may run off the end of the span: up to one kerf less costs nothing.
      for (let c = Math.max(0, Math.ceil((room - kerf) * scale)); c <= end; c++) worth = Math.max(worth, value[c]!);
      return worth;
    };
  }

  /** The piece lengths of an exact fill. */
  piecesOf(fill: number): number[] {
    const pieces: number[] = [];
    for (let c = fill; c > 0; ) {
      const i = this.choice[c]!;
      pieces.push(this.prices.lengths[i]!);
      c -= this.weights[i]!;
    }
    return pieces;
  }
}

/** The best pattern of a bar kind by the table, and what it is worth after scrap and labour; a bar must yield a piece. */
export function bestPattern(
  table: FillTable,
  kind: BarKind,
  job: Job,
  labour: LabourRates,
): { worth: number; spans: number[][] } | null {
  let worth = 0;
  let any = false;
  const spans = kind.spans.map((span) => {
    const best = table.bestOfSpan(span, kind.length, kind.perMetre, job, labour);
    worth += best.worth;
    if (best.fill > 0) any = true;
    return table.piecesOf(best.fill);
  });
  return any ? { worth, spans } : null;
}
