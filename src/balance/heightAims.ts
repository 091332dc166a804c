/**
 * How high ballast must lie for a GM or a roll wanted. A GM follows from heights alone; a roll also from how far out the
 * ballast lies, and is sought with the very formulas that foretell it (float.ts).
 */
import type { Vessel, WantedEffect } from '../job/job.ts';
import { GM_LEAST, type Rolling, rollingOf } from './float.ts';
import { hydrostaticsOf } from './hydrostatics.ts';
import type { Weight } from './moments.ts';

/** A GM is met within this share; a roll, which goes with the root of GM, within half of it. */
export const GM_SHARE = 0.05;
export const PERIOD_SHARE = GM_SHARE / 2;
/** But where a greater change is wanted, by no less than this share of the change. */
const OF_CHANGE = 0.5;

/** How far from `wanted` it is still met, `now` being what she has. */
export function toleranceOf(wanted: number, now: number, share: number): number {
  const most = share * wanted;
  const change = Math.abs(wanted - now);
  return change <= most ? most : Math.min(most, OF_CHANGE * change);
}

/** Heights are tried in steps of this, m, up to so many times the height of her own centre of gravity. */
const STEP = 0.005;
const HIGHEST = 2;
/** A GM that becomes less by this is told, m. */
const TOLD = 0.005;

export interface HeightAims {
  /** From and to which height above the keel the ballast's centre may lie, m; null where none does it. */
  z: [number, number] | null;
  /** GM in the middle of that, m. */
  gm: number | null;
  working: string[];
  impossible: string[];
  doubts: string[];
}

/** What is put in her: `across` is the r.m.s. distance of the ballast from the centreline, m; `already` what else lies in her voids. */
export interface Put {
  ballast: number;
  across: number;
  already: readonly Weight[];
}

/** Null where neither a GM nor a roll is wanted, or her own figures do not tell. A GM goes before a roll. */
export function heightAims(
  vessel: Vessel,
  { gm, period }: Pick<WantedEffect, 'gm' | 'period'>,
  { ballast, across, already }: Put,
): HeightAims | null {
  const rolling = rollingOf(vessel);
  if (!rolling || (gm === undefined && (period === undefined || rolling([]).period === null))) return null;
  const at = (z: number): Rolling => rolling([...already, { mass: ballast, x: 0, y: across, z }]);
  const highest = HIGHEST * hydrostaticsOf(vessel).vcg!.likely;
  const now = rolling([]);
  const z =
    gm !== undefined
      ? heightsOfGm(gm, toleranceOf(gm, now.gm, GM_SHARE), at)
      : heightsOfRoll(period!, toleranceOf(period!, now.period!, PERIOD_SHARE), at, highest);
  const what = gm !== undefined ? `GM ${gm.toFixed(2)} m` : `A roll of ${period} s`;
  const none = { z: null, gm: null, working: [], doubts: [] };
  if (!z) return { ...none, impossible: [whyNoRoll(period!, at, highest)] };
  const working = [`${what} asks for a centre ${z[0].toFixed(2)} to ${z[1].toFixed(2)} m above the keel.`];
  if (z[1] <= 0)
    return {
      ...none,
      working,
      impossible: ['That GM asks for a centre below the keel: it can not be had by inside ballast of this weight.'],
    };
  const low = Math.max(0, z[0]);
  const then = at((low + z[1]) / 2).gm;
  if (gm === undefined) working.push(`Her GM is ${then.toFixed(2)} m then; it is ${now.gm.toFixed(2)} m now.`);
  const impossible =
    then < GM_LEAST
      ? [
          `${what} leaves her a GM under ${GM_LEAST.toFixed(2)} m: too little for these formulas, and perhaps dangerous.`,
        ]
      : [];
  return { z: [low, z[1]], gm: then, working, impossible, doubts: lowered(now.gm, then) };
}

/** GM falls along a line as the ballast lies higher. */
function heightsOfGm(gm: number, within: number, at: (z: number) => Rolling): [number, number] {
  const [low, high] = [at(0).gm, at(1).gm];
  const heightFor = (wanted: number) => (low - wanted) / (low - high);
  return [heightFor(gm + within), heightFor(Math.max(gm - within, Math.min(gm, GM_LEAST)))];
}

/** The lowest heights in a row that give the roll; null where none does. */
function heightsOfRoll(
  period: number,
  within: number,
  at: (z: number) => Rolling,
  highest: number,
): [number, number] | null {
  let found: [number, number] | null = null;
  for (let n = 0; n * STEP <= highest; n++) {
    const z = n * STEP;
    const { gm, period: rolls } = at(z);
    const meets = gm >= GM_LEAST && Math.abs(rolls! - period) <= within;
    if (!meets && found) return found;
    if (meets) found = [found?.[0] ?? z, z];
  }
  return found;
}

function whyNoRoll(period: number, at: (z: number) => Rolling, highest: number): string {
  const what = `A roll of ${period} s can not be had by inside ballast of this weight`;
  const [low, high] = [at(0), at(highest)];
  if (low.period! > period) return `${what}: on the keel itself it leaves her ${low.period!.toFixed(1)} s.`;
  return high.gm >= GM_LEAST
    ? `${what}: even ${highest.toFixed(1)} m above the keel it leaves her ${high.period!.toFixed(1)} s.`
    : `${what} with a GM of ${GM_LEAST.toFixed(2)} m left: less is too little for these formulas, and perhaps dangerous.`;
}

/** A slower roll, or a GM that is less than hers, is had by giving up stability: never in silence. */
function lowered(now: number, then: number): string[] {
  if (then > now - TOLD) return [];
  return [
    `That LOWERS her GM from ${now.toFixed(2)} to ${then.toFixed(2)} m: she rolls easier because she has less stability. Ask a naval architect before anything is raised.`,
  ];
}
