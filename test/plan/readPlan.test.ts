import { describe, expect, it } from 'vitest';
import { readPlan } from '../../src/plan/readPlan.ts';
import { trialPair } from './trialPlan.ts';

const plan = () => trialPair().plan as unknown as Record<string, unknown>;

const ones = (times: number) => new Array<number>(times).fill(1);
const sliver = (times: number) => ones(times).map(() => ({ piece: 'p', from: 0, to: 1, bundle: 'b' }));
const rest = (times: number) => ones(times).map(() => ({ from: 0, to: 1, fate: 'scrap' }));

function codesOf(value: unknown): string[] {
  const read = readPlan(typeof value === 'string' ? value : JSON.stringify(value));
  return read.ok ? [] : read.faults.map((fault) => `${fault.code} ${fault.path}`);
}

describe('a plan file', () => {
  it('is read as it was written', () => {
    const read = readPlan(JSON.stringify(plan()));
    expect(read.ok && read.value).toEqual(plan());
  });

  it.each([
    ['not JSON', '{', ['not-json ']],
    ['a job', { format: 'kentledge-job/1' }, ['wrong-type format']],
    [
      'that says no format, with another fault',
      { ...plan(), format: undefined, seed: '1' },
      ['missing-field format', 'wrong-type seed'],
    ],
    [
      'of a format nobody knows, with another fault',
      { ...plan(), format: 'plan', seed: '1' },
      ['out-of-range format', 'wrong-type seed'],
    ],
    ['of a newer format', { format: 'kentledge-plan/2', bars: 1 }, ['newer-file format']],
    [
      'with a bundle of no length',
      { ...plan(), bundles: [{ ...(plan().bundles as object[])[0], length: '12' }] },
      ['wrong-type bundles[0].length'],
    ],
    ['with a field nobody knows', { ...plan(), colour: 'red' }, ['unknown-field colour']],
    [
      'with new fields of a newer kentledge',
      { ...plan(), engine: '99.1.0', colour: 'red' },
      ['newer-file engine', 'unknown-field colour'],
    ],
    [
      'with bundles and bars of more parts than a job can ask for',
      {
        ...plan(),
        bars: [{ ...(plan().bars as object[])[0], pieces: sliver(100_001), remainders: rest(1002) }],
        bundles: [{ ...(plan().bundles as object[])[0], columns: ones(1001), slots: ones(1001).map(() => ['p0001']) }],
      },
      [
        'out-of-range bars[0].pieces',
        'out-of-range bars[0].remainders',
        'out-of-range bundles[0].columns',
        'out-of-range bundles[0].slots',
      ],
    ],
    ['with a digest that is none', { ...plan(), jobDigest: 'sha256:12' }, ['out-of-range jobDigest']],
  ])('that is %s is refused', (_name, value, codes) => {
    expect(codesOf(value)).toEqual(codes);
  });

  it('of a newer kentledge is read where it has no new fields', () => {
    expect(codesOf({ ...plan(), engine: '99.0.0' })).toEqual([]);
  });
});
