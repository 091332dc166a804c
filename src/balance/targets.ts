/**
 * An amount for each void that puts the ballast's centre where it is aimed at: the aims by place turned into targets. A
 * small linear program: with m the mass in each void and c the most that it takes, minimise the greatest m/c, so that the
 * voids are filled alike, and how far the centre is from the middle of each range, subject to Σ m = ballast and Σ m·place
 * within each range. The place of a void's
 * mass is that of a trial amount, half of what it takes; how bundles lie is not known yet.
 */
import type { Job } from '../job/job.ts';
import type { LinearEngine } from '../linear/model.ts';
import type { AimsByPlace } from './aims.ts';
import { trialRoom, trialWeight } from './moments.ts';

/** A centre at the edge of its range counts as much as voids fuller by this share: a plan comes near its targets, not to them. */
const OFF_MIDDLE = 0.3;

/** kg by void, whole, void by void of the job; null where no amounts do it. Without a ballast there is nothing to share. */
export function targetsFor(
  job: Job,
  { ballast, centre }: Pick<AimsByPlace, 'ballast' | 'centre'>,
  engine: LinearEngine,
): Map<string, number> | null {
  if (ballast === undefined) return null;
  const { density } = job.steel;
  const rooms = job.voids.map((place) => trialRoom(place, density));
  const places = job.voids.map((place, n) => trialWeight(place, rooms[n]! / 2, density));
  using model = engine.create({ sense: 'minimise' });
  const fullest = model.addColumn({ cost: 1, lower: 0, upper: 1, rows: [], values: [] });
  const masses = rooms.map((room) => model.addColumn({ cost: 0, lower: 0, upper: room, rows: [], values: [] }));
  model.addRow(
    ballast,
    ballast,
    masses,
    masses.map(() => 1),
  );
  for (const axis of ['x', 'y', 'z'] as const) {
    const range = centre[axis];
    if (!range) continue;
    const half = ((range[1] - range[0]) * ballast) / 2;
    const off = [1, -1].map((sign) => {
      const column = model.addColumn({ cost: OFF_MIDDLE, lower: 0, upper: 1, rows: [], values: [] });
      return { column, value: sign * half };
    });
    const columns = [...masses, ...off.map(({ column }) => column)];
    const arms = [...places.map((place) => place[axis]), ...off.map(({ value }) => value)];
    const middle = ((range[0] + range[1]) * ballast) / 2;
    model.addRow(middle, middle, columns, arms);
  }
  for (const [n, room] of rooms.entries()) model.addRow(0, Number.POSITIVE_INFINITY, [fullest, masses[n]!], [room, -1]);
  if (model.solve().status !== 'optimal') return null;
  const values = model.values();
  return new Map(job.voids.map((place, n) => [place.void, Math.round(values[masses[n]!]!)]));
}
