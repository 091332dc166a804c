/**
 * Classes of lengths and cells of starts: over all runs of a class that begin in a cell, one space that holds the space of
 * each of them, so that one rising bounds them all.
 */
import type { BundleRules, Saw } from '../job/job.ts';
import { mostBars } from './barCeiling.ts';
import { alongSize } from './bundle.ts';
import { jointShare } from './jointShare.ts';
import { type KindCeiling, kindCeilings } from './kindCeiling.ts';
import type { LaidVoid } from './laid.ts';
import { type Block, blocksOf, type Profile, type Sides } from './profile.ts';
import type { RiseMap } from './riseMap.ts';
import type { Steel } from './steel.ts';

/** Bundles of a run begin within so many mm of each other. */
export const TOGETHER = 2;
/** Lengths of a class, mm, and starts of a cell, half mm, where the sides are not straight. */
const LENGTHS = 20;
const STARTS = 36;

/** A class of lengths from `from` to `to` mm. */
export interface LengthClass {
  from: number;
  to: number;
  kinds: KindCeiling[];
  /** The last start of the shortest, half mm from the first place of a run. */
  last: number;
  /** Starts of a cell. */
  wide: number;
  profiles: Profile[];
  /** Cells and sets of blocks that its runs may meet: `cell × sets + set`. */
  met: number[];
  /** What its kinds hold in each, once asked for. */
  maps: (RiseMap | undefined)[];
}

/** Which things to stay off a run meets, by its start and its end. */
export class Meeting {
  readonly blocks: Block[][] = [];
  /** For every start: what may be met, by where it begins; and the set that is met where the run ends before all of it. */
  private readonly groups: { from: number[]; first: number }[] = [];
  private readonly groupOf: Int32Array;

  constructor(laid: LaidVoid, starts: number) {
    this.groupOf = new Int32Array(starts);
    const known = new Map<string, number>();
    for (let start = 0; start < starts; start++) {
      const ahead = laid.keepOut.filter(({ along }) => along[1] > laid.clear.ends + start / 2 + TOGETHER);
      const key = ahead.map((keepOut) => laid.keepOut.indexOf(keepOut)).join();
      let group = known.get(key);
      if (group === undefined) {
        ahead.sort((p, q) => p.along[0] - q.along[0]);
        group = this.groups.push({ from: ahead.map(({ along }) => along[0]), first: this.blocks.length }) - 1;
        for (let n = 0; n <= ahead.length; n++) this.blocks.push(blocksOf(ahead.slice(0, n)));
        known.set(key, group);
      }
      this.groupOf[start] = group;
    }
  }

  /** The set that a run from a start (half mm) to a place along (mm) is sure to meet. */
  set(start: number, to: number): number {
    const { from, first } = this.groups[this.groupOf[start]!]!;
    let n = 0;
    while (n < from.length && from[n]! < to) n++;
    return first + n;
  }
}

/** Classes of no more than so many lengths, in each of which a bundle may hold as many bars of a steel at one length as at another. */
function classesOf(
  laid: LaidVoid,
  steels: Steel[],
  rules: BundleRules,
  saw: Saw,
  { least, most, window }: { least: number; most: number; window: number },
): { from: number; to: number }[] {
  const lacking = jointShare(rules) * saw.tolerance;
  const barsAt = (length: number) =>
    steels.map((steel) => mostBars(laid, rules, steel, Math.max(1, length - window) - lacking)).join();
  const classes: { from: number; to: number }[] = [];
  let bars = '';
  for (let length = least; length <= most; length++) {
    const own = barsAt(length);
    const last = classes[classes.length - 1];
    if (last && own === bars && length - last.from < LENGTHS) last.to = length;
    else classes.push({ from: length, to: length });
    bars = own;
  }
  return classes;
}

/** The classes of all lengths from `least` to `most` mm in a void. `window`: lengths that may share a run with longer ones; `poll` is asked at each. */
export function lengthClasses(
  laid: LaidVoid,
  sides: Sides,
  meeting: Meeting,
  steels: Steel[],
  rules: BundleRules,
  saw: Saw,
  { least, most, window, poll }: { least: number; most: number; window: number; poll: () => void },
): LengthClass[] {
  const classes: LengthClass[] = [];
  const { ends } = laid.clear;
  const along = (length: number) => alongSize(length, saw, rules);
  const height = Math.floor(sides.height * 2 + 1e-9);
  for (const { from, to } of classesOf(laid, steels, rules, saw, { least, most, window })) {
    poll();
    const shortest = Math.max(1, from - window);
    const last = Math.floor((laid.length - 2 * ends - along(from)) * 2 + 1e-9);
    const wide = sides.straight ? last + 1 : Math.max(1, Math.min(STARTS, Math.floor(along(shortest))));
    const profiles: Profile[] = [];
    for (let start = 0; start <= last; start += wide) {
      const begin = ends + (start + wide - 1) / 2 + TOGETHER;
      const end = ends + start / 2 + along(shortest);
      profiles.push(sides.straight ? sides.profile(0, 0) : sides.profile(Math.min(begin, end), end));
    }
    const met = new Set<number>();
    const sets = meeting.blocks.length;
    for (let start = 0; start <= last; start += sets === 1 ? wide : 1) {
      const cell = Math.floor(start / wide);
      for (let length = from; length <= to; length++)
        met.add(cell * sets + meeting.set(start, ends + start / 2 + along(Math.max(1, length - window))));
    }
    const kinds = kindCeilings(laid, steels, rules, saw, shortest, { high: height, wide: sides.widest });
    classes.push({ from, to, kinds, last, wide, profiles, met: [...met], maps: [] });
  }
  return classes;
}
