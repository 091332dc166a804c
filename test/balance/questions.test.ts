import { describe, expect, test } from 'vitest';
import { questionsOf } from '../../src/balance/questions.ts';
import { afloatScene } from '../../src/drawing/afloat.ts';
import { smallJob, stow } from './stowed.ts';

const job = smallJob();

describe('what is asked back', () => {
  test.each([
    [{ F: 3 }, /fore end/],
    [{ A: 3 }, /after end/],
    [{ S: 3 }, /to starboard/],
    [{ P: 3 }, /to port/],
  ])('all of it in one place: %o', (counts, words) => {
    expect(questionsOf(job, stow(counts)).join(' ')).toMatch(words);
  });

  test('heights that are nearly her own centre of gravity', () => {
    const high = smallJob();
    for (const place of high.voids) place.origin = { ...place.origin, z: 1.1 };
    expect(questionsOf(high, stow({ F: 2, P: 2, S: 2, A: 2 }))).toEqual([expect.stringContaining('KEEL')]);
  });

  test('nothing about a plan spread over her, an empty one, or a job without a vessel', () => {
    expect(questionsOf(job, stow({ F: 2, P: 2, S: 2, A: 2 }))).toEqual([]);
    expect(questionsOf(job, stow({}))).toEqual([]);
    expect(questionsOf({ ...job, vessel: undefined }, stow({ F: 2 }))).toEqual([]);
    expect(questionsOf(job)).toEqual([]);
  });
});

describe('the drawing of how she floats', () => {
  /** Heights of the solid line at its after and forward end: smaller is higher up the hull. */
  const waterline = (forward: number, aft: number) => {
    const line = afloatScene({ forward, aft }, { width: 180, height: 46 }).shapes.find(
      (shape) => shape.kind === 'line' && shape.role === 'void',
    );
    if (line?.kind !== 'line') throw new Error('no waterline');
    return { aft: line.from.y, forward: line.to.y };
  };

  test('down by the head: the waterline climbs at the bow', () => {
    expect(waterline(4, 1).forward).toBeLessThan(waterline(4, 1).aft);
    expect(waterline(1, 4).forward).toBeGreaterThan(waterline(1, 4).aft);
    expect(waterline(3, 3).forward).toBeCloseTo(waterline(3, 3).aft, 9);
  });

  test('no change is told as none, and drawn on the waterline before', () => {
    const scene = afloatScene({ forward: 0, aft: 0 }, { width: 180, height: 46 });
    expect(scene.description).toBe('Forward end as before, after end as before.');
    expect(waterline(0, 0).aft).toBeCloseTo(waterline(0, 0).forward, 9);
  });
});
