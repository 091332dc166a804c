/**
 * A second, coarser guide: what women and men may handle by the height of the hands, close to the body or at arm's
 * length. The figures are from memory of a public filter and are no limits of any law: defaults that the user must
 * confirm against their own authority and may change. The heights that part the zones are a default of this project.
 */
import type { Zones } from '../job/handling.ts';
import type { Lift } from './equation.ts';

export interface ZoneRow {
  zone: string;
  /** The zone reaches up to this height of the hands, mm; the last one has no end. */
  upTo: number;
  close: { women: number; men: number };
  armsLength: { women: number; men: number };
}

/** The lowest zone first, kg. */
export const DEFAULT_ZONES: readonly ZoneRow[] = [
  { zone: 'floor to mid lower leg', upTo: 250, close: { women: 7, men: 10 }, armsLength: { women: 3, men: 5 } },
  { zone: 'mid lower leg to knuckle', upTo: 730, close: { women: 13, men: 20 }, armsLength: { women: 7, men: 10 } },
  { zone: 'knuckle to elbow', upTo: 1050, close: { women: 16, men: 25 }, armsLength: { women: 10, men: 15 } },
  { zone: 'elbow to shoulder', upTo: 1400, close: { women: 13, men: 20 }, armsLength: { women: 7, men: 10 } },
  { zone: 'shoulder to above the head', upTo: 2200, close: { women: 7, men: 10 }, armsLength: { women: 3, men: 5 } },
];

/** Reaches over this are at arm's length, mm: a default of this project. */
const ARMS_LENGTH = 400;

/** The table of the job, else the default one; the lowest zone first. */
export function zoneRows(zones: Zones | undefined): readonly ZoneRow[] {
  return zones?.rows ? [...zones.rows].sort((p, q) => p.upTo - q.upTo) : DEFAULT_ZONES;
}

/** The least figure of the zones that the hands pass through between two heights, at the greater reach, kg. */
export function zoneFigure(zones: Zones | undefined, start: number, end: number, reach: number): number {
  const rows = zoneRows(zones);
  const person = zones?.person ?? 'women';
  const side = reach > ARMS_LENGTH ? 'armsLength' : 'close';
  return Math.min(...rows.filter((_, i) => zonePassed(rows, i, start, end)).map((row) => row[side][person]));
}

/**
 * The same for a lift: less where lifts follow each other quickly or the body twists. The cuts are those of a copy of an
 * earlier edition of the filter: up to one in two minutes none, up to 2 a minute 30 %, up to 8 a minute half, faster 80 %;
 * a twist over 45 degrees 10 %, over 90 degrees 20 %. Null where the filter says nothing of it: kneeling, or one hand.
 */
export function zoneGuide(zones: Zones | undefined, lift: Lift): number | null {
  if (lift.hands === 1 || (lift.posture ?? 'standing') !== 'standing') return null;
  const reach = Math.max(lift.reach, lift.reachEnd ?? 0);
  const pace = lift.perMinute ?? 0.2;
  const twist = Math.max(lift.twist ?? 0, lift.twistEnd ?? 0);
  const kept = pace <= 0.5 ? 1 : pace <= 2 ? 0.7 : pace <= 8 ? 0.5 : 0.2;
  const turned = twist <= 45 ? 1 : twist <= 90 ? 0.9 : 0.8;
  return zoneFigure(zones, lift.start, lift.end, reach) * kept * turned;
}

/** True of the rows that the hands pass through between two heights. */
export function zonePassed(rows: readonly ZoneRow[], index: number, start: number, end: number): boolean {
  const from = index === 0 ? Number.NEGATIVE_INFINITY : rows[index - 1]!.upTo;
  const to = index === rows.length - 1 ? Number.POSITIVE_INFINITY : rows[index]!.upTo;
  return Math.max(start, end) >= from && Math.min(start, end) <= to;
}

/**
 * Reference masses, kg: the most that may be handled under the best conditions, by who lifts. From memory of a standard
 * on manual handling, not read again: to be confirmed against the user's own authority, whose figure is `lift.referenceMass`.
 */
export const REFERENCE_MASSES: readonly { who: string; kg: number }[] = [
  { who: 'men of 18 to 45', kg: 25 },
  { who: 'women of 18 to 45', kg: 20 },
  { who: 'men under 18 or over 45', kg: 20 },
  { who: 'women under 18 or over 45', kg: 15 },
];

/** The figure of the lowest zone at arm's length, kg: what a reach into a bilge is nearest to. */
export function bilgeFigure(zones: Zones | undefined): number {
  return zoneRows(zones)[0]!.armsLength[zones?.person ?? 'women'];
}
