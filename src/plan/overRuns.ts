/**
 * Bundles that stand higher than the run beside theirs: no chock can stand against that run to keep them from sliding
 * lengthwise over it, and none is on the list. Whoever stows must know, since what blocks an end of the void does not reach
 * them.
 */
import { CAUTIONS, tell } from './cautionList.ts';
import type { Caution, PlanBundle } from './plan.ts';
import { markRanges } from './stops.ts';

export interface OverRun {
  run: number;
  /** The run over which they could slide. */
  beside: number;
  bundles: PlanBundle[];
}

/** What faces a bundle over so much of its height keeps it, mm, or over half of it where that is less. */
const LEAST_FACING = 15;

/** Of each two runs side by side, from along 0 on, those of one that nothing in the other faces so far up. */
export function overRuns(bundles: readonly PlanBundle[], name: string): OverRun[] {
  const own = bundles.filter((bundle) => bundle.void === name);
  const runs = [...new Set(own.map(({ run }) => run))].sort((p, q) => p - q);
  const pairs = runs.slice(1).flatMap((run, n) => [
    { run: runs[n]!, beside: run },
    { run, beside: runs[n]! },
  ]);
  return pairs.flatMap(({ run, beside }): OverRun[] => {
    const facing = own.filter((bundle) => bundle.run === beside);
    const over = own.filter((bundle) => bundle.run === run && isOver(bundle, facing));
    return over.length > 0 ? [{ run, beside, bundles: over }] : [];
  });
}

/** The same in sentences, each with what to do about it. */
export function overRunLines(bundles: readonly PlanBundle[], name: string): string[] {
  return overRunTexts(bundles, name).map((text) => `${text} ${CAUTIONS['slides-over'].remedy}`);
}

/** Every void with such bundles has its caution. */
export function overRunCautions(bundles: readonly PlanBundle[]): Caution[] {
  return [...new Set(bundles.map((bundle) => bundle.void))].flatMap((name) => {
    const texts = overRunTexts(bundles, name);
    return texts.length > 0 ? [tell('slides-over', `void ${name}`, texts.join(' '))] : [];
  });
}

function overRunTexts(bundles: readonly PlanBundle[], name: string): string[] {
  return overRuns(bundles, name).map(({ run, beside, bundles: over }) => {
    const marks = markRanges(over.map(({ bundle }) => bundle)).join(', ');
    const [stand, them] = over.length > 1 ? ['stand', 'them'] : ['stands', 'it'];
    return `${marks} of run ${run} ${stand} higher than run ${beside} beside ${them}: nothing keeps ${them} from sliding over that run, and no chock of the list can.`;
  });
}

function isOver({ at, size }: PlanBundle, facing: readonly PlanBundle[]): boolean {
  const least = at.up + Math.min(LEAST_FACING, size.up / 2);
  return facing.every(
    (other) =>
      other.at.up + other.size.up < least ||
      other.at.across >= at.across + size.across ||
      other.at.across + other.size.across <= at.across,
  );
}
