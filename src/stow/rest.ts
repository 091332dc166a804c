/** What a run rests on, and how much may stand there: bearers under the ground tier, and the most for each metre. Mm, kg. */
import type { Bearer } from '../job/job.ts';
import type { LaidVoid } from './laid.ts';
import type { Layout } from './layout.ts';
import type { Steel } from './steel.ts';

/** Whether bundles may stand on a stretch, and what all of them together may weigh, kg. */
export interface Rest {
  stands: boolean;
  most: number;
}

/** A bundle may lie this share of its length past the outer bearer. */
export const PAST = 0.25;
/** A stiff bundle over three bearers and more loads the inner ones so much more than cut at each of them. */
const INNER = 1.25;
/** Runs that may lie closer than this to each other may have one bearer under the end of both, mm. */
const TOUCHING = 1;
/** Masses are reckoned to this, kg. */
const KG = 1e-6;

/**
 * The rest of bundles that lie from `from` to `to`. On bearers: two or more whose middles lie under them, their own middle
 * between the first and the last, no more than a quarter of the length past either.
 */
export function restOf({ bearers, mostPerMetre, gap }: LaidVoid, from: number, to: number): Rest {
  const length = to - from;
  const most = mostPerMetre === undefined ? Number.POSITIVE_INFINITY : (mostPerMetre * length) / 1000;
  if (!bearers) return { stands: true, most };
  const sorted = [...bearers].sort((p, q) => p.along - q.along);
  const places = sorted.map(({ along }) => along);
  if (!standsOn(places, from, to, 0)) return { stands: false, most: 0 };
  const under = sorted.filter(({ along }) => along >= from && along <= to);
  // A bearer under the end of two runs bears both: half of what it may is each one's.
  const own = under.map((bearer): Bearer => {
    const isShared = gap.runs < TOUCHING && Math.min(bearer.along - from, to - bearer.along) < TOUCHING;
    return isShared && bearer.most !== undefined ? { ...bearer, most: bearer.most / 2 } : bearer;
  });
  return { stands: true, most: Math.min(most, mostOn(own, from, to)) };
}

/** True where bundles from `from` to `to` rest well on bearers at these places, rising, `slack` mm forgiven in each rule. */
export function standsOn(places: number[], from: number, to: number, slack: number): boolean {
  let first = 0;
  while (first < places.length && places[first]! < from - slack) first++;
  let last = places.length - 1;
  while (last >= 0 && places[last]! > to + slack) last--;
  if (last <= first) return false;
  const middle = (from + to) / 2;
  if (middle < places[first]! - slack || middle > places[last]! + slack) return false;
  return Math.max(places[first]! - from, to - places[last]!) <= PAST * (to - from) + slack + 1e-9;
}

/** What may weigh on bearers, so that none carries more than its own most. */
function mostOn(under: Bearer[], from: number, to: number): number {
  const shares = under.map(() => 0);
  for (let n = 0; n + 1 < under.length; n++) {
    const [p, q] = [under[n]!.along, under[n + 1]!.along];
    const start = n === 0 ? from : p;
    const end = n + 2 === under.length ? to : q;
    const onNext = q > p ? ((start + end) / 2 - p) / (q - p) : 0.5;
    const part = (end - start) / (to - from);
    shares[n]! += part * (1 - onNext) * (n === 0 ? 1 : INNER);
    shares[n + 1]! += part * onNext * (n + 2 === under.length ? 1 : INNER);
  }
  const limits = under.map(({ most }, i) =>
    most === undefined || shares[i]! <= 0 ? Number.POSITIVE_INFINITY : most / shares[i]!,
  );
  return Math.min(...limits) - KG;
}

/** True where no run of a layout weighs more than what it rests on bears. `along`: size along of bundles of a length, mm. */
export function isBorne(
  { laid, runs }: Layout,
  steels: Steel[],
  wrapping: number,
  along: (length: number) => number,
): boolean {
  if (!laid.bearers && laid.mostPerMetre === undefined) return true;
  return runs.every(({ from, stack }) => {
    const mass = stack.bars.reduce(
      (sum, bars, steel) => sum + (bars * steels[steel]!.heaviest * stack.length) / 1000,
      stack.bundles * wrapping,
    );
    return mass <= restOf(laid, from, from + along(stack.length)).most;
  });
}
