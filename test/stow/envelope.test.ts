/** Clear space held against sampling: every point of it is free, and just beside it something is in the way. */
import { describe, expect, test } from 'vitest';
import type { Station, Void } from '../../src/job/job.ts';
import { stowable } from '../../src/plan/totals.ts';
import { bottomAt, envelope, type Interval } from '../../src/stow/envelope.ts';
import { layVoid, vesselPoint } from '../../src/stow/laid.ts';
import { hasRoomUnder, openingOf, roomUnder, widestThrough } from '../../src/stow/opening.ts';
import { type Dice, throwDice } from '../bench/dice.ts';
import { laidOf, voidOf } from './spaces.ts';

/** Random stations over `length` mm, readings 0 to `height` mm up, all of them at least 120 mm wide. */
function throwStations(dice: Dice, length: number, height: number): Station[] {
  const alongs = [0, ...Array.from({ length: dice.whole(0, 2) }, () => dice.whole(100, length - 100)), length];
  return [...new Set(alongs)].map((along) => {
    const floor = dice.whole(0, 20);
    const ups = [floor, ...Array.from({ length: dice.whole(1, 3) }, () => dice.whole(floor + 10, height))];
    const at = [...new Set(ups)].map((up) => ({ up, from: -dice.whole(60, 160), to: dice.whole(60, 160) }));
    return { along, at };
  });
}

function shuffle<T>(dice: Dice, list: T[]): T[] {
  const rest = [...list];
  return list.map(() => rest.splice(dice.whole(0, rest.length - 1), 1)[0]!);
}

/** The space at a point of a void of stations by the words of the format: linear in up, then linear in along. */
function spaceAt(stations: Station[], along: number, up: number): { from: number; to: number; bottom: number } {
  const sorted = [...stations].sort((p, q) => p.along - q.along);
  const next = sorted.findIndex((station) => station.along >= along);
  const q = sorted[next < 0 ? sorted.length - 1 : next]!;
  const p = sorted[Math.max(0, (next < 0 ? sorted.length - 1 : next) - 1)]!;
  const t = p === q || q.along === p.along ? 1 : (along - p.along) / (q.along - p.along);
  const reading = (station: Station, side: 'from' | 'to'): number => {
    const at = [...station.at].sort((a, b) => a.up - b.up);
    if (up <= at[0]!.up) return at[0]![side];
    for (let i = 1; i < at.length; i++) {
      const [low, high] = [at[i - 1]!, at[i]!];
      if (up <= high.up) return low[side] + ((high[side] - low[side]) * (up - low.up)) / (high.up - low.up);
    }
    return at.at(-1)![side];
  };
  const floor = (station: Station): number => Math.min(...station.at.map((each) => each.up));
  const mix = (a: number, b: number): number => a + (b - a) * t;
  return {
    from: mix(reading(p, 'from'), reading(q, 'from')),
    to: mix(reading(p, 'to'), reading(q, 'to')),
    bottom: mix(floor(p), floor(q)),
  };
}

const steps = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count + 1 }, (_, i) => from + ((to - from) * i) / count);

const rounded = (intervals: Interval[]): number[][] =>
  intervals.map(({ from, to }) => [from, to].map((edge) => Math.round(edge * 1e9) / 1e9));

const SEEDS = Array.from({ length: 40 }, (_, i) => i + 1);

describe('the clear space of a void of stations', () => {
  test.each(SEEDS)('is what sampling finds, within it to half a millimetre (seed %i)', (seed) => {
    const dice = throwDice(seed);
    const [length, height] = [dice.whole(400, 1500), dice.whole(100, 250)];
    const laid = laidOf({ length, height, stations: throwStations(dice, length, height) });
    const from = dice.whole(0, length - 200);
    const to = dice.whole(from + 20, length);
    const low = dice.whole(0, height - 40);
    const high = dice.whole(low + 10, height);
    const sampled: Interval = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };
    let bottom = Number.NEGATIVE_INFINITY;
    const breaks = laid.stations!.map((station) => station.along).filter((along) => along > from && along < to);
    const readings = laid.stations!.flatMap(({ at }) => at.map(({ up }) => up)).filter((up) => up > low && up < high);
    for (const along of [...steps(from, to, 60), ...breaks]) {
      for (const up of [...steps(low, high, 40), ...readings]) {
        const space = spaceAt(laid.stations!, along, up);
        sampled.from = Math.max(sampled.from, space.from);
        sampled.to = Math.min(sampled.to, space.to);
        bottom = Math.max(bottom, space.bottom);
      }
    }
    const space = envelope(laid, from, to);
    const [interval] = space.clear(low, high);
    expect(interval!.from).toBe(Math.ceil(2 * (sampled.from + laid.clear.sides) - 1e-6) / 2);
    expect(interval!.to).toBe(Math.floor(2 * (sampled.to - laid.clear.sides) + 1e-6) / 2);
    expect(space.bottom).toBe(Math.ceil(2 * (bottom + laid.dunnage) - 1e-6) / 2);
    expect(space.top).toBe(height - laid.clear.top);
    const at = dice.whole(0, length);
    expect(bottomAt(laid, at)).toBeCloseTo(spaceAt(laid.stations!, at, 0).bottom, 6);
  });

  test.each(SEEDS.slice(0, 15))('does not depend on the order of stations and readings (seed %i)', (seed) => {
    const dice = throwDice(seed);
    const stations = throwStations(dice, 1000, 150);
    const mixed = shuffle(dice, stations).map((station) => ({ ...station, at: shuffle(dice, station.at) }));
    const [a, b] = [laidOf({ stations }), laidOf({ stations: mixed })];
    for (let i = 0; i < 10; i++) {
      const from = dice.whole(0, 800);
      const [p, q] = [envelope(a, from, from + 150), envelope(b, from, from + 150)];
      const low = dice.whole(0, 80);
      expect(q.bottom).toBeCloseTo(p.bottom, 9);
      expect(q.clear(low, low + 40)).toEqual(p.clear(low, low + 40));
    }
  });

  test('is that of the box where the stations say a box', () => {
    const dice = throwDice(7);
    const at = [
      { up: 0, from: -150, to: 150 },
      { up: 150, from: -150, to: 150 },
    ];
    const keepOut = [
      { along: [300, 360] as [number, number], across: [-30, 30] as [number, number], up: [0, 60] as [number, number] },
    ];
    for (const more of [{}, { keepOut }]) {
      const box = laidOf(more);
      const stations = laidOf({ ...more, stations: [0, 410, 1000].map((along) => ({ along, at })) });
      for (let i = 0; i < 60; i++) {
        const from = dice.whole(0, 900);
        const to = from + dice.whole(1, 100);
        const low = dice.whole(0, 130);
        const [p, q] = [envelope(box, from, to), envelope(stations, from, to)];
        expect([q.bottom, q.top]).toEqual([p.bottom, p.top]);
        expect(rounded(q.clear(low, low + 15))).toEqual(rounded(p.clear(low, low + 15)));
      }
    }
    expect(stowable(laidOf({ stations: [0, 1000].map((along) => ({ along, at })) }))).toBeCloseTo(
      stowable(laidOf()),
      3,
    );
    expect(stowable(laidOf())).toBeCloseTo((1000 - 16) * (300 - 10) * (150 - 12 - 12), 3);
  });

  test('is the mirror image where the void is', () => {
    for (const seed of SEEDS.slice(0, 15)) {
      const dice = throwDice(seed);
      const stations = throwStations(dice, 1000, 150);
      const mirrored = stations.map(({ along, at }) => ({
        along,
        at: at.map(({ up, from, to }) => ({ up, from: -to, to: -from })),
      }));
      const from = dice.whole(0, 800);
      const [p, q] = [laidOf({ stations }), laidOf({ stations: mirrored })].map((laid) =>
        envelope(laid, from, from + 190).clear(30, 70),
      );
      expect(q!.length).toBe(p!.length);
      p!.forEach((interval, i) => {
        expect(q![i]!.from).toBeCloseTo(-interval.to, 9);
        expect(q![i]!.to).toBeCloseTo(-interval.from, 9);
      });
    }
  });

  test('shrinks, or stays, as the stretch or the height grows', () => {
    const widthOf = (intervals: Interval[]): number => intervals.reduce((sum, { from, to }) => sum + to - from, 0);
    for (const seed of SEEDS) {
      const dice = throwDice(seed);
      const laid = laidOf({ stations: throwStations(dice, 1000, 150) });
      const from = dice.whole(0, 600);
      const low = dice.whole(0, 60);
      const small = envelope(laid, from + 20, from + 200).clear(low + 10, low + 40);
      const large = envelope(laid, from, from + 260).clear(low, low + 70);
      expect(widthOf(large)).toBeLessThanOrEqual(widthOf(small) + 1e-9);
      expect(envelope(laid, from, from + 260).bottom).toBeGreaterThanOrEqual(
        envelope(laid, from + 20, from + 200).bottom,
      );
    }
  });
});

describe('keep-outs', () => {
  const keepOut = (more: Partial<Void['keepOut'][number]>): Void['keepOut'] => [
    { along: [400, 460], across: [-20, 30], up: [0, 50], access: true, ...more },
  ];

  test('divide the width beside them and nowhere else', () => {
    const laid = laidOf({ keepOut: keepOut({}) });
    const whole = [{ from: -145, to: 145 }];
    const split = [
      { from: -145, to: -20 },
      { from: 30, to: 145 },
    ];
    expect(envelope(laid, 300, 450).clear(12, 40)).toEqual(split);
    expect(envelope(laid, 8, 400).clear(12, 40)).toEqual(whole);
    expect(envelope(laid, 460, 700).clear(12, 40)).toEqual(whole);
    expect(envelope(laid, 300, 450).uniform).toBe(false);
    expect(envelope(laid, 8, 400).uniform).toBe(true);
  });

  test('reach up to the top where they need access, and end at their top where not', () => {
    const above = (access: boolean) => envelope(laidOf({ keepOut: keepOut({ access }) }), 300, 450).clear(60, 90);
    expect(above(true)).toHaveLength(2);
    expect(above(false)).toEqual([{ from: -145, to: 145 }]);
  });

  test('leave out what lies outside the void, and may take all of the width', () => {
    expect(envelope(laidOf({ keepOut: keepOut({ across: [200, 300] }) }), 300, 450).clear(12, 40)).toHaveLength(1);
    expect(envelope(laidOf({ keepOut: keepOut({ across: [-200, 300] }) }), 300, 450).clear(12, 40)).toEqual([]);
  });
});

describe('openings', () => {
  const opening = { along: 400, across: 250, endFirst: true, deck: 20 };

  test('let bundles through flat up to their length, whatever lies under them', () => {
    for (const free of [30, 100, 300]) expect(widestThrough(opening, 400, 60, free)).toBe(250);
    expect(widestThrough({ ...opening, endFirst: false }, 401, 60, 300)).toBe(0);
    expect(widestThrough(undefined, 5000, 60, 10)).toBe(Number.POSITIVE_INFINITY);
  });

  test('let bundles through end first by the formula of the format', () => {
    const { deck } = opening;
    for (const along of [401, 520, 700, 1000]) {
      for (const up of [30, 60, 120]) {
        for (const free of [100, 200, 450, 1200]) {
          const ratio = along / free;
          const needs = along <= free ? up : up * ratio + deck * Math.sqrt(ratio ** 2 - 1);
          expect(widestThrough(opening, along, up, free)).toBe(needs <= opening.along ? opening.across : 0);
        }
      }
    }
  });

  test('let no less through the more room there is and the smaller the bundle', () => {
    const dice = throwDice(3);
    for (let i = 0; i < 400; i++) {
      const [along, up, free] = [dice.whole(100, 1200), dice.whole(20, 150), dice.whole(40, 500)];
      const some = widestThrough(opening, along, up, free);
      expect(widestThrough(opening, along, up, free + 30)).toBeGreaterThanOrEqual(some);
      expect(widestThrough(opening, along - 30, up, free)).toBeGreaterThanOrEqual(some);
      expect(widestThrough(opening, along, up - 10, free)).toBeGreaterThanOrEqual(some);
      expect(widestThrough({ ...opening, along: 500 }, along, up, free)).toBeGreaterThanOrEqual(some);
      expect(widestThrough({ ...opening, across: 300 }, along, up, free)).toBeGreaterThanOrEqual(some);
      expect(widestThrough({ ...opening, deck: 10 }, along, up, free)).toBeGreaterThanOrEqual(some);
    }
  });
});

describe('under the deck beside an opening', () => {
  /** Whether a thin bar lies with one end in the opening and the other in the void at any of many slopes, either way round. */
  function slipsUnder(opening: [number, number], length: number, along: number, free: number): boolean {
    for (let part = 0; part <= 4000; part++) {
      const deep = (Math.min(free, along) * part) / 4000;
      const level = Math.sqrt(along ** 2 - deep ** 2);
      for (const top of opening) if (top - level >= 0 || top + level <= length) return true;
    }
    return false;
  }

  test('there is room where a bar slips in at some slope', () => {
    const dice = throwDice(11);
    const seen = [0, 0];
    for (let i = 0; i < 300; i++) {
      const [length, wide] = [dice.whole(500, 1500), dice.whole(100, 400)];
      const middle = dice.whole(wide / 2, length - wide / 2);
      const [along, free] = [dice.whole(wide + 1, length), dice.whole(60, 500)];
      const opening = { along: wide, across: 250, endFirst: true, deck: 0, at: { along: middle, across: 0 } };
      const slips = slipsUnder([middle - wide / 2, middle + wide / 2], length, along, free);
      expect(hasRoomUnder(opening, laidOf({ length }), along, 60, free)).toBe(slips);
      seen[slips ? 1 : 0]!++;
    }
    expect(Math.min(...seen)).toBeGreaterThan(40);
  });

  test('it ends at what stands over the whole breadth and nearly to the top', () => {
    const opening = { along: 300, across: 200, endFirst: true, deck: 0, at: { along: 500, across: 0 } };
    const reach = (along: [number, number], parts: Partial<Void['keepOut'][number]> = {}) => {
      const keepOut = [{ along, across: [-150, 150], up: [0, 290], access: false, ...parts }] as Void['keepOut'];
      return roomUnder(opening, laidOf({ length: 1000, width: 300, height: 300, keepOut }), 500, 60);
    };
    // The opening reaches from 350 to 650: forward 650 mm, aft as much.
    expect(reach([0, 200])).toBe(650);
    expect(reach([800, 1000])).toBe(650);
    expect(reach([200, 800])).toBe(0);
    // Half under it and all forward: aft from where it stands.
    expect(reach([500, 1000])).toBe(500);
    expect(reach([0, 700])).toBe(0);
    expect(reach([500, 600])).toBe(500);
    // Past its side, over it and under it a bundle of 60 mm gets.
    expect(reach([500, 1000], { across: [-150, 90] })).toBe(650);
    expect(reach([500, 1000], { up: [0, 240] })).toBe(650);
    expect(reach([500, 1000], { up: [60, 300] })).toBe(650);
    // On many walls no bar is let in that finds no place to pass.
    const dice = throwDice(5);
    for (let i = 0; i < 300; i++) {
      const from = dice.whole(0, 900);
      const to = dice.whole(from + 1, 1000);
      const free: number[] = [];
      for (let at = 350; at < 650; at++) {
        if (at >= from && at < to) continue;
        // From each millimetre of the opening that is open the way runs to the wall or the end.
        const [back, ahead] = [at >= to ? to : 0, at < from ? from : 1000];
        const tail = at < from ? Math.min(650, from) : 650;
        const head = at >= to ? Math.max(350, to) : 350;
        free.push(tail - back, ahead - head);
      }
      expect(reach([from, to])).toBe(Math.max(0, ...free));
    }
  });

  test('what lacks it passes no opening, unless it lies elsewhere, in a turned void too', () => {
    const opening = { along: 420, across: 220, endFirst: true, deck: 0 };
    const place = (along: number) => ({ length: 1040, height: 180, opening: { ...opening, at: { along } } });
    expect(openingOf(laidOf({ length: 1040, height: 180, opening }), 1024, 30, 12)).toBe(220);
    expect(openingOf(laidOf(place(520)), 1024, 30, 12)).toBe(0);
    expect(openingOf(laidOf(place(520)), 720, 30, 12)).toBe(220);
    expect(openingOf(laidOf(place(210)), 1024, 30, 12)).toBe(220);
    expect(openingOf(laidOf({ ...place(520), otherOpenings: [place(830).opening] }), 1024, 30, 12)).toBe(220);
    const stated = { width: 1040, length: 300, height: 180, axis: 'either' as const };
    const turned = (across: number) =>
      layVoid(voidOf({ ...stated, opening: { ...opening, along: 220, across: 420, at: { along: 150, across } } }))[1]!;
    expect(openingOf(turned(0), 1024, 30, 12)).toBe(0);
    expect(openingOf(turned(310), 1024, 30, 12)).toBe(220);
  });
});

test('a void laid athwartships instead lies where it lay, with its keep-outs and its opening', () => {
  const stated = voidOf({
    axis: 'either',
    length: 900,
    width: 400,
    origin: { x: 3, y: 0.5, z: 0.2 },
    keepOut: [{ along: [100, 160], across: [-150, -90], up: [0, 50] }],
    opening: { along: 300, across: 350 },
  });
  const [given, turned] = layVoid(stated);
  expect([turned!.axis, turned!.length, turned!.width]).toEqual(['athwartships', 400, 900]);
  // One corner and the keep-out's corners, by both ways of telling them: from the port side, and from the middle.
  for (const [along, across] of [
    [0, -200],
    [900, 200],
    [100, -150],
    [160, -90],
  ] as const) {
    const a = vesselPoint(given!, along, across, 30);
    const b = vesselPoint(turned!, across + 200, along - 450, 30);
    for (const axis of ['x', 'y', 'z'] as const) expect(b[axis]).toBeCloseTo(a[axis], 9);
  }
  expect([turned!.keepOut[0]!.along, turned!.keepOut[0]!.across]).toEqual([
    [50, 110],
    [-350, -290],
  ]);
  expect([turned!.opening!.along, turned!.opening!.across]).toEqual([350, 300]);
  expect(stowable(turned!)).toBeGreaterThan(0);
});
