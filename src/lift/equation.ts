/**
 * The revised NIOSH lifting equation (NIOSH publication 94-110), metric and continuous:
 *
 *   rwl = 23 kg × reach × height × travel × twist × pace × grip
 *
 * with reach 250/H (H in mm, at least 250; 0 over 630), height 1 − 0.0003·|V − 750| (0 over 1750), travel 0.82 + 45/D
 * (1 up to 250; 0 over 1750), twist 1 − 0.0032·A (A in degrees; 0 over 135), pace and grip from their tables. H is
 * horizontal from the middle of the ankles to the middle of the hands, V the height of the hands over the ground.
 *
 * It is a guide for nearly all healthy workers, not a limit for one person in particular, and it does not cover every way of lifting.
 */
import { PACE_READ, paceMultiplier, type Spell } from './pace.ts';

export type Grip = 'good' | 'fair' | 'poor';
export type Posture = 'standing' | 'kneeling' | 'seated';

/** One lift. Lengths mm: reach from the ankles, heights of the hands over the ground stood on (negative below it). */
export interface Lift {
  reach: number;
  start: number;
  end: number;
  /** At the end of the lift, where it differs from the beginning. */
  reachEnd?: number | undefined;
  /** Degrees away from straight ahead. */
  twist?: number | undefined;
  twistEnd?: number | undefined;
  perMinute?: number | undefined;
  spell?: Spell | undefined;
  grip?: Grip | undefined;
  posture?: Posture | undefined;
  hands?: 1 | 2 | undefined;
}

/** The six multipliers, each from 0 to 1. */
export interface Multipliers {
  reach: number;
  height: number;
  travel: number;
  twist: number;
  pace: number;
  grip: number;
}

/** One end of a lift: the recommended weight limit there, kg, and what made it. */
export interface LiftEnd {
  rwl: number;
  multipliers: Multipliers;
}

export interface LiftCaution {
  code: LiftCautionCode;
  about: string;
  text: string;
}

/** The answer: `guide`, kg, is the lesser end. Where `applies` is false it is no guide, and a caution says why. */
export interface LiftGuide {
  begin: LiftEnd;
  finish: LiftEnd;
  guide: number;
  applies: boolean;
  cautions: LiftCaution[];
}

/** A shorter reach is reckoned as this one, mm. */
export const LEAST_REACH = 250;

/** Load constant, kg. */
export const LOAD_CONSTANT = 23;

/** Why the method does not cover a lift, and what to do. DEVELOPERS.md lists the same codes. */
export const LIFT_CAUTIONS = {
  kneeling:
    'The method does not cover kneeling: no figure of it can be relied on here. Try with less, and state your own figure.',
  seated:
    'The method does not cover lifting while seated: no figure of it can be relied on here. Try with less, and state your own figure.',
  'one-hand':
    'The method does not cover lifting with one hand: no figure of it can be relied on here. Use both, or state your own figure.',
  'hands-below-feet':
    'The hands go below the feet, which the method does not cover: no figure of it can be relied on here. Try with less, and state your own figure.',
  'reach-over-630': 'The reach is over 630 mm, beyond the method: come nearer, slide the load first, or use a tackle.',
  'height-over-1750': 'The hands go over 1750 mm, beyond the method: stand higher, or use a tackle.',
  'travel-over-1750':
    'The load travels more than 1750 mm up or down, beyond the method: put it down halfway, or use a tackle.',
  'twist-over-135': 'The body twists more than 135 degrees, beyond the method: move the feet.',
  'over-8-hours': 'More than 8 hours of lifting are beyond the method: spread the work over days.',
  'too-fast': 'At this pace the method leaves no load at all: take more time between lifts, or work shorter spells.',
  'pace-from-memory':
    'What the method gives for more than 10 lifts a minute is entered here from memory, not compared with its print: do not rely on it; lift less often, or read the table yourself.',
} as const;

export type LiftCautionCode = keyof typeof LIFT_CAUTIONS;

/** The guide for one lift. */
export function guideLift(lift: Lift): LiftGuide {
  const { reachEnd = lift.reach, twist = 0 } = lift;
  const begin = liftEnd(lift, lift.reach, lift.start, twist);
  const finish = liftEnd(lift, reachEnd, lift.end, lift.twistEnd ?? twist);
  const beyond = beyondMethod(lift);
  const cautions = beyond.map((code): LiftCaution => ({ code, about: 'the lift', text: LIFT_CAUTIONS[code] }));
  if (Math.min(begin.multipliers.pace, finish.multipliers.pace) === 0)
    cautions.push({ code: 'too-fast', about: 'the pace', text: LIFT_CAUTIONS['too-fast'] });
  if ((lift.perMinute ?? 0) > PACE_READ)
    cautions.push({ code: 'pace-from-memory', about: 'the pace', text: LIFT_CAUTIONS['pace-from-memory'] });
  return { begin, finish, guide: Math.min(begin.rwl, finish.rwl), applies: beyond.length === 0, cautions };
}

function liftEnd(lift: Lift, reach: number, height: number, twist: number): LiftEnd {
  const travel = Math.abs(lift.end - lift.start);
  const multipliers: Multipliers = {
    reach: reach > 630 ? 0 : LEAST_REACH / Math.max(LEAST_REACH, reach),
    height: height > 1750 ? 0 : Math.max(0, 1 - 0.0003 * Math.abs(height - 750)),
    travel: travel > 1750 ? 0 : travel <= 250 ? 1 : 0.82 + 45 / travel,
    twist: twist > 135 ? 0 : 1 - 0.0032 * twist,
    pace: paceMultiplier(lift.perMinute ?? 0.2, lift.spell ?? 'short', height),
    grip: gripMultiplier(lift.grip ?? 'fair', height),
  };
  const { reach: h, height: v, travel: d, twist: a, pace: f, grip: c } = multipliers;
  return { rwl: LOAD_CONSTANT * h * v * d * a * f * c, multipliers };
}

/** good: the hand wraps round it; fair: fingers bent under it; poor: bulky, sharp or sagging. */
function gripMultiplier(grip: Grip, height: number): number {
  if (grip === 'poor') return 0.9;
  return grip === 'fair' && height < 750 ? 0.95 : 1;
}

function beyondMethod(lift: Lift): LiftCautionCode[] {
  const codes: LiftCautionCode[] = [];
  if (lift.posture === 'kneeling' || lift.posture === 'seated') codes.push(lift.posture);
  if (lift.hands === 1) codes.push('one-hand');
  if (Math.min(lift.start, lift.end) < 0) codes.push('hands-below-feet');
  if (Math.max(lift.reach, lift.reachEnd ?? 0) > 630) codes.push('reach-over-630');
  if (Math.max(lift.start, lift.end) > 1750) codes.push('height-over-1750');
  if (Math.abs(lift.end - lift.start) > 1750) codes.push('travel-over-1750');
  if (Math.max(lift.twist ?? 0, lift.twistEnd ?? 0) > 135) codes.push('twist-over-135');
  if (lift.spell === 'over-long') codes.push('over-8-hours');
  return codes;
}
