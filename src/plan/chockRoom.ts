/** Where a chock finds something to stand against, and what it must leave alone: keep-outs and the drain. Mm. */
import { envelope } from '../stow/envelope.ts';
import type { LaidVoid } from '../stow/laid.ts';

export interface Interval {
  from: number;
  to: number;
}

export interface Room {
  along: Interval;
  across: Interval;
  up: Interval;
}

/** A chock shorter than this along, narrower across or lower steadies nothing. */
const LEAST_LENGTH = { along: 60, across: 30 };
const LEAST_HEIGHT = 15;

/** The sides of the void at one height where they stand closest over a stretch, each taken by itself. */
export function sidesOver(laid: LaidVoid, stretch: Interval, up: number): Interval {
  const bare: LaidVoid = { ...laid, keepOut: [], clear: { ...laid.clear, sides: 0 } };
  delete bare.drain;
  const [sides] = envelope(bare, stretch.from, stretch.to).clear(up, up);
  return sides ?? { from: 0, to: 0 };
}

/**
 * The stretches of a room, along or across, that no keep-out takes, long enough for a chock; `foot` is the height from
 * which it may stand: over the drain where it lies in the channel. A keep-out that is to stay reachable takes all over it.
 */
export function openStretches(laid: LaidVoid, room: Room, way: 'along' | 'across'): (Interval & { foot: number })[] {
  const other = way === 'along' ? 'across' : 'along';
  const foot = Math.max(room.up.from, drainTop(laid, room));
  if (room.up.to - foot < LEAST_HEIGHT) return [];
  const taken = laid.keepOut.filter(
    (keepOut) =>
      meets(keepOut[other], room[other]) &&
      meets([keepOut.up[0], keepOut.access ? Number.POSITIVE_INFINITY : keepOut.up[1]], { from: foot, to: room.up.to }),
  );
  const stretches: Interval[] = [];
  let { from } = room[way];
  for (const keepOut of taken.sort((p, q) => p[way][0] - q[way][0])) {
    stretches.push({ from, to: Math.min(keepOut[way][0], room[way].to) });
    from = Math.max(from, keepOut[way][1]);
  }
  stretches.push({ from, to: room[way].to });
  return stretches.filter(({ from, to }) => to - from >= LEAST_LENGTH[way]).map((stretch) => ({ ...stretch, foot }));
}

function meets([from, to]: readonly [number, number], interval: Interval): boolean {
  return from < interval.to && to > interval.from;
}

/** How high the drain reaches where a room lies in it; minus infinity where it does not. */
function drainTop(laid: LaidVoid, room: Room): number {
  const { drain } = laid;
  if (!drain) return Number.NEGATIVE_INFINITY;
  const floors = floorsUnder(laid, room.along);
  const most = Math.max(...floors.map((floor) => floor.up));
  const channel = (edges: number[]): boolean =>
    meets([Math.min(...edges), Math.max(...edges) + drain.width], room.across);
  const wet =
    drain.where === 'middle'
      ? channel(floors.map(({ from, to }) => (from + to - drain.width) / 2))
      : channel(floors.map(({ from }) => from)) || channel(floors.map(({ to }) => to - drain.width));
  return wet ? most + drain.height : Number.NEGATIVE_INFINITY;
}

/** The lowest readings at both ends of a stretch and at the stations in it; the floor of a box. */
function floorsUnder(laid: LaidVoid, { from, to }: Interval): { up: number; from: number; to: number }[] {
  if (!laid.stations) return [{ up: 0, from: -laid.width / 2, to: laid.width / 2 }];
  const floors = laid.stations
    .map(({ along, at }) => ({ along, ...at.reduce((p, q) => (q.up < p.up ? q : p)) }))
    .sort((p, q) => p.along - q.along);
  const inside = floors.filter(({ along }) => along > from && along < to);
  const at = (along: number) => {
    const next = floors.findIndex((floor) => floor.along >= along);
    const q = floors[next < 0 ? floors.length - 1 : next]!;
    const p = next > 0 ? floors[next - 1]! : q;
    const share = q.along === p.along ? 0 : (along - p.along) / (q.along - p.along);
    const mix = (a: number, b: number) => a + share * (b - a);
    return { up: mix(p.up, q.up), from: mix(p.from, q.from), to: mix(p.to, q.to) };
  };
  return [at(from), ...inside, at(to)];
}
