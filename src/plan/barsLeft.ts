/** What a pile still yields while pieces are taken from it one by one, and how its bars are cut then. */
import { evenPattern, type Pattern, patternOf } from './barPattern.ts';
import type { Use } from './master.ts';
import type { BarKind, Problem } from './problem.ts';

/** A bar that is cut: the pieces of each span, and its room for more, mm, a kerf counted with each piece. Never changed. */
interface Begun {
  readonly kind: BarKind;
  readonly spans: readonly number[][];
  readonly room: readonly number[];
}

/** The bars of a pile, begun and not. */
export class BarsLeft {
  private readonly problem: Problem;
  /** Bars of each kind that are not cut. */
  private readonly whole: number[];
  private readonly begun: Begun[][];

  constructor(problem: Problem) {
    this.problem = problem;
    this.whole = problem.barKinds.map(({ count }) => count);
    this.begun = problem.steels.map(() => []);
  }

  /** Takes what is used, longest first, where least is left of it, begun bars before others; what there is not is returned. */
  take(uses: Use[]): Use[] {
    const lacking: Use[] = [];
    for (const { steel, length, bars } of [...uses].sort((a, b) => b.length - a.length)) {
      let taken = 0;
      while (taken < bars && this.takePiece(steel, length)) taken++;
      if (taken < bars) lacking.push({ steel, length, bars: bars - taken });
    }
    return lacking;
  }

  /** How the bars are cut so far, one entry a bar. */
  patterns(): Pattern[] {
    const { job, labour } = this.problem;
    return this.begun.flat().map(({ kind, spans }) => patternOf(kind, [...spans], job, labour));
  }

  /** A pile that has as much left. */
  copy(): BarsLeft {
    const other = new BarsLeft(this.problem);
    other.whole.splice(0, this.whole.length, ...this.whole);
    other.begun.splice(0, this.begun.length, ...this.begun.map((own) => [...own]));
    return other;
  }

  private takePiece(steel: number, length: number): boolean {
    const own = this.begun[steel]!;
    const size = length + this.problem.job.saw.kerf;
    let best = -1;
    let at = 0;
    let least = Number.POSITIVE_INFINITY;
    own.forEach(({ room }, bar) => {
      room.forEach((free, span) => {
        const left = free - size;
        if (left < -1e-9 || left >= least) return;
        least = left;
        best = bar;
        at = span;
      });
    });
    if (best < 0) {
      const bar = this.begin(steel, length);
      if (!bar) return false;
      best = own.push(bar) - 1;
      at = bar.room.findIndex((free) => free >= size - 1e-9);
    }
    const { kind, spans, room } = own[best]!;
    own[best] = {
      kind,
      spans: spans.map((pieces, span) => (span === at ? [...pieces, length] : pieces)),
      room: room.map((free, span) => (span === at ? free - size : free)),
    };
    return true;
  }

  /** Begins the bar that is scrapped least, for its length, where it is cut into such pieces alone. */
  private begin(steel: number, length: number): Begun | null {
    const { barKinds, job, labour } = this.problem;
    const { kerf } = job.saw;
    let best: BarKind | null = null;
    let least = Number.POSITIVE_INFINITY;
    for (const kind of barKinds) {
      if (kind.steel !== steel || this.whole[kind.index] === 0) continue;
      const pattern = evenPattern(kind, length, job, labour);
      if (!pattern || pattern.scrap / kind.length >= least) continue;
      least = pattern.scrap / kind.length;
      best = kind;
    }
    if (!best) return null;
    this.whole[best.index]!--;
    const room = best.spans.map(({ from, to }) => to - from + kerf);
    return { kind: best, spans: best.spans.map(() => []), room };
  }
}
