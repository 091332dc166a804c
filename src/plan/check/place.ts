/** Each bundle against its void: ends, sides, top, keep-outs, drain, openings. */
import type { Opening } from '../../job/job.ts';
import type { Tied } from './bundles.ts';
import { DUST, figure, type Tell } from './planFault.ts';
import { clearWidth, drainUnder, type LaidVoid } from './space.ts';

/** Checks where one bundle lies; what is under it is the matter of its run. */
export function checkPlace(tied: Tied, tell: Tell): void {
  const { bundle, space, along, across, up } = tied;
  const { clear } = space.stated;
  const about = `bundle ${bundle.bundle}`;
  const ends = Math.max(clear.ends - along[0], along[1] - (space.length - clear.ends));
  if (ends > DUST) tell('outside-ends', about, `${about} runs ${figure(ends)} mm into the end of ${space.void}.`, ends);
  const top = up[1] - (space.height - clear.top);
  if (top > DUST) tell('outside-top', about, `${about} stands ${figure(top)} mm over the top of ${space.void}.`, top);
  const [from, to] = clearWidth(space, along, up);
  const sides = Math.max(from + clear.sides - across[0], across[1] - (to - clear.sides));
  if (sides > DUST)
    tell('outside-sides', about, `${about} runs ${figure(sides)} mm into the side of ${space.void}.`, sides);
  for (const keepOut of space.keepOut) {
    const upTo = keepOut.access ? Number.POSITIVE_INFINITY : keepOut.up[1];
    const by = Math.min(
      reaching(along, keepOut.along),
      reaching(across, keepOut.across),
      reaching(up, [keepOut.up[0], upTo]),
    );
    if (by > DUST)
      tell('keep-out', about, `${about} meets or buries the ${keepOut.what ?? 'keep-out'} in ${space.void}.`, by);
  }
  const drain = drainUnder(space, along);
  for (const channel of drain && up[0] < drain.top - DUST ? drain.channels : []) {
    const by = meeting(across, channel);
    if (by > DUST) tell('drain', about, `${about} stands ${figure(by)} mm in the drain of ${space.void}.`, by);
  }
  const { openings } = space;
  if (openings.length > 0 && !openings.some((opening) => passes(space, opening, tied)))
    tell('opening', about, `${about} passes no opening of ${space.void}.`);
}

/** By how much two stretches overlap, mm; negative where they do not. */
export function meeting([a, b]: [number, number], [c, d]: [number, number]): number {
  return Math.min(b, d) - Math.max(a, c);
}

/** How far two stretches must be drawn apart to come clear of each other, mm, however thin either is; negative where they are. */
function reaching([a, b]: [number, number], [c, d]: [number, number]): number {
  return Math.min(b - c, d - a);
}

/**
 * Flat, or end first: with h the free height over what it will rest on, L its along, D its up, T the deck's thickness,
 * a bar at its flattest angle under the hatch edge needs D·L/h + T·√((L/h)² − 1) of the opening; upright (L ≤ h), D.
 * Where the opening's place is stated, the √(L² − h²) that the bar then reaches from the other edge must be free: up to an
 * end of the void, or to a keep-out across the whole breadth that leaves less than D over it and under it.
 */
function passes(space: LaidVoid, opening: Opening, { along, across, up }: Tied): boolean {
  const length = along[1] - along[0];
  const width = across[1] - across[0];
  const depth = up[1] - up[0];
  if (width > opening.across + DUST) return false;
  if (length <= opening.along + DUST) return true;
  if (!opening.endFirst) return false;
  const free = space.height - up[0];
  const ratio = length / free;
  if (opening.at && ratio > 1) {
    if (Math.sqrt(length ** 2 - free ** 2) > reachable(space, opening.along, opening.at.along, depth) + DUST)
      return false;
  }
  const needed = ratio <= 1 ? depth : depth * ratio + opening.deck * Math.sqrt(ratio * ratio - 1);
  return needed <= opening.along + DUST;
}

/** How far a bar may reach from one edge of an opening under the deck past the other, mm: forward or back, whichever is more. */
function reachable(space: LaidVoid, wide: number, middle: number, depth: number): number {
  const readings = space.stations.flatMap((station) => station.at);
  const port = readings.length > 0 ? Math.min(...readings.map((reading) => reading.from)) : -space.width / 2;
  const starboard = readings.length > 0 ? Math.max(...readings.map((reading) => reading.to)) : space.width / 2;
  const walls = space.keepOut.filter(
    ({ across, up }) =>
      across[0] < port + ROUNDED &&
      across[1] > starboard - ROUNDED &&
      up[0] < depth - DUST &&
      space.height - up[1] < depth - DUST,
  );
  // Every place of the opening that no wall stands in lets a bar down towards the nearest wall, or end, to either side.
  const after = middle - wide / 2;
  const before = middle + wide / 2;
  const inside = walls.flatMap(({ along }) => along).filter((at) => at > after && at < before);
  const places = [after, ...inside, before].sort((p, q) => p - q);
  let most = 0;
  for (let i = 1; i < places.length; i++) {
    const here = (places[i - 1]! + places[i]!) / 2;
    if (places[i]! - places[i - 1]! <= DUST || walls.some(({ along }) => along[0] < here && here < along[1])) continue;
    const back = Math.max(0, ...walls.map(({ along }) => along[1]).filter((at) => at < here));
    const ahead = Math.min(space.length, ...walls.map(({ along }) => along[0]).filter((at) => at > here));
    most = Math.max(most, places[i]! - back, ahead - places[i - 1]!);
  }
  return most;
}

/** A wall may fall so far short of the side, mm: its places are rounded. */
const ROUNDED = 1;
