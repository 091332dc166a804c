/**
 * A station as it is measured: a level batten across the void, and a tape down from it to the inside of the hull at a few
 * offsets. What is clear at each height follows from it. Lengths mm, in the coordinates of the void.
 */
import { z } from 'zod';

const mm = z.number().min(0).max(100_000);

export const battenSchema = z.strictObject({
  up: mm.describe('the underside of the batten over the bottom of the void, mm'),
  readings: z
    .array(
      z.strictObject({
        across: z.number().min(-100_000).max(100_000).describe('offset of the tape, mm'),
        down: mm.describe('from the underside of the batten to the hull, mm'),
      }),
    )
    .min(2)
    .max(200),
});

export type Batten = z.output<typeof battenSchema>;

/** The clear space at one height of a station. */
export interface SideReading {
  up: number;
  from: number;
  to: number;
}

interface Point {
  across: number;
  up: number;
}

/**
 * The readings of a station that a batten gives, lowest first: at every height that was touched, how far it is clear to
 * either side of the lowest place, straight from touch to touch. Behind a hump, and on a level shelf, nothing counts as
 * clear up to its height. Two touches at one offset are an upright side. Sides are rounded inward to 0.1 mm; a tape that ran below the void's bottom (`down` over
 * `up`) counts as touching it at 0.
 */
export function fromBatten(batten: Batten): SideReading[] {
  const touched = batten.readings.map(({ across, down }) => ({ across, up: tenth(Math.max(0, batten.up - down)) }));
  const [left, right] = floorOf(touched);
  // Outward from the floor on either side; of an upright side, its foot first.
  const outward = (p: Point, q: Point) => Math.abs(p.across - left) - Math.abs(q.across - left) || p.up - q.up;
  const port = touched.filter((point) => point.across <= left).sort(outward);
  const starboard = touched.filter((point) => point.across >= right).sort(outward);
  const heights = [...new Set(touched.map((point) => point.up))].sort((p, q) => p - q);
  return heights.map((up) => ({
    up,
    from: Math.ceil(firstRise(port, up) * 10 - 1e-6) / 10 + 0,
    to: Math.floor(firstRise(starboard, up) * 10 + 1e-6) / 10 + 0,
  }));
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

/** The widest stretch of the lowest touches with nothing higher touched inside it. */
function floorOf(touched: Point[]): [number, number] {
  const lowest = Math.min(...touched.map((point) => point.up));
  const floor = touched.filter((point) => point.up === lowest).map((point) => point.across);
  const higher = touched.filter((point) => point.up > lowest).map((point) => point.across);
  const places = [...new Set(floor)].sort((p, q) => p - q);
  let widest: [number, number] = [places[0]!, places[0]!];
  let left = places[0]!;
  for (const right of places) {
    if (higher.some((across) => across > left && across < right)) left = right;
    if (right - left > widest[1] - widest[0]) widest = [left, right];
    if (higher.includes(right)) left = right;
  }
  return widest;
}

/** Going outward, the offset at which the surface first rises to `up`; the outermost touch where it never does. */
function firstRise(points: Point[], up: number): number {
  for (let i = 1; i < points.length; i++) {
    const inner = points[i - 1]!;
    const outer = points[i]!;
    if (outer.up < up || outer.up <= points[0]!.up) continue;
    return inner.across + ((up - inner.up) / (outer.up - inner.up)) * (outer.across - inner.across);
  }
  return points[points.length - 1]!.across;
}
