/** Where a chock finds something to stand against, and what it must leave alone: keep-outs and the drain. Mm. */
import { drainIn } from '../stow/drain.ts';
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
function drainTop(laid: LaidVoid, { along, across }: Room): number {
  const channels = drainIn(laid, along.from, along.to).filter((channel) => meets(channel.across, across));
  return Math.max(Number.NEGATIVE_INFINITY, ...channels.map((channel) => channel.up[1]));
}
