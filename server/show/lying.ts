/** Where bundles lie in their void, in words and figures: what its drawings show, for who can not see them. */
import { rangesOf } from '../../src/drawing/voidLong.ts';
import { DRAWING_WORDS } from '../../src/drawing/words.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import type { Axis } from '../../src/stow/laid.ts';
import type { Words } from '../words.ts';

export interface Lying {
  along: string;
  across: string;
  up: string;
}

/** From where each is counted, as heads of a table. */
export const LYING_FROM: Readonly<Record<Axis, Lying>> = {
  'fore-and-aft': { along: 'From the after end', across: 'From the middle line of the void', up: 'Above the bottom' },
  athwartships: {
    along: 'From the port side',
    across: 'From the middle of the void',
    up: 'Above the bottom',
  },
};

export function lyingOf({ at, size }: PlanBundle, axis: Axis, { millimetres }: Pick<Words, 'millimetres'>): Lying {
  const between = (from: number, to: number): string => `${millimetres(from)} to ${millimetres(to)}`;
  const sides = DRAWING_WORDS.sides[axis];
  const to = axis === 'athwartships' ? '' : 'to ';
  const [left, right] = [at.across, at.across + size.across];
  let across = `${millimetres(-left)} ${to}${sides.least} and ${millimetres(right)} ${to}${sides.most}`;
  if (left >= 0) across = `${between(left, right)} ${to}${sides.most}`;
  else if (right <= 0) across = `${between(-right, -left)} ${to}${sides.least}`;
  return { along: between(at.along, at.along + size.along), across, up: between(at.up, at.up + size.up) };
}

/** A run of a void: its end nearer the after end or the port side, the other, and its bundles by their loading order, tier by tier. */
export interface RunLying {
  run: number;
  from: number;
  to: number;
  tiers: { tier: number; bundles: string }[];
}

export function runsLying(plan: Plan, bundles: readonly PlanBundle[]): RunLying[] {
  return plan.runs.flatMap(({ void: name, run, from, to }) => {
    const own = bundles.filter((bundle) => bundle.void === name && bundle.run === run);
    const tiers = [...new Set(own.map(({ tier }) => tier))].sort((p, q) => p - q);
    const numbers = (n: number): string =>
      rangesOf(own.flatMap(({ tier, order }) => (tier === n ? [order] : []))).replaceAll('–', ' to ');
    return own.length === 0 ? [] : [{ run, from, to, tiers: tiers.map((tier) => ({ tier, bundles: numbers(tier) })) }];
  });
}
