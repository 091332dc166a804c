import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { forceAt } from '../../src/hold/beam.ts';
import { STEEL_FACTOR } from '../../src/hold/carriers.ts';
import { type HeldVoid, heldVoid } from '../../src/hold/holdDown.ts';
import { evenPlaces, type HeldRun, holdShares, holdsMiddle, runsOf, spreadOver } from '../../src/hold/runs.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { BAR, type HoldInput, jobWith, type SpaceInput } from './heldJob.ts';

const BLOCK = { by: 'floor timbers', carries: 30 };
const BLOCKED = { forward: BLOCK, aft: BLOCK, port: BLOCK, starboard: BLOCK };
const ONE_BAR = forceAt({ ...BAR, onEdge: false, pressed: 0 }, 235 / STEEL_FACTOR);

const run = (n: number, from: number, to: number, mass: number): HeldRun => ({ run: n, from, to, mass });
const TWO = [run(1, 8, 492, 30), run(2, 500, 984, 20)];

function held(holdDown: HoldInput, runs: HeldRun[] = TWO, space: SpaceInput = {}) {
  const read = readJobValue(jobWith({ blocked: BLOCKED, ...holdDown }, space));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const mass = runs.reduce((sum, one) => sum + one.mass, 0);
  return heldVoid(read.value.job.voids[0]!, { mass, rolling: false, athwartships: false, runs });
}
const up = (result: HeldVoid) => result.cases.find((one) => one.direction === 'up')!;

test('a bar across has to bridge the widest place under it, between stations too', () => {
  const station = (along: number, half: number) => ({ along, at: [{ up: 0, from: -half, to: half }] });
  const wide = { width: 420, stations: [station(0, 150), station(500, 205), station(1000, 150)] };
  const bars = [{ ...BAR, width: 60, count: 1, span: 409, at: [500] }];
  expect(held({ bars }, TWO, wide).notCounted.join(' ')).toContain('span of 409 mm is less than the 410 mm');
  expect(held({ bars: [{ ...bars[0]!, span: 410 }] }, TWO, wide).notCounted.join(' ')).not.toContain('to bridge');
});

describe('what lies over one run holds no other', () => {
  test('two bars over one run do not hold the other, and what is to be done is told with its places', () => {
    const result = held({ bars: [{ ...BAR, at: [150, 350] }] });
    expect(result.held).toBe(false);
    expect(up(result)).toMatchObject({ carried: false, best: null });
    expect(up(result).text).toContain('nothing that is counted holds this way');
    expect(result.notCounted.join()).toMatch(
      /A1 and A2 are not counted\. Run 2, 500 to 984 mm along, has no bar across/,
    );
    const least = ['A bar across on each side of the middle of run 2 (at 742 mm along), or one over that middle.'];
    expect(up(result).least).toEqual(least);
    const direct = { kind: 'direct', count: 1, lashingCapacity: 2, angle: 30, against: 'aft' } as const;
    expect(up(held({ bars: [{ ...BAR, at: [150, 350] }], straps: [direct] })).least).toEqual(least);
  });

  test('one over the middle of each holds both, the heavier run being the measure', () => {
    const result = held({ bars: [{ ...BAR, at: [742, 250] }] });
    expect(result.held).toBe(true);
    expect(up(result).best!.carries).toBeCloseTo((ONE_BAR * 50) / 30, 6);
    expect(up(result).best!.working.join()).toContain('A1, over run 1');
  });

  test('pressed on all across, a bar is reckoned over as much of its span as the stow under it is wide, the narrower of two runs', () => {
    const wide = [
      { ...TWO[0]!, wide: 250 },
      { ...TWO[1]!, wide: 180 },
    ];
    const spread = { ...BAR, load: 'spread' } as const;
    const one = (pressed: number) => forceAt({ ...BAR, onEdge: false, pressed }, 235 / STEEL_FACTOR);
    expect(one(250) / ONE_BAR).toBeCloseTo((2 * 400) / (2 * 400 - 250), 9);
    const each = up(held({ bars: [{ ...spread, at: [250, 742] }] }, wide));
    expect(each.best!.carries).toBeCloseTo(Math.min((one(250) * 50) / 30, (one(180) * 50) / 20), 6);
    expect(each.best!.working.join(' ')).toContain('Pressed on over 250 of its span of 400 mm');
    const both = up(held({ bars: [{ ...spread, count: 3, at: [100, 496, 892] }] }, wide));
    const onGap = (150 / 384) * 30 + ((892 - 742) / (892 - 508)) * 20;
    expect(both.best!.carries).toBeCloseTo(
      Math.min((one(180) * 50) / onGap, (one(250) * 50) / ((1 - 150 / 384) * 30)),
      6,
    );
  });

  test('how wide the stow is not being known, it is reckoned as pressed on in the middle, and told', () => {
    const read = readJobValue(jobWith({ blocked: BLOCKED, bars: [{ ...BAR, load: 'spread' }] }));
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    const bare = heldVoid(read.value.job.voids[0]!, { mass: 50, rolling: false, athwartships: false });
    expect(up(bare).best!.carries).toBeCloseTo(2 * ONE_BAR, 6);
    expect(bare.assumed.join(' ')).toContain('until then the bar is reckoned as pressed on in the middle');
  });

  test('a run is as wide as its uppermost bundles, and the least told for a bar carries', () => {
    const bundle = (across: number, size: number, level: number) => ({
      void: 'V1',
      run: 1,
      mass: 40,
      at: { along: 8, across, up: level },
      size: { along: 900, across: size, up: 40 },
    });
    const bundles = [bundle(-140, 140, 12), bundle(4, 136, 12), bundle(-70, 60, 52), bundle(-6, 60, 52)];
    const runs = runsOf({ bundles } as unknown as Plan, 'V1');
    // Each of the lower two is covered by less than half: they lie under the bar, packed up to it.
    expect(runs).toEqual([{ run: 1, from: 8, to: 908, mass: 160, wide: 280, centre: -3.5 }]);
    const narrow = runsOf({ bundles: [...bundles.slice(1), bundle(54, 70, 52)] } as unknown as Plan, 'V1');
    expect(narrow[0]!.wide).toBe(70 + 124);
    const thick = (thickness: number) =>
      up(held({ bars: [{ ...BAR, count: 1, thickness, load: 'spread' }] }, [{ ...runs[0]!, wide: 200 }]));
    const least = Number(/at least (\d+) mm thick/.exec(thick(4).least[0]!)![1]);
    expect([thick(least - 1).carried, thick(least).carried]).toEqual([false, true]);
  });

  test('one near the end of a run leaves its other end free', () => {
    const result = held({ bars: [{ ...BAR, at: [100, 742] }] });
    expect(up(result).carried).toBe(false);
    expect(result.notCounted.join()).toContain(
      'has only A1 over it, and its middle, at 250 mm, lies past that: its other end',
    );
  });

  test('one over the ends of two runs counts for both, by its levers', () => {
    const result = held({ bars: [{ ...BAR, count: 3, at: [100, 496, 892] }] });
    // Over run 1 it covers 476 to 492: 484, and the middle of the run at 250 lies 150 of 384 from A1.
    const onGap = (150 / 384) * 30 + ((892 - 742) / (892 - 508)) * 20;
    const onFirst = (1 - 150 / 384) * 30;
    expect(up(result).best!.carries).toBeCloseTo((ONE_BAR * 50) / Math.max(onGap, onFirst), 6);
  });

  test('unlike bars at stated places hold together, each what lies under it', () => {
    const thick = { ...BAR, count: 1, at: [250] };
    const thin = { ...BAR, count: 1, thickness: 8, at: [742] };
    const result = held({ bars: [thick, thin] });
    const weak = forceAt({ ...thin, onEdge: false, pressed: 0 }, 235 / STEEL_FACTOR);
    expect(up(result).best!.carries).toBeCloseTo(Math.min((ONE_BAR * 50) / 30, (weak * 50) / 20), 6);
    expect(up(result).best!.what).toMatch(/^A: 1 × .*; B: 1 × /);
  });

  test('one over no bundle is told, and the others still count', () => {
    const runs = [run(1, 8, 492, 30)];
    const result = held({ bars: [{ ...BAR, at: [250, 800] }] }, runs);
    expect(result.held).toBe(true);
    expect(result.notCounted).toEqual([
      'A2, at 800 mm along, lies over no bundle of this plan: what it holds is not counted.',
    ]);
    expect(up(result).best!.carries).toBeCloseTo(ONE_BAR, 6);
  });

  test('a strap over one run presses that run only, also sideways', () => {
    const over = { kind: 'over', count: 2, lashingCapacity: 8, angle: 80 } as const;
    const of = (at: number[]) => {
      const result = held({ friction: 0.6, blocked: {}, straps: [{ ...over, at }] });
      return result.cases
        .filter(({ direction }) => direction === 'port' || direction === 'up')
        .map((one) => one.carried);
    };
    expect(of([250, 742])).toEqual([true, true, true]);
    expect(of([150, 350])).toEqual([false, false, false]);
    // One over no bundle is in the sum of the working, and not in what is carried.
    const straps = [{ ...over, at: [250, 800] }];
    const result = held({ friction: 0.6, blocked: {}, straps }, [run(1, 8, 492, 30)]);
    const port = result.cases.find(({ direction }) => direction === 'port')!.best!;
    const alone = held({ friction: 0.6, blocked: {}, straps: [{ ...over, count: 1, at: [250] }] }, [
      run(1, 8, 492, 30),
    ]);
    expect(port.carries).toBeCloseTo(alone.cases.find(({ direction }) => direction === 'port')!.best!.carries, 6);
    expect(port.working[1]).toContain('least pressed for its weight');
  });
});

describe('straps at one place', () => {
  const over = { kind: 'over', count: 2, lashingCapacity: 1, angle: 80 } as const;
  const lift = (at: number[]) => up(held({ straps: [{ ...over, count: at.length, at }] }, [run(1, 0, 1000, 50)]));

  test('and close together hold no less than one of them alone', () => {
    const one = lift([500]).best!.carries;
    for (const at of [
      [499, 501],
      [440, 500],
      [499, 502, 900],
    ])
      expect(lift(at).best!.carries).toBeGreaterThan(0.999 * one);
  });

  test('share alike what one there would have, wherever they lie', () => {
    expect(lift([500, 500]).best!.carries).toBeCloseTo(2 * lift([500]).best!.carries, 6);
    expect(lift([300, 300, 800]).best!.carries).toBeCloseTo(Math.min(2 / 0.6, 1 / 0.4) * lift([500]).best!.carries, 6);
    const weak = { ...over, lashingCapacity: 0.01, at: [500, 500] };
    expect(held({ straps: [weak] }, [run(1, 0, 1000, 50)]).held).toBe(false);
    const rows = [500, 500].map((at) => ({ ...over, count: 1, lashingCapacity: 0.01, at: [at] }));
    expect(held({ straps: rows }, [run(1, 0, 1000, 50)]).held).toBe(false);
  });
});

describe('the least that would carry it', () => {
  const over = { kind: 'over', count: 2, lashingCapacity: 0.9, angle: 80 } as const;
  const UNLIKE = [run(1, 0, 490, 100), run(2, 500, 1000, 10)];

  test('is told in straps for each run, no fewer than carry it, and one less would not', () => {
    for (const [direction, friction, at] of [
      ['up', 0, undefined],
      ['up', 0, [245, 750]],
      ['port', 0.5, undefined],
    ] as const) {
      const of = (count: number, places?: readonly number[]) => {
        const straps = [{ ...over, count, ...(places && { at: [...places] }) }];
        return held({ friction, blocked: {}, straps }, UNLIKE).cases.find((one) => one.direction === direction)!;
      };
      const told = /^(\d+) straps over the top like this one \((\d+) over run 1, (\d+) over run 2\)/.exec(
        of(2, at).least[0]!,
      )!;
      const [count, first, second] = told.slice(1).map(Number) as [number, number, number];
      expect(first + second).toBe(count);
      expect([of(count - 1).carried, of(count).carried]).toEqual([false, true]);
    }
  });

  test('of bars too short counts how the runs divide the load', () => {
    const least = (span: number) => up(held({ bars: [{ ...BAR, thickness: 4, span }] })).least[0];
    expect(least(300)).toMatch(/at least \d+ mm thick over 300 mm/);
    expect(least(299)).toBe(least(300));
  });
});

describe('where no place is stated', () => {
  test('entering the places that the working takes changes nothing of what is carried', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 9 }), fc.integer({ min: 20, max: 60 }), (count, mass) => {
        const of = (at?: number[]) =>
          held({ bars: [{ ...BAR, width: 20, count, ...(at && { at }) }] }, [TWO[0]!, run(2, 500, 984, mass)]);
        const free = of();
        const settled = of([...free.covers[0]!.assumed.values()]);
        expect(up(settled).best!.carries).toBeCloseTo(up(free).best!.carries, 6);
      }),
      { numRuns: 30 },
    );
  });

  test('fewer bars than runs are not counted; as many and more are taken as spread over the runs, and that is told', () => {
    const bars = (count: number) => held({ bars: [{ ...BAR, count }] });
    expect(up(bars(1)).best).toBeNull();
    expect(bars(1).notCounted.join()).toContain('1 bar across for 2 runs');
    expect(up(bars(2)).best!.carries).toBeCloseTo((ONE_BAR * 50) / 30, 6);
    expect(up(bars(3)).best!.carries).toBeCloseTo((ONE_BAR * 50) / 20, 6);
    expect(bars(3).assumed[0]).toContain('A1, A2 over run 1; A3 over run 2. Whoever fits them settles it');
    expect(bars(3).covers[0]!.assumed.get('A3')).toBe(742);
  });

  test('without a plan all share alike, and that is told', () => {
    const read = readJobValue(jobWith({ blocked: BLOCKED, bars: [BAR] }));
    if (!read.ok) throw new Error('refused');
    const bare = heldVoid(read.value.job.voids[0]!, { mass: 50, rolling: false, athwartships: false });
    expect(up(bare).best!.carries).toBeCloseTo(2 * ONE_BAR, 6);
    expect(bare.assumed.join()).toContain('its runs are not known');
  });

  test('bars with places and bars without are not added up', () => {
    const result = held({
      bars: [
        { ...BAR, count: 1, at: [250] },
        { ...BAR, count: 1 },
      ],
    });
    expect(up(result).best).toBeNull();
    expect(result.assumed.join()).toContain('reckoned apart, never together');
  });
});

describe('laws of sharing', () => {
  const runOf = fc
    .tuple(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 100, max: 1500 }))
    .map(([from, length]) => run(1, from, from + length, 10));

  test('all of a run is held in balance, and none is pressed upwards', () => {
    fc.assert(
      fc.property(
        runOf,
        fc.uniqueArray(fc.integer({ min: 1, max: 99 }), { minLength: 1, maxLength: 6 }),
        (one, parts) => {
          const places = parts.sort((p, q) => p - q).map((part) => one.from + (part / 100) * (one.to - one.from));
          if (
            !holdsMiddle(
              one,
              places.map((at) => [at, at]),
            )
          )
            return;
          const shares = holdShares(one, places);
          expect(Math.min(...shares)).toBeGreaterThanOrEqual(0);
          // Some balance of forces that press only, none more than its share, has their sum and their moment.
          const reach = (parts: [number, number][]) => {
            let [left, moment] = [1, 0];
            for (const [at, share] of parts) {
              const force = Math.min(left, share);
              moment += force * at;
              left -= force;
            }
            expect(left).toBeLessThan(1e-9);
            return moment;
          };
          const each = places.map((at, i): [number, number] => [at, shares[i]!]);
          const middle = (one.from + one.to) / 2;
          // Where the middle lies half a millimetre beyond, that of the rounding is all that is missing.
          expect(reach(each)).toBeLessThanOrEqual(middle + 0.5 + 1e-6);
          expect(reach([...each].reverse())).toBeGreaterThanOrEqual(middle - 0.5 - 1e-6);
        },
      ),
    );
  });

  test('two evenly spread share alike, and hold the middle', () => {
    fc.assert(
      fc.property(runOf, fc.integer({ min: 1, max: 6 }), (one, count) => {
        const places = evenPlaces(one, count);
        expect(
          holdsMiddle(
            one,
            places.map((at) => [at, at]),
          ),
        ).toBe(true);
        if (count === 2) expect(holdShares(one, places)).toEqual([expect.closeTo(0.5, 9), expect.closeTo(0.5, 9)]);
      }),
    );
  });

  test('every run has one, all are laid out, and one more never leaves more for the one that has most', () => {
    const masses = fc.array(fc.integer({ min: 1, max: 200 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(masses, fc.integer({ min: 0, max: 8 }), (kg, more) => {
        const runs = kg.map((mass, i) => run(i + 1, i * 100, i * 100 + 90, mass));
        const count = runs.length + more;
        const most = (numbers: number[]) => Math.max(...numbers.map((n, i) => kg[i]! / n));
        const [numbers, next] = [spreadOver(runs, count)!, spreadOver(runs, count + 1)!];
        expect(Math.min(...numbers)).toBeGreaterThanOrEqual(1);
        expect(numbers.reduce((sum, n) => sum + n, 0)).toBe(count);
        expect(most(next)).toBeLessThanOrEqual(most(numbers));
        expect(spreadOver(runs, runs.length - 1)).toBeNull();
      }),
    );
  });

  test('a heavier load is never carried better, wherever the bars lie', () => {
    const places = fc.tuple(fc.integer({ min: 20, max: 480 }), fc.integer({ min: 520, max: 980 }));
    fc.assert(
      fc.property(places, fc.integer({ min: 1, max: 60 }), (at, more) => {
        const used = (mass: number) =>
          up(held({ bars: [{ ...BAR, at: [...at] }] }, [run(1, 8, 492, mass), TWO[1]!])).used ??
          Number.POSITIVE_INFINITY;
        expect(used(30 + more)).toBeGreaterThanOrEqual(used(30));
      }),
      { numRuns: 40 },
    );
  });
});

describe('in a shape, a bar at a stated place', () => {
  const at = (half: number) => [
    { up: 0, from: -20, to: 20 },
    { up: 130, from: -half, to: half },
  ];
  const stations = [
    { along: 0, at: at(100) },
    { along: 1000, at: at(200) },
  ];

  test('has to bridge the void there, and not where it is widest', () => {
    const of = (place: number) =>
      held({ bars: [{ ...BAR, count: 1, span: 304, at: [place] }] }, [run(1, 8, 992, 20)], { stations });
    expect(of(500).held).toBe(true);
    expect(of(540).held).toBe(false);
    expect(of(540).notCounted.join()).toContain('less than the 312 mm of the void');
  });
});

describe('what is refused, with its reason', () => {
  const strap = { kind: 'over', count: 1, lashingCapacity: 2.5, angle: 60 } as const;
  const cases: [string, HoldInput, SpaceInput, string, RegExp][] = [
    ['a bar past the end', { bars: [{ ...BAR, at: [200, 985] }] }, {}, 'bars[0].at[1]', /20 to 980 mm/],
    ['a place in centimetres past nought', { bars: [{ ...BAR, at: [15, 400] }] }, {}, 'bars[0].at[0]', /after end/],
    ['a strap past the end', { straps: [{ ...strap, at: [1001] }] }, {}, 'straps[0].at[0]', /1000 mm long/],
    ['too few places', { bars: [{ ...BAR, at: [200] }] }, {}, 'bars[0].at', /1 place is stated for 2/],
    ['too many places', { straps: [{ ...strap, at: [200, 300] }] }, {}, 'straps[0].at', /2 places are stated for 1/],
    ['two bars in one place', { bars: [{ ...BAR, at: [200, 230] }] }, {}, 'bars[0].at[1]', /at least 40 mm apart/],
    [
      'a void that lies either way',
      { bars: [{ ...BAR, at: [200, 600] }] },
      { axis: 'either' },
      'bars[0].at',
      /either way/,
    ],
    ['a port end', { bars: [{ ...BAR, at: [5, 600] }] }, { axis: 'athwartships' }, 'bars[0].at[0]', /port end/],
  ];

  test.each(cases)('%s', (_, holdDown, space, path, words) => {
    const read = readJobValue(jobWith(holdDown, space));
    if (read.ok) throw new Error('not refused');
    expect(read.faults.map((one) => one.path)).toEqual([`voids[0].holdDown.${path}`]);
    expect(`${read.faults[0]!.message} ${read.faults[0]!.remedy}`).toMatch(words);
  });

  test('at both ends of what is possible it is taken', () => {
    expect(readJobValue(jobWith({ bars: [{ ...BAR, at: [20, 980] }] })).ok).toBe(true);
    expect(readJobValue(jobWith({ straps: [{ ...strap, count: 2, at: [0, 1000] }] })).ok).toBe(true);
  });
});
