/** Stations in order, and where their sides stand at a height: straight between readings, the end readings hold beyond. */
import type { Station } from './job.ts';

export type Side = 'from' | 'to';

/** A station with its readings from the lowest up, and its place in the file. */
export interface Sorted {
  along: number;
  at: Station['at'];
  index: number;
}

export function sortStations(stations: readonly Station[]): Sorted[] {
  return stations
    .map(({ along, at }, index) => ({ along, at: [...at].sort((p, q) => p.up - q.up), index }))
    .sort((p, q) => p.along - q.along);
}

/** Where one side of a station stands at a height, mm. */
export function sideOf({ at }: Pick<Sorted, 'at'>, up: number, side: Side): number {
  const next = at.findIndex((reading) => reading.up >= up);
  if (next === 0) return at[0]![side];
  if (next < 0) return at[at.length - 1]![side];
  const p = at[next - 1]!;
  const q = at[next]!;
  return p[side] + ((up - p.up) / (q.up - p.up)) * (q[side] - p[side]);
}

/** What is clear halfway between two stations, at every height that was read at either; tenths of a mm, rounded inward. */
export function readingsBetween(one: Pick<Sorted, 'at'>, other: Pick<Sorted, 'at'>): Station['at'] {
  const [p, q] = [one, other].map(({ at }) => ({ at: [...at].sort((a, b) => a.up - b.up) })) as [
    typeof one,
    typeof other,
  ];
  const bottom = Math.round(tenths((p.at[0]!.up + q.at[0]!.up) / 2)) / 10;
  const heights = [bottom, ...[...p.at, ...q.at].map(({ up }) => up).filter((up) => up > bottom)];
  return [...new Set(heights)]
    .sort((a, b) => a - b)
    .map((up) => {
      const middle = (side: Side): number => (sideOf(p, up, side) + sideOf(q, up, side)) / 2;
      return { up, from: Math.ceil(tenths(middle('from'))) / 10 + 0, to: Math.floor(tenths(middle('to'))) / 10 + 0 };
    });
}

/** Tenths of a millimetre, without the dust of reckoning. */
function tenths(mm: number): number {
  return Math.round(mm * 1e7) / 1e6;
}
