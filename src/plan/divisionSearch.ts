/** The divisions that a search has found: bettered round after round, the best of them filled, and brought down to ever fewer lengths. */
import { areAlike, type Division, lengthsIn } from './division.ts';
import type { Divisions } from './divisions.ts';
import type { Work } from './effort.ts';
import type { Master } from './master.ts';
import type { Dived } from './tiers.ts';

/** Another division is as good where it is worth this share. */
export const NEAR_DIVISION = 0.997;
/** Voids are divided no more once so many tries, one after the other, brought no division that was not known. */
const VAIN = 48;
/** Of more lengths than this a quarter is given up at a time, of fewer one. */
const ONE_BY_ONE = 6;
const STEP = 0.75;
/** Lengths are given up no more once a division is worth less than this share of the best. */
const FAR_DIVISION = 0.96;

/** What a search of divisions asks of its improver. */
export interface DivisionSteps {
  /** Some voids divided otherwise; null where nothing about as good comes of it. */
  divide: (now: Division) => Division | null;
  /** Whole stacks for a division. */
  fill: (division: Division) => Dived;
  /** Better stacks for the same runs. */
  exchange: (dived: Dived) => Dived;
  shouldStop?: () => boolean;
  tell: () => void;
}

export class DivisionSearch {
  private readonly divisions: Divisions;
  private readonly work: Work;
  private readonly steps: DivisionSteps;
  private readonly known = new Map<string, Division>();
  private readonly filled: Division[] = [];
  private vain = 0;
  /** The worthiest that is known. */
  best: Division;

  constructor(divisions: Divisions, first: Division, work: Work, steps: DivisionSteps) {
    this.divisions = divisions;
    this.work = work;
    this.steps = steps;
    this.best = first;
    this.take(first);
  }

  /**
   * Divides voids again, so many times as the effort has it, and fills the best divisions that were not filled yet and are
   * about as good as the best of all; the worthiest of what comes of them, null where there is none. Tries end where they
   * bring nothing new.
   */
  round(): Dived | null {
    const { divisions, work, steps } = this;
    for (let i = 0; i < work.divisions && this.vain < VAIN && !steps.shouldStop?.(); i++) {
      const { worth } = this.best;
      const found = steps.divide(this.best);
      this.vain = found && !this.known.has(found.key) ? 0 : this.vain + 1;
      const fitted = found && divisions.fitted(found, worth);
      this.take(found);
      this.take(fitted);
      steps.tell();
    }
    const hopeful = [...this.known.values()]
      .filter(({ worth }) => worth > NEAR_DIVISION * this.best.worth)
      .sort((p, q) => q.worth - p.worth);
    let most: Dived | null = null;
    for (let fills = 0; fills < work.fills && hopeful.length > 0 && !steps.shouldStop?.(); ) {
      const division = hopeful.shift()!;
      if (this.filled.some((other) => areAlike(division, other))) continue;
      this.filled.push(division);
      fills++;
      const next = steps.fill(division);
      if (next.worth > (most?.worth ?? 0)) most = next;
      steps.tell();
    }
    return most && steps.exchange(most);
  }

  /** Whole stacks for a division, the best that are found. */
  fill(division: Division): Dived {
    return this.steps.exchange(this.steps.fill(division));
  }

  /**
   * The best divisions of ever fewer lengths, those of most first, until they are worth much less than the best of all, and
   * of `asked` lengths in any case. Each comes of the one before, of what is known, or, once half the lengths are given up,
   * of a joint master, which has no other lengths then.
   */
  descend(master: Master, asked = Number.POSITIVE_INFINITY): Division[] {
    const { divisions, steps } = this;
    const all = lengthsIn(this.best.skeletons).length;
    const found: Division[] = [];
    let now = this.best;
    let begun = false;
    for (let most = fewer(all, asked); most > 0 && !steps.shouldStop?.(); most = fewer(most, asked)) {
      for (let i = 0; i < this.work.descents; i++) this.take(divisions.fewer(now, most));
      if (!begun && most <= Math.ceil(all / 2)) {
        begun = true;
        this.take(divisions.begin(master, most));
      }
      const next = this.bestOf(most);
      if (!next) break;
      now = this.bettered(next, most);
      if (now !== found.at(-1)) found.push(now);
      steps.tell();
      if (most <= asked && now.worth < FAR_DIVISION * this.best.worth) break;
    }
    return found;
  }

  /** The best of a few changes, within so many lengths. */
  private bettered(start: Division, most: number): Division {
    let now = start;
    for (let i = 0; i < this.work.descents; i++) {
      const near = this.divisions.near(now, now.worth, most);
      if (!near) return now;
      const fitted = this.divisions.fitted(near, near.worth);
      this.take(near);
      this.take(fitted);
      now = fitted ?? near;
    }
    return now;
  }

  /** The best known of at most so many lengths; null where there is none. */
  bestOf(most: number): Division | null {
    let best: Division | null = null;
    for (const one of this.known.values())
      if (lengthsIn(one.skeletons).length <= most && one.worth > (best?.worth ?? 0)) best = one;
    return best;
  }

  private take(found: Division | null): void {
    if (!found) return;
    this.known.set(found.key, found);
    if (found.worth > this.best.worth) this.best = found;
  }
}

/** The next number of lengths under `now`; `asked` is not passed over. */
function fewer(now: number, asked: number): number {
  const next = now > ONE_BY_ONE ? Math.max(ONE_BY_ONE, Math.floor(now * STEP)) : now - 1;
  return now > asked ? Math.max(next, asked) : next;
}
