import { describe, expect, test } from 'vitest';
import { unplacedLines } from '../../src/balance/unplaced.ts';
import { smallJob, stow } from './stowed.ts';

const NOWHERE = { x: 0, y: 0, z: 0 };

/** The small job, with nothing said of where these lie. */
function without(...marks: string[]) {
  const job = smallJob();
  return {
    ...job,
    voids: job.voids.map((space) => (marks.includes(space.void) ? { ...space, origin: NOWHERE } : space)),
  };
}

describe('voids that nobody said the place of', () => {
  test('are named together, and what hangs on their place', () => {
    const [line] = unplacedLines(without('F', 'P', 'S', 'A'), stow({ F: 1, P: 1, S: 1, A: 1 }));
    expect(line).toMatch(/^Where F, P, S, A lie in her is not stated: they are .* all in one place\..*the centre/);
  });

  test('one alone is named alone, and is not in one place with others', () => {
    const [line] = unplacedLines(without('P'), stow({ F: 1, P: 1 }));
    expect(line).toMatch(/^Where P lies in her is not stated: it is /);
    expect(line).not.toContain('one place');
  });

  test('with a plan only those that it fills are asked after; without one all', () => {
    expect(unplacedLines(without('P'), stow({ F: 1 }))).toEqual([]);
    expect(unplacedLines(without('P'))).toHaveLength(1);
  });

  test('one figure that is not nought is a place', () => {
    const job = smallJob();
    for (const axis of ['x', 'y', 'z'] as const) {
      const voids = job.voids.map((space) => ({ ...space, origin: { ...NOWHERE, [axis]: 0.1 } }));
      expect(unplacedLines({ ...job, voids })).toEqual([]);
    }
  });
});
