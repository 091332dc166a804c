/** Feet, inches and pounds on papers, beside the metric figures where they are wanted; without them nothing changes. */

import { type OtherOf, printFeet, printOther, type Towards, type Units } from '../../src/units.ts';
import { tellIn } from '../otherUnits.ts';
import { kg, plain } from './figures.ts';
import type { PaperOptions } from './page.ts';

export interface Wanted {
  options: Pick<PaperOptions, 'feet'>;
}

/** As tables for spreadsheets have it. */
export const METRIC: Wanted = { options: {} };

/** For drawings, and whatever else goes by the units of a job. */
export function unitsOf({ options }: Wanted): Units {
  return options.feet ? 'inches' : 'metric';
}

/** A sentence, each of its metric figures in the other units first. */
export function tell(paper: Wanted, words: string): string {
  return tellIn(unitsOf(paper), words);
}

/** Words that are told otherwise where a figure may be read or written in either unit. */
export function either({ options }: Wanted, metric: string, both: string): string {
  return options.feet ? both : metric;
}

/** `13.1 lb · 5.95 kg`; of a mass that is a limit down, of one that must be held up. */
export function massIn(paper: Wanted, mass: number, decimals?: number, towards: Towards = 'nearest'): string {
  return figureIn(paper, mass, 'kg', kg(mass, decimals), towards);
}

/** In a sentence: `13.1 lb (5.95 kg)`. */
export function massTold(paper: Wanted, mass: number, decimals?: number, towards: Towards = 'nearest'): string {
  return figureTold(paper, mass, 'kg', kg(mass, decimals), towards);
}

/** In a sentence: `9.35 ft (2.85 m)`, with the `metric` words of it in brackets. */
export function figureTold(
  { options }: Wanted,
  value: number,
  unit: OtherOf,
  metric: string,
  towards: Towards = 'nearest',
): string {
  return options.feet ? `${printOther(value, unit, towards)} (${metric})` : metric;
}

/** Pounds over kilograms, in a table. */
export function massCell(paper: Wanted, mass: number, decimals?: number): string {
  return figureIn(paper, mass, 'kg', kg(mass, decimals), 'nearest', '\n');
}

/** `3.85 ft² · 0.36 m²`: a figure beside the `metric` words of it; in a table below each other. */
export function figureIn(
  { options }: Wanted,
  value: number,
  unit: OtherOf,
  metric: string,
  towards: Towards = 'nearest',
  between = ' · ',
): string {
  return options.feet ? `${printOther(value, unit, towards)}${between}${metric}` : metric;
}

/** The same without the unit, as under a head that names both: `13.78` over `4.2`. */
export function cellIn({ options }: Wanted, value: number, unit: OtherOf, metric: string, decimals = 0): string {
  if (!options.feet) return metric;
  const other = printOther(value, unit, 'nearest', decimals);
  return `${other.slice(0, other.lastIndexOf(' '))}\n${metric}`;
}

/** A length, mm, that stands without its unit: `476`, or finely `1' 6 3/4" (476)`; a length to be cut to fit goes down. */
export function lengthIn({ options }: Wanted, mm: number, decimals = 2, towards: Towards = 'nearest'): string {
  const metric = plain(mm, decimals);
  return options.feet ? `${printFeet(mm, 32, towards)} (${metric})` : metric;
}

/** The same with its unit: `476 mm`, or `1' 6 3/4" (476 mm)`. */
export function lengthWithUnit(paper: Wanted, mm: number, decimals = 2, towards: Towards = 'nearest'): string {
  const told = lengthIn(paper, mm, decimals, towards);
  return told.endsWith(')') ? `${told.slice(0, -1)} mm)` : `${told} mm`;
}

/** Lengths, mm, in feet and inches, joined; nothing where they are not wanted. */
export function inchesOf(
  { options }: Wanted,
  lengths: readonly number[],
  between: string,
  towards: Towards = 'nearest',
): string {
  return options.feet ? lengths.map((mm) => printFeet(mm, 16, towards)).join(between) : '';
}
