/** What weights do to a vessel, in a sentence or two; and which way each void moves her roll. */
import type { Job, Vessel } from '../job/job.ts';
import { amount } from './amount.ts';
import { type Effect, effectOf, marksOf } from './float.ts';
import { hydrostaticsOf } from './hydrostatics.ts';
import { sumMoments, trialWeight, type Weight } from './moments.ts';
import { listNow, sideWords, sizeOf } from './present.ts';
import { isKnown, known, type Range } from './range.ts';

/** Smaller than these is told as none: cm, degrees, seconds, m of GM. */
const LEAST = { cm: 0.05, degrees: 0.05, seconds: 0.05, metres: 0.01 };

/** `Down 3.4 cm, 1.2 cm more by the head, no list, rolls in 3.1 s instead of 3.6 s.` Estimates are told as ranges. */
export function sentenceOf(effect: Effect): string {
  const parts: string[] = [];
  const reasons: string[] = [];
  if (effect.marks.kind === 'answer') {
    const { sinkage, trim } = effect.marks;
    parts.push(sinkage.likely >= 0 ? `down ${amount(sinkage, 1, 'cm')}` : `up ${amount(negative(sinkage), 1, 'cm')}`);
    parts.push(trimWords(trim));
  } else reasons.push(effect.marks.why);
  if (effect.stability.kind === 'answer') {
    const { gm, gmBefore, list, listBefore, period, periodBefore } = effect.stability;
    parts.push(listedWords(list, listBefore));
    const change = period.likely - periodBefore.likely;
    const [rolls, rolled] = [amount(period, 1, 's'), amount(periodBefore, 1, 's')];
    const isNear = Math.abs(change) < LEAST.seconds;
    parts.push(
      `rolls in ${rolls}${rolls === rolled ? ' as before' : isNear ? ', hardly changed' : ` instead of ${rolled}`}`,
    );
    // A quicker roll alone would read as more stability: weights near the middle make it quicker with less GM, too.
    if (gmBefore.likely - gm.likely > LEAST.metres)
      parts.push(`GM less, ${amount(gm, 2, 'm')} instead of ${amount(gmBefore, 2, 'm')}`);
  } else reasons.push(effect.stability.why);
  const answer = parts.length > 0 ? `${capital(parts.join(', '))}.` : '';
  return [answer, ...reasons].filter((part) => part !== '').join(' ');
}

/**
 * How she floats with `aboard` in her since `moved` went in, or came out (of negative mass): her marks against those before
 * the first of them, her list and roll as they then are. `Forward up 1.4 cm, aft up 0.6 cm; no list, rolls in 3.4 s, GM
 * 0.66 m.`
 */
export function meanwhileOf(vessel: Vessel, aboard: readonly Weight[], moved: readonly Weight[]): string {
  const marks = marksOf(hydrostaticsOf(vessel), sumMoments(moved));
  const { stability } = effectOf(vessel, aboard);
  const parts = marks.kind === 'answer' ? [`forward ${markWords(marks.forward)}, aft ${markWords(marks.aft)}`] : [];
  if (stability.kind === 'answer') {
    const { list, period, gm } = stability;
    parts.push(`${listWords(list)}, rolls in ${amount(period, 1, 's')}, GM ${amount(gm, 2, 'm')}`);
  }
  const reasons = [marks, stability].flatMap((answer) => (answer.kind === 'none' ? [answer.why] : []));
  return [...(parts.length > 0 ? [`${capital(parts.join('; '))}.`] : []), ...reasons].join(' ');
}

function markWords(change: Range): string {
  if (!isKnown(change) && change.low < 0 && change.high > 0)
    return `from ${(-change.low).toFixed(1)} cm up to ${change.high.toFixed(1)} cm down`;
  if (Math.abs(change.likely) < LEAST.cm) return 'as before';
  return change.likely < 0 ? `up ${amount(negative(change), 1, 'cm')}` : `down ${amount(change, 1, 'cm')}`;
}

function trimWords(trim: Range): string {
  if (!isKnown(trim) && trim.low < 0 && trim.high > 0) {
    return `trim from ${(-trim.low).toFixed(1)} cm more by the stern to ${trim.high.toFixed(1)} cm more by the head`;
  }
  if (Math.abs(trim.likely) < LEAST.cm) return 'trim as before';
  return trim.likely > 0
    ? `${amount(trim, 1, 'cm')} more by the head`
    : `${amount(negative(trim), 1, 'cm')} more by the stern`;
}

/** What is told alike before and after is as before. */
function listedWords(list: Range, before: number | null): string {
  const told = listWords(list);
  if (!before) return told;
  if (told !== listWords(known(before))) return `${told} instead of ${listNow(before)}`;
  return told === NO_LIST ? told : `${told} as before`;
}

const NO_LIST = 'no list';

/** `lists 1.0° to port`, `no list`: that is what prints as nought, and a range that is hardly more. */
export function listWords(list: Range): string {
  const isNought = Math.abs(list.likely) < LEAST.degrees;
  if (isNought && Math.max(-list.low, list.high) < 2 * LEAST.degrees) return NO_LIST;
  if (-list.low >= LEAST.degrees && list.high >= LEAST.degrees)
    return `list from ${(-list.low).toFixed(1)}° to port to ${list.high.toFixed(1)}° to starboard`;
  return `lists ${amount(sizeOf(list), 1, '°')} ${sideWords(list.likely)}`;
}

function negative(range: Range): Range {
  return { low: -range.high, likely: -range.likely, high: -range.low };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** Which way a little weight in a void moves the roll period. */
export interface RollOfVoid {
  void: string;
  way: 'quicker' | 'slower' | 'no change';
  /** Seconds more or less for `mass` kg. */
  change: number;
}

/** For `mass` kg in each void on its own, both sides alike in a pair: which way the roll period goes. Null where it can not be told. */
export function rollByVoid(job: Job, mass: number): RollOfVoid[] | null {
  if (!job.vessel) return null;
  const vessel = job.vessel;
  const changes: RollOfVoid[] = [];
  for (const place of job.voids) {
    const weight = trialWeight(place, mass, job.steel.density);
    // Half on either side: the list that one void alone would give is not what is asked here.
    const halves = [
      { ...weight, mass: mass / 2 },
      { ...weight, mass: mass / 2, y: -weight.y },
    ];
    const { stability } = effectOf(vessel, halves);
    if (stability.kind !== 'answer') return null;
    const change = stability.period.likely - stability.periodBefore.likely;
    const way = Math.abs(change) < 0.001 ? 'no change' : change < 0 ? 'quicker' : 'slower';
    changes.push({ void: place.void, way, change });
  }
  return changes;
}
