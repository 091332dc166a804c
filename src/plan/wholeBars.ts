/** How often each pattern of a master is cut, in whole bars: fixed, freed again a few at a time, rounded. */
import { type Pattern, patternKey } from './barPattern.ts';
import type { Dice } from './dice.ts';
import type { Master, MasterColumn } from './master.ts';

export type PatternColumn = MasterColumn & { what: 'pattern' };

/** What is more than a whole by less than this is whole. */
const WHOLE = 1e-6;
const SHARE = 1e-5;

/** The bars of one master; none is fixed to begin with. */
export class WholeBars {
  private readonly master: Master;
  private counts = new Map<PatternColumn, number>();
  private readonly byKind: PatternColumn[][];
  private seen = 0;

  constructor(master: Master) {
    this.master = master;
    this.byKind = master.problem.barKinds.map(() => []);
  }

  /** Takes in the patterns that the master was given since. */
  private take(): void {
    const { columns } = this.master;
    for (; this.seen < columns.length; this.seen++) {
      const column = columns[this.seen]!;
      if (column.what === 'pattern') this.byKind[column.pattern.kind.index]!.push(column);
    }
  }

  /** What is cut now, to come back to by `restore`. */
  kept(): Map<PatternColumn, number> {
    return new Map(this.counts);
  }

  /** Cuts what was cut then; the bars of `kinds` are left free for more. */
  restore(counts: Map<PatternColumn, number>, kinds: number[]): void {
    this.counts = new Map(counts);
    this.open(kinds);
  }

  /** Cuts these bars, one entry a bar, and no others. The master is left unsolved. */
  cut(bars: Pattern[]): void {
    for (const pattern of bars) this.master.addPattern(pattern);
    this.take();
    const columns = new Map(this.byKind.flat().map((column) => [patternKey(column.pattern), column]));
    this.counts = new Map();
    for (const pattern of bars) {
      const column = columns.get(patternKey(pattern))!;
      this.counts.set(column, (this.counts.get(column) ?? 0) + 1);
    }
    this.close(this.byKind.map((_, kind) => kind));
  }

  /** Kinds of bar that are cut into pieces of this length. */
  kindsOf(length: number): number[] {
    const kinds = new Set<number>();
    for (const { pattern } of this.counts.keys())
      if (pattern.spans.some((own) => own.includes(length))) kinds.add(pattern.kind.index);
    return [...kinds];
  }

  /** Frees up to `count` bars of a kind, with those that are not cut at all. */
  free(kind: number, count: number, dice: Dice): void {
    const used = this.byKind[kind]!.filter((column) => this.counts.has(column));
    for (let n = 0; n < count && used.length > 0; n++) {
      const column = used[dice.below(used.length)]!;
      const left = this.counts.get(column)! - 1;
      if (left > 0) this.counts.set(column, left);
      else {
        this.counts.delete(column);
        used.splice(used.indexOf(column), 1);
      }
    }
    this.open([kind]);
  }

  /** Lets no bar of these kinds be cut but as it is. */
  close(kinds: number[]): void {
    this.take();
    for (const kind of kinds) {
      for (const column of this.byKind[kind]!) {
        const count = this.counts.get(column) ?? 0;
        this.master.bound(column, count, count);
      }
    }
  }

  private open(kinds: number[]): void {
    this.take();
    for (const kind of kinds)
      for (const column of this.byKind[kind]!)
        this.master.bound(column, this.counts.get(column) ?? 0, Number.POSITIVE_INFINITY);
  }

  /**
   * Fixes the whole part of every share of these kinds, or where there is none one more bar of the largest rest; false where
   * all is whole already. The master is left unsolved.
   */
  fixMore(kinds: number[]): boolean {
    this.take();
    const { master } = this;
    const levels = master.levelsOf(kinds.flatMap((kind) => this.byKind[kind]!.map(({ index }) => index)));
    let best: { column: PatternColumn; rest: number } | null = null;
    let any = false;
    let i = 0;
    for (const kind of kinds) {
      for (const column of this.byKind[kind]!) {
        const level = levels[i++]!;
        const whole = Math.floor(level + WHOLE);
        if (whole > (this.counts.get(column) ?? 0)) {
          this.fix(column, whole);
          any = true;
        }
        const rest = level - whole;
        if (rest > SHARE && (!best || rest > best.rest + 1e-9)) best = { column, rest };
      }
    }
    if (!best) return false;
    if (!any) this.fix(best.column, (this.counts.get(best.column) ?? 0) + 1);
    return true;
  }

  private fix(column: PatternColumn, count: number): void {
    this.counts.set(column, count);
    this.master.bound(column, count, Number.POSITIVE_INFINITY);
  }

  /** One entry a bar. */
  bars(): Pattern[] {
    return [...this.counts].flatMap(([{ pattern }, count]) => new Array<Pattern>(count).fill(pattern));
  }
}
