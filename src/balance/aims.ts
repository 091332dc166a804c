/**
 * Aims by effect turned into aims by place: how much ballast, and where its centre must lie, for the marks, the list and
 * the GM wanted. The formulas of float.ts solved for the weight, at the likely values of whatever is estimated.
 */
import type { Vessel, WantedEffect } from '../job/job.ts';
import { amount } from './amount.ts';
import { heightAims } from './heightAims.ts';
import { hydrostaticsOf } from './hydrostatics.ts';
import { sumMoments, type Weight } from './moments.ts';
import { listNow, presentList, sideWords, sizeOf, stiffnessOf } from './present.ts';
import { tooMuch } from './tooMuch.ts';

/**
 * What is wanted of the ballast. Absent: nothing asked. From `down` follow the ballast and its centre along; a trim of 0
 * leaves her trim as it is; a GM is met within 5 %, or else a roll within 2.5 %,
 * and a greater change within half of it.
 */
export interface Wanted extends WantedEffect {
  /** Ballast, kg, where `down` is not given. */
  ballast?: number | undefined;
}

export interface AimsByPlace {
  ballast?: number;
  centre: { x?: [number, number]; y?: [number, number]; z?: [number, number] };
  /** Each step in a sentence. */
  working: string[];
  /** What can not be had, and why. */
  impossible: string[];
  /** What can be had, and is asked back. */
  doubts: string[];
}

/** tan(0.5°), the list that is told as none. */
const TAN_HALF_DEGREE = 0.008727;
/** So much of the tolerance of the marks is given to trim; the rest is left for a weight that is not quite the one wanted. */
const TRIM_SHARE = 0.6;
/** The same of the half degree, where the ballast makes up for a list that she has: more of it makes up for more. */
const LIST_SHARE = 0.6;

/**
 * `already` is what else is put on top of her own figures, and does its part of the effect; `across` the r.m.s. distance
 * from the centreline at which the ballast can lie, m, which makes a roll slower.
 */
export function aimsFor(vessel: Vessel, wanted: Wanted, already: readonly Weight[] = [], across = 0): AimsByPlace {
  const other = sumMoments(already);
  const hydro = hydrostaticsOf(vessel);
  const working: string[] = [];
  const impossible: string[] = [];
  const centre: AimsByPlace['centre'] = {};
  const lcf = hydro.lcf?.likely;
  const length = hydro.waterlineLength?.likely;
  const perCm = hydro.kgPerCm?.likely;
  const trimPerCm = hydro.kgmPerCm?.likely;
  const within = wanted.within ?? 1;

  let ballast = wanted.ballast;
  let trim = wanted.trim;
  if (wanted.down && (lcf === undefined || length === undefined || perCm === undefined)) {
    impossible.push('Her waterline length and beam are needed to say what sinks her to the marks wanted.');
  } else if (wanted.down) {
    const { forward, aft } = wanted.down;
    const sinkage = aft + ((forward - aft) * lcf!) / length!;
    ballast = sinkage * perCm! - other.mass;
    trim = forward - aft;
    const beside = other.mass > 0 ? `, ${other.mass.toFixed(0)} kg of other things being put in her` : '';
    working.push(`Down ${sinkage.toFixed(1)} cm at the centre of flotation takes ${ballast.toFixed(0)} kg${beside}.`);
    if (ballast <= 0)
      impossible.push('The marks wanted ask for less weight than she has now: take weight out instead.');
  }
  const some = ballast !== undefined && ballast > 0;
  const much = some ? tooMuch(vessel, ballast!) : null;
  const doubts: string[] = [];
  if (much) (much.refused ? impossible : doubts).push(much.text);
  const over = (ballast ?? 0) + other.mass + (vessel.displacement ?? 0) - (vessel.displacementMost ?? Infinity);
  if (over > 0)
    doubts.push(`With that she is ${over.toFixed(0)} kg over the most that she may displace: is that meant?`);

  if (trim !== undefined && some && lcf !== undefined && length !== undefined && trimPerCm !== undefined) {
    const at = lcf + (trim * trimPerCm - (other.alongMoment - other.mass * lcf)) / ballast!;
    // The longer end moves by the larger share of a change of trim: that share keeps both ends within the tolerance.
    const share = Math.max(lcf, length - lcf) / length;
    const room = (((TRIM_SHARE * within) / share) * trimPerCm) / ballast!;
    centre.x = [at - room, at + room];
    working.push(`The ballast's centre lies ${at.toFixed(2)} m from the after end, ${room.toFixed(2)} m either way.`);
    if (at < 0 || at > length)
      impossible.push('That trim asks for a centre outside her waterline: more ballast, or less change of trim.');
  } else if (trim !== undefined && ballast === undefined) {
    impossible.push('How much ballast is needed before a trim can be turned into a place.');
  }

  const displacement = hydro.displacement?.likely;
  const gmNow = stiffnessOf(vessel, hydro)?.gm.likely;
  const height = some ? heightAims(vessel, wanted, { ballast: ballast!, across, already }) : null;
  const present = presentList(vessel, hydro);
  if (wanted.upright && present && present.degrees !== 0) {
    const list = `She lists ${listNow(present.degrees)} now`;
    const { moment } = present;
    if (!moment)
      impossible.push(
        `${list}, and what ballast makes up for that can not be told: her displacement and her GM are needed. A timed roll or a weight moved across gives GM.`,
      );
    else if (!some) impossible.push(`${list}: how much ballast is needed before that can be turned into a place.`);
    else working.push(`${list}: a moment of ${amount(sizeOf(moment), 0, 'kg·m')} that the ballast makes up for.`);
  }
  if (wanted.upright && some && displacement !== undefined && gmNow !== undefined) {
    const weight = displacement + other.mass + ballast!;
    const listed = present?.moment?.likely ?? 0;
    const share = listed === 0 ? 1 : LIST_SHARE;
    const room = (share * TAN_HALF_DEGREE * weight * Math.min(gmNow, height?.gm ?? gmNow)) / ballast!;
    const middle = -(other.acrossMoment + listed) / ballast!;
    centre.y = [middle - room, middle + room];
    const where =
      Math.abs(middle) < 0.0005 ? 'the centreline' : `${Math.abs(middle).toFixed(3)} m ${sideWords(middle)}`;
    working.push(`No list: the centre within ${(room * 1000).toFixed(0)} mm of ${where}.`);
    if (hydro.beam && Math.abs(middle) > hydro.beam.likely / 2)
      impossible.push('No list asks for a centre outside her sides: more ballast, or put right what makes her list.');
  }
  if ((wanted.gm !== undefined || wanted.period !== undefined) && !height)
    impossible.push(
      some
        ? 'Her displacement, her beam, her centre of gravity and her GM are needed to say how high the ballast must lie for that. A timed roll gives GM.'
        : 'How much ballast is needed before a GM or a roll can be turned into a height.',
    );
  if (height) {
    working.push(...height.working);
    impossible.push(...height.impossible);
    doubts.push(...height.doubts);
    if (height.z) centre.z = height.z;
  }
  return { ...(some ? { ballast: ballast! } : {}), centre, working, impossible, doubts };
}
