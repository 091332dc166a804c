/** What is left over each limit of a vessel after weights are added, level and at the list they give her. */
import type { Vessel } from '../job/job.ts';
import { fixed } from '../units.ts';
import type { Effect, Marks } from './float.ts';
import { tangentOf } from './present.ts';
import { isKnown, mapRange, overCorners, type Range } from './range.ts';

/** `left` is what remains above the limit: kg or m as `unit` says; under nought the limit is passed. */
export interface Margin {
  what: string;
  unit: 'kg' | 'm';
  left: Range;
  /** At the list that the weights give her; null where that is unknown or does not bear on it. */
  listed: Range | null;
  holds: boolean;
  text: string;
}

const CM_IN_M = 100;

/** Every limit that was stated and can be answered; what can not is named in `unanswered`. */
export function marginsOf(vessel: Vessel, effect: Effect): { margins: Margin[]; unanswered: string[] } {
  const margins: Margin[] = [];
  const unanswered: string[] = [];
  const { mass } = effect.moments;
  if (vessel.displacementMost !== undefined && vessel.displacement !== undefined) {
    const left = vessel.displacementMost - vessel.displacement - mass;
    margins.push(margin('What she may still carry', 'kg', { low: left, likely: left, high: left }, null));
  } else {
    unanswered.push(
      'What she displaces now and the most that she may displace are not both stated: what she may still carry is not known.',
    );
  }

  const { marks } = effect;
  if (marks.kind !== 'answer') return { margins, unanswered: [...unanswered, marks.why] };
  const tangent = effect.stability.kind === 'answer' ? mapRange(effect.stability.list, tangentOf) : null;
  const tangentNow = tangentOf(vessel.list ?? 0);

  if (vessel.freeboard !== undefined && vessel.freeboardLeast !== undefined) {
    const spare = vessel.freeboard - vessel.freeboardLeast;
    // Where along her side the least freeboard lies is not known: the end that goes down most is taken.
    const down = greater(marks.forward, marks.aft);
    const left = mapRange(down, (cm) => spare - cm / CM_IN_M);
    const listed = tangent && vessel.beam !== undefined ? lessHeel(left, tangent, vessel.beam / 2) : null;
    margins.push(margin('Freeboard over the least allowed', 'm', left, listed));
  } else {
    unanswered.push('Her freeboard now and the least allowed are not both stated: what is left of it is not known.');
  }

  const length = vessel.waterlineLength;
  for (const opening of vessel.openings ?? []) {
    if (length === undefined) {
      unanswered.push(`How far “${opening.name}” goes down: the waterline length is not stated.`);
      continue;
    }
    // Its height was read at the list that she has now.
    const upright = opening.height + (tangent ? opening.y * tangentNow : 0);
    const left = overCorners({ forward: marks.forward, aft: marks.aft }, (v) => {
      const here = v.aft + ((v.forward - v.aft) * opening.x) / length;
      return upright - here / CM_IN_M;
    });
    const listed = tangent ? overCorners({ left, tangent }, (v) => v.left - opening.y * v.tangent) : null;
    const side = tangent && opening.y * tangent.likely < 0 ? 'high' : 'low';
    margins.push(margin(`“${opening.name}” above the water`, 'm', left, listed, side));
  }
  return { margins, unanswered };
}

/** `side`: on which side of her it lies at the list she takes. */
function margin(what: string, unit: 'kg' | 'm', left: Range, listed: Range | null, side = 'low'): Margin {
  const worst = Math.min(left.low, listed?.low ?? left.low);
  const holds = worst >= 0;
  const figure = (range: Range) => leftOf(range, unit);
  const heels = listed !== null && Math.abs(listed.likely - left.likely) >= 0.005;
  const words = heels
    ? `${figure(listed)} on the ${side} side at the list she takes, upright ${figure(left)}`
    : figure(left);
  // Upright is a state that she may come to: what is too little there alone may not be enough.
  const [never, perhaps] = unit === 'kg' ? ['TOO HEAVY', 'MAY BE TOO HEAVY'] : ['NOT ENOUGH', 'MAY NOT BE ENOUGH'];
  const verdict = holds ? '' : `: ${(listed ?? left).high < 0 ? never : perhaps}`;
  return { what, unit, left, listed, holds, text: `${what}: ${words}${verdict}.` };
}

/**
 * `0.13 m`, `0.02 m too little`, `798 kg over`; a range whose ends lie on both sides of nought has the sign. What is left
 * goes down to the last figure told, and what is too little or over goes up.
 */
function leftOf(range: Range, unit: 'kg' | 'm'): string {
  const digits = unit === 'kg' ? 0 : 2;
  if (range.high < 0) {
    const beyond = figures({ low: -range.high, likely: -range.likely, high: -range.low }, digits, 'up');
    return unit === 'kg' ? `nothing, she is ${beyond} kg over` : `${beyond} m too little`;
  }
  // What is less than the last figure told is not told as nought.
  const smallest = 10 ** -digits;
  if (range.high > 0 && range.low >= 0 && fixed(range.high, digits, 'down') === fixed(0, digits))
    return `less than ${smallest} ${unit}`;
  return `${figures(range, digits, 'down')} ${unit}`;
}

/** One figure where it is known or both ends are told alike. The lesser the worse: under nought its size goes the other way. */
function figures(range: Range, digits: number, towards: 'up' | 'down'): string {
  const told = (value: number) => fixed(value, digits, value < 0 ? 'up' : towards);
  const [low, high] = [told(range.low), told(range.high)];
  return isKnown(range) || low === high ? told(range.likely) : `${low} to ${high}`;
}

/** The low side loses `arm` × |tangent|, whichever side that is. */
function lessHeel(left: Range, tangent: Range, arm: number): Range {
  const heel = { low: 0, likely: Math.abs(tangent.likely), high: Math.max(-tangent.low, tangent.high, 0) };
  return overCorners({ left, heel }, (v) => v.left - arm * v.heel);
}

function greater(forward: Marks['forward'], aft: Marks['aft']): Range {
  return {
    low: Math.max(forward.low, aft.low),
    likely: Math.max(forward.likely, aft.likely),
    high: Math.max(forward.high, aft.high),
  };
}
