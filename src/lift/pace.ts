/**
 * The pace multiplier of the revised NIOSH lifting equation (NIOSH 94-110, table 5): lifts a minute, averaged over a
 * quarter of an hour; how long the spell of work lasts; hands below or at least 750 mm high.
 */

/** short: at most 1 h, then light work as long; moderate: to 2 h; long: to 8 h; over-long: more, beyond the method. */
export type Spell = 'short' | 'moderate' | 'long' | 'over-long';

/** Lifts a minute, then by spell the multiplier with hands below 750 mm and with hands at 750 mm or above. */
type Row = [perMinute: number, short: Pair, moderate: Pair, long: Pair];
type Pair = [low: number, high: number];

const TABLE: readonly Row[] = [
  [0.2, [1, 1], [0.95, 0.95], [0.85, 0.85]],
  [0.5, [0.97, 0.97], [0.92, 0.92], [0.81, 0.81]],
  [1, [0.94, 0.94], [0.88, 0.88], [0.75, 0.75]],
  [2, [0.91, 0.91], [0.84, 0.84], [0.65, 0.65]],
  [3, [0.88, 0.88], [0.79, 0.79], [0.55, 0.55]],
  [4, [0.84, 0.84], [0.72, 0.72], [0.45, 0.45]],
  [5, [0.8, 0.8], [0.6, 0.6], [0.35, 0.35]],
  [6, [0.75, 0.75], [0.5, 0.5], [0.27, 0.27]],
  [7, [0.7, 0.7], [0.42, 0.42], [0.22, 0.22]],
  [8, [0.6, 0.6], [0.35, 0.35], [0.18, 0.18]],
  [9, [0.52, 0.52], [0.3, 0.3], [0, 0.15]],
  [10, [0.45, 0.45], [0.26, 0.26], [0, 0.13]],
  [11, [0.41, 0.41], [0, 0.23], [0, 0]],
  [12, [0.37, 0.37], [0, 0.21], [0, 0]],
  [13, [0, 0.34], [0, 0], [0, 0]],
  [14, [0, 0.31], [0, 0], [0, 0]],
  [15, [0, 0.28], [0, 0], [0, 0]],
];

/** Rows above so many lifts a minute are from memory of the print, and a lift as often says so. */
export const PACE_READ = 10;

/** From less than this pace on, the spell no longer counts, lifts a minute. */
const SELDOM = 0.1;

/** The multiplier at a pace and a height of the hands, mm: linear between the rows, 0 above 15 a minute. */
export function paceMultiplier(perMinute: number, spell: Spell, height: number): number {
  const column = perMinute < SELDOM || spell === 'short' ? 1 : spell === 'moderate' ? 2 : 3;
  const side = height < 750 ? 0 : 1;
  const at = (row: Row) => row[column][side];
  if (perMinute <= TABLE[0]![0]) return at(TABLE[0]!);
  for (let i = 1; i < TABLE.length; i++) {
    const above = TABLE[i]!;
    if (perMinute > above[0]) continue;
    const below = TABLE[i - 1]!;
    const share = (perMinute - below[0]) / (above[0] - below[0]);
    return at(below) + share * (at(above) - at(below));
  }
  return 0;
}
