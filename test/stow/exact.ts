/**
 * The most that a small box void can be worth at given prices, by trying: every row vector that the plan format allows in
 * every bundle, every set of bundles across, tiers and runs by plain recursion with a memory. Tiers need not be carried.
 */
import { outerSize, rolls } from '../../src/job/section.ts';
import type { CeilingPrices } from '../../src/stow/pileCeiling.ts';
import type { Steel } from '../../src/stow/steel.ts';
import type { Setting } from './recount.ts';

const halfUp = (size: number): number => Math.ceil(size * 2 - 1e-9) / 2;

interface Tied {
  across: number;
  bars: number;
}

/** Every bundle of so many rows: width and bars, only the narrowest of each number of bars. */
function everyBundle(
  steel: Steel,
  onEdge: boolean,
  rows: number,
  length: number,
  most: number,
  setting: Setting,
): Tied[] {
  const bar = outerSize(steel.section, onEdge).across;
  const around = 2 * setting.rules.wrap + steel.bow * (length / 1000) ** 2;
  const narrowest = new Map<number, number>();
  const keep = (bars: number, widest: number): void => {
    const across = halfUp(widest * bar + around);
    if (bars <= most && across < (narrowest.get(bars) ?? Number.POSITIVE_INFINITY)) narrowest.set(bars, across);
  };
  const room = Math.floor((setting.laid.width - 2 * setting.laid.clear.sides) / bar);
  if (rolls(steel.section) && rows > 1) {
    const grow = (columns: number[], bars: number, equal: boolean): void => {
      if (columns.length === rows) {
        keep(bars, Math.max(...columns) + (equal ? 0.5 : 0));
        return;
      }
      const below = columns.at(-1);
      for (
        let count = Math.max(1, (below ?? 1) - 1);
        count <= Math.min(room, below === undefined ? room : below + 1);
        count++
      )
        grow([...columns, count], bars + count, equal || count === below);
    };
    grow([], 0, false);
  } else {
    for (let columns = 1; columns <= room; columns++)
      for (let top = rows === 1 ? columns : 1; top <= columns; top++) keep((rows - 1) * columns + top, columns);
  }
  return [...narrowest].map(([bars, across]) => ({ bars, across }));
}

/** The most that bundles side by side are worth in `width` mm. */
function worthOfWidth(bundles: Tied[], width: number, gap: number, perBar: number, perBundle: number): number {
  const memory = new Map<number, number>();
  const best = (left: number): number => {
    const known = memory.get(left);
    if (known !== undefined) return known;
    let most = 0;
    for (const { across, bars } of bundles)
      if (across <= left + 1e-9) most = Math.max(most, bars * perBar - perBundle + best(left - across - gap));
    memory.set(left, most);
    return most;
  };
  return best(width);
}

/** The most that one run of bundles of `length` mm is worth where a kilogram is worth `extra` more. */
function exactStack(setting: Setting, prices: CeilingPrices, length: number, extra: number): number {
  const { laid, steels, rules } = setting;
  const height = laid.height - laid.clear.top - laid.dunnage;
  const width = laid.width - 2 * laid.clear.sides;
  const levels: { up: number; worth: number }[] = [];
  for (const steel of steels) {
    const mass = (steel.heaviest * length) / 1000;
    const most = Math.min(rules.maxBars, Math.floor(((laid.limit ?? rules.limit) - rules.wrapping) / mass + 1e-9));
    const perBar = prices.perBar(steel.index, length) + extra * mass;
    const { across, up } = outerSize(steel.section);
    for (const onEdge of across === up ? [false] : [false, true]) {
      const bar = onEdge ? across : up;
      for (let rows = 1; rows <= most; rows++) {
        const stack = rolls(steel.section) ? bar * (1 + ((rows - 1) * Math.sqrt(3)) / 2) : rows * bar;
        const high = halfUp(stack + 2 * rules.wrap + steel.bow * (length / 1000) ** 2);
        if (high > height + 1e-9) break;
        const bundles = everyBundle(steel, onEdge, rows, length, most, setting);
        const perBundle = prices.perBundle - extra * rules.wrapping;
        const worth = worthOfWidth(bundles, width, laid.gap.across, perBar, perBundle);
        if (worth > 0) levels.push({ up: high, worth });
      }
    }
  }
  const fill = (left: number): number =>
    Math.max(0, ...levels.filter(({ up }) => up <= left + 1e-9).map(({ up, worth }) => worth + fill(left - up)));
  return fill(height);
}

/** The most that runs of these lengths are worth, begun at every `step` mm; a half is exact, more is a plan all the same. */
export function exactBerth(setting: Setting, prices: CeilingPrices, lengths: number[], step: number): number {
  const { laid, rules, saw } = setting;
  const end = laid.length - laid.clear.ends;
  const sizes = lengths.map((length) => halfUp(length + saw.tolerance + 2 * rules.endCover));
  const flat = prices.extraPerKg ? null : lengths.map((length) => exactStack(setting, prices, length, 0));
  const memory = new Map<number, number>();
  const best = (from: number): number => {
    const known = memory.get(from);
    if (known !== undefined) return known;
    let most = from + step <= end ? best(from + step) : 0;
    lengths.forEach((length, i) => {
      const to = from + sizes[i]!;
      if (to > end + 1e-9) return;
      const worth = flat ? flat[i]! : exactStack(setting, prices, length, prices.extraPerKg!(from + sizes[i]! / 2));
      if (worth <= 0) return;
      const next = laid.clear.ends + Math.ceil((to + laid.gap.runs - laid.clear.ends) / step - 1e-9) * step;
      most = Math.max(most, worth + (next <= end ? best(next) : 0));
    });
    memory.set(from, most);
    return most;
  };
  return best(laid.clear.ends);
}
