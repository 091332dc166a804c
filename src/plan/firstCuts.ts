/**
 * What the first cuts say of the saw and of the steel: kerf from one bar cut up, tolerance from pieces measured, mass per
 * metre from one bundle weighed. Lengths mm, masses kg.
 *
 * kerf = (bar − Σ pieces − what remained) / cuts, one cut a piece; tolerance = the greatest |measured − ordered|, rounded
 * up to half a millimetre; mass per metre = (weighed − wrapping) / Σ piece lengths of the bundle, in metres.
 */
import type { Job } from '../job/job.ts';
import { lotMassPerMetre } from '../job/lot.ts';
import { remarkOnBar, remarkOnBundle, remarkOnKerf, remarkOnLots } from './cutRemarks.ts';
import { isOfOneSteel } from './lotsLeft.ts';
import type { Plan, PlanBundle } from './plan.ts';

export interface FirstCuts {
  /** The stop that was set. */
  ordered: number;
  /** The pieces cut at it, as measured. */
  measured: readonly number[];
  /** The bar after its first end was squared, and what remained of it when those pieces were off; null where not measured. */
  bar: number | null;
  remained: number | null;
  /** How many of the pieces, the first ones, came from that bar; null for all. */
  fromBar: number | null;
  /** A bundle of the plan, tied, on the scale; null where none was weighed. */
  bundle: string | null;
  weighed: number | null;
}

export interface Corrections {
  kerf: number | null;
  tolerance: number | null;
  /** By lot, the lots that the bundle's bars came from, and in a rest what else is left of them; `planned` is what the plan reckons with, kg/m. */
  massPerMetre: { lot: string; planned: number; value: number }[];
  /** What could not be worked out, or looks wrong, in sentences. */
  notes: string[];
  /** What should be known before the rest is cut, in sentences: it keeps nothing from being put into the job. */
  remarks: string[];
}

/** A kerf outside of this is more likely a slip of the tape than a saw, mm. */
const KERF = { least: 0.3, most: 8 };
/** Cuts off by more than this are no tolerance but another length, mm. */
const SLIP = 20;

/** Never throws for what was typed; a figure that can not be is left out and said in `notes`. */
export function correctFromCuts(job: Job, plan: Plan, cuts: FirstCuts): Corrections {
  const notes: string[] = [];
  const kerf = kerfOf(cuts, notes);
  // Where no kerf follows the bar is to be measured once more, and only then is its length worth a remark.
  const remarks = notes.length > 0 ? [] : remarkOnBar(job, plan, cuts);
  if (kerf !== null) remarks.push(...remarkOnKerf(job, plan, kerf));
  const tolerance = toleranceOf(cuts, notes);
  const massPerMetre = massesOf(job, plan, cuts, notes);
  const bundle = bundleOf(plan, cuts);
  const [corrected] = massPerMetre;
  if (bundle && corrected && cuts.weighed !== null) {
    remarks.push(...remarkOnBundle(job, plan, bundle, cuts.weighed, corrected.value));
    remarks.push(...remarkOnLots(job, bundle, massPerMetre));
  }
  return { kerf, tolerance, massPerMetre, notes, remarks };
}

function bundleOf(plan: Plan, cuts: FirstCuts): PlanBundle | undefined {
  return plan.bundles.find(({ bundle }) => bundle === cuts.bundle);
}

function kerfOf({ bar, remained, fromBar, measured }: FirstCuts, notes: string[]): number | null {
  const pieces = measured.slice(0, fromBar ?? measured.length);
  if (bar === null || remained === null || pieces.length === 0) return null;
  const lost = bar - remained - pieces.reduce((sum, length) => sum + length, 0);
  const kerf = Math.round((lost / pieces.length) * 10) / 10;
  if (kerf >= KERF.least && kerf <= KERF.most) return kerf;
  notes.push(
    `A kerf of ${kerf} mm does not follow from a saw: measure the bar, the pieces and what remained once more.`,
  );
  return null;
}

function toleranceOf({ ordered, measured }: FirstCuts, notes: string[]): number | null {
  if (measured.length === 0) return null;
  const worst = measured.reduce((most, length) => Math.max(most, Math.abs(length - ordered)), 0);
  if (worst <= SLIP) return Math.ceil(worst * 2) / 2;
  notes.push(
    `A piece is ${worst} mm off its stop of ${ordered} mm: that is another length, not a tolerance. Look at the stop.`,
  );
  return null;
}

function massesOf(job: Job, plan: Plan, cuts: FirstCuts, notes: string[]): Corrections['massPerMetre'] {
  if (cuts.bundle === null || cuts.weighed === null) return [];
  const bundle = bundleOf(plan, cuts);
  if (!bundle) {
    notes.push(`The plan has no bundle ${cuts.bundle}.`);
    return [];
  }
  const ids = new Set(bundle.slots.flat());
  let metres = 0;
  const lots = new Set<string>();
  for (const bar of plan.bars) {
    for (const piece of bar.pieces) {
      if (!ids.has(piece.piece)) continue;
      metres += (piece.to - piece.from) / 1000;
      lots.add(bar.lot);
    }
  }
  const value = Math.round(((cuts.weighed - job.bundle.wrapping) / metres) * 1000) / 1000;
  const expected = (bundle.mass - job.bundle.wrapping) / metres;
  if (!(value > 0) || value < expected / 2 || value > expected * 2) {
    notes.push(
      `${cuts.weighed} kg for ${bundle.bundle} is far from the ${bundle.mass} kg of the plan: is it the right bundle, and the scale at nought?`,
    );
    return [];
  }
  const weighed = job.pile.filter(({ lot }) => lots.has(lot));
  return job.pile
    .filter((lot) => weighed.some((own) => isOfOneSteel(own, lot)))
    .map((lot) => ({
      lot: lot.lot,
      planned: Math.round(lotMassPerMetre(lot, job.steel.density) * 1000) / 1000,
      value,
    }));
}
