/** Divisions of the voids like another: one or two changes, thrown. They fit their voids; what they are worth is not asked here. */
import type { Span } from '../job/lot.ts';
import { alongSize, longestIn } from '../stow/bundle.ts';
import { floorHalf } from '../stow/half.ts';
import type { Berth } from '../stow/layout.ts';
import type { Dice } from './dice.ts';
import { lengthsIn } from './division.ts';
import type { Skeleton } from './pricing.ts';
import type { Problem } from './problem.ts';

/** One division in so many has two changes, and one change in so many is of all runs of a length. */
const TWO_IN = 3;
const ALL_IN = 6;
/** A void open either way is laid the other way in one change of so many. */
const TURN_IN = 4;
/** A length is changed by up to one of these, mm. */
const SHIFTS = [2, 6, 20, 60];
/** Runs of one length in a void at most, runs of any, and pieces beside and of a length that makes a bar come out even. */
const MOST_EVEN = 6;
const MOST_RUNS = 6;
const MOST_BESIDE = 3;
const MOST_ALIKE = 3;
/** Of the voids that lose a length one in so many is divided anew, though the length that takes its place would fit. */
const ANEW_IN = 4;
/** Ways of dividing such a void that are thrown, the last without what else it has. */
const PACKINGS = 3;

export class DivisionMoves {
  private readonly problem: Problem;
  private readonly berths: Berth[][];
  private readonly dice: Dice;
  /** Of every kind of bar what can be used. */
  private readonly spans: Span[];

  constructor(problem: Problem, berths: Berth[][], dice: Dice) {
    this.problem = problem;
    this.berths = berths;
    this.dice = dice;
    this.spans = problem.barKinds.flatMap(({ spans }) => spans);
  }

  /** Another division; null where this throw came to none. */
  next(now: Skeleton[]): Skeleton[] | null {
    const { dice } = this;
    let next: Skeleton[] | null = now;
    for (let n = dice.below(TWO_IN) === 0 ? 2 : 1; n > 0 && next; n--) {
      const lengths = lengthsIn(next);
      next = dice.below(ALL_IN) === 0 ? this.withLength(next, lengths) : this.withVoid(next, lengths);
    }
    return next;
  }

  /** A division with one length less, thrown: its runs are made of another that is cut already; null where there is no other. */
  fewer(now: Skeleton[]): Skeleton[] | null {
    const { dice } = this;
    const lengths = lengthsIn(now);
    if (lengths.length < 2) return null;
    const at = dice.below(lengths.length);
    const before = lengths[at]!;
    const kept = lengths.filter((_, i) => i !== at);
    // The next shorter or longer by half the throws.
    const beside = Math.min(kept.length - 1, Math.max(0, at - dice.below(2)));
    const after = kept[dice.below(2) === 0 ? beside : dice.below(kept.length)]!;
    const next = now.map((skeleton) => {
      const own = lengthsOf(skeleton);
      if (!own.includes(before)) return skeleton;
      const changed = own.map((length) => (length === before ? after : length));
      const same = dice.below(ANEW_IN) > 0 ? this.divide(skeleton, skeleton.berth, changed) : null;
      const rest = own.filter((length) => length !== before);
      return same ?? this.divide(skeleton, skeleton.berth, this.packed(skeleton.berth, rest, kept));
    });
    return next.every((skeleton) => skeleton !== null) ? next : null;
  }

  /** Some of these lengths, thrown, as many as fit beside `rest` or in place of it; none where none fits. */
  private packed(berth: Berth, rest: number[], lengths: number[]): number[] {
    let best: number[] = [];
    for (let n = 1; n <= PACKINGS; n++) {
      const own = n < PACKINGS ? [...rest] : [];
      for (let m = 0; m < MOST_RUNS; m++) {
        const length = lengths[this.dice.below(lengths.length)]!;
        if (this.left(berth, [...own, length]) >= 0) own.push(length);
      }
      if (own.length > 0 && (best.length === 0 || this.left(berth, own) < this.left(berth, best))) best = own;
    }
    return best;
  }

  /** All runs of one length made of another. */
  private withLength(now: Skeleton[], lengths: number[]): Skeleton[] | null {
    const { dice } = this;
    if (lengths.length === 0) return null;
    const before = lengths[dice.below(lengths.length)]!;
    const after = dice.below(3) === 0 ? this.wanted(lengths) : before + this.shift();
    const next = now.map((skeleton) => {
      const own = lengthsOf(skeleton);
      if (!own.includes(before)) return skeleton;
      const changed = own.map((length) => (length === before ? after : length));
      return this.divide(skeleton, skeleton.berth, changed);
    });
    return next.every((skeleton) => skeleton !== null) ? next : null;
  }

  /** One void divided otherwise. */
  private withVoid(now: Skeleton[], lengths: number[]): Skeleton[] | null {
    const { dice } = this;
    const at = dice.below(now.length);
    const skeleton = now[at]!;
    const berths = this.berths[skeleton.space.index]!;
    const turned = berths.length > 1 && dice.below(TURN_IN) === 0;
    const berth = turned ? berths[dice.below(berths.length)]! : skeleton.berth;
    const own = this.otherwise(berth, lengthsOf(skeleton), lengths, now);
    const next = own && this.divide(skeleton, berth, own);
    return next && now.map((one, i) => (i === at ? next : one));
  }

  /** Other lengths for the runs of a void; they may be too long for it. */
  private otherwise(berth: Berth, before: number[], lengths: number[], now: Skeleton[]): number[] | null {
    const { dice } = this;
    const own = [...before];
    const some = own.length > 0 ? dice.below(own.length) : -1;
    const filled = () => this.filled(berth, own, dice.below(own.length));
    switch (dice.below(9)) {
      case 0:
        return this.even(berth, 1 + dice.below(MOST_EVEN));
      case 1:
        return lengthsOf(now[dice.below(now.length)]!);
      case 2:
        return this.anew(berth, lengths);
      case 3:
        if (own.length < 2) return null;
        own.splice(some, 1);
        return filled();
      case 4:
        own.push(this.wanted(lengths));
        if (some >= 0 && dice.below(2) === 0) own.splice(some, 1);
        return own;
      default:
    }
    if (some < 0) return null;
    switch (dice.below(4)) {
      case 0:
        own[some] = this.wanted(lengths);
        return own;
      case 1:
        own[some] = this.wanted(lengths);
        return filled();
      case 2:
        own[some]! += this.shift();
        return dice.below(2) === 0 ? own : filled();
      default:
        own[some] = this.wanted(lengths);
        return this.filled(berth, [...own, 0], own.length);
    }
  }

  /** A length that is cut already, or one that makes a bar come out even with some of those; mm. */
  private wanted(lengths: number[]): number {
    const { dice, problem } = this;
    if (lengths.length > 0 && dice.below(2) === 0) return lengths[dice.below(lengths.length)]!;
    const { kerf } = problem.job.saw;
    const span = this.spans[dice.below(this.spans.length)];
    if (!span) return 0;
    let left = span.to - span.from + kerf;
    for (let n = dice.below(MOST_BESIDE + 1); n > 0 && lengths.length > 0; n--) {
      const beside = lengths[dice.below(lengths.length)]! + kerf;
      if (beside < left) left -= beside;
    }
    return Math.floor(left / (1 + dice.below(MOST_ALIKE)) - kerf + 1e-9);
  }

  private shift(): number {
    const { dice } = this;
    const by = 1 + dice.below(SHIFTS[dice.below(SHIFTS.length)]!);
    return dice.below(2) === 0 ? by : -by;
  }

  /** So many runs of one length, as long as the void lets them be. */
  private even(berth: Berth, count: number): number[] {
    const { saw, bundle } = this.problem.job;
    const { runs: gap } = berth.laid.gap;
    const along = Math.floor(((berth.room + gap) / count - gap) * 2) / 2;
    return new Array<number>(count).fill(longestIn(along, saw, bundle));
  }

  /** Wanted lengths, as many as fit, by half the throws with one of them lengthened. */
  private anew(berth: Berth, lengths: number[]): number[] | null {
    const own: number[] = [];
    for (let n = 0; n < MOST_RUNS; n++) {
      const length = this.wanted(lengths);
      if (this.left(berth, [...own, length]) >= 0) own.push(length);
    }
    if (own.length === 0 || this.dice.below(2) === 0) return own;
    return this.filled(berth, own, this.dice.below(own.length));
  }

  /** One of the runs made as long as the others let it be; null where they leave nothing. */
  private filled(berth: Berth, own: number[], at: number): number[] | null {
    const { saw, bundle } = this.problem.job;
    const left =
      this.left(
        berth,
        own.filter((_, i) => i !== at),
      ) - berth.laid.gap.runs;
    return left > 0 ? own.map((length, i) => (i === at ? longestIn(left, saw, bundle) : length)) : null;
  }

  /** What runs leave of the length of a void, a gap after each of them, mm. */
  private left(berth: Berth, own: number[]): number {
    const { saw, bundle } = this.problem.job;
    const { runs: gap } = berth.laid.gap;
    return own.reduce((left, length) => left - alongSize(length, saw, bundle) - gap, berth.room + gap);
  }

  /** The same runs with their lengths changed; null where one comes out too short. */
  changed(now: Skeleton[], changes: Map<number, number>): Skeleton[] | null {
    const next = now.map((skeleton) => {
      const before = lengthsOf(skeleton);
      const own = before.map((length) => length + changes.get(length)!);
      // The places of its runs count, too, where a void is no box.
      if (own.every((length, i) => length === before[i])) return skeleton;
      return this.divide(skeleton, skeleton.berth, own);
    });
    return next.every((skeleton) => skeleton !== null) ? next : null;
  }

  /**
   * A void divided into runs of these lengths: in a box the longest first; elsewhere in an order that is thrown, with what
   * they leave of its length before one of them or after all. Null where they are too long for it or one is too short.
   */
  private divide({ space }: Skeleton, berth: Berth, own: number[]): Skeleton | null {
    const { saw, bundle } = this.problem.job;
    const left = this.left(berth, own);
    if (left < 0 || own.some((length) => length < Math.max(1, saw.shortestPiece))) return null;
    const order = berth.uniform ? own.toSorted((p, q) => q - p) : shuffled(own, this.dice);
    const free = berth.uniform ? order.length : this.dice.below(order.length + 1);
    let from = berth.laid.clear.ends;
    const runs = order.map((length, i) => {
      if (i === free) from += floorHalf(left);
      const run = { from, length };
      from += alongSize(length, saw, bundle) + berth.laid.gap.runs;
      return run;
    });
    return { space, berth, runs };
  }
}

function shuffled(lengths: number[], dice: Dice): number[] {
  const left = [...lengths];
  return lengths.map(() => left.splice(dice.below(left.length), 1)[0]!);
}

function lengthsOf({ runs }: Skeleton): number[] {
  return runs.map(({ length }) => length);
}
