import { describe, expect, it, test } from 'vitest';
import { type Void, voidSchema } from '../../src/job/job.ts';
import { stationNotes } from '../../src/job/stationNotes.ts';

interface Reading {
  up: number;
  from: number;
  to: number;
}

const HEIGHTS = [0, 60, 120, 180];
const PLACES = [0, 300, 600, 900, 1200];

/** A fair void: waterlines and sections bulge, so that straight lines understate it; narrower forward. */
function fair(change: (stations: { along: number; at: Reading[] }[]) => void = () => {}, more: object = {}): Void {
  const stations = PLACES.map((along) => ({
    along,
    at: HEIGHTS.map((up) => {
      const wide = (90 + 120 * Math.sqrt(up / 180)) * (1 - (along / 2600) ** 2);
      return { up, from: -Math.round(wide), to: Math.round(wide) };
    }),
  }));
  change(stations);
  return voidSchema.parse({ void: 'V1', length: 1200, width: 420, height: 190, stations, ...more });
}

const told = (space: Void) => stationNotes(space).map((note) => `${note.code} ${note.path}`);

describe('readings of a fair void', () => {
  it('call for nothing, in whatever order the stations stand', () => {
    expect(told(fair())).toEqual([]);
    expect(told(fair((stations) => stations.reverse()))).toEqual([]);
    expect(told(fair((stations) => stations.map((station) => station.at.reverse())))).toEqual([]);
    expect(stationNotes(voidSchema.parse({ void: 'V', length: 900, width: 300, height: 100 }))).toEqual([]);
  });

  it.each(PLACES.map((along, i) => [along, i]))('a tape slipped by 100 mm at %i mm is found there', (_, i) => {
    for (const side of ['from', 'to'] as const)
      for (const by of [-100, 100]) {
        const notes = stationNotes(fair((stations) => (stations[i]!.at[2]![side] += by)));
        const jumps = notes.filter((note) => note.code === 'jump');
        expect(jumps.map((note) => [note.path, note.side, note.up])).toEqual([[`stations[${i}]`, side, 120]]);
        expect(jumps[0]!.text).toContain(`${PLACES[i]} mm`);
      }
  });

  it('a bottom read from the wrong mark is found', () => {
    const notes = stationNotes(fair((stations) => (stations[2]!.at[0]!.up = 55)));
    expect(notes.filter((note) => note.code === 'jump').map((note) => [note.path, note.side])).toEqual([
      ['stations[2]', null],
    ]);
  });

  it('a reading over the height of the void is asked about, not one that was rounded', () => {
    const over = (height: number) =>
      told(voidSchema.parse({ ...fair(), height })).filter((each) => each.startsWith('heights'));
    const highest = Math.max(...fair().stations!.flatMap(({ at }) => at.map(({ up }) => up)));
    expect(over(highest - 0.5)).toEqual([]);
    expect(over(highest - 2)).toHaveLength(1);
  });

  it('heights written out of order are told where they turn back', () => {
    const swap = (stations: { at: Reading[] }[]) => {
      const [a, b, c, d] = stations[1]!.at;
      stations[1]!.at = [a!, c!, b!, d!];
    };
    expect(told(fair(swap))).toEqual(['heights stations[1].at[2].up']);
  });
});

it('two stations at one place, which are a fault, are told of no further', () => {
  expect(told(fair((stations) => stations.push(structuredClone(stations[2]!))))).toEqual([]);
});

test('of three stations none is accused: that they do not agree is told in the middle', () => {
  const three = (halves: number[]) =>
    voidSchema.parse({
      void: 'V1',
      length: 1200,
      width: 420,
      height: 180,
      stations: halves.map((half, i) => ({
        along: i * 600,
        at: [
          { up: 0, from: -half, to: half },
          { up: 180, from: -half, to: half },
        ],
      })),
    });
  expect(told(three([100, 140, 200]))).toEqual([]);
  // A slip at an end is seen as soon as it ever was.
  expect(told(three([100, 100, 150]))).toEqual(['jump stations[1]']);
  const [port, ...rest] = stationNotes(three([100, 100, 240])).filter(({ code }) => code === 'jump');
  expect(rest).toEqual([]);
  expect(port).toMatchObject({ path: 'stations[1]', along: 600 });
  expect(port?.text).toContain('a slipped tape there or at one of those, or a frame? Measure all three again.');
});

describe('a hollow that straight lines overstate', () => {
  /** Half-breadths of a wineglass section: little low down, much higher up. */
  const hollow = (heights: number[]): Void =>
    fair((stations) => {
      for (const station of stations)
        station.at = heights.map((up) => {
          const wide = Math.round(40 + 200 * (up / 180) ** 3);
          return { up, from: -wide, to: wide };
        });
    });

  it('asks for one more reading in the stretch where it is deepest', () => {
    const notes = stationNotes(hollow([0, 90, 180]));
    expect(notes.every((note) => note.code === 'hollow')).toBe(true);
    const [first] = notes;
    expect(first!.text).toContain('take one more at');
    const wide = (up: number) => 40 + 200 * (up / 180) ** 3;
    const sag = (from: number, to: number) => (wide(from) + wide(to)) / 2 - wide((from + to) / 2);
    expect(Math.max(sag(0, 90), sag(90, 180))).toBeGreaterThan(5);
    expect(first!.up).toBeGreaterThan(0);
    expect(notes).toHaveLength(2 * PLACES.length);
  });

  it('is no longer told once enough readings are taken', () => {
    expect(told(hollow([0, 30, 60, 90, 120, 150, 180]))).toEqual([]);
  });

  it('along the void asks for one more station', () => {
    const space = fair((stations) => {
      for (const [i, station] of stations.entries())
        for (const reading of station.at) reading.to = 100 + [0, 3, 12, 60, 150][i]!;
    });
    const [note] = stationNotes(space);
    expect(note).toMatchObject({ code: 'hollow', path: 'stations', side: 'to', along: 750 });
  });
});

describe('readings down from a batten', () => {
  const withBatten = (up: number, readings: { across: number; down: number }[]) =>
    voidSchema.parse({
      void: 'V1',
      length: 1200,
      width: 420,
      height: 190,
      stations: [0, 1200].map((along) => ({ along, batten: { up, readings } })),
    });
  const good = [
    { across: -200, down: 0 },
    { across: -90, down: 190 },
    { across: 90, down: 190 },
    { across: 200, down: 0 },
  ];

  it('that reach both sides and the bottom call for nothing', () => {
    expect(told(withBatten(190, good))).toEqual([]);
  });

  it('that run below the bottom, or leave a side unmeasured, are told', () => {
    expect(told(withBatten(180, good))).toEqual([0, 1].map((i) => `batten stations[${i}].batten.readings[1].down`));
    expect(told(withBatten(190, good.slice(0, 3)))).toEqual([0, 1].map((i) => `batten stations[${i}].batten`));
  });

  it('are told as they were measured, in inches too', () => {
    const left = [
      { across: -200, down: 33.34 },
      { across: -90, down: 203.2 },
      { across: 90, down: 203.2 },
      { across: 200, down: 0 },
    ];
    const notes = stationNotes(withBatten(203.2, left)).map(({ text }) => text);
    expect(notes[0]).toContain('nothing is measured to port above 169.86 mm:');
  });
});

test('of a batten measured in inches figures are told to a hundredth, with no tail of the sum', () => {
  const readings = [-177.8, 0, 177.8].map((across) => ({ across, down: across === 0 ? 228.6 : 19.05 }));
  const stations = [0, 787.4].map((along) => ({ along, batten: { up: 228.6, readings } }));
  const notes = stationNotes(voidSchema.parse({ void: 'V1', length: 787.4, width: 431.8, height: 228.6, stations }));
  expect(notes).not.toEqual([]);
  for (const { text } of notes) expect(text).toContain('above 209.55 mm');
});
