/** Makes of a random job one that was measured in fractions of an inch, or in tenths of a millimetre. */
import type { JobInput } from '../../src/job/job.ts';

/** Fields that are lengths, in mm. */
const LENGTHS = new Set(
  [
    'length lengths width height diameter side thickness acrossFlats nominal leg otherLeg wall from to squaring',
    'kerf tolerance shortestPiece keepFrom wrap endCover cord grip shortest',
    'along across up ends sides top dunnage runs deck',
  ].flatMap((names) => names.split(' ')),
);
const STEPS = [25.4 / 32, 25.4 / 64, 0.7, 0.3];

/** Every length of `job` at the nearest whole number of steps of a 32nd or 64th of an inch, or of 0.7 or 0.3 mm, by the seed. */
export function inFractions(job: JobInput, seed: number): JobInput {
  const step = STEPS[seed % STEPS.length]!;
  const stepped = (value: number) => Math.round(Math.round(value / step) * step * 1e6) / 1e6;
  const changed = (value: unknown, key: string): unknown => {
    if (typeof value === 'number') return LENGTHS.has(key) ? stepped(value) : value;
    if (Array.isArray(value)) return value.map((one) => changed(one, key));
    if (typeof value !== 'object' || value === null) return value;
    if (key === 'origin' || key === 'vessel' || key === 'aims') return value;
    return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, changed(one, name)]));
  };
  return changed(job, '') as JobInput;
}
