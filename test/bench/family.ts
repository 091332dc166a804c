/** The jobs that planning is measured on: a family of twelve by size and seed, and two series that grow one thing. */
import type { JobInput } from '../../src/job/job.ts';
import { SCALES, type Scale, scaledJob } from './jobs.ts';

export interface Measured {
  name: string;
  job: JobInput;
  /** How large it is, for fits. */
  voids: number;
  lots: number;
  bars: number;
}

export function measured(name: string, job: JobInput): Measured {
  const bars = job.pile.reduce((sum, lot) => sum + (lot.lengths?.length ?? lot.count ?? 1), 0);
  return { name, job, voids: job.voids.length, lots: job.pile.length, bars };
}

function scaled(scale: Scale): Measured {
  const seed = scale.seed ?? 1;
  return measured(`${scale.voids} voids, ${scale.bars} bars, seed ${seed}`, scaledJob({ ...scale, seed }));
}

/** Eight jobs of at most 8 voids and about 100 bars, and four larger, up to 60 voids and 2,000 bars. */
export function familyOfTwelve(): Measured[] {
  const small = SCALES.filter((scale) => scale.voids <= 8);
  const seeds = small.flatMap((scale) => [1, 2, 3].map((seed) => scaled({ ...scale, seed })));
  const between = [4, 5].map((seed) => scaled({ voids: 6, sections: 2, lots: 4, bars: 70, seed }));
  const large = SCALES.filter((scale) => scale.voids > 8).map((scale) => scaled(scale));
  return [...seeds, ...between, ...large, scaled({ voids: 15, sections: 6, lots: 14, bars: 300, seed: 2 })];
}

/** More and more voids over the same lots, 25 bars to a void. */
export function growingVoids(): Measured[] {
  return [4, 8, 16, 32].map((voids) => scaled({ voids, sections: 4, lots: 8, bars: 25 * voids, seed: 3 }));
}

/** More and more lots and sections for the same voids, 200 bars in all. */
export function growingLots(): Measured[] {
  return [3, 6, 12, 24].map((lots) => scaled({ voids: 8, sections: Math.ceil(lots / 2), lots, bars: 200, seed: 3 }));
}
