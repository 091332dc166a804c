/** What is possible but seldom meant, asked back before anything is bought or cut. */
import type { Job, Vessel } from '../job/job.ts';
import type { Plan } from '../plan/plan.ts';
import { effectOf } from './float.ts';
import { centreOf, trialWeight, weightsAboard } from './moments.ts';
import { listNow } from './present.ts';
import { coefficientFrom } from './roll.ts';

/** Outer shares of the waterline: everything inside one of them is asked back. */
const END = 0.35;
/** Higher than this share of the way from keel to her centre of gravity, ballast stiffens little. */
const HIGH = 0.9;
/** Roll coefficients of the table of IMO resolution A.749(18); outside the wider span, in which fishing vessels lie, a reading is taken for a slip. */
const MEASURED = { low: 0.73, high: 0.88 };
const BELIEVED = { low: 0.55, high: 1.05 };

/** Questions of her own figures, whatever is put in her. */
export function questionsOfHer({ vessel }: Job): string[] {
  return vessel ? [...listQuestions(vessel), ...rollQuestions(vessel)] : [];
}

/**
 * Questions in sentences; with a plan, about all that it comes to, else about the voids. None without vessel data. Who asks
 * for a centre in an end, or to be down at it, is not asked whether that is meant.
 */
export function questionsOf(job: Job, plan?: Plan): string[] {
  const { vessel } = job;
  if (!vessel) return [];
  const weights = plan ? weightsAboard(job, plan) : job.voids.map((place) => trialWeight(place, 1, job.steel.density));
  const centre = centreOf(weights);
  const questions = questionsOfHer(job);
  if (!centre) return questions;
  const length = vessel.waterlineLength;
  const wanted = endWanted(job);
  if (length !== undefined && wanted !== 'fore' && weights.every((weight) => weight.x > (1 - END) * length)) {
    questions.push('All of it lies in the fore end: is x measured forward from the AFTER end of the waterline?');
  }
  if (length !== undefined && wanted !== 'after' && weights.every((weight) => weight.x < END * length)) {
    questions.push('All of it lies in the after end: is x measured FORWARD from the after end of the waterline?');
  }
  if (weights.length > 1 && weights.every((weight) => weight.y * centre.y > 0)) {
    const side = centre.y > 0 ? 'starboard' : 'port';
    const list = vessel.list ?? 0;
    if (list * centre.y > 0)
      questions.push(`All of it lies to ${side}, and she lists that way already: is that meant?`);
    if (list === 0)
      questions.push(`All of it lies to ${side}: is that meant, to take out a list? Starboard is positive.`);
  }
  if (vessel.vcg !== undefined && centre.z > HIGH * vessel.vcg) {
    questions.push(
      'It lies nearly as high as her own centre of gravity: are the heights measured from the underside of the KEEL?',
    );
  }
  return questions;
}

/** The end in which the job asks for the centre, by its middle, or which it asks to be down more; null where neither. */
function endWanted({ vessel, aims }: Job): 'fore' | 'after' | null {
  const { centre, effect } = aims;
  const length = vessel?.waterlineLength;
  if (centre?.x && length !== undefined) {
    const middle = (centre.x[0] + centre.x[1]) / 2;
    return middle < END * length ? 'after' : middle > (1 - END) * length ? 'fore' : null;
  }
  const trim = effect?.down ? effect.down.forward - effect.down.aft : (effect?.trim ?? 0);
  return trim === 0 ? null : trim < 0 ? 'after' : 'fore';
}

/** GM, a timed roll and the beam, each stated, tell a coefficient together: one that no vessel has is asked about. */
function rollQuestions({ gm, rollPeriod, beam }: Vessel): string[] {
  if (gm === undefined || rollPeriod === undefined || beam === undefined) return [];
  const coefficient = coefficientFrom(gm, beam, rollPeriod).likely;
  if (coefficient >= BELIEVED.low && coefficient <= BELIEVED.high) return [];
  const usual = `${MEASURED.low.toFixed(2)} to ${MEASURED.high.toFixed(2)} is usual`;
  return [
    `Her GM of ${gm} m, her roll of ${rollPeriod} s and her beam of ${beam} m do not go together: they make a roll coefficient of ${coefficient.toFixed(2)}, and ${usual}. Was one whole roll timed, there and back, and is the beam that of the waterline?`,
  ];
}

/** A list that is stated and can not be counted is asked about, and never left out in silence. */
function listQuestions(vessel: Vessel): string[] {
  if (!vessel.list) return [];
  const { present, stability } = effectOf(vessel, []);
  if (stability.kind === 'answer') return [];
  const list = `She lists ${listNow(vessel.list)} now`;
  if (present?.moment)
    return [`${list}, and what she lists in the end can not be told. ${stability.why} ${stability.remedy}`];
  return [
    `${list}, and that is NOT COUNTED: her displacement or her GM is not known. Enter both; a timed roll or a weight moved across gives GM.`,
  ];
}
