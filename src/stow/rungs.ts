/** Tier kinds at prices, as a rising needs them: what each is worth at every clear width. */
import type { LaidVoid } from './laid.ts';
import { openingOf } from './opening.ts';
import type { Riser, Rung } from './rise.ts';
import type { StackPrices } from './stack.ts';
import { type Fill, fillWidth, narrow, type TierKind } from './tier.ts';

/** Widths are usually no more than so many half mm; wider ones are kept all the same. */
const MOST_WIDTH = 2000;

/** Bars that 1, 2, … bundles of a kind hold at every width, kept once worked out. */
export class FillBook {
  private readonly known = new Map<string, (number[] | undefined)[]>();
  private readonly gap: number;

  /** `gap`: finger room between neighbours, mm. */
  constructor(gap: number) {
    this.gap = gap;
  }

  /** The bars by width in half mm, to be filled in by `at`. */
  of(kind: TierKind): (width: number) => number[] {
    const key = `${kind.steel}:${kind.onEdge}:${kind.rows}:${kind.widths.join()}:${kind.ties.map((tie) => tie.bars).join()}`;
    let bars = this.known.get(key);
    if (!bars) {
      bars = new Array<number[] | undefined>(MOST_WIDTH);
      this.known.set(key, bars);
    }
    const own = bars;
    return (width) => {
      const counted = own[width];
      if (counted) return counted;
      const filled = fillWidth(kind, width / 2, this.gap).map((fill: Fill) => fill.bars);
      own[width] = filled;
      return filled;
    };
  }
}

/** A kind of tier of one length with its fills: a rung but for the prices. */
export interface Ladder {
  kinds: TierKind[];
  fills: ((width: number) => number[])[];
  /** The greatest height at which each kind may stand, half mm. */
  last: number[];
}

/** The kinds of one length, what passes no opening left out. `along`: of the bundles, mm. */
export function ladderOf(kinds: TierKind[], laid: LaidVoid, along: number, book: FillBook): Ladder {
  const ladder: Ladder = { kinds: [], fills: [], last: [] };
  for (const whole of kinds) {
    const kind = narrow(whole, openingOf(laid, along, whole.up, 0));
    if (kind.ties.length === 0) continue;
    ladder.kinds.push(kind);
    ladder.fills.push(book.of(kind));
    ladder.last.push(lastHeight(laid, along, kind));
  }
  return ladder;
}

/** The greatest height, half mm, at which a bundle so wide still comes to rest: the free height over it falls. */
function lastHeight(laid: LaidVoid, along: number, { up, widths }: TierKind): number {
  const passes = (low: number) => openingOf(laid, along, up, low / 2) >= widths[0]!;
  let low = 0;
  let high = Math.floor((laid.height - up) * 2);
  if (high <= 0 || passes(high)) return Math.max(0, high);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (passes(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** A rung of a ladder: `ladder.kinds[rung.kind]` is its kind. */
export type LadderRung = Rung & { kind: number };

/**
 * The rungs of a ladder at prices, for widths up to `widest` half mm; kinds that are worth nothing are left out. They stand
 * in tables of the riser, until the next are asked for.
 */
export function rungsOf(ladder: Ladder, prices: StackPrices, riser: Riser, widest: number): LadderRung[] {
  const rungs: LadderRung[] = [];
  ladder.kinds.forEach((kind, i) => {
    const perBar = prices.perBar[kind.steel]!;
    if (perBar <= 0) return;
    const worth = riser.table(rungs.length, widest + 1);
    const bars = ladder.fills[i]!;
    rungs.push({
      kind: i,
      up: Math.round(kind.up * 2),
      last: ladder.last[i]!,
      worth,
      at(width) {
        const filled = bars(width);
        let most = Number.NEGATIVE_INFINITY;
        for (let m = 0; m < filled.length; m++) {
          const own = filled[m]! * perBar - (m + 1) * prices.perBundle;
          if (own > most) most = own;
        }
        worth[width] = most;
        return most;
      },
    });
  });
  return rungs;
}
