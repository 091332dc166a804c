/**
 * What added weights do to a vessel at small angles: sinkage, trim, list, GM and roll period.
 *
 * With w the mass added at (x, y, z), W her displacement before, L the waterline, F the centre of flotation:
 * sinkage = w/kgPerCm; change of trim = w·(x − F)/kgmPerCm, by the head where positive; at the forward end
 * sinkage + trim·(L − F)/L, at the after end sinkage − trim·F/L; KG′ = (W·KG + Σw·z)/(W + w);
 * GM′ = (W·GM + Σw·(T − z))/(W + w) with T her mean draught, her sides taken as upright where the water meets them, or
 * with KM held for T where no draught is stated, which is GM′ = GM + KG − KG′ (`stiffensBelow`);
 * tan(list) = (M + Σw·y)/((W + w)·GM′), to starboard where positive, with M = W·GM·tan(list before)
 * the moment of the list that she has already (present.ts); where none is stated she is taken as upright before.
 * The textbook forms of ship stability, as confirmed by worked examples; the roll formulas are in roll.ts.
 */
import type { Vessel } from '../job/job.ts';
import { meanDraught } from '../job/meanDraught.ts';
import { stiffensBelow } from '../plan/aboard.ts';
import { amount } from './amount.ts';
import { type Hydrostatics, hydrostaticsOf } from './hydrostatics.ts';
import { lackedForMarks, lackedForStability } from './lacking.ts';
import { type Moments, spreadAbout, sumMoments, type Weight } from './moments.ts';
import { listNow, type PresentList, presentList, type Stiffness, sizeOf, stiffnessOf, tangentOf } from './present.ts';
import { isKnown, known, overCorners, type Range } from './range.ts';
import { coefficientFrom, gmFromPeriod, gmOf, periodFromGm, periodOf, ROLL_COEFFICIENT, rollGyradius } from './roll.ts';

/** An answer, or why there is none: something unknown, or outside of what these formulas can say. */
export type Answer<T> = ({ kind: 'answer' } & T) | { kind: 'none'; why: string; remedy: string };

/** Changes at the ends of the waterline, cm, down positive; trim by the head positive. */
export interface Marks {
  sinkage: Range;
  trim: Range;
  forward: Range;
  aft: Range;
}

/** `list` in degrees, to starboard positive; `period` in seconds, before and after. */
export interface Stability {
  vcg: Range;
  gmBefore: Range;
  gm: Range;
  /** Null where none was stated: she is taken as upright then. */
  listBefore: number | null;
  list: Range;
  periodBefore: Range;
  period: Range;
  /** Where GM came from. */
  source: Stiffness['source'];
}

export interface Effect {
  /** Of the weights added alone. */
  moments: Moments;
  /** The list that she has before, and its moment; null where none is stated. */
  present: PresentList | null;
  /** r.m.s. distance of the added weights from the centre of flotation, m; null where that is unknown. */
  spread: number | null;
  marks: Answer<Marks>;
  stability: Answer<Stability>;
  /** What was taken for granted, in sentences. */
  assumed: string[];
}

/** Beyond these the formulas are not to be trusted, and no number is given. */
const LIST_MOST = 7;
export const GM_LEAST = 0.1;

/** The effect of `added` weights on `vessel`. Estimates carry their range into every figure. */
export function effectOf(vessel: Vessel, added: readonly Weight[]): Effect {
  const hydro = hydrostaticsOf(vessel);
  const moments = sumMoments(added);
  const present = presentList(vessel, hydro);
  const stability = stabilityOf(vessel, hydro, moments, added);
  return {
    moments,
    present,
    spread: hydro.lcf ? spreadAbout(added, hydro.lcf.likely) : null,
    marks: marksOf(hydro, moments),
    stability,
    assumed: [
      'Small angles and small changes: the hydrostatics are those of the waterline she floats at now.',
      ...(stability.kind === 'answer' ? [stiffnessWords(vessel)] : []),
      restWords(present),
      ...(stability.kind === 'answer' && hydro.beam ? rollWords(vessel, stability, hydro.beam) : []),
      ...hydro.estimates,
    ],
  };
}

/** Which roll coefficient was reckoned with, and where GM came from if it hangs on it. */
function rollWords(vessel: Vessel, { gmBefore, source }: Stability, beam: Range): string[] {
  const coefficient = amount(rollCoefficient(vessel, gmBefore, beam), 2, '');
  if (source === 'stated' && vessel.rollPeriod !== undefined)
    return [`Her roll coefficient is her own, ${coefficient}, from the GM and the timed roll that are stated.`];
  const words = `Her roll is reckoned with a coefficient of ${coefficient}: a default, not confirmed for her. Other vessels were measured at 0.73 to 0.88, some fishing hulls are told at 0.60 to 0.95. GM from a weight moved across and a timed roll, both stated, give her own.`;
  return source === 'timed roll' ? [`GM is from the timed roll: ${amount(gmBefore, 2, 'm')}.`, words] : [words];
}

function stiffnessWords(vessel: Vessel): string {
  return meanDraught(vessel) === null
    ? 'No draught is stated, so that KM is held: in truth it falls as she sinks, and with much ballast her GM comes out less, and a list more, than is told here. State her draughts.'
    : 'GM as she sinks: her sides are taken as upright where the water meets them. Where they flare out she keeps a little more, where they fall in a little less.';
}

function restWords(present: PresentList | null): string {
  if (!present || present.degrees === 0) return 'She floats upright and at rest before anything is added.';
  const { degrees, moment } = present;
  const before = `She floats at rest and lists ${listNow(degrees)} before anything is added`;
  if (!moment) return `${before}; that is not counted, since her displacement or her GM is not known.`;
  return `${before}: a moment of ${amount(sizeOf(moment), 0, 'kg·m')}, which counts with what is added, and stays.`;
}

/** What added moments do to the marks; the likely figures are linear in mass and moment. */
export function marksOf(hydro: Hydrostatics, moments: Moments): Answer<Marks> {
  const { lcf, waterlineLength, kgPerCm, kgmPerCm } = hydro;
  if (!lcf || !waterlineLength || !kgPerCm || !kgmPerCm) {
    return { kind: 'none', ...lackedForMarks(hydro) };
  }
  const { mass, alongMoment } = moments;
  type Values = { lcf: number; length: number; perCm: number; trimPerCm: number };
  const inputs = { lcf, length: waterlineLength, perCm: kgPerCm, trimPerCm: kgmPerCm };
  const sinkage = (v: Values): number => mass / v.perCm;
  const trim = (v: Values): number => (alongMoment - mass * v.lcf) / v.trimPerCm;
  return {
    kind: 'answer',
    sinkage: overCorners(inputs, sinkage),
    trim: overCorners(inputs, trim),
    forward: overCorners(inputs, (v) => sinkage(v) + (trim(v) * (v.length - v.lcf)) / v.length),
    aft: overCorners(inputs, (v) => sinkage(v) - (trim(v) * v.lcf) / v.length),
  };
}

function stabilityOf(
  vessel: Vessel,
  hydro: Hydrostatics,
  moments: Moments,
  added: readonly Weight[],
): Answer<Stability> {
  const { displacement, vcg, beam } = hydro;
  const stiffness = stiffnessOf(vessel, hydro);
  if (!displacement || !vcg || !beam || !stiffness) {
    return { kind: 'none', ...lackedForStability(vessel, hydro) };
  }
  const { gm: gmBefore, source } = stiffness;
  const listBefore = vessel.list ?? null;
  if (Math.abs(listBefore ?? 0) > LIST_MOST) {
    return {
      kind: 'none',
      why: `She lists more than ${LIST_MOST}° now, where these formulas no longer hold.`,
      remedy: 'Bring her nearer to upright first by moving what can be moved, and read her list again.',
    };
  }
  const { mass, acrossMoment } = moments;
  const coefficient = rollCoefficient(vessel, gmBefore, beam);
  const inputs = { displacement, vcg, gm: gmBefore, beam, coefficient };
  const vcgAfter = (v: Own): number => vcgWith(v, moments);
  const gmAfter = (v: Own): number => gmWith(vessel, v, moments);
  const before = tangentOf(listBefore ?? 0);
  const tangent = (v: Own): number =>
    (v.displacement * v.gm * before + acrossMoment) / ((v.displacement + mass) * gmAfter(v));

  const gm = overCorners(inputs, gmAfter);
  const refusal = refuse(gmBefore, 'as she is now') ?? refuse(gm, 'with this weight');
  if (refusal) return refusal;
  const list = overCorners(inputs, (v) => (Math.atan(tangent(v)) * 180) / Math.PI);
  if (Math.max(-list.low, list.high) > LIST_MOST) {
    return {
      kind: 'none',
      why: `She would list more than ${LIST_MOST}°, where these formulas no longer hold.`,
      remedy: 'Put the weight nearer the centreline, or as much on the other side.',
    };
  }
  const periodAfter = (v: Own): number => periodOf(gyradiusAfter(v, vcgAfter(v), added), gmAfter(v));
  return {
    kind: 'answer',
    vcg: overCorners(inputs, vcgAfter),
    gmBefore,
    gm,
    listBefore,
    list,
    periodBefore:
      vessel.rollPeriod !== undefined ? known(vessel.rollPeriod) : periodFromGm(gmBefore, beam, coefficient),
    period: overCorners(inputs, periodAfter),
    source,
  };
}

/** Her own figures, of which stability follows. */
interface Own {
  displacement: number;
  vcg: number;
  gm: number;
  beam: number;
  coefficient: number;
}

function vcgWith({ displacement, vcg }: Pick<Own, 'displacement' | 'vcg'>, { mass, heightMoment }: Moments): number {
  return (displacement * vcg + heightMoment) / (displacement + mass);
}

/** GM with weights added, m. */
function gmWith(vessel: Vessel, v: Pick<Own, 'displacement' | 'vcg' | 'gm'>, { mass, heightMoment }: Moments): number {
  const level = stiffensBelow(vessel, v) ?? v.gm + v.vcg;
  return (v.displacement * v.gm + mass * level - heightMoment) / (v.displacement + mass);
}

/** GM, m, and one whole roll, s: null where her beam is not known, Infinity where GM is no more than nought. */
export interface Rolling {
  gm: number;
  period: number | null;
}

/** How she rolls with weights added, as {@link effectOf} has it, at the likely values alone; null where nobody can tell. */
export function rollingOf(vessel: Vessel): ((added: readonly Weight[]) => Rolling) | null {
  const hydro = hydrostaticsOf(vessel);
  const { displacement, vcg, beam } = hydro;
  const stiffness = stiffnessOf(vessel, hydro);
  if (!displacement || !vcg || !stiffness) return null;
  const own = { displacement: displacement.likely, vcg: vcg.likely, gm: stiffness.gm.likely };
  const coefficient = beam && rollCoefficient(vessel, stiffness.gm, beam).likely;
  const periodWith = (gm: number, vcgAfter: number, added: readonly Weight[]): number | null => {
    if (!beam || coefficient === null) return null;
    if (gm <= 0) return Number.POSITIVE_INFINITY;
    return periodOf(gyradiusAfter({ ...own, beam: beam.likely, coefficient }, vcgAfter, added), gm);
  };
  return (added) => {
    const moments = sumMoments(added);
    const gm = gmWith(vessel, own, moments);
    return { gm, period: periodWith(gm, vcgWith(own, moments), added) };
  };
}

/**
 * GM, m, with weights added, from a roll timed with them aboard, s: her own coefficient and what the weights do to her
 * gyradius are counted as far as her figures tell; null where not even her beam is known.
 */
export function gmByRoll(vessel: Vessel, added: readonly Weight[], period: number): Range | null {
  const hydro = hydrostaticsOf(vessel);
  const { displacement, vcg, beam } = hydro;
  if (!beam) return null;
  const stiffness = stiffnessOf(vessel, hydro);
  const coefficient = stiffness ? rollCoefficient(vessel, stiffness.gm, beam) : ROLL_COEFFICIENT;
  if (!displacement || !vcg) return gmFromPeriod(known(period), beam, coefficient);
  const moments = sumMoments(added);
  return overCorners({ displacement, vcg, beam, coefficient }, (v) =>
    gmOf(gyradiusAfter(v, vcgWith(v, moments), added), period),
  );
}

/** What is said of a measured GM that is, or may be, too little for the formulas; null of any other. */
export function smallGm(gm: Range): string | null {
  if (gm.low >= GM_LEAST) return null;
  return `STOP: that ${gm.high < GM_LEAST ? 'is' : 'may be'} under ${GM_LEAST.toFixed(2)} m, and perhaps dangerous. Add nothing, take nothing low out, and ask a naval architect; a timed roll is no proof where so little is left.`;
}

function refuse(gm: Range, when: string): Answer<never> | null {
  if (gm.low >= GM_LEAST) return null;
  const amount = isKnown(gm) ? 'is' : 'may be';
  return {
    kind: 'none',
    why: `GM ${amount} under ${GM_LEAST.toFixed(2)} m ${when}: too little for these formulas, and perhaps dangerous.`,
    remedy: 'Ask a naval architect before anything is added; measure GM by an inclining.',
  };
}

/** Her own where she was timed and GM is known by other means, else the small-craft value with its scatter. */
function rollCoefficient(vessel: Vessel, gm: Range, beam: Range): Range {
  if (vessel.rollPeriod !== undefined && vessel.gm !== undefined && isKnown(beam)) {
    return coefficientFrom(gm.likely, beam.likely, vessel.rollPeriod);
  }
  return ROLL_COEFFICIENT;
}

/** k′² = (W·(k² + (KG − KG′)²) + Σ w·(y² + (z − KG′)²)) / (W + w): each weight taken as a point. */
function gyradiusAfter(v: Omit<Own, 'gm'>, vcgAfter: number, added: readonly Weight[]): number {
  const own = rollGyradius(v.coefficient, v.beam) ** 2 + (v.vcg - vcgAfter) ** 2;
  let inertia = v.displacement * own;
  let mass = v.displacement;
  for (const weight of added) {
    inertia += weight.mass * (weight.y ** 2 + (weight.z - vcgAfter) ** 2);
    mass += weight.mass;
  }
  return Math.sqrt(inertia / mass);
}
