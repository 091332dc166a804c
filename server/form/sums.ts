/** What follows at once from a lot or a pile as typed, faults elsewhere notwithstanding. */
import { lotSchema } from '../../src/job/job.ts';
import { barLengths } from '../../src/job/lot.ts';
import { massPerMetre } from '../../src/job/section.ts';
import { listAt, valueAt } from './path.ts';

export interface LotSum {
  bars: number;
  metres: number;
  /** kg/m; null where the section has none and none was weighed. */
  perMetre: number | null;
  weighed: boolean;
  mass: number | null;
  /** Mass of the longest bar, kg. */
  heaviest: number | null;
}

export interface PileSum {
  lots: (LotSum | null)[];
  bars: number;
  metres: number;
  mass: number;
  /** True where some lot could not be counted in. */
  partial: boolean;
}

export function pileSum(draft: unknown): PileSum {
  const density = valueAt(draft, ['steel', 'density']);
  const lots = listAt(draft, ['pile']).map((lot) => lotSum(lot, typeof density === 'number' ? density : 7850));
  const known = lots.filter((lot) => lot !== null);
  const total = (of: (lot: LotSum) => number | null): number => known.reduce((sum, lot) => sum + (of(lot) ?? 0), 0);
  return {
    lots,
    bars: total((lot) => lot.bars),
    metres: total((lot) => lot.metres),
    mass: total((lot) => lot.mass),
    partial: lots.some((lot) => lot === null || lot.mass === null),
  };
}

function lotSum(raw: unknown, density: number): LotSum | null {
  const lot = lotSchema.safeParse(raw).data;
  if (!lot || (lot.length === undefined && lot.lengths === undefined)) return null;
  const lengths = barLengths(lot);
  const metres = lengths.reduce((sum, length) => sum + length, 0) / 1000;
  const longest = lengths.reduce((most, length) => Math.max(most, length), 0) / 1000;
  const perMetre = lot.massPerMetre ?? massPerMetre(lot.section, density);
  const mass = (length: number): number | null => (perMetre === null ? null : perMetre * length);
  return {
    bars: lengths.length,
    metres,
    perMetre,
    weighed: lot.massPerMetre !== undefined,
    mass: mass(metres),
    heaviest: mass(longest),
  };
}
