/** What to know before a whole void is lifted out to look at the hull: what comes off first, and how she floats meanwhile. */
import type { Weight } from '../../src/balance/moments.ts';
import { aboardNow } from '../../src/balance/recorded.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Job, Void } from '../../src/job/job.ts';
import { chocksOf } from '../../src/plan/chocks.ts';
import { massNow, type WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { type Recorded, recordIn } from '../../src/plan/record.ts';
import { many } from '../words.ts';

export interface BeforeOut {
  /** What comes off before the first bundle, as entered: `3 bars across and 1 strap`; empty where no hold-down is entered. */
  held: string;
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

/** Null where nothing of the void is in. `masses` are kg off the scale by bundle; `others` as {@link aboardNow} has them. */
export function beforeOut(
  job: Job,
  plan: Plan,
  record: Recorded,
  masses: WeighedMasses,
  name: string,
  others: readonly Weight[] = [],
): BeforeOut | null {
  const space = job.voids.find((own) => own.void === name);
  const own = plan.bundles.filter((one) => one.void === name && recordIn(record, one.bundle).state === 'in');
  const first = [...own].sort((p, q) => q.order - p.order)[0];
  if (!space || !first) return null;
  const gone = new Set(own.map(({ bundle }) => bundle));
  const left = aboardNow(job, plan, new Map([...record].filter(([bundle]) => !gone.has(bundle))), masses, others);
  const lies = new Set(own.map(({ order }) => order));
  return {
    held: heldBy(space),
    chocks: chocksOf(laidVoid(space, plan), plan).filter(({ after }) => lies.has(after)).length,
    bundles: own.length,
    mass: own.reduce((sum, one) => sum + massNow(one, masses), 0),
    first: first.bundle,
    effect: left.effect,
    last: left.in.bundles === 0,
  };
}

/** Bars across and straps that are entered to hold a void, counted; empty where there are none. */
export function heldBy(space: Void | undefined): string {
  const sum = (some: readonly { count: number }[] = []) => some.reduce((all, { count }) => all + count, 0);
  const bars = sum(space?.holdDown?.bars);
  const straps = sum(space?.holdDown?.straps);
  const parts = [bars > 0 ? `${many(bars, 'bar')} across` : '', straps > 0 ? many(straps, 'strap') : ''];
  return parts.filter((part) => part !== '').join(' and ');
}
