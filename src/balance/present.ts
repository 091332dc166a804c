/**
 * What she does before anything is added: how stiff she is, and the list that was read of her. With W her displacement,
 * that list is a moment M = W·GM·tan(list) about the centreline, which is there before any ballast and counts with every
 * weight that is added. What makes it (a tank, an engine, gear) stays where it was.
 */
import type { Vessel } from '../job/job.ts';
import { type Hydrostatics, hydrostaticsOf } from './hydrostatics.ts';
import { known, mapRange, overCorners, type Range } from './range.ts';
import { gmFromPeriod } from './roll.ts';

/** Her GM, m, and where it came from. */
export interface Stiffness {
  gm: Range;
  source: 'stated' | 'timed roll' | 'estimate';
}

/** As stated, else from a timed roll, else estimated; null where there is nothing to take it from. */
export function stiffnessOf(vessel: Vessel, { gm, beam }: Pick<Hydrostatics, 'gm' | 'beam'>): Stiffness | null {
  if (vessel.gm !== undefined) return { gm: known(vessel.gm), source: 'stated' };
  if (vessel.rollPeriod !== undefined && beam)
    return { gm: gmFromPeriod(known(vessel.rollPeriod), beam), source: 'timed roll' };
  return gm && { gm, source: 'estimate' };
}

/** Her list now: degrees, and its moment, kg·m; both to starboard positive. */
export interface PresentList {
  degrees: number;
  /** Null where her displacement or her GM is not known: then the list can not be counted. */
  moment: Range | null;
}

/** Null where nothing is stated of her list: she is then taken as upright. */
export function presentList(vessel: Vessel, hydro: Hydrostatics = hydrostaticsOf(vessel)): PresentList | null {
  if (vessel.list === undefined) return null;
  const { displacement } = hydro;
  const stiffness = stiffnessOf(vessel, hydro);
  if (!displacement || !stiffness) return { degrees: vessel.list, moment: null };
  const tangent = tangentOf(vessel.list);
  const inputs = { displacement, gm: stiffness.gm };
  return { degrees: vessel.list, moment: overCorners(inputs, (v) => v.displacement * v.gm * tangent) };
}

/** The likely moment of her list now, kg·m to starboard; 0 where she is upright, or it can not be counted. */
export function likelyMoment(vessel: Vessel): number {
  return presentList(vessel)?.moment?.likely ?? 0;
}

export function tangentOf(degrees: number): number {
  return Math.tan((degrees * Math.PI) / 180);
}

/** `to starboard`, or `to port` where negative. */
export function sideWords(toStarboard: number): string {
  return toStarboard < 0 ? 'to port' : 'to starboard';
}

/** `1° to port`, as it was stated. */
export function listNow(degrees: number): string {
  return `${Math.abs(degrees)}° ${sideWords(degrees)}`;
}

/** Its size alone: what is to port, told to port. */
export function sizeOf(range: Range): Range {
  return range.likely < 0 ? mapRange(range, (value) => -value) : range;
}
