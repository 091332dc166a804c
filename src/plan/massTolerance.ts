/** How far a bundle's weighed mass may lie from the reckoned one before something is wrong. */
import type { Job } from '../job/job.ts';
import { lotMassPerMetre } from '../job/lot.ts';
import { atMassNow, type WeighedMasses } from './massNow.ts';
import type { Plan } from './plan.ts';

/** Shares by which bars differ from their stated mass: kentledge's own assumptions, told wherever they are used. */
export const MASS_SPREAD = { weighed: 0.01, reckoned: 0.05 } as const;

/** kg by bundle: the planned masses, with bars that nobody has weighed as much heavier as they may be. */
export function heavierMasses(job: Job, plan: Pick<Plan, 'bars' | 'bundles'>): Map<string, number> {
  const lots = new Map(job.pile.map((lot) => [lot.lot, lot]));
  const found = new Map(plan.bundles.map(({ bundle, mass }) => [bundle, mass]));
  for (const bar of plan.bars) {
    const lot = lots.get(bar.lot);
    if (!lot || lot.massPerMetre !== undefined) continue;
    const perMetre = MASS_SPREAD.reckoned * lotMassPerMetre(lot, job.steel.density);
    for (const piece of bar.pieces)
      found.set(piece.bundle, (found.get(piece.bundle) ?? 0) + ((piece.to - piece.from) * perMetre) / 1000);
  }
  return found;
}

/** The plan with every bundle as heavy as it may be: off the scale it is what that said, kg by bundle in `weighed`. */
export function heavierPlan(job: Job, plan: Plan, weighed: WeighedMasses): Plan {
  const heavier = heavierMasses(job, plan);
  const doubted = plan.bundles.map((own) => ({ ...own, mass: heavier.get(own.bundle) ?? own.mass }));
  return { ...plan, bundles: atMassNow(doubted, weighed) };
}

/**
 * kg by bundle: for each piece the saw's tolerance of its section and the spread of its lot, taken together at their worst,
 * rounded up to 0.05 kg.
 */
export function massTolerances(job: Job, plan: Pick<Plan, 'bars'>): Map<string, number> {
  const lots = new Map(job.pile.map((lot) => [lot.lot, lot]));
  const found = new Map<string, number>();
  for (const bar of plan.bars) {
    const lot = lots.get(bar.lot);
    if (!lot) continue;
    const perMetre = lotMassPerMetre(lot, job.steel.density);
    const spread = lot.massPerMetre === undefined ? MASS_SPREAD.reckoned : MASS_SPREAD.weighed;
    for (const piece of bar.pieces) {
      const length = (piece.to - piece.from) * spread + job.saw.tolerance;
      found.set(piece.bundle, (found.get(piece.bundle) ?? 0) + (length * perMetre) / 1000);
    }
  }
  for (const [bundle, mass] of found) found.set(bundle, Math.ceil(mass * 20 - 1e-9) / 20);
  return found;
}
