/** Figures of the saw and of the vessel that are possible, and far from what saws cut and small vessels do: mostly a point that slipped. */

import type { Vessel } from '../job/job.ts';
import type { StatedParts } from '../job/jobFaults.ts';
import { withoutDust } from '../units.ts';

/** What a figure is at most without being asked about; what a tenth of it is at least, where that was probably meant. */
interface Usual {
  most: number;
  least: number;
}

/** Of one cut, mm. */
const KERF: Usual = { most: 8, least: 1 };
/** Of a piece cut at a stop, mm. */
const TOLERANCE: Usual = { most: 10, least: 0.5 };
/** GM of a small vessel, m; a wide one may have half of her beam. */
const GM: Usual = { most: 3, least: 0.2 };
/** One whole roll, s. */
const PERIOD: Usual = { most: 15, least: 1.5 };
/** A beam is seldom less than this share of the length. */
const NARROW = 0.1;

export function figureDoubts({ saw, vessel, aims }: StatedParts): { path: string; text: string }[] {
  const gm = { ...GM, most: Math.max(GM.most, likelyBeam(vessel) / 2) };
  const ofGm = 'few vessels of her size have a GM over';
  return [
    ...doubt('saw.kerf', saw?.kerf, KERF, 'mm', 'few saws take more with one cut than'),
    ...doubt('saw.tolerance', saw?.tolerance, TOLERANCE, 'mm', 'few pieces cut at a stop are farther out than'),
    ...beamDoubt(vessel),
    ...doubt('vessel.gm', vessel?.gm, gm, 'm', ofGm),
    ...doubt(
      'vessel.rollPeriod',
      vessel?.rollPeriod,
      PERIOD,
      's',
      'time ten rolls there and back, and divide by ten. Few small vessels take over',
    ),
    ...doubt('aims.effect.gm', aims?.effect?.gm, gm, 'm', ofGm),
    ...doubt('aims.effect.period', aims?.effect?.period, PERIOD, 's', 'few small vessels take for one whole roll over'),
  ];
}

/** `rarely` says what is rare, up to the figure of the most that is usual. */
function doubt(path: string, value: number | undefined, usual: Usual, unit: string, rarely: string) {
  if (value === undefined || value <= usual.most) return [];
  const words = `${rarely} ${withoutDust(usual.most)} ${unit}`;
  return [{ path, text: `${meant(value, usual, unit)} It is read in ${unit}: ${words}.` }];
}

/** Asks for a tenth of the figure where that would be usual. */
function meant(value: number, { most, least }: Usual, unit: string): string {
  const tenth = withoutDust(value / 10);
  return tenth >= least && tenth <= most ? `Did you mean ${tenth} ${unit}?` : `Is ${value} ${unit} meant?`;
}

/** Wider than she is long at the waterline. */
function beamDoubt(vessel: Vessel | undefined) {
  const { beam, waterlineLength: length } = vessel ?? {};
  if (beam === undefined || length === undefined || beam <= length) return [];
  const question = meant(beam, { most: length, least: NARROW * length }, 'm');
  const text = `${question} By this she is wider than her waterline is long (${length} m): is one of the two in another unit, or a slip?`;
  return [{ path: 'vessel.beam', text }];
}

/** Her beam, m; 0 where it is not stated or is asked about. */
function likelyBeam(vessel: Vessel | undefined): number {
  return beamDoubt(vessel).length > 0 ? 0 : (vessel?.beam ?? 0);
}
