/** Kinds of tier and what they hold, each kept once: bundles of about one length have most of them in common. */
import { type Fill, fillWidth, narrow, type TierKind } from './tier.ts';

export class KindBook {
  private readonly known = new Map<string, TierKind>();
  private readonly fills = new Map<TierKind, Map<string, Fill[]>>();
  private readonly gap: number;

  /** `gap`: finger room between neighbours, mm. */
  constructor(gap: number) {
    this.gap = gap;
  }

  /** The kind that is known by these measures; the one given where none is yet. */
  kept(kind: TierKind): TierKind {
    const { steel, onEdge, rows, up, ties, widths } = kind;
    const key = `${steel}:${onEdge}:${rows}:${up}:${ties.map(({ bars }) => bars).join()}:${widths.join()}`;
    const known = this.known.get(key);
    if (known) return known;
    this.known.set(key, kind);
    return kind;
  }

  /** The fills of an interval `across` mm wide by 1, 2, … bundles of a kind that is kept, none wider than `widest` mm. */
  fillsOf(kind: TierKind, widest: number, across: number): Fill[] {
    let own = this.fills.get(kind);
    if (!own) {
      own = new Map();
      this.fills.set(kind, own);
    }
    const narrowed = narrow(kind, widest);
    const key = `${narrowed.ties.length}:${across}`;
    let fills = own.get(key);
    if (!fills) {
      fills = fillWidth(narrowed, across, this.gap);
      own.set(key, fills);
    }
    return fills;
  }
}
