/** What to stay off, and yet lies nowhere in its void: whatever it stands for would be buried. */
import type { Fault } from '../fault.ts';
import type { Void } from './job.ts';
import { SMALLEST } from './voidFaults.ts';

const AXES = ['along', 'across', 'up'] as const;
type Range = readonly [number, number];

/** Every keep-out wholly outside its void; one that reaches in from outside is none. `path` is the void's place in the file. */
export function keepOutFaults(space: Void, path: string): Fault[] {
  if (space.keepOut.length === 0) return [];
  const rooms = roomOf(space);
  return space.keepOut.flatMap((keepOut, i) =>
    AXES.flatMap((axis): Fault[] => {
      const own = keepOut[axis];
      const room = rooms[axis];
      // With access it reaches up to the top, from however far below.
      const reached: Range = axis === 'up' && keepOut.access ? [own[0], Number.POSITIVE_INFINITY] : own;
      if (own[0] > own[1] || room[1] - room[0] < SMALLEST || meets(reached, room)) return [];
      const message = `The keep-out lies at ${own[0]} to ${own[1]} mm ${axis}, and the void reaches from ${room[0]} to ${room[1]} mm: it would be buried.`;
      return [{ path: `${path}.keepOut[${i}].${axis}`, code: 'contradiction', message, remedy: REMEDIES[axis] }];
    }),
  );
}

const REMEDIES = {
  along: 'Measure it from the after end of the void (athwartships from its port end), in mm; or take it out.',
  across: 'Measure it from the middle of the void, starboard (athwartships forward) positive, in mm; or take it out.',
  up: 'Measure it from the bottom of the void, in mm; or take it out.',
} as const;

/** How far a void reaches each way; with stations across as far as any reading. */
function roomOf({ length, width, height, stations }: Void): Record<(typeof AXES)[number], Range> {
  const sides = (stations ?? []).flatMap((station) => station.at.flatMap(({ from, to }) => [from, to]));
  const across: Range = stations ? [Math.min(...sides), Math.max(...sides)] : [-width / 2, width / 2];
  return { along: [0, length], across, up: [0, height] };
}

/** True where two ranges have more than an end in common, or one of no extent lies in the other. */
function meets([from, to]: Range, [low, high]: Range): boolean {
  return from === to ? from >= low && from <= high : from < high && to > low;
}
