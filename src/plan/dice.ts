/** Whole numbers that look random and follow from a seed, the same on every machine (a 32-bit xorshift). */
export class Dice {
  private state: number;

  constructor(seed: number) {
    this.state = (Math.imul(seed | 0, 0x9e3779b1) ^ 0x5bd1e995) | 0 || 1;
  }

  /** A whole number from 0 to below `count`. */
  below(count: number): number {
    this.state ^= this.state << 13;
    this.state ^= this.state >>> 17;
    this.state ^= this.state << 5;
    return (this.state >>> 0) % count;
  }
}
