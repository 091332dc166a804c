/**
 * A second, coarser guide: what women and men may handle by the height of the hands, close to the body or at arm's
 * length. The figures are from memory of a public filter and are no limits of any law: defaults that the user must
 * confirm against their own authority and may change. The heights that part the zones are a default of this project.
 */
import type { Zones } from '../job/handling.ts';

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
export const ARMS_LENGTH = 400;

/** The table of the job, else the default one; the lowest zone first. */
export function zoneRows(zones: Zones | undefined): readonly ZoneRow[] {
  return zones?.rows ? [...zones.rows].sort((p, q) => p.upTo - q.upTo) : DEFAULT_ZONES;
}

/** The least figure of the zones that the hands pass through between two heights, at the greater reach, kg. */
export function zoneFigure(zones: Zones | undefined, start: number, end: number, reach: number): number {
  const rows = zoneRows(zones);
  const person = zones?.person ?? 'women';
  const side = reach > ARMS_LENGTH ? 'armsLength' : 'close';
  const [low, high] = [Math.min(start, end), Math.max(start, end)];
  let least = Number.POSITIVE_INFINITY;
  for (const [i, row] of rows.entries()) {
    const from = i === 0 ? Number.NEGATIVE_INFINITY : rows[i - 1]!.upTo;
    const to = i === rows.length - 1 ? Number.POSITIVE_INFINITY : row.upTo;
    if (high >= from && low <= to) least = Math.min(least, row[side][person]);
  }
  return least;
}

/** The figure of the lowest zone at arm's length, kg: what a reach into a bilge is nearest to. */
export function bilgeFigure(zones: Zones | undefined): number {
  return zoneRows(zones)[0]!.armsLength[zones?.person ?? 'women'];
}
