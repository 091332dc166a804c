/**
 * The value of a plan, kg: the one objective of the plan format.
 *
 *   value = Σ over voids of rankWeight × steel placed − 0.5 × scrapMass − kgPerHour × minutes ÷ 60
 *   minutes = cuts ÷ gang × minutesPerCut + stops × minutesPerStop + bundles × minutesPerBundle
 */
import type { Job } from '../job/job.ts';

/** A kilogram of scrap counts as half a kilogram less in place. */
export const SCRAP_RATE = 0.5;

/** The weight of a kilogram in a void of this rank: 1 for rank 1, a hundredth less for each rank below, at least 0.9. */
export function rankWeight(rank: number): number {
  return Math.max(0.9, 1 - 0.01 * (rank - 1));
}

/** What a cut, a stop and a bundle cost, kg of value. */
export interface LabourRates {
  cut: number;
  stop: number;
  bundle: number;
}

/** The labour of one cut, one stop setting and one bundle at the job's exchange rate. */
export function labourRates(job: Job): LabourRates {
  const perMinute = job.aims.kgPerHour / 60;
  return {
    cut: (perMinute * job.saw.minutesPerCut) / job.saw.gang,
    stop: perMinute * job.saw.minutesPerStop,
    bundle: perMinute * job.bundle.minutesPerBundle,
  };
}

/** Minutes of work for so many cuts, stops and bundles. */
export function workMinutes(job: Job, cuts: number, stops: number, bundles: number): number {
  const { minutesPerCut, gang, minutesPerStop } = job.saw;
  return (cuts / gang) * minutesPerCut + stops * minutesPerStop + bundles * job.bundle.minutesPerBundle;
}
