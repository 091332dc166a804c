import { describe, expect, test } from 'vitest';
import type { Vessel } from '../../src/job/job.ts';
import { vesselFaults } from '../../src/job/vesselFaults.ts';

/** A small craft, whose figures fit each other. */
const VESSEL: Vessel = {
  displacement: 4900,
  displacementMost: 5900,
  waterlineLength: 8.2,
  beam: 2.6,
  draughtForward: 0.86,
  draughtAft: 1.12,
  lcf: 3.86,
  lcg: 3.92,
  vcg: 1.16,
  gm: 0.66,
  kgPerCm: 150,
  kgmPerCm: 60,
};

describe('figures of a vessel that do not fit each other', () => {
  test('figures that do are not faulted, of a raft with a great GM neither', () => {
    expect(vesselFaults(VESSEL)).toEqual([]);
    expect(vesselFaults({ beam: 5, gm: 9.5, waterlineLength: 10, kgPerCm: 512, displacement: 10_000 })).toEqual([]);
  });

  test.each<[string, Partial<Vessel>, string, RegExp]>([
    ['a GM of 66 cm', { gm: 66 }, 'gm', /Did you mean 0\.66\?/],
    ['a GM of 12 cm, which is under 20 m', { gm: 12 }, 'gm', /Did you mean 0\.12\?/],
    ['a displacement in tonnes', { displacement: 4.9 }, 'displacement', /Did you mean 4900\?/],
    [
      'one over a hundred tonnes',
      {
        displacement: 120,
        waterlineLength: 24,
        beam: 5.5,
        draughtForward: 1.8,
        draughtAft: 2,
        displacementMost: 130_000,
        lcf: 11,
        lcg: 11,
        kgPerCm: 900,
      },
      'displacement',
      /Did you mean 120000\?/,
    ],
    ['tonnes per centimetre', { kgPerCm: 0.15 }, 'kgPerCm', /Did you mean 150\?/],
    ['more per centimetre than an oblong', { kgPerCm: 381 }, 'kgPerCm', /oblong.*Did you mean kilograms per inch/],
    ['a centre of flotation from amidships', { lcf: -0.24 }, 'lcf', /Did you mean 3\.86\?/],
    ['a centre of gravity ahead of her', { lcg: 9.5 }, 'lcg', /outside a waterline of 8\.2 m/],
    ['a draught in centimetres', { draughtAft: 112 }, 'draughtAft', /Did you mean 1\.12\?/],
    ['a waterline in millimetres', { waterlineLength: 8200 }, 'waterlineLength', /Did you mean 8\.2\?/],
  ])('%s', (_, change, field, words) => {
    const faults = vesselFaults({ ...VESSEL, ...change });
    expect(faults.map((fault) => fault.path)).toEqual([`vessel.${field}`]);
    expect(`${faults[0]!.message} ${faults[0]!.remedy}`).toMatch(words);
  });
});
