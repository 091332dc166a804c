/**
 * Tiers: bundles of one section, one row count and one lie, side by side at one height, filling free intervals across.
 */
import type { BundleRules } from '../job/job.ts';
import { outerSize, type Section } from '../job/section.ts';
import { acrossSize, type Tie, upSize } from './bundle.ts';
import type { Interval } from './envelope.ts';
import { ceilHalf } from './half.ts';
import type { Steel } from './steel.ts';

/** What all bundles of a tier share, at one bundle length. */
export interface TierKind {
  /** Index of the steel (section) in the planner's stock. */
  steel: number;
  section: Section;
  onEdge: boolean;
  rows: number;
  /** Height of its bundles, mm. */
  up: number;
  /** Width of one bar as it lies, mm. */
  bar: number;
  /** The ways its bundles may be tied, narrowest first, more bars with each. */
  ties: Tie[];
  /** Width across of a bundle so tied, mm, in the order of `ties`. */
  widths: number[];
}

/** A kind of tier, or null where no bundle of so many rows is within `most` bars. */
export function tierKind(
  steel: Steel,
  onEdge: boolean,
  rows: number,
  most: number,
  rules: BundleRules,
  sag: number,
): TierKind | null {
  const ties = steel.ties(rows, most);
  if (ties.length === 0) return null;
  const { section, index } = steel;
  const widths = ties.map((tie) => acrossSize(section, onEdge, tie.widest, rules, sag));
  const bar = outerSize(section, onEdge).across;
  return { steel: index, section, onEdge, rows, up: upSize(section, onEdge, rows, rules, sag), bar, ties, widths };
}

/** Bars that m bundles hold in one interval, for each m from 1; with the tie of each bundle. */
export interface Fill {
  bars: number;
  /** Indices into the kind's ties, widest first. */
  ties: number[];
}

/**
 * The fills of an interval `width` mm wide by 1, 2, … bundles `gap` mm apart: near the most bars for each count
 * (heuristic: as equal as the width allows, then widened one at a time). Stops where one bundle more adds no bars.
 */
export function fillWidth(kind: TierKind, width: number, gap: number): Fill[] {
  const fills: Fill[] = [];
  for (let bundles = 1; ; bundles++) {
    const fill = fillWith(kind, bundles, width, gap);
    if (!fill) break;
    const last = fills[fills.length - 1];
    if (last && fill.bars <= last.bars) break;
    fills.push(fill);
  }
  return fills;
}

/** The fill with no more than `most` bars: bundles made lighter, or left out, from the last; null where none is left. */
export function capFill(kind: TierKind, fill: Fill, most: number): Fill | null {
  if (fill.bars <= most) return fill;
  const ties = [...fill.ties];
  let bars = fill.bars;
  while (bars > most && ties.length > 0) {
    const last = ties.pop()!;
    bars -= kind.ties[last]!.bars;
    const lighter = kind.ties.findLastIndex((tie, i) => i < last && bars + tie.bars <= most);
    if (bars < most && lighter >= 0) {
      ties.push(lighter);
      bars += kind.ties[lighter]!.bars;
    }
  }
  return ties.length > 0 ? { bars, ties } : null;
}

/** The fill of an interval `width` mm wide by so many bundles; null where they do not fit. */
export function fillWith(kind: TierKind, bundles: number, width: number, gap: number): Fill | null {
  const { widths, ties } = kind;
  const room = width - (bundles - 1) * gap;
  let each = -1;
  while (each + 1 < widths.length && widths[each + 1]! * bundles <= room + 1e-9) each++;
  if (each < 0) return null;
  const chosen = new Array<number>(bundles).fill(each);
  let slack = room - widths[each]! * bundles;
  let bars = ties[each]!.bars * bundles;
  for (let i = 0; i < bundles; i++) {
    let wider = each;
    while (wider + 1 < widths.length && widths[wider + 1]! - widths[each]! <= slack + 1e-9) wider++;
    if (wider === each) break;
    slack -= widths[wider]! - widths[each]!;
    bars += ties[wider]!.bars - ties[each]!.bars;
    chosen[i] = wider;
  }
  return { bars, ties: chosen };
}

/** The fill worth most where a bar is worth `perBar` and a bundle costs `perBundle`; null where none is worth anything. */
export function bestFill(fills: Fill[], perBar: number, perBundle: number): { fill: Fill; value: number } | null {
  let best: Fill | null = null;
  let value = 0;
  for (const fill of fills) {
    const worth = fill.bars * perBar - fill.ties.length * perBundle;
    if (worth > value + 1e-12) {
      best = fill;
      value = worth;
    }
  }
  return best && { fill: best, value };
}

/** One bundle as it lies in a tier. */
export interface Lying {
  tie: Tie;
  /** Least across, mm. */
  from: number;
  /** Width, mm. */
  across: number;
}

/** Lays the bundles of a fill side by side, `gap` apart, in the middle of the interval, on half millimetres. */
export function layFill(kind: TierKind, fill: Fill, interval: Interval, gap: number): Lying[] {
  const total = fill.ties.reduce((sum, tie) => sum + kind.widths[tie]!, 0) + (fill.ties.length - 1) * gap;
  let from = ceilHalf(interval.from + (interval.to - interval.from - total) / 2);
  if (from + total > interval.to + 1e-9) from = ceilHalf(interval.from);
  return fill.ties.map((tie) => {
    const lying = { tie: kind.ties[tie]!, from, across: kind.widths[tie]! };
    from += lying.across + gap;
    return lying;
  });
}

/** The interval across over which a bundle carries what lies on it, mm (format.md, "Carried"). */
export function carrying(kind: TierKind, lying: Lying, wrap: number): Interval {
  const { columns, arrangement } = lying.tie;
  const topRow = columns[columns.length - 1]!;
  const widest = Math.max(...columns);
  const full = topRow >= widest - (arrangement === 'nested' ? 1 : 0);
  if (full) return { from: lying.from, to: lying.from + lying.across };
  const wide = topRow * kind.bar + wrap;
  const from = lying.from + (arrangement === 'nested' ? (lying.across - wide) / 2 : 0);
  return { from, to: from + wide };
}

/** True where `lying` is carried over 60 % of its width and its middle lies between the outermost edges that carry it. */
export function isCarried(lying: Lying, below: Interval[]): boolean {
  let carried = 0;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  const to = lying.from + lying.across;
  for (const support of below) {
    const overlap = Math.min(to, support.to) - Math.max(lying.from, support.from);
    if (overlap <= 0) continue;
    carried += overlap;
    low = Math.min(low, Math.max(lying.from, support.from));
    high = Math.max(high, Math.min(to, support.to));
  }
  const middle = lying.from + lying.across / 2;
  return carried >= 0.6 * lying.across + 0.01 && middle >= low && middle <= high;
}

/** The kind without the ties that are too wide for the opening. */
export function narrow(kind: TierKind, widest: number): TierKind {
  const keep = kind.widths.findIndex((across) => across > widest + 1e-9);
  if (keep < 0) return kind;
  return { ...kind, ties: kind.ties.slice(0, keep), widths: kind.widths.slice(0, keep) };
}

/** Width of an interval, mm. */
export function width(interval: Interval): number {
  return interval.to - interval.from;
}
