/**
 * The shape of a void: its bottom, its sides at a place, its outlines for drawing. Linear in `up` between the readings of
 * a station (the end readings hold beyond them) and linear in `along` between stations; a box void is its width at every
 * height. `along`, `across`, `up` in mm in the void's own frame.
 */
import type { Station } from '../job/job.ts';
import { sideOf } from '../job/stationSides.ts';
import type { LaidVoid } from '../stow/laid.ts';
import type { Point } from './scene.ts';

export interface Sides {
  from: number;
  to: number;
}

/** The clear sides at (`along`, `up`). */
export function sidesAt(space: LaidVoid, along: number, up: number): Sides {
  if (!space.stations) return { from: -space.width / 2, to: space.width / 2 };
  const { before, after, share } = stationsAbout(space.stations, along);
  const a = stationSides(before, up);
  const b = stationSides(after, up);
  return { from: a.from + (b.from - a.from) * share, to: a.to + (b.to - a.to) * share };
}

/** `up` of the bottom at `along`. */
export function bottomAt(space: LaidVoid, along: number): number {
  if (!space.stations) return 0;
  const { before, after, share } = stationsAbout(space.stations, along);
  const a = lowest(before);
  return a + (lowest(after) - a) * share;
}

/**
 * The sides of the floor at `along`, at which a drain lies: those of the lowest reading of each station, straight between
 * stations. Where one floor lies higher than the next, the void at the height between is wider than that.
 */
export function floorSidesAt(space: LaidVoid, along: number): Sides {
  if (!space.stations) return { from: -space.width / 2, to: space.width / 2 };
  const { before, after, share } = stationsAbout(space.stations, along);
  const [a, b] = [lowestReading(before), lowestReading(after)];
  return { from: a.from + (b.from - a.from) * share, to: a.to + (b.to - a.to) * share };
}

/** The greatest reach to either side anywhere in the void. */
export function widestSides(space: LaidVoid): Sides {
  if (!space.stations) return { from: -space.width / 2, to: space.width / 2 };
  const readings = space.stations.flatMap((station) => station.at);
  return {
    from: Math.min(...readings.map((reading) => reading.from)),
    to: Math.max(...readings.map((reading) => reading.to)),
  };
}

/** Cross-section at `along` as a polygon of (across, up), from the bottom up the greater side and down the lesser. */
export function crossOutline(space: LaidVoid, along: number): Point[] {
  const bottom = bottomAt(space, along);
  const levels = new Set([bottom, space.height]);
  if (space.stations) {
    const { before, after } = stationsAbout(space.stations, along);
    for (const reading of [...before.at, ...after.at]) {
      if (reading.up > bottom && reading.up < space.height) levels.add(reading.up);
    }
  }
  const ups = [...levels].sort((p, q) => p - q);
  const sides = ups.map((up) => ({ up, ...sidesAt(space, along, up) }));
  return [
    ...sides.map((side) => ({ x: side.to, y: side.up })),
    ...[...sides].reverse().map((side) => ({ x: side.from, y: side.up })),
  ];
}

/** Outline from above at the level `up` as a polygon of (along, across). */
export function planOutline(space: LaidVoid, up: number): Point[] {
  const places = space.stations ? inOrder(space.stations).map((station) => station.along) : [0, space.length];
  const sides = places.map((along) => ({ along, ...sidesAt(space, along, up) }));
  return [
    ...sides.map((side) => ({ x: side.along, y: side.to })),
    ...[...sides].reverse().map((side) => ({ x: side.along, y: side.from })),
  ];
}

/** The bottom as (along, up), from end to end. */
export function bottomLine(space: LaidVoid): Point[] {
  const places = space.stations ? inOrder(space.stations).map((station) => station.along) : [0, space.length];
  return places.map((along) => ({ x: along, y: bottomAt(space, along) }));
}

/** A job may state its stations in any order. */
function inOrder(stations: Station[]): Station[] {
  return [...stations].sort((p, q) => p.along - q.along);
}

function stationsAbout(stated: Station[], along: number): { before: Station; after: Station; share: number } {
  const stations = inOrder(stated);
  let i = 0;
  while (i + 2 < stations.length && stations[i + 1]!.along <= along) i += 1;
  const before = stations[i]!;
  const after = stations[i + 1] ?? before;
  const length = after.along - before.along;
  const share = length > 0 ? Math.min(1, Math.max(0, (along - before.along) / length)) : 0;
  return { before, after, share };
}

function lowest(station: Station): number {
  return lowestReading(station).up;
}

function lowestReading({ at }: Station): Station['at'][number] {
  return at.reduce((low, reading) => (reading.up < low.up ? reading : low));
}

function stationSides(station: Station, up: number): Sides {
  const at = [...station.at].sort((p, q) => p.up - q.up);
  return { from: sideOf({ at }, up, 'from'), to: sideOf({ at }, up, 'to') };
}
