/** What becomes of pieces that were cut already by a plan before: tied as long as they are, cut once more, or not used. */
import type { Job } from '../job/job.ts';
import { barLengths, lotMassPerMetre } from '../job/lot.ts';
import { isOfCutPieces } from './lotsLeft.ts';
import type { Plan, PlanBar } from './plan.ts';

export interface CutAgain {
  pieces: number;
  /** Tied as long as they are. */
  whole: number;
  /** Cut once more. */
  again: number;
  /** kg that come off those and are scrap. */
  scrap: number;
}

/** A piece no longer than this over what is tied of it is tied as it is, mm. */
const AS_IT_IS = 0.05;

/** True of a bar that is one piece as it is. */
export function needsNoCut({ length, pieces: [first, ...more] }: PlanBar): boolean {
  return first !== undefined && more.length === 0 && length - (first.to - first.from) <= AS_IT_IS;
}

/** Null where the job has no lot of cut pieces, as a rest has them. */
export function cutAgain(job: Job, plan: Plan): CutAgain | null {
  const lots = new Map(job.pile.filter(isOfCutPieces).map((lot) => [lot.lot, lot]));
  if (lots.size === 0) return null;
  const told = { pieces: 0, whole: 0, again: 0, scrap: 0 };
  for (const lot of lots.values()) told.pieces += barLengths(lot).length;
  for (const bar of plan.bars) {
    const lot = lots.get(bar.lot);
    if (!lot) continue;
    if (needsNoCut(bar)) {
      told.whole += 1;
      continue;
    }
    told.again += 1;
    const scrap = bar.remainders.reduce((sum, { from, to, fate }) => sum + (fate === 'scrap' ? to - from : 0), 0);
    told.scrap += (scrap * lotMassPerMetre(lot, job.steel.density)) / 1000;
  }
  return told;
}

/** `Of 64 pieces cut before, 12 are tied as they are, 40 are cut again (11.2 kg of it scrap) and 12 are not used.` */
export function tellCutAgain({ pieces, whole, again, scrap }: CutAgain): string {
  const are = (count: number) => (count === 1 ? '1 is' : `${count} are`);
  const lost = again === 0 ? '' : ` (${scrap.toFixed(1)} kg of it scrap)`;
  const of = `Of ${pieces === 1 ? '1 piece' : `${pieces} pieces`} cut before`;
  return `${of}, ${are(whole)} tied as long as cut, ${are(again)} cut again${lost} and ${are(pieces - whole - again)} not used.`;
}
