/** What to know before a whole void is lifted out to look at the hull: what comes off first, and how she floats meanwhile. */
import { aboardNow } from '../../src/balance/recorded.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Job, Void } from '../../src/job/job.ts';
import { chocksOf } from '../../src/plan/chocks.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { type Recorded, recordIn } from '../../src/plan/record.ts';

export interface BeforeOut {
  /** What comes off before the first bundle, as entered: bars across, straps; both 0 where no hold-down is entered. */
  bars: number;
  straps: number;
  chocks: number;
  /** What is in of it, kg off the scale where known, and the first to come out. */
  bundles: number;
  mass: number;
  first: string;
  /** What is then left in her does this; null where nothing is stated of her. */
  effect: string | null;
  /** Nothing of this plan would be left in her. */
  last: boolean;
}

/** Null where nothing of the void is in. `masses` are kg off the scale by bundle. */
export function beforeOut(
  job: Job,
  plan: Plan,
  record: Recorded,
  masses: ReadonlyMap<string, number>,
  name: string,
): BeforeOut | null {
  const space = job.voids.find((own) => own.void === name);
  const own = plan.bundles.filter((one) => one.void === name && recordIn(record, one.bundle).state === 'in');
  const first = [...own].sort((p, q) => q.order - p.order)[0];
  if (!space || !first) return null;
  const gone = new Set(own.map(({ bundle }) => bundle));
  const left = aboardNow(job, plan, new Map([...record].filter(([bundle]) => !gone.has(bundle))), masses);
  const lies = new Set(own.map(({ order }) => order));
  return {
    ...fittingsOf(space),
    chocks: chocksOf(laidVoid(space, plan), plan).filter(({ after }) => lies.has(after)).length,
    bundles: own.length,
    mass: own.reduce((sum, { bundle, mass }) => sum + (masses.get(bundle) ?? mass), 0),
    first: first.bundle,
    effect: left.effect,
    last: left.in.bundles === 0,
  };
}

function fittingsOf({ holdDown }: Void): { bars: number; straps: number } {
  const sum = (some: readonly { count: number }[] = []) => some.reduce((all, { count }) => all + count, 0);
  return { bars: sum(holdDown?.bars), straps: sum(holdDown?.straps) };
}
