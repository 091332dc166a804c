/** Counts work, so that a search ends at the same place on every machine: a unit is about a millisecond. */

const CELLS_A_UNIT = 400_000;
const SOLVE = 0.15;
const COLUMNS_A_UNIT = 1000;
const STEP_ROWS_A_UNIT = 4000;

export class Meter {
  linearSolves = 0;
  pricings = 0;
  pricingUnits = 0;
  private linearUnits = 0;

  get units(): number {
    return this.linearUnits + this.pricingUnits;
  }

  /** A linear program of this size was solved, in so many simplex steps. */
  solved(rows: number, columns: number, steps: number): void {
    this.linearSolves++;
    this.linearUnits += SOLVE + columns / COLUMNS_A_UNIT + (steps * rows) / STEP_ROWS_A_UNIT;
  }

  /** So many cells of a pricing table were filled. */
  priced(cells: number): void {
    this.pricings++;
    this.pricingUnits += cells / CELLS_A_UNIT;
  }
}
