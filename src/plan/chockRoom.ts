/** Where a chock finds something to stand against, and what it must leave alone: keep-outs and the drain. Mm. */
import type { KeepOut } from '../job/job.ts';
import { drainIn } from '../stow/drain.ts';
import { envelope } from '../stow/envelope.ts';
import type { LaidVoid } from '../stow/laid.ts';

export interface Interval {
  from: number;
  to: number;
}

/** The two ends of a run, along. */
export type EndSide = 'first end' | 'last end';

export interface Room {
  along: Interval;
  across: Interval;
  up: Interval;
}

/** A chock shorter than this along, narrower across or lower steadies nothing. */
const LEAST_LENGTH = { along: 60, across: 30 };
const LEAST_HEIGHT = 15;
/** Over the drain nothing carries a chock but what stands on both sides of it, so wide at least, or half of it on one. */
const LEAST_BEARING = 10;

/** The sides of the void at one height where they stand closest over a stretch, each taken by itself. */
export function sidesOver(laid: LaidVoid, stretch: Interval, up: number): Interval {
  const bare: LaidVoid = { ...laid, keepOut: [], clear: { ...laid.clear, sides: 0 } };
  delete bare.drain;
  const [sides] = envelope(bare, stretch.from, stretch.to).clear(up, up);
  return sides ?? { from: 0, to: 0 };
}

/**
 * The stretches of a room, along or across, that no keep-out takes, long enough for a chock; `foot` is the height from
 * which it may stand: over the drain where it lies in the channel, and none where it would drop into that. A keep-out that is
 * to stay reachable takes all over it.
 */
export function openStretches(laid: LaidVoid, room: Room, way: 'along' | 'across'): (Interval & { foot: number })[] {
  const other = way === 'along' ? 'across' : 'along';
  const foot = Math.max(room.up.from, drainTop(laid, room));
  if (room.up.to - foot < LEAST_HEIGHT) return [];
  const taken = keptClear(laid, { ...room, up: { from: foot, to: room.up.to } }, other);
  const stretches: Interval[] = [];
  let { from } = room[way];
  for (const keepOut of taken.sort((p, q) => p[way][0] - q[way][0])) {
    stretches.push({ from, to: Math.min(keepOut[way][0], room[way].to) });
    from = Math.max(from, keepOut[way][1]);
  }
  stretches.push({ from, to: room[way].to });
  return stretches
    .filter((stretch) => stretch.to - stretch.from >= LEAST_LENGTH[way])
    .filter((stretch) => isCarried(laid, { ...room, [way]: stretch }, foot))
    .map((stretch) => ({ ...stretch, foot }));
}

/** The keep-outs that take some of a room, by its heights and one other way: one to stay reachable takes all over it. */
function keptClear(laid: LaidVoid, room: Room, way: 'along' | 'across'): KeepOut[] {
  return laid.keepOut.filter(
    ({ access, up, ...keepOut }) =>
      meets(keepOut[way], room[way]) && meets([up[0], access ? Number.POSITIVE_INFINITY : up[1]], room.up),
  );
}

/** Those of them that take some of a room. */
export function takenIn(laid: LaidVoid, room: Room): KeepOut[] {
  return keptClear(laid, room, 'along').filter(({ across }) => meets(across, room.across));
}

/** What faces something over so much of it can be leant on, mm, or over half of it where that is less. */
export const LEAST_FACING = 15;

/**
 * What bears in front of an end of something, stretch by stretch across: the nearest keep-out of those that bear and stand
 * in the `space` before it, mm along, as high as it; none where the way is free. `side` is the end.
 */
export function facings(
  laid: LaidVoid,
  space: Interval,
  { side, across, up }: { side: EndSide; across: Interval; up: Interval },
): (Interval & { keepOut?: KeepOut })[] {
  const least = Math.min(LEAST_FACING, (up.to - up.from) / 2);
  const bearing = laid.keepOut
    .filter(({ bears, along }) => bears && along[0] < space.to && along[1] > space.from)
    .filter((one) => Math.min(one.up[1], up.to) - Math.max(one.up[0], up.from) >= least && meets(one.across, across))
    .sort((p, q) => (side === 'first end' ? q.along[1] - p.along[1] : p.along[0] - q.along[0]));
  const edges = [across.from, across.to, ...bearing.flatMap((one) => one.across)]
    .filter((edge) => edge >= across.from && edge <= across.to)
    .sort((p, q) => p - q);
  const stretches: (Interval & { keepOut?: KeepOut })[] = [];
  for (const [i, to] of edges.slice(1).entries()) {
    const from = edges[i]!;
    if (to <= from) continue;
    const keepOut = bearing.find((one) => one.across[0] <= from && one.across[1] >= to);
    const last = stretches.at(-1);
    if (last && last.keepOut === keepOut) last.to = to;
    else stretches.push({ from, to, keepOut });
  }
  return stretches;
}

/** False for a chock at the height of the drain that lies over the channel with too little beside it. */
function isCarried(laid: LaidVoid, { along, across }: Room, foot: number): boolean {
  return drainIn(laid, along.from, along.to).every((channel) => {
    if (foot > channel.up[1] || !meets(channel.across, across)) return true;
    const [one, other] = [channel.across[0] - across.from, across.to - channel.across[1]];
    const beside = Math.max(0, one) + Math.max(0, other);
    return Math.min(one, other) >= LEAST_BEARING || beside >= (across.to - across.from) / 2;
  });
}

function meets([from, to]: readonly [number, number], interval: Interval): boolean {
  return from < interval.to && to > interval.from;
}

/** How high the drain reaches where a room lies in it; minus infinity where it does not. */
function drainTop(laid: LaidVoid, { along, across }: Room): number {
  const channels = drainIn(laid, along.from, along.to).filter((channel) => meets(channel.across, across));
  return Math.max(Number.NEGATIVE_INFINITY, ...channels.map((channel) => channel.up[1]));
}
