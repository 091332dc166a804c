/** The clear space of a void as it was laid: its sides and bottom at any place, from the stations or from the box. */
import type { KeepOut, Opening, Void } from '../../job/job.ts';

/** A void in its own coordinates, with `either` decided. mm; origin m. */
export interface LaidVoid {
  void: string;
  axis: 'fore-and-aft' | 'athwartships';
  length: number;
  width: number;
  height: number;
  origin: { x: number; y: number; z: number };
  keepOut: KeepOut[];
  /** A bundle passes that passes any of them; none where the void is open. */
  openings: Opening[];
  stations: { along: number; at: Reading[] }[];
  stated: Void;
}

interface Reading {
  up: number;
  from: number;
  to: number;
}

/** Turns a void stated `either` the way it was laid; the others stay as stated. Readings and stations come sorted. */
export function layVoid(stated: Void, told: 'fore-and-aft' | 'athwartships' | undefined): LaidVoid {
  const { length, width, height, origin } = stated;
  const stations = [...(stated.stations ?? [])]
    .sort((p, q) => p.along - q.along)
    .map((station) => ({ along: station.along, at: [...station.at].sort((p, q) => p.up - q.up) }));
  const axis = stated.axis === 'either' ? (told ?? 'fore-and-aft') : stated.axis;
  const openings = [...(stated.opening ? [stated.opening] : []), ...(stated.otherOpenings ?? [])];
  const common = { void: stated.void, axis, height, stations, stated };
  if (stated.axis !== 'either' || axis === 'fore-and-aft')
    return { ...common, length, width, origin, keepOut: stated.keepOut, openings };
  return {
    ...common,
    length: width,
    width: length,
    origin: { x: origin.x + length / 2000, y: origin.y - width / 2000, z: origin.z },
    keepOut: stated.keepOut.map((keepOut) => ({
      ...keepOut,
      along: moved(keepOut.across, width / 2),
      across: moved(keepOut.along, -length / 2),
    })),
    openings: openings.map((opening) => ({
      ...opening,
      along: opening.across,
      across: opening.along,
      at: opening.at && { along: opening.at.across + width / 2, across: opening.at.along - length / 2 },
    })),
  };
}

function moved([from, to]: [number, number], by: number): [number, number] {
  return [from + by, to + by];
}

/** A place in the void, mm along, across, up, as metres x, y, z in the vessel. */
export function inVessel(
  space: LaidVoid,
  along: number,
  across: number,
  up: number,
): { x: number; y: number; z: number } {
  const { origin } = space;
  const [x, y] = space.axis === 'athwartships' ? [across, along] : [along, across];
  return { x: origin.x + x / 1000, y: origin.y + y / 1000, z: origin.z + up / 1000 };
}

/** Height of the bottom at `along`, mm: the lowest readings of the stations, linear between them; 0 in a box. */
export function bottomAt(space: LaidVoid, along: number): number {
  const { stations } = space;
  if (stations.length === 0) return 0;
  const [i, share] = between(stations, along);
  const low = stations[i]!.at[0]!.up;
  return share === 0 ? low : low + share * (stations[i + 1]!.at[0]!.up - low);
}

/** The highest bottom anywhere in a stretch, mm: bottoms are linear between stations, so only those and the ends count. */
export function highestBottom(space: LaidVoid, from: number, to: number): number {
  let highest = Math.max(bottomAt(space, from), bottomAt(space, to));
  for (const { along } of space.stations)
    if (along > from && along < to) highest = Math.max(highest, bottomAt(space, along));
  return highest;
}

/** The floor at `along`: the lowest reading of each station, its height and its sides, linear between them. */
function floorAt(space: LaidVoid, along: number): Reading {
  const { stations, width } = space;
  if (stations.length === 0) return { up: 0, from: -width / 2, to: width / 2 };
  const [i, share] = between(stations, along);
  const here = stations[i]!.at[0]!;
  const next = share === 0 ? here : stations[i + 1]!.at[0]!;
  return {
    up: here.up + share * (next.up - here.up),
    from: here.from + share * (next.from - here.from),
    to: here.to + share * (next.to - here.to),
  };
}

/** Where the drain of a void runs under a stretch: how high it reaches, and its channels across; null without a drain. */
export function drainUnder(
  space: LaidVoid,
  stretch: [number, number],
): { top: number; channels: [number, number][] } | null {
  const { drain } = space.stated;
  if (!drain) return null;
  const stops = space.stations.map(({ along }) => along).filter((along) => along > stretch[0] && along < stretch[1]);
  const floors = [...stretch, ...stops].map((along) => floorAt(space, along));
  const over = (edge: (floor: Reading) => number): [number, number] => {
    const edges = floors.map(edge);
    return [Math.min(...edges), Math.max(...edges) + drain.width];
  };
  const channels =
    drain.where === 'middle'
      ? [over(({ from, to }) => (from + to - drain.width) / 2)]
      : [over(({ from }) => from), over(({ to }) => to - drain.width)];
  return { top: Math.max(...floors.map(({ up }) => up)) + drain.height, channels };
}

/**
 * The clear width over a whole stretch and height: the greatest `from` and the least `to`, mm. The sides are bilinear
 * between neighbouring readings, so the corners of those cells are all that needs looking at.
 */
export function clearWidth(space: LaidVoid, along: [number, number], up: [number, number]): [number, number] {
  if (space.stations.length === 0) return [-space.width / 2, space.width / 2];
  const places = [
    ...along,
    ...space.stations.map((station) => station.along).filter((x) => x > along[0] && x < along[1]),
  ];
  const heights = [...up];
  for (const station of space.stations)
    for (const reading of station.at) if (reading.up > up[0] && reading.up < up[1]) heights.push(reading.up);
  let from = Number.NEGATIVE_INFINITY;
  let to = Number.POSITIVE_INFINITY;
  for (const x of places) {
    const [i, share] = between(space.stations, x);
    for (const height of heights) {
      const here = sidesAt(space.stations[i]!.at, height);
      const next = share === 0 ? here : sidesAt(space.stations[i + 1]!.at, height);
      from = Math.max(from, here[0] + share * (next[0] - here[0]));
      to = Math.min(to, here[1] + share * (next[1] - here[1]));
    }
  }
  return [from, to];
}

/** Sides of one station at a height: linear between readings, the end readings hold beyond them. */
function sidesAt(readings: Reading[], up: number): [number, number] {
  const first = readings[0]!;
  if (up <= first.up) return [first.from, first.to];
  for (let i = 1; i < readings.length; i++) {
    const high = readings[i]!;
    if (up > high.up) continue;
    const low = readings[i - 1]!;
    const share = (up - low.up) / (high.up - low.up);
    return [low.from + share * (high.from - low.from), low.to + share * (high.to - low.to)];
  }
  const last = readings.at(-1)!;
  return [last.from, last.to];
}

/** The station at or before a place, and the share of the way to the next one. */
function between(stations: { along: number }[], along: number): [number, number] {
  for (let i = 1; i < stations.length; i++) {
    const next = stations[i]!.along;
    if (along >= next) continue;
    const here = stations[i - 1]!.along;
    return [i - 1, Math.max(0, (along - here) / (next - here))];
  }
  return [stations.length - 1, 0];
}
