/**
 * Runs along a void that is not alike along its length. What a stack would be worth at every half millimetre is put
 * together from risings at places a few centimetres apart, for every set of things to stay off that a run may meet; one
 * knapsack over the length then chooses the runs. What they are really worth is for the caller to find out.
 */
import type { LayoutPrices } from './layout.ts';
import { type Block, blocksIn } from './profile.ts';
import { restOf } from './rest.ts';
import { RiseMap } from './riseMap.ts';
import { rungsOf } from './rungs.ts';
import type { RunBook } from './runSpace.ts';
import { type StackPrices, worthOfMass, worthOfYields } from './stack.ts';

/** Sides are looked at so many half millimetres apart, and taken as linear between. */
const APART = 140;

/** Where bundles of one length may begin. */
interface Reach {
  along: number;
  /** The last start, in half mm from the first. */
  last: number;
  /** Starts from which a rising is reckoned, half mm. */
  places: Int32Array;
  /** For every start, which of `blocks` it meets; −1 where no run may begin. */
  meets: Int16Array;
  blocks: Block[][];
  /** What holds in a run that begins at a place and meets some blocks, once asked for: `place × blocks + set`. */
  maps: (RiseMap | undefined)[];
  /** The most that may weigh on a run from every start, kg; null where there is no such limit. */
  bears: Float64Array | null;
}

/** Runs chosen, by what they were taken to be worth. */
export interface Chosen {
  from: number;
  index: number;
}

export class Stretches {
  private readonly book: RunBook;
  private readonly reaches = new Map<number, Reach>();
  /** Every set of blocks once. */
  private readonly sets = new Map<string, Block[]>();
  private readonly room: number;
  private readonly ends: number;

  constructor(book: RunBook) {
    this.book = book;
    this.ends = book.laid.clear.ends;
    this.room = book.laid.length - 2 * this.ends;
  }

  /** The runs worth most at these prices, from along 0. `at` gives the prices of a stack of one length at a place. */
  best(prices: LayoutPrices, at: (index: number, middle: number) => StackPrices): Chosen[] {
    const gap = Math.round(this.book.laid.gap.runs * 2);
    const items: { size: number; index: number; worth: Float64Array }[] = [];
    prices.lengths.forEach((length, index) => {
      prices.poll?.();
      const reach = this.reach(length);
      if (reach.last < 0) return;
      const worth = this.worthByStart(length, reach, prices.extraPerKg !== null, (middle) => at(index, middle));
      if (worth) items.push({ size: Math.round(reach.along * 2) + gap, index, worth });
    });
    const room = Math.floor(this.room * 2 + 1e-9) + gap;
    const value = new Float64Array(Math.max(1, room + 1));
    const last = new Int32Array(value.length).fill(-1);
    for (let end = 1; end <= room; end++) {
      let best = value[end - 1]!;
      for (let i = 0; i < items.length; i++) {
        const { size, worth } = items[i]!;
        if (size > end) break;
        const sum = value[end - size]! + worth[end - size]!;
        if (sum > best + 1e-9) {
          best = sum;
          last[end] = i;
        }
      }
      value[end] = best;
    }

    const chosen: Chosen[] = [];
    for (let end = room; end > 0; ) {
      const item = items[last[end]!];
      if (!item) {
        end--;
        continue;
      }
      end -= item.size;
      chosen.unshift({ from: this.ends + end / 2, index: item.index });
    }
    return chosen;
  }

  /** What a stack of one length is worth at every start; null where it is worth nothing anywhere. */
  private worthByStart(
    length: number,
    reach: Reach,
    varies: boolean,
    at: (middle: number) => StackPrices,
  ): Float64Array | null {
    const { sides, riser } = this.book;
    const { yields, masses, ladder: ladderOf } = this.book.of(length);
    const ladder = ladderOf();
    const { last, along, places, maps, meets, blocks, bears } = reach;
    const straight = sides.straight && !varies;
    const count = straight ? 1 : places.length;
    const known = new Float64Array(count * blocks.length).fill(Number.NaN);
    const middleOf = (place: number) => this.ends + place / 2 + along / 2;
    const prices = at(middleOf(0));
    let rungs = varies ? [] : rungsOf(ladder, prices, riser);
    if (!varies && rungs.length === 0) return null;
    let any = false;
    const worthAt = (k: number, set: number): number => {
      const i = k * blocks.length + set;
      let worth = known[i]!;
      if (Number.isNaN(worth)) {
        const from = this.ends + places[k]! / 2;
        const own = varies ? at(middleOf(places[k]!)) : prices;
        if (varies) rungs = rungsOf(ladder, own, riser);
        maps[i] ??= new RiseMap(sides.profile(from, from + along), blocks[set]!, ladder);
        worth = riser.worth(maps[i], rungs);
        worth = Math.min(worth, worthOfYields(yields, own));
        known[i] = worth;
        if (worth > 0) any = true;
      }
      return worth;
    };
    const worths = new Float64Array(last + 1);
    let k = 0;
    for (let start = 0; start <= last; start++) {
      if (!straight) while (k + 2 < places.length && places[k + 1]! <= start) k++;
      const set = meets[start]!;
      if (set < 0) continue;
      let worth = worthAt(k, set);
      if (!straight && places[k] !== start) {
        const share = (start - places[k]!) / (places[k + 1]! - places[k]!);
        worth = worth * (1 - share) + worthAt(k + 1, set) * share;
      }
      if (bears && worth > 0)
        worth = Math.min(worth, worthOfMass(bears[start]!, masses, varies ? at(middleOf(start)) : prices));
      worths[start] = worth;
    }
    return any ? worths : null;
  }

  private reach(length: number): Reach {
    let known = this.reaches.get(length);
    if (!known) {
      known = this.findReach(length);
      this.reaches.set(length, known);
    }
    return known;
  }

  private findReach(length: number): Reach {
    const { laid } = this.book;
    const along = this.book.along(length);
    const last = Math.floor((this.room - along) * 2 + 1e-9);
    const cells = Math.max(1, Math.ceil(last / APART));
    const places = Int32Array.from(
      new Set(Array.from({ length: cells + 1 }, (_, i) => Math.round((last * i) / cells))),
    );
    const meets = new Int16Array(Math.max(0, last + 1));
    const blocks: Block[][] = [];
    const limited = laid.bearers !== undefined || laid.mostPerMetre !== undefined;
    const bears = limited ? new Float64Array(meets.length) : null;
    for (let start = 0; start <= last; start++) {
      const from = this.ends + start / 2;
      if (bears) {
        const { stands, most } = restOf(laid, from, from + along);
        bears[start] = most;
        meets[start] = -1;
        if (!stands) continue;
      }
      const set = this.setOf(blocksIn(laid, from, from + along));
      let own = blocks.indexOf(set);
      if (own < 0) own = blocks.push(set) - 1;
      meets[start] = own;
    }
    return { along, last, places, meets, blocks, maps: [], bears };
  }

  private setOf(blocks: Block[]): Block[] {
    const key = blocks.map(({ from, to, low, high }) => `${from},${to},${low},${high}`).join(';');
    const known = this.sets.get(key);
    if (known) return known;
    this.sets.set(key, blocks);
    return blocks;
  }
}
