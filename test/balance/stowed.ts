/** A small job and plans made by hand for it: just what the balance looks at, not plans that could be cut. */
import type { Job } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import type { Plan } from '../../src/plan/plan.ts';

const VOIDS = [
  { void: 'F', x: 6, y: 0, axis: 'fore-and-aft' },
  { void: 'P', x: 3.4, y: -0.6, axis: 'fore-and-aft' },
  { void: 'S', x: 3.4, y: 0.6, axis: 'fore-and-aft' },
  { void: 'A', x: 1.2, y: -0.4, axis: 'athwartships' },
] as const;

export function smallJob(caps: Partial<Record<string, { target?: number; most?: number }>> = {}): Job {
  const read = readJobValue({
    format: 'kentledge-job/1',
    name: 'By hand',
    pile: [{ lot: 'A', section: { shape: 'square', side: 30 }, length: 3000, count: 40 }],
    voids: VOIDS.map(({ void: name, x, y, axis }) => ({
      void: name,
      length: 800,
      width: 300,
      height: 160,
      axis,
      origin: { x, y, z: 0.4 },
      ...caps[name],
    })),
    vessel: {
      displacement: 4900,
      vcg: 1.16,
      gm: 0.66,
      beam: 2.6,
      waterlineLength: 8.2,
      lcf: 3.86,
      kgPerCm: 150,
      kgmPerCm: 60,
    },
  });
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.value.job;
}

/** `counts` bundles of `mass` kg in each void, side by side and then on top. */
export function stow(counts: Record<string, number>, mass = 10): Plan {
  const bundles = Object.entries(counts).flatMap(([name, count]) =>
    Array.from({ length: count }, (_, n) => ({
      bundle: `${name}-${n + 1}`,
      void: name,
      order: n + 1,
      mass,
      size: { along: 600, across: 60, up: 36 },
      at: { along: 100, across: -120 + 64 * (n % 4), up: 14 + 40 * Math.floor(n / 4) },
    })),
  );
  const voids = VOIDS.map(({ void: name }) => ({
    void: name,
    mass: mass * (counts[name] ?? 0),
    bundles: counts[name] ?? 0,
  }));
  return { bundles, voids } as unknown as Plan;
}
