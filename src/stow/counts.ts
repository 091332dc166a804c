/** Bundles of a tier by their number: `bars` has what 1, 2, … of them hold. */

/** How many bundles are worth most where a bar is worth `perBar` and a bundle costs `perBundle`; 0 where none is worth anything. */
export function bestCount(bars: readonly number[], perBar: number, perBundle: number): number {
  let count = 0;
  for (let bundles = 1, most = 0; perBar > 0 && bundles <= bars.length; bundles++) {
    const worth = worthOfCount(bars, bundles, perBar, perBundle);
    if (worth <= most) continue;
    most = worth;
    count = bundles;
  }
  return count;
}

/** What so many bundles are worth; 0 of none. */
export function worthOfCount(bars: readonly number[], bundles: number, perBar: number, perBundle: number): number {
  return bundles === 0 ? 0 : bars[bundles - 1]! * perBar - bundles * perBundle;
}
