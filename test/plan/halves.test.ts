/** Clearances, gaps and sizes of voids in fractions of an inch, or in tenths: bundles lie on half millimetres all the same. */
import { expect, it } from 'vitest';
import type { JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';
import { layVoid, onHalves } from '../../src/stow/laid.ts';
import { randomJob } from '../bench/jobs.ts';

type VoidInput = JobInput['voids'][number];

const BOX: VoidInput = { void: 'V1', length: 1000, width: 250, height: 130 };
const INCHES: Partial<VoidInput> = {
  clear: { ends: 6.35, sides: 4.7625, top: 12.7 },
  dunnage: 12.7,
  gap: { runs: 7.9375, across: 3.175 },
};

function read(box: VoidInput) {
  const section = { shape: 'square', side: 25.4 } as const;
  const lengths = [2000, 2000, 2000];
  const job = { format: 'kentledge-job/1', name: 'Inches', pile: [{ lot: 'A', section, lengths }], voids: [box] };
  const value = readJobValue(job);
  if (!value.ok) throw new Error(JSON.stringify(value.faults));
  return value.value;
}

async function planned(box: VoidInput): Promise<Plan> {
  const { job, digest } = read(box);
  const result = await planJob(job, { effort: 'quick', seed: 1, stops: 'free', jobDigest: digest });
  if (result.kind !== 'plan') throw new Error('nothing was placed');
  expect(checkPlan(job, result.plan, digest)).toEqual([]);
  return result.plan;
}

it.each([
  ['a box', {}],
  ['a box that may be laid either way', { axis: 'either', length: 250.3, width: 1000.7 }],
  [
    'a void of stations',
    {
      stations: [
        { along: 0, at: [{ up: 0, from: -101.6, to: 107.95 }] },
        { along: 1000, at: [{ up: 3.175, from: -114.3, to: 101.6 }] },
      ],
    },
  ],
] as [string, Partial<VoidInput>][])('%s with clearances in fractions of an inch is planned', async (_, shape) => {
  const { bundles } = await planned({ ...BOX, ...INCHES, ...shape });
  expect(bundles.length).toBeGreaterThan(1);
  for (const { at } of bundles) for (const place of Object.values(at)) expect(place * 2).toBe(Math.round(place * 2));
});

it('a void on half millimetres holds what the stated one holds: its first and last half millimetre, and its gaps', () => {
  for (const [length, ends, first, last] of [
    [1000, 8, 8, 992],
    [1000, 6.35, 6.5, 993.5],
    [900.3, 7.3, 7.5, 893],
    [20.3, 10.1, 10.5, 10.5],
  ] as const) {
    const { job } = read({ ...BOX, length, clear: { ends }, gap: { runs: 7.9375, across: 3 } });
    const laid = onHalves(layVoid(job.voids[0]!)[0]!);
    expect([laid.clear.ends, laid.length - laid.clear.ends]).toEqual([first, last]);
    expect(laid.gap).toEqual({ runs: 8, across: 3 });
  }
});

it.each([
  [45, '64ths of an inch'],
  [158, 'steps of 0.7 mm'],
])('random job %i, measured in %s, is planned without a fault', async (seed) => {
  const value = readJobValue(randomJob(seed, { small: true, shapes: true, fractions: true }));
  if (!value.ok) throw new Error(JSON.stringify(value.faults));
  const { job, digest } = value.value;
  const result = await planJob(job, { effort: 'quick', seed: 1, stops: 'free', jobDigest: digest });
  if (result.kind !== 'plan') throw new Error('nothing was placed');
  expect(checkPlan(job, result.plan, digest)).toEqual([]);
});
