/** Tier kinds at prices, as a rising needs them: what each is worth at every clear width. */
import type { LaidVoid } from './laid.ts';
import { openingOf } from './opening.ts';
import type { Riser } from './rise.ts';
import type { RisingKind } from './riseMap.ts';
import type { Rung } from './rung.ts';
import type { StackPrices } from './stack.ts';
import { fillWidth, narrow, type TierKind } from './tier.ts';
import { WidthSteps } from './widthSteps.ts';

/** What kinds hold at every width, kept once worked out. */
export class FillBook {
  private readonly known = new Map<string, WidthSteps>();
  private readonly gap: number;
  private readonly widest: number;

  /** `gap`: finger room between neighbours, mm; `widest`: the widest clear place, half mm. */
  constructor(gap: number, widest: number) {
    this.gap = gap;
    this.widest = widest;
  }

  of(kind: TierKind): WidthSteps {
    const key = `${kind.steel}:${kind.onEdge}:${kind.rows}:${kind.widths.join()}:${kind.ties.map((tie) => tie.bars).join()}`;
    let steps = this.known.get(key);
    if (!steps) {
      const barsAt = (width: number) => fillWidth(kind, width / 2, this.gap).map(({ bars }) => bars);
      steps = new WidthSteps(barsAt, this.widest);
      this.known.set(key, steps);
    }
    return steps;
  }
}

/** A kind of tier that passes the opening, as a rising needs it. */
export interface LadderKind extends RisingKind {
  kind: TierKind;
}

/** The kinds of one length, what passes no opening left out. `along`: of the bundles, mm. */
export function ladderOf(kinds: TierKind[], laid: LaidVoid, along: number, book: FillBook): LadderKind[] {
  const ladder: LadderKind[] = [];
  for (const whole of kinds) {
    const kind = narrow(whole, openingOf(laid, along, whole.up, 0));
    if (kind.ties.length === 0) continue;
    ladder.push({ kind, up: Math.round(kind.up * 2), last: lastHeight(laid, along, kind), steps: book.of(kind) });
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

/** The rungs of a ladder at prices, of the riser, until the next are asked for; kinds that are worth nothing are left out. */
export function rungsOf(ladder: LadderKind[], prices: StackPrices, riser: Riser): Rung[] {
  const rungs: Rung[] = [];
  const { perBundle } = prices;
  ladder.forEach(({ kind, up, steps }, i) => {
    const perBar = prices.perBar[kind.steel]!;
    if (perBar <= 0) return;
    const price = (bars: number[]) => {
      let most = Number.NEGATIVE_INFINITY;
      for (let m = 0; m < bars.length; m++) {
        const own = bars[m]! * perBar - (m + 1) * perBundle;
        if (own > most) most = own;
      }
      return most;
    };
    rungs.push(riser.rung(rungs.length).set(i, up, steps, price));
  });
  return rungs;
}
