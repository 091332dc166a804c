/** Feet, inches and pounds on papers, beside the metric figures where they are wanted; without them nothing changes. */
import { printFeet, printPounds } from '../../src/units.ts';
import { tellIn } from '../otherUnits.ts';
import { kg } from './figures.ts';
import type { PaperOptions } from './page.ts';

interface Wanted {
  options: Pick<PaperOptions, 'feet'>;
}

/** A sentence, each of its metric figures in the other units first. */
export function tell({ options }: Wanted, words: string): string {
  return tellIn(options.feet ? 'inches' : 'metric', words);
}

/** `13 lb · 5.95 kg`. */
export function massIn({ options }: Wanted, mass: number, decimals?: number): string {
  const metric = kg(mass, decimals);
  return options.feet ? `${printPounds(mass)} · ${metric}` : metric;
}

/** Lengths, mm, in feet and inches, joined; nothing where they are not wanted. */
export function inchesOf({ options }: Wanted, lengths: readonly number[], between: string): string {
  return options.feet ? lengths.map((mm) => printFeet(mm)).join(between) : '';
}
