import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromBatten } from '../../src/job/batten.ts';
import { readJobValue } from '../../src/job/readJob.ts';

/** Sides are rounded to 0.1 mm, and the steepest side here rises 200 mm in one. */
const EXACT = 1e-6;

describe('readings down from a level batten', () => {
  it('become sides at every height that was touched', () => {
    const batten = {
      up: 165,
      readings: [
        { across: -160, down: 0 },
        { across: -70, down: 165 },
        { across: 70, down: 165 },
        { across: 160, down: 0 },
      ],
    };
    expect(fromBatten(batten)).toEqual([
      { up: 0, from: -70, to: 70 },
      { up: 165, from: -160, to: 160 },
    ]);
  });

  it('take an upright side from two touches at one offset, in any order', () => {
    const readings = [
      { across: 90, down: 100 },
      { across: 90, down: 0 },
      { across: -90, down: 100 },
      { across: -90, down: 40 },
      { across: -120, down: 0 },
    ];
    const expected = [
      { up: 0, from: -90, to: 90 },
      { up: 60, from: -90, to: 90 },
      { up: 100, from: -120, to: 90 },
    ];
    expect(fromBatten({ up: 100, readings })).toEqual(expected);
    expect(fromBatten({ up: 100, readings: [...readings].reverse() })).toEqual(expected);
  });

  it('leave out what lies behind a hump', () => {
    const readings = [
      { across: -200, down: 90 },
      { across: -150, down: 50 },
      { across: -100, down: 90 },
      { across: 0, down: 100 },
      { across: 100, down: 0 },
    ];
    const at50 = fromBatten({ up: 100, readings }).find((reading) => reading.up === 10);
    expect(at50).toEqual({ up: 10, from: -100, to: 10 });
  });

  it('never say that a place is clear where the touched surface, straight between touches, stands higher', () => {
    const point = fc.record({ across: fc.integer({ min: -300, max: 300 }), down: fc.integer({ min: 0, max: 200 }) });
    fc.assert(
      fc.property(fc.uniqueArray(point, { minLength: 2, maxLength: 8, selector: (p) => p.across }), (readings) => {
        const sorted = [...readings].sort((p, q) => p.across - q.across);
        const surface = (across: number) => {
          const i = sorted.findIndex((p) => p.across >= across);
          if (i <= 0) return 200 - sorted[0]!.down;
          const [p, q] = [sorted[i - 1]!, sorted[i]!];
          return 200 - p.down - ((across - p.across) / (q.across - p.across)) * (q.down - p.down);
        };
        const found = fromBatten({ up: 200, readings });
        for (const [i, low] of found.entries()) {
          const high = found[i + 1] ?? low;
          for (let s = 0; s <= 1; s += 0.25)
            for (let t = 0; t <= 1; t += 0.05) {
              const from = low.from + s * (high.from - low.from);
              const to = low.to + s * (high.to - low.to);
              if (surface(from + t * (to - from)) > low.up + s * (high.up - low.up) + EXACT) return false;
            }
        }
        return true;
      }),
      { numRuns: 500 },
    );
  });
});

describe('a station with a batten in a job', () => {
  const batten = {
    up: 150,
    readings: [
      { across: -150, down: 0 },
      { across: 0, down: 150 },
      { across: 150, down: 0 },
    ],
  };
  const jobOf = (station: object) => ({
    format: 'kentledge-job/1',
    name: 'Trial',
    pile: [{ lot: 'A', section: { shape: 'round', diameter: 20 }, length: 4000 }],
    voids: [
      {
        void: 'V1',
        length: 1200,
        width: 300,
        height: 160,
        stations: [
          { along: 0, at: [{ up: 0, from: -20, to: 20 }] },
          { along: 1200, ...station },
        ],
      },
    ],
  });

  it('needs no readings of its own, and both are kept', () => {
    const read = readJobValue(jobOf({ batten }));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const at = [
      { up: 0, from: 0, to: 0 },
      { up: 150, from: -150, to: 150 },
    ];
    expect(read.value.job.voids[0]!.stations![1]).toEqual({ along: 1200, at, batten });
    const both = readJobValue(jobOf({ batten, at }));
    expect(both.ok && both.value.job.voids[0]!.stations![1]).toEqual({ along: 1200, at, batten });
  });

  it('is faulted where its readings say something else, and where it has neither', () => {
    const faults = (station: object) => {
      const read = readJobValue(jobOf(station));
      return read.ok ? [] : read.faults.map((fault) => `${fault.code} ${fault.path}`);
    };
    const at = [
      { up: 0, from: 0, to: 0 },
      { up: 150, from: -150, to: 153 },
    ];
    expect(faults({ batten, at })).toEqual(['contradiction voids[0].stations[1].batten']);
    expect(faults({})).toEqual(['missing-field voids[0].stations[1].at']);
    expect(faults({ batten: { up: 150, reedings: [] } })).toEqual([
      'missing-field voids[0].stations[1].batten.readings',
      'unknown-field voids[0].stations[1].batten.reedings',
    ]);
  });
});
