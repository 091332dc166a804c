/**
 * What kinds of tier hold at every height of a clear space, whatever they are worth: put down once for a stretch, since
 * risings ask for it at thousands of prices. Heights and widths are in half millimetres.
 */
import { type Block, freeWidths, type Profile } from './profile.ts';
import type { WidthSteps } from './widthSteps.ts';

/** A kind of tier as a map of it needs it. */
export interface RisingKind {
  /** Height of its bundles. */
  up: number;
  /** The greatest height at which it may stand: above it its bundles no longer pass the opening. */
  last: number;
  steps: WidthSteps;
}

/** Pieces of a map by their lowest foot: their foot and the kind that each is of. */
export interface Rising {
  pieces: Int32Array;
  feet: Int32Array;
  kinds: Int32Array;
}

const MOST_PIECES = 2 ** 26;

export class RiseMap {
  /** The lowest foot, and the top. */
  readonly bottom: number;
  readonly top: number;
  /**
   * Pieces of the heights in which a kind holds the same: those of kind k are from `first[k]` to `first[k + 1]`, by the
   * height of the lowest foot and the step that holds there; in the last of a kind it has no place.
   */
  readonly first: Int32Array;
  readonly feet: Int32Array;
  readonly steps: Int32Array;
  private rising: Rising | undefined;
  private readonly profile: Profile;
  private readonly blocks: Block[];

  /** `keptOff`: what to stay off beside the drain. Cost: for each kind the heights. */
  constructor(profile: Profile, keptOff: Block[], kinds: readonly RisingKind[]) {
    const { drain } = profile;
    this.profile = profile;
    this.blocks = drain.length > 0 ? [...keptOff, ...drain].sort((p, q) => p.from - q.from) : keptOff;
    this.bottom = profile.bottom;
    this.top = profile.top;
    const feet: number[] = [];
    const steps: number[] = [];
    this.first = new Int32Array(kinds.length + 1);
    kinds.forEach((kind, k) => {
      this.addPieces(kind, feet, steps);
      this.first[k + 1] = feet.length;
    });
    this.feet = Int32Array.from(feet);
    this.steps = Int32Array.from(steps);
  }

  /** All pieces as they are met on the way up. Put down once. */
  upward(): Rising {
    if (this.rising) return this.rising;
    const { first, feet } = this;
    const kindOf = new Int32Array(feet.length);
    for (let kind = 0; kind + 1 < first.length; kind++) kindOf.fill(kind, first[kind]!, first[kind + 1]!);
    // By foot, those of one foot by kind: no foot is over 2^26 half millimetres, and no map has as many pieces.
    const order = Float64Array.from(feet, (foot, piece) => foot * MOST_PIECES + piece).sort();
    const pieces = Int32Array.from(order, (key) => key % MOST_PIECES);
    this.rising = {
      pieces,
      feet: pieces.map((piece) => feet[piece]!),
      kinds: pieces.map((piece) => kindOf[piece]!),
    };
    return this.rising;
  }

  /** The step that holds for a kind whose foot is at `low`. */
  stepAt(kind: number, low: number): number {
    let [piece, end] = [this.first[kind]!, this.first[kind + 1]!];
    while (end - piece > 1) {
      const middle = (piece + end) >> 1;
      if (this.feet[middle]! <= low) piece = middle;
      else end = middle;
    }
    return this.steps[piece]!;
  }

  /** The free widths of a tier whose foot is at `low`. */
  widths(low: number, up: number): number[] {
    const widths = new Int32Array(this.blocks.length + 1);
    return [...widths.subarray(0, freeWidths(this.profile, this.blocks, low, low + up, widths))];
  }

  private addPieces({ up, last, steps }: RisingKind, feet: number[], holds: number[]): void {
    const { profile, blocks, bottom, top } = this;
    const end = Math.min(last, top - up);
    let widths = new Int32Array(blocks.length + 1);
    let before = new Int32Array(blocks.length + 1);
    let known = -1;
    let open = -1;
    for (let low = bottom; low <= end; low++) {
      const count = freeWidths(profile, blocks, low, low + up, widths);
      if (count === known && isSame(count, widths, before)) continue;
      const step = steps.ofAll(count, widths);
      if (step !== open) {
        feet.push(low);
        holds.push(step);
      }
      open = step;
      [widths, before, known] = [before, widths, count];
    }
    feet.push(Math.max(bottom, end + 1));
    holds.push(steps.ofAll(0, widths));
  }
}

function isSame(count: number, p: Int32Array, q: Int32Array): boolean {
  for (let i = 0; i < count; i++) if (p[i] !== q[i]) return false;
  return true;
}
