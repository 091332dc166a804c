import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Void, voidSchema } from '../../src/job/job.ts';
import { bottomAt, clearWidth, drainUnder, highestBottom, inVessel, layVoid } from '../../src/plan/check/space.ts';
import * as stow from '../../src/stow/laid.ts';

const SEED = { seed: 11, numRuns: 200 };
const LENGTH = 1000;
const HEIGHT = 200;

/** Voids of two to five stations, each with one to four readings; sides anywhere, never crossed. */
const stationVoids = fc
  .array(
    fc.record({
      along: fc.integer({ min: 1, max: LENGTH - 1 }),
      at: fc.uniqueArray(
        fc.record({
          up: fc.integer({ min: 0, max: HEIGHT }),
          from: fc.integer({ min: -300, max: 0 }),
          to: fc.integer({ min: 1, max: 300 }),
        }),
        { minLength: 1, maxLength: 4, selector: (reading) => reading.up },
      ),
    }),
    { minLength: 2, maxLength: 5 },
  )
  .map((stations) => {
    const places = [0, ...stations.slice(2).map((station) => station.along), LENGTH];
    const distinct = stations.filter((_, i) => places.indexOf(places[i]!) === i);
    return voidSchema.parse({
      void: 'V',
      length: LENGTH,
      width: 400,
      height: HEIGHT,
      stations: distinct.map((station) => ({ ...station, along: places[stations.indexOf(station)]! })),
    });
  })
  .filter((space) => space.stations!.some((station) => station.along === LENGTH));

const stretch = (most: number) =>
  fc
    .tuple(fc.integer({ min: 0, max: most - 1 }), fc.integer({ min: 1, max: 200 }))
    .map(([from, long]): [number, number] => [from, Math.min(most, from + long)]);

/** One value between two places, by the plainest words of the rule: linear between neighbours, held beyond the ends. */
function between(points: [number, number][], at: number): number {
  const sorted = [...points].sort(([p], [q]) => p - q);
  if (at <= sorted[0]![0]) return sorted[0]![1];
  const next = sorted.findIndex(([place]) => place >= at);
  if (next < 0) return sorted.at(-1)![1];
  const [[x0, y0], [x1, y1]] = [sorted[next - 1]!, sorted[next]!];
  return y0 + ((y1 - y0) * (at - x0)) / (x1 - x0);
}

function sideAt(space: Void, side: 'from' | 'to', along: number, up: number): number {
  return between(
    space.stations!.map((station) => [
      station.along,
      between(
        station.at.map((reading) => [reading.up, reading[side]]),
        up,
      ),
    ]),
    along,
  );
}

/** 25 points over a stretch, its ends among them. */
function evenly([from, to]: [number, number]): number[] {
  return Array.from({ length: 25 }, (_, i) => from + ((to - from) * i) / 24);
}

function within([from, to]: [number, number], places: number[]): number[] {
  return places.filter((place) => place > from && place < to);
}

describe('the clear width over a stretch', () => {
  it('is never wider than at any point of it, and reached at some', () => {
    fc.assert(
      fc.property(stationVoids, stretch(LENGTH), stretch(HEIGHT), (space, along, up) => {
        const [from, to] = clearWidth(layVoid(space, undefined), along, up);
        const [froms, tos] = [[] as number[], [] as number[]];
        const places = [
          ...evenly(along),
          ...within(
            along,
            space.stations!.map((station) => station.along),
          ),
        ];
        const heights = [
          ...evenly(up),
          ...within(
            up,
            space.stations!.flatMap((station) => station.at.map((reading) => reading.up)),
          ),
        ];
        for (const x of places)
          for (const u of heights) {
            froms.push(sideAt(space, 'from', x, u));
            tos.push(sideAt(space, 'to', x, u));
          }
        expect(from).toBeCloseTo(Math.max(...froms), 6);
        expect(to).toBeCloseTo(Math.min(...tos), 6);
      }),
      SEED,
    );
  });

  it('of stations that are all alike is that of the box', () => {
    const box = voidSchema.parse({ void: 'V', length: LENGTH, width: 300, height: HEIGHT });
    const at = [0, HEIGHT].map((up) => ({ up, from: -150, to: 150 }));
    const same = { ...box, stations: [0, 400, LENGTH].map((along) => ({ along, at })) };
    const width = (space: Void) => clearWidth(layVoid(space, undefined), [100, 700], [20, 90]);
    expect(width(same)).toEqual(width(box));
  });

  it('does not depend on the order in which stations and readings were taken', () => {
    fc.assert(
      fc.property(stationVoids, stretch(LENGTH), stretch(HEIGHT), (space, along, up) => {
        const turned = space.stations!.map((station) => ({ ...station, at: [...station.at].reverse() })).reverse();
        const width = (each: Void) => clearWidth(layVoid(each, undefined), along, up);
        expect(width({ ...space, stations: turned })).toEqual(width(space));
      }),
      SEED,
    );
  });

  it('of a mirrored void is mirrored', () => {
    fc.assert(
      fc.property(stationVoids, stretch(LENGTH), stretch(HEIGHT), (space, along, up) => {
        const mirrored = space.stations!.map(({ along: place, at }) => ({
          along: place,
          at: at.map((reading) => ({ up: reading.up, from: -reading.to, to: -reading.from })),
        }));
        const [from, to] = clearWidth(layVoid(space, undefined), along, up);
        const [other, side] = clearWidth(layVoid({ ...space, stations: mirrored }, undefined), along, up);
        expect(other).toBeCloseTo(-to, 9);
        expect(side).toBeCloseTo(-from, 9);
      }),
      SEED,
    );
  });
});

it('the highest bottom under a stretch is that of its ends and of the stations between', () => {
  fc.assert(
    fc.property(stationVoids, stretch(LENGTH), (space, along) => {
      const laid = layVoid(space, undefined);
      const lowest = space.stations!.map((station): [number, number] => [
        station.along,
        Math.min(...station.at.map((reading) => reading.up)),
      ]);
      const places = [
        ...evenly(along),
        ...within(
          along,
          lowest.map(([place]) => place),
        ),
      ];
      const highest = highestBottom(laid, along[0], along[1]);
      expect(highest).toBeCloseTo(Math.max(...places.map((place) => between(lowest, place))), 6);
      expect(bottomAt(laid, along[0])).toBeCloseTo(between(lowest, along[0]), 9);
    }),
    SEED,
  );
});

describe('the drain under a stretch', () => {
  /** The lowest reading of every station as one value. */
  const floor = (space: Void, of: (low: { up: number; from: number; to: number }) => number, along: number) =>
    between(
      space.stations!.map((station) => [station.along, of(station.at.reduce((p, q) => (q.up < p.up ? q : p)))]),
      along,
    );
  const edges = {
    middle: [(width: number) => (low: { from: number; to: number }) => (low.from + low.to - width) / 2],
    sides: [() => (low: { from: number }) => low.from, (width: number) => (low: { to: number }) => low.to - width],
  };

  it.each(['middle', 'sides'] as const)('%s: holds the channel of every place sampled, and no more', (where) => {
    fc.assert(
      fc.property(stationVoids, stretch(LENGTH), fc.integer({ min: 5, max: 80 }), (space, along, width) => {
        const drain = { width, height: 20, where };
        const { top, channels } = drainUnder(layVoid({ ...space, drain }, undefined), along)!;
        const knots = space.stations!.map((station) => station.along).filter((x) => x > along[0] && x < along[1]);
        const places = [...Array.from({ length: 21 }, (_, i) => along[0] + ((along[1] - along[0]) * i) / 20), ...knots];
        const heights = places.map((place) => floor(space, (low) => low.up, place));
        expect(top).toBeCloseTo(Math.max(...heights) + 20, 6);
        expect(channels).toHaveLength(edges[where].length);
        for (const [i, edge] of edges[where].entries()) {
          const starts = places.map((place) => floor(space, edge(width), place));
          expect(channels[i]![0]).toBeCloseTo(Math.min(...starts), 6);
          expect(channels[i]![1]).toBeCloseTo(Math.max(...starts) + width, 6);
        }
      }),
      SEED,
    );
  });
});

it('checker and planner lay a void the same way in the vessel, each by its own code', () => {
  const size = fc.integer({ min: 100, max: 2000 });
  const place = fc.integer({ min: -500, max: 2000 });
  const pair = fc.tuple(place, size).map(([from, long]): [number, number] => [from, from + long]);
  fc.assert(
    fc.property(
      fc.record({
        length: size,
        width: size,
        height: size,
        axis: fc.constantFrom('fore-and-aft', 'athwartships', 'either'),
        origin: fc.record({
          x: fc.integer({ max: 9, min: 0 }),
          y: fc.integer({ min: -2, max: 2 }),
          z: fc.integer({ min: 0, max: 2 }),
        }),
        opening: fc.record({ along: size, across: size }),
        otherOpenings: fc.array(fc.record({ along: size, across: size }), { maxLength: 2 }),
        keepOut: fc.array(fc.record({ along: pair, across: pair, up: fc.constant([0, 50] as [number, number]) }), {
          maxLength: 2,
        }),
      }),
      fc.tuple(place, place, place),
      (stated, [along, across, up]) => {
        const space = voidSchema.parse({ void: 'V', ...stated });
        for (const theirs of stow.layVoid(space)) {
          const ours = layVoid(space, theirs.axis);
          expect(ours).toMatchObject({
            length: theirs.length,
            width: theirs.width,
            origin: theirs.origin,
            keepOut: theirs.keepOut,
            openings: [theirs.opening, ...theirs.otherOpenings!],
          });
          expect(inVessel(ours, along, across, up)).toEqual(stow.vesselPoint(theirs, along, across, up));
        }
      },
    ),
    SEED,
  );
});

it('a void laid either way covers the same water', () => {
  const space = voidSchema.parse({
    void: 'V',
    length: 900,
    width: 400,
    height: 100,
    axis: 'either',
    origin: { x: 3, y: 0.5, z: 0 },
  });
  const corners = (axis: 'fore-and-aft' | 'athwartships') => {
    const laid = layVoid(space, axis);
    const points = [0, laid.length].flatMap((along) =>
      [-laid.width / 2, laid.width / 2].map((across) => inVessel(laid, along, across, 0)),
    );
    return points.map(({ x, y }) => `${x.toFixed(6)} ${y.toFixed(6)}`).sort();
  };
  expect(corners('athwartships')).toEqual(corners('fore-and-aft'));
});
