import { describe, expect, test } from 'vitest';
import { tellIn } from '../../server/otherUnits.ts';
import { questionsOf } from '../../src/balance/questions.ts';
import { afloatScene } from '../../src/drawing/afloat.ts';
import { listedScene } from '../../src/drawing/listed.ts';
import type { Job } from '../../src/job/job.ts';
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

  test('not whether all of it is meant for an end where the job asks for its centre there, or for her to be down at it', () => {
    const asking = (aims: Partial<Job['aims']>, counts: Record<string, number>) =>
      questionsOf({ ...job, aims: { ...job.aims, ...aims } }, stow(counts)).filter((one) => / end:/.test(one));
    const ends = [
      [{ A: 3 }, [1, 2], { forward: -1, aft: 3 }, -2],
      [{ F: 3 }, [6, 7], { forward: 3, aft: -1 }, 2],
    ] as const;
    for (const [counts, [from, to], down, trim] of ends) {
      expect(asking({}, counts)).toHaveLength(1);
      for (const aims of [{ centre: { x: [from, to] } }, { effect: { down } }, { effect: { trim } }] as const)
        expect(asking(aims as Partial<Job['aims']>, counts)).toEqual([]);
      // Wanted elsewhere it is asked.
      expect(asking({ centre: { x: [3.5, 4.5] }, effect: { down } }, counts)).toHaveLength(1);
      expect(asking({ effect: { trim: -trim } }, counts)).toHaveLength(1);
    }
  });

  test('heights that are nearly her own centre of gravity', () => {
    const high = smallJob();
    for (const place of high.voids) place.origin = { ...place.origin, z: 1.1 };
    expect(questionsOf(high, stow({ F: 2, P: 2, S: 2, A: 2 }))).toEqual([expect.stringContaining('KEEL')]);
  });

  test('a GM and a timed roll that do not go together: half a roll timed, ten rolls written as one', () => {
    const timed = (rollPeriod: number) => questionsOf({ ...job, vessel: { ...job.vessel!, rollPeriod } });
    // With GM 0.66 m and a beam of 2.6 m a coefficient of 0.8 is a roll of 2.56 s.
    expect(timed(2.56)).toEqual([]);
    expect(timed(1.28)).toEqual([expect.stringMatching(/coefficient of 0\.40.*whole roll/)]);
    expect(timed(25.6)).toEqual([expect.stringMatching(/coefficient of 8\.00/)]);
    expect(questionsOf({ ...job, vessel: { ...job.vessel!, rollPeriod: 1.28, beam: undefined } })).toEqual([]);
  });

  test('counts what lies in the voids already', () => {
    const pig = { what: 'pig', mass: 90, along: [0, 90], across: [-45, 45], up: [0, 90], access: false };
    const lying = smallJob();
    lying.voids[0] = { ...lying.voids[0]!, keepOut: [pig as (typeof lying.voids)[0]['keepOut'][0]] };
    expect(lying.voids[0].void).toBe('F');
    expect(questionsOf(job, stow({ A: 3 }))).not.toEqual([]);
    expect(questionsOf(lying, stow({ A: 3 }))).toEqual([]);
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

  test('tells its figures in the units asked for, metric on a line of its own, none over another', () => {
    const change = { forward: 2.3, aft: -0.7, draughtForward: 0.9, draughtAft: 1.1 };
    const tell = (words: string) => tellIn('inches', words);
    const { shapes, height } = afloatScene(change, { width: 140, height: 46, tell });
    const told = shapes.flatMap((shape) => (shape.kind === 'text' ? [shape] : []));
    const at = (anchor: string) => told.filter((one) => one.anchor === anchor).map((one) => one.text);
    expect(at('start')).toEqual(['down 0.9 in', '(2.3 cm)', 'forward end', '2.95 to 3.02 ft', '(0.90 to 0.92 m)']);
    expect(at('end').slice(0, 2)).toEqual(['up 0.3 in', '(0.7 cm)']);
    const heights = told.filter((one) => one.anchor === 'start').map((one) => one.y);
    expect(heights).toEqual([...new Set(heights)].sort((p, q) => p - q));
    expect(Math.max(...heights)).toBeLessThan(height - 4);
  });

  test('told beneath it, what its lines stand for is not in it', () => {
    const size = { width: 140, height: 42 };
    for (const toldBelow of [false, true]) {
      const scenes = [
        afloatScene({ forward: 1, aft: 2 }, { ...size, toldBelow }),
        listedScene({ before: 1, after: 0 }, { ...size, toldBelow }),
      ];
      for (const { shapes } of scenes) expect(JSON.stringify(shapes).includes('not hers')).toBe(!toldBelow);
    }
  });

  test('no change is told as none, and drawn on the waterline before', () => {
    const scene = afloatScene({ forward: 0, aft: 0 }, { width: 180, height: 46 });
    expect(scene.description).toBe('Forward end as before, after end as before.');
    expect(waterline(0, 0).aft).toBeCloseTo(waterline(0, 0).forward, 9);
  });
});

describe('the drawing of what she lists', () => {
  const lines = (before: number, after: number) =>
    listedScene({ before, after }, { width: 140, height: 40 }).shapes.flatMap((shape) =>
      shape.kind === 'line' ? [shape] : [],
    );

  test('seen from aft, the water climbs on the side to which she lists, the greater list the more', () => {
    const [before, after] = lines(-1, 0.25);
    // Port is to the left, and up is less.
    expect(before!.from.y).toBeLessThan(before!.to.y);
    expect(after!.from.y).toBeGreaterThan(after!.to.y);
    const climb = (line: typeof before) => Math.abs(line!.from.y - line!.to.y);
    expect(climb(before)).toBeCloseTo(4 * climb(after), 9);
    expect([before!.role, after!.role]).toEqual(['guide', 'void']);
  });

  test('says both in words', () => {
    const { description } = listedScene({ before: -1, after: 0.04 }, { width: 140, height: 40 });
    expect(description).toBe('Before: 1.0° to port. After: no list.');
  });
});
