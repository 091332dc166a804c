/**
 * The fixed share and the trial: most of the plan is stowed, she goes afloat, marks are read and the roll is timed; the
 * forecast is compared and her figures are corrected. trialRest.ts places the rest by what was read.
 */
import type { Job, Vessel } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import { amount } from './amount.ts';
import { effectOf, gmByRoll, smallGm } from './float.ts';
import { hydrostaticsOf } from './hydrostatics.ts';
import { figuresFromMarks, type MarkFigures } from './markFigures.ts';
import { centreOf, type Weight, weightsByVoid } from './moments.ts';
import { correctFromMarks, type Draughts, TRIM_ERROR_CM } from './readings.ts';

/** Every bundle as a weight, by void, in loading order. */
export function weightsInOrder(job: Job, plan: Plan): Map<string, Weight[]> {
  return weightsByVoid(job, { ...plan, bundles: [...plan.bundles].sort((p, q) => p.order - q.order) });
}

/** The weights of the first `counts` bundles of each void. */
export function stowedWeights(job: Job, plan: Plan, counts: ReadonlyMap<string, number>): Weight[] {
  return [...weightsInOrder(job, plan)].flatMap(([name, weights]) => weights.slice(0, counts.get(name) ?? 0));
}

/** What was read afloat: draughts m, period s. */
export interface TrialReadings {
  before: Draughts;
  after: Draughts;
  period?: number;
}

/**
 * Forecast less what was read, cm and s; null where one of the two is missing. `vessel` is corrected from the readings
 * by `figures`, those of her figures that the marks moved enough to tell, and not by the `doubtful` ones among them.
 */
export interface TrialResult {
  forward: number | null;
  aft: number | null;
  period: number | null;
  vessel: Vessel;
  figures: MarkFigures;
  doubtful: MarkFigures;
  corrections: string[];
}

/**
 * Holds the forecast against what was read. The marks change by what went in between the two readings, which is `stowed`
 * alone, and `since`, where some of the contents came in after the first; she rolls with what lay in the voids already,
 * `contents`, too.
 */
export function compareTrial(
  vessel: Vessel,
  stowed: readonly Weight[],
  readings: TrialReadings,
  contents: readonly Weight[] = [],
  since: readonly Weight[] = [],
): TrialResult {
  const between = [...stowed, ...since];
  const { marks: change } = effectOf(vessel, between);
  const { stability: afloat } = effectOf(vessel, [...stowed, ...contents]);
  const read = {
    forward: (readings.after.forward - readings.before.forward) * 100,
    aft: (readings.after.aft - readings.before.aft) * 100,
  };
  const marks = change.kind === 'answer' ? change : null;
  const stability = afloat.kind === 'answer' ? afloat : null;
  const corrections: string[] = [];
  const figures: MarkFigures = {};
  const doubtful: MarkFigures = {};
  const centre = centreOf(between);
  const { lcf, waterlineLength } = vessel;
  if (centre && lcf !== undefined && waterlineLength !== undefined) {
    const found = correctFromMarks(centre.mass, centre.x, readings.before, readings.after, lcf, waterlineLength);
    // Where these weights hardly trim her, what was read comes of something else.
    const trims = marks === null || Math.abs(marks.trim.likely) >= TRIM_ERROR_CM;
    const told = figuresFromMarks({ ...found, ...(trims ? {} : { kgmPerCm: null }) }, hydrostaticsOf(vessel));
    Object.assign(figures, told.figures);
    Object.assign(doubtful, told.doubtful);
    corrections.push(...told.lines);
  }
  const gm = readings.period === undefined ? null : gmByRoll(vessel, [...stowed, ...contents], readings.period);
  if (gm) {
    const little = smallGm(gm);
    corrections.push(`GM with this much in her, from the roll: ${amount(gm, 2, 'm')}.`, ...(little ? [little] : []));
  }
  return {
    forward: marks ? marks.forward.likely - read.forward : null,
    aft: marks ? marks.aft.likely - read.aft : null,
    period: stability && readings.period !== undefined ? stability.period.likely - readings.period : null,
    vessel: { ...vessel, ...figures },
    figures,
    doubtful,
    corrections,
  };
}

/** The same, where what was in her at the readings is not what it is reckoned with: no figure of it is gone by. */
export function doubtAll(vessel: Vessel, result: TrialResult): TrialResult {
  return { ...result, vessel, figures: {}, doubtful: { ...result.figures, ...result.doubtful } };
}
