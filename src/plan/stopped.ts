/** How a search is stopped, and how it shows that it goes on. */

/**
 * Thrown by a poll deep in a computation once the caller wants no more: it ends what is under way there and then. Only a
 * `Patience` catches it; whoever has taken something gives it back in a `finally`.
 */
class Stopped extends Error {}

export class Patience {
  private readonly ends: () => boolean;
  private readonly goesOn: () => void;
  private ended = false;

  /** `ends`: true where the caller wants no more; `goesOn` is told at each poll. */
  constructor(ends: () => boolean, goesOn: () => void) {
    this.ends = ends;
    this.goesOn = goesOn;
  }

  /** True once the caller wants no more, and ever after. */
  readonly isOver = (): boolean => {
    this.ended ||= this.ends();
    return this.ended;
  };

  /** For deep work that can not end early of itself: throws once the caller wants no more. */
  readonly poll = (): void => {
    this.goesOn();
    if (this.isOver()) throw new Stopped();
  };

  /** What comes of some work; null where it was broken off. */
  while<Result>(work: () => Result): Result | null {
    try {
      return work();
    } catch (error) {
      if (!(error instanceof Stopped)) throw error;
      return null;
    }
  }
}
