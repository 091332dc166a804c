/** The drain: a channel along the floor of a void that nothing may stand in, so that water runs to the pump. Mm. */
import type { KeepOut, Station } from '../job/job.ts';
import type { LaidVoid } from './laid.ts';

interface Floor {
  up: number;
  from: number;
  to: number;
}

/** What the drain of a void keeps free over a stretch, as things to stay off; none where there is no drain. */
export function drainIn(laid: LaidVoid, from: number, to: number): KeepOut[] {
  const { drain } = laid;
  if (!drain) return [];
  const floors = floorsIn(laid, from, to);
  const over = (edge: (floor: Floor) => number): [number, number] => {
    const edges = floors.map(edge);
    return [Math.min(...edges), Math.max(...edges) + drain.width];
  };
  const channels =
    drain.where === 'middle'
      ? [over((floor) => (floor.from + floor.to - drain.width) / 2)]
      : [over((floor) => floor.from), over((floor) => floor.to - drain.width)];
  const top = Math.max(...floors.map(({ up }) => up)) + drain.height;
  return channels.map((across) => ({ what: 'drain', along: [from, to], across, up: [0, top], access: false }));
}

/** The floor at the ends of a stretch and at every station between: it is linear from one to the next. */
function floorsIn(laid: LaidVoid, from: number, to: number): Floor[] {
  if (!laid.stations) return [{ up: 0, from: -laid.width / 2, to: laid.width / 2 }];
  const stations = [...laid.stations].sort((p, q) => p.along - q.along);
  const inside = stations.map(({ along }) => along).filter((along) => along > from && along < to);
  return [from, to, ...inside].map((along) => floorAt(stations, along));
}

function floorAt(stations: Station[], along: number): Floor {
  const found = stations.findIndex((station) => station.along >= along);
  const after = found < 0 ? stations.length - 1 : Math.max(1, found);
  const p = stations[after - 1]!;
  const q = stations[after]!;
  const share = Math.min(1, Math.max(0, (along - p.along) / (q.along - p.along)));
  const [a, b] = [lowest(p), lowest(q)];
  const mix = (x: number, y: number) => x * (1 - share) + y * share;
  return { up: mix(a.up, b.up), from: mix(a.from, b.from), to: mix(a.to, b.to) };
}

function lowest({ at }: Station): Floor {
  return at.reduce((low, reading) => (reading.up < low.up ? reading : low));
}
