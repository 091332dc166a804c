/** What follows at once from a lot or a pile as typed, faults elsewhere notwithstanding. */
import { lotSchema } from '../../src/job/job.ts';
import { barLengths } from '../../src/job/lot.ts';
import { massPerMetre } from '../../src/job/section.ts';
import type { Words } from '../words.ts';
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

/** A bar that weighs more is marked: two people, rollers. kg */
const TWO_PEOPLE = 25;

/** `3.85 kg/m · 65.6 m · 253 kg`. */
export function tellLot({ perMetre, weighed, metres, mass, heaviest }: LotSum, { figure, kilograms }: Words): string {
  if (perMetre === null || mass === null || heaviest === null)
    return 'Weigh one bar: this section has no computed mass.';
  const sum = `${figure(perMetre, 2)} kg/m${weighed ? ' as weighed' : ''} · ${figure(metres, 1)} m · ${kilograms(mass)}`;
  return heaviest > TWO_PEOPLE ? `${sum} · a whole bar is ${kilograms(heaviest)}: two people or rollers` : sum;
}

export function tellPile(
  { bars, metres, mass, partial }: Omit<PileSum, 'lots'>,
  { figure, kilograms, many }: Words,
): string {
  const sum = `${many(bars, 'bar')}, ${figure(metres, 1)} m, ${kilograms(mass)}`;
  return partial ? `${sum}, as far as the lines can be read` : sum;
}
