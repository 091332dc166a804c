import { describe, expect, test } from 'vitest';
import { effectOf } from '../../src/balance/float.ts';
import type { Vessel } from '../../src/job/job.ts';

const ADDED = [{ mass: 100, x: 3, y: 0, z: 0.3 }];
const FULL: Vessel = { displacement: 3000, beam: 2.6, vcg: 0.9, waterlineLength: 8, rollPeriod: 2.6 };
const without = (...fields: (keyof Vessel)[]): Vessel =>
  Object.fromEntries(Object.entries(FULL).filter(([field]) => !fields.includes(field as keyof Vessel)));

describe('what is lacking is named, and nothing else', () => {
  test.each<[string, Vessel, string, string]>([
    ['displacement', without('displacement'), 'Her displacement is not known.', 'Enter her displacement.'],
    [
      'beam, of which a timed roll makes GM',
      without('beam'),
      'Her beam is not known.',
      'Enter her greatest beam at the waterline.',
    ],
    ['centre of gravity', without('vcg'), 'Her centre of gravity is not known.', 'Enter her draughts.'],
    ['GM alone', without('rollPeriod'), 'Her GM is not known.', 'Time her roll.'],
    [
      'two',
      without('displacement', 'rollPeriod'),
      'Her displacement and GM are not known.',
      'Enter her displacement, and time her roll.',
    ],
    [
      'all of it',
      {},
      'Her displacement, beam, centre of gravity and GM are not known.',
      'Enter her displacement, greatest beam at the waterline and draughts, and time her roll.',
    ],
  ])('for list, GM and roll: %s', (_, vessel, why, remedy) => {
    expect(effectOf(vessel, ADDED).stability).toEqual({ kind: 'none', why, remedy });
  });

  test.each<[string, Vessel, string, string]>([
    [
      'length',
      without('waterlineLength'),
      'Her length at the waterline is not known.',
      'Measure the length at the waterline and enter it.',
    ],
    [
      'beam',
      without('beam'),
      'Her greatest beam at the waterline is not known.',
      'Measure the greatest beam at the waterline and enter it.',
    ],
    [
      'both',
      {},
      'Her length and greatest beam at the waterline are not known.',
      'Measure the length and greatest beam at the waterline and enter them.',
    ],
  ])('for the marks: %s', (_, vessel, why, remedy) => {
    expect(effectOf(vessel, ADDED).marks).toEqual({ kind: 'none', why, remedy });
  });

  test('what the remedies ask for is enough', () => {
    expect(effectOf(FULL, ADDED)).toMatchObject({ marks: { kind: 'answer' }, stability: { kind: 'answer' } });
    const asked: Vessel = { displacement: 3000, beam: 2.6, draughtForward: 0.8, draughtAft: 0.9, rollPeriod: 2.6 };
    expect(effectOf(asked, ADDED).stability.kind).toBe('answer');
  });
});
