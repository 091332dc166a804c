/** What follows at once from a lot or a pile as typed, faults elsewhere notwithstanding. */
import { JOB_FORMAT, type Job, jobSchema, type Lot, lotSchema } from '../../src/job/job.ts';
import { barLengths } from '../../src/job/lot.ts';
import { massPerMetre } from '../../src/job/section.ts';
import { HEAVY_BUNDLE, wholeBarLimit } from '../../src/lift/limit.ts';
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
  /** True where some bar is shorter than that. */
  odd: boolean;
  /** What one person carries of whole bars, kg; null where nothing is stated that says so. */
  alone: number | null;
}

export interface PileSum {
  lots: (LotSum | null)[];
  bars: number;
  metres: number;
  mass: number;
  /** True where some lot could not be counted in. */
  partial: boolean;
}

/** `job` is the draft as read; null where that has faults: then each lot is read for itself. */
export function pileSum(draft: unknown, job: Job | null): PileSum {
  const density = valueAt(draft, ['steel', 'density']);
  const legs = job ?? jobOfLegs(draft);
  // Nobody is said to carry alone what is called heavy anyway.
  const alone = legs && Math.min(HEAVY_BUNDLE, wholeBarLimit(legs));
  const pile = job?.pile ?? listAt(draft, ['pile']).map((lot) => lotSchema.safeParse(lot).data);
  const lots = pile.map((lot) => lotSum(lot, typeof density === 'number' ? density : 7850, alone));
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

function lotSum(lot: Lot | undefined, density: number, alone: number | null): LotSum | null {
  if (!lot || (lot.length === undefined && lot.lengths === undefined)) return null;
  const lengths = barLengths(lot);
  const metres = lengths.reduce((sum, length) => sum + length, 0) / 1000;
  const longest = lengths.reduce((most, length) => Math.max(most, length), 0);
  const perMetre = lot.massPerMetre ?? massPerMetre(lot.section, density);
  const mass = (length: number): number | null => (perMetre === null ? null : perMetre * length);
  return {
    bars: lengths.length,
    metres,
    perMetre,
    weighed: lot.massPerMetre !== undefined,
    mass: mass(metres),
    heaviest: mass(longest / 1000),
    odd: lengths.some((length) => length < longest),
    alone,
  };
}

/** Of the draft what says how much of whole bars one person carries: its voids, legs and limits, with the pile that a job has to have. */
function jobOfLegs(draft: unknown): Job | null {
  const part = (name: string): unknown => valueAt(draft, [name]);
  const pile = [{ lot: 'A', section: { shape: 'round', diameter: 20 }, length: 1000 }];
  const whole = {
    ...{ format: JOB_FORMAT, name: 'whole bars', pile, voids: part('voids') },
    ...{ lift: part('lift'), bundle: part('bundle') ?? {} },
  };
  return jobSchema.safeParse(whole).data ?? null;
}

/** `3.85 kg/m · 65.6 m · 253 kg`. */
export function tellLot(sums: LotSum, { figure, kilograms, metres: print, tell }: Words): string {
  const { perMetre, weighed, metres, mass, heaviest, odd, alone } = sums;
  if (perMetre === null || mass === null || heaviest === null)
    return 'Weigh one bar: this section has no computed mass.';
  const each = tell(`${figure(perMetre, 2)} kg/m${weighed ? ' as weighed' : ''}`);
  const sum = `${each} · ${print(metres, 1)} · ${kilograms(mass)}`;
  if (heaviest > (alone ?? HEAVY_BUNDLE))
    return `${sum} · ${odd ? 'the longest' : 'a whole'} bar is ${kilograms(heaviest)}: two people or rollers`;
  return alone === null ? sum : `${sum} · one person carries ${odd ? 'the longest' : 'a whole'} bar`;
}

export function tellPile(
  { bars, metres, mass, partial }: Omit<PileSum, 'lots'>,
  { kilograms, many, metres: print }: Words,
): string {
  const sum = `${many(bars, 'bar')}, ${print(metres, 1)}, ${kilograms(mass)}`;
  return partial ? `${sum}, as far as the lines can be read` : sum;
}
