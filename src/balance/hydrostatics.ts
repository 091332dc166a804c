/**
 * What of a vessel bears on how she floats: as stated, else estimated from her length, beam and draught with a range.
 *
 * Water-plane area A = C·L·B, kg per cm = A·ρ/100; moment to change trim 1 cm = ρ·I_L/(100·L) with I_L = c_L·L³·B
 * (second moment of the water-plane, longitudinal; B·M_L taken for G·M_L); KM = KB + I_T/V with I_T = c_T·L·B³.
 * The form coefficients are textbook ranges for small displacement craft, from memory and not read again: starting
 * values for the user to better by marks read and a timed roll, never published figures.
 */
import type { Vessel } from '../job/job.ts';
import { meanDraught } from '../job/meanDraught.ts';
import { isKnown, known, overCorners, type Range } from './range.ts';

/** Null where nothing was stated that it could be estimated from. Metres, kg, kg per cm, kg·m per cm, kg/m³. */
export interface Hydrostatics {
  displacement: Range | null;
  waterlineLength: Range | null;
  beam: Range | null;
  /** Forward of the after end of the waterline. */
  lcf: Range | null;
  /** Above the underside of the keel. */
  vcg: Range | null;
  kgPerCm: Range | null;
  kgmPerCm: Range | null;
  /** Null also where a timed roll tells it (present.ts). */
  gm: Range | null;
  /** Each estimate in a sentence, with the better way. */
  estimates: string[];
}

/** Water-plane coefficient; second moments of the water-plane over L³·B and L·B³; block; KB over draught; LCF over L. */
const FORM = {
  waterplane: { low: 0.62, likely: 0.68, high: 0.74 },
  longitudinal: { low: 0.024, likely: 0.031, high: 0.04 },
  transverse: { low: 0.034, likely: 0.041, high: 0.05 },
  block: { low: 0.2, likely: 0.28, high: 0.4 },
  buoyancy: { low: 0.58, likely: 0.66, high: 0.74 },
  flotation: { low: 0.45, likely: 0.48, high: 0.5 },
} as const satisfies Record<string, Range>;

/** The centre of gravity of a small craft lies near her waterline: so far below to so far above it, m. */
const GRAVITY_OVER_WATERLINE: Range = { low: -0.1, likely: 0.05, high: 0.3 };

const MARKS = 'better: move a known weight aboard near the middle and read the marks';

export function hydrostaticsOf(vessel: Vessel): Hydrostatics {
  const water = vessel.water ?? 1025;
  const estimates: string[] = [];
  const estimated = (what: string, range: Range | null, digits: number, better: string): Range | null => {
    if (range && !isKnown(range)) {
      const [low, high] = [range.low.toFixed(digits), range.high.toFixed(digits)];
      estimates.push(`${what} is an estimate, ${low} to ${high}; ${better}.`);
    }
    return range;
  };
  const [length, beam] = [stated(vessel.waterlineLength), stated(vessel.beam)];
  const draught = stated(meanDraught(vessel) ?? undefined);

  const displacement =
    stated(vessel.displacement) ??
    estimated(
      'Displacement, kg,',
      combine({ length, beam, draught, block: FORM.block }, (v) => v.length * v.beam * v.draught * v.block * water),
      0,
      'better: the weight at a lift-out',
    );
  const lcf =
    stated(vessel.lcf) ??
    estimated(
      'The centre of flotation, m from the after end of the waterline,',
      combine({ length, share: FORM.flotation }, (v) => v.length * v.share),
      2,
      'better: a known weight placed where the trim does not change',
    );
  const kgPerCm =
    stated(vessel.kgPerCm) ??
    estimated(
      'Weight to sink her 1 cm, kg,',
      combine({ length, beam, form: FORM.waterplane }, (v) => (v.form * v.length * v.beam * water) / 100),
      0,
      MARKS,
    );
  const kgmPerCm =
    stated(vessel.kgmPerCm) ??
    estimated(
      'Moment to trim her 1 cm, kg·m,',
      combine({ length, beam, form: FORM.longitudinal }, (v) => (water * v.form * v.length * v.length * v.beam) / 100),
      0,
      'better: move a known weight a known distance fore and aft and read the marks',
    );
  const vcg =
    stated(vessel.vcg) ??
    estimated(
      'Her centre of gravity, m above the keel,',
      combine({ draught, over: GRAVITY_OVER_WATERLINE }, (v) => v.draught + v.over),
      2,
      'better: a designer’s figure, or an inclining',
    );
  const timed = vessel.rollPeriod !== undefined && beam !== null;
  const gm =
    stated(vessel.gm) ??
    (timed
      ? null
      : estimated(
          'GM, m,',
          combine(
            { length, beam, draught, displacement, vcg, rise: FORM.buoyancy, form: FORM.transverse },
            (v) => v.rise * v.draught + (v.form * v.length * v.beam ** 3 * water) / v.displacement - v.vcg,
          ),
          2,
          'better: time her roll, or move a known weight athwartships and measure the angle',
        ));
  if (estimates.length > 0)
    estimates.push(
      'Estimates come from form coefficients of this project, which are no published figures: what you state counts instead.',
    );
  return { displacement, waterlineLength: length, beam, lcf, vcg, kgPerCm, kgmPerCm, gm, estimates };
}

function stated(value: number | undefined): Range | null {
  return value === undefined ? null : known(value);
}

function combine<Name extends string>(
  inputs: Record<Name, Range | null>,
  answer: (values: Record<Name, number>) => number,
): Range | null {
  if (Object.values(inputs).some((range) => range === null)) return null;
  return overCorners(inputs as Record<Name, Range>, answer);
}
