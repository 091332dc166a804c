/**
 * The clear space of a void over a stretch of its length: what is free over the whole stretch, so that a bundle lying in
 * it is free everywhere. A box has the same at every height; stations are linear between their readings, so that the
 * least clear place lies at a reading, a station or an end of the stretch.
 */
import type { KeepOut, Station } from '../job/job.ts';
import { drainIn } from './drain.ts';
import { ceilHalf, floorHalf } from './half.ts';
import type { LaidVoid } from './laid.ts';

/** A free interval across, mm, starboard (or forward) positive. */
export interface Interval {
  from: number;
  to: number;
}

/** Clear space over one stretch. */
export interface Envelope {
  /** The height on which the ground tier stands: the highest bottom under the stretch plus the dunnage, mm. */
  readonly bottom: number;
  /** The height that no bundle may pass, mm. */
  readonly top: number;
  /** The same at every height: tiers may be worked out once. */
  readonly uniform: boolean;
  /** Free intervals, in order, for a bundle standing from `low` to `high` mm over the whole stretch. */
  clear(low: number, high: number): Interval[];
}

/** The clear space of `laid` from `from` to `to` mm along, outside keep-outs and the drain. Cost: the readings and keep-outs in the stretch. */
export function envelope(laid: LaidVoid, from: number, to: number): Envelope {
  const top = laid.height - laid.clear.top;
  const keepOuts = [...laid.keepOut.filter((keepOut) => meets(keepOut.along, from, to)), ...drainIn(laid, from, to)];
  const sides = laid.clear.sides;
  if (!laid.stations) {
    const hull: Interval = { from: -laid.width / 2 + sides, to: laid.width / 2 - sides };
    return {
      bottom: ceilHalf(laid.dunnage),
      top,
      uniform: keepOuts.length === 0,
      clear: (low, high) => subtract(hull, keepOuts, low, high),
    };
  }
  const stations = sortStations(laid.stations);
  const places = [from, to, ...stations.map((station) => station.along).filter((along) => along > from && along < to)];
  const sections = places.map((along) => sectionAt(stations, along));
  const bottom = ceilHalf(Math.max(...sections.map((section) => section.bottom)) + laid.dunnage);
  return {
    bottom,
    top,
    uniform: false,
    clear(low, high) {
      const hull: Interval = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
      for (const section of sections) section.narrow(hull, low, high);
      hull.from += sides;
      hull.to -= sides;
      return subtract(hull, keepOuts, low, high);
    },
  };
}

/** The bottom of the void at one place along, mm, without dunnage. */
export function bottomAt(laid: LaidVoid, along: number): number {
  if (!laid.stations) return 0;
  return sectionAt(sortStations(laid.stations), along).bottom;
}

interface CrossSection {
  bottom: number;
  /** Narrows `hull` to what is clear between two heights. */
  narrow(hull: Interval, low: number, high: number): void;
}

function sectionAt(stations: Station[], along: number): CrossSection {
  let after = stations.findIndex((station) => station.along >= along);
  if (after < 0) after = stations.length - 1;
  const before = Math.max(0, after - 1);
  const p = stations[before]!;
  const q = stations[after]!;
  const share = q.along === p.along ? 1 : Math.min(1, Math.max(0, (along - p.along) / (q.along - p.along)));
  const heights = [...p.at, ...q.at].map((reading) => reading.up);
  return {
    bottom: lowest(p) * (1 - share) + lowest(q) * share,
    narrow(hull, low, high) {
      const visit = (up: number) => {
        const a = readingAt(p, up);
        const b = readingAt(q, up);
        hull.from = Math.max(hull.from, a.from * (1 - share) + b.from * share);
        hull.to = Math.min(hull.to, a.to * (1 - share) + b.to * share);
      };
      visit(low);
      visit(high);
      for (const up of heights) if (up > low && up < high) visit(up);
    },
  };
}

function readingAt(station: Station, up: number): Interval {
  const { at } = station;
  const first = at[0]!;
  const last = at[at.length - 1]!;
  if (up <= first.up) return first;
  if (up >= last.up) return last;
  const i = at.findIndex((reading) => reading.up >= up);
  const p = at[i - 1]!;
  const q = at[i]!;
  const share = (up - p.up) / (q.up - p.up);
  return { from: p.from * (1 - share) + q.from * share, to: p.to * (1 - share) + q.to * share };
}

function lowest(station: Station): number {
  return station.at[0]!.up;
}

function sortStations(stations: Station[]): Station[] {
  return [...stations]
    .sort((p, q) => p.along - q.along)
    .map((station) => ({ ...station, at: [...station.at].sort((p, q) => p.up - q.up) }));
}

function meets([a, b]: [number, number], from: number, to: number): boolean {
  return a < to && from < b;
}

function subtract(hull: Interval, keepOuts: KeepOut[], low: number, high: number): Interval[] {
  let free = [hull];
  for (const keepOut of keepOuts) {
    const upTo = keepOut.access ? Number.POSITIVE_INFINITY : keepOut.up[1];
    if (!meets([keepOut.up[0], upTo], low, high)) continue;
    const [from, to] = keepOut.across;
    free = free.flatMap((interval) => {
      if (to <= interval.from || from >= interval.to) return [interval];
      const parts: Interval[] = [];
      if (from > interval.from) parts.push({ from: interval.from, to: from });
      if (to < interval.to) parts.push({ from: to, to: interval.to });
      return parts;
    });
  }
  // Bundles lie on half millimetres.
  return free
    .map((interval) => ({ from: ceilHalf(interval.from), to: floorHalf(interval.to) }))
    .filter((interval) => interval.to > interval.from);
}
