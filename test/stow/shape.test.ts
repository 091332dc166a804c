/** Layouts of voids that are no boxes: held against the words of the format, and against boxes said in other words. */
import { describe, expect, test } from 'vitest';
import type { LaidVoid } from '../../src/stow/laid.ts';
import { Berth } from '../../src/stow/layout.ts';
import { restOf } from '../../src/stow/rest.ts';
import { throwDice } from '../bench/dice.ts';
import { type Shape, throwPrices, throwSetting } from './random.ts';
import { countWorth, layoutFaults, type Setting } from './recount.ts';
import { laidOf } from './spaces.ts';

const SHAPES: Shape[] = ['keepOut', 'stations', 'opening', 'bearers', 'drain'];
const SEEDS = Array.from({ length: 10 }, (_, i) => i + 1);

function bestOf({ laid, steels, rules, saw }: Setting, prices: ReturnType<typeof throwPrices>) {
  return new Berth(laid, steels, rules, saw).best(prices);
}

describe('the best layout of a shape stands, and is worth what is told', () => {
  test.each(SHAPES)('in a void of the kind “%s”', (shape) => {
    let filled = 0;
    for (const seed of SEEDS) {
      const dice = throwDice(seed);
      const setting = throwSetting(dice, shape);
      const prices = throwPrices(dice, setting, 8, seed % 2 === 0);
      const found = bestOf(setting, prices);
      if (!found) continue;
      filled++;
      expect([seed, layoutFaults(setting, found.layout)]).toEqual([seed, []]);
      // With moments a box takes the middle of a run to a quarter of a millimetre.
      if (shape !== 'opening') expect(found.value).toBeCloseTo(countWorth(setting, found.layout, prices), 6);
    }
    expect(filled).toBeGreaterThan(5);
  });
});

/** Stations in a straight void: the same section at 0, at `places` and at the end. */
function asStations(laid: LaidVoid, places: number[]): LaidVoid {
  const half = laid.width / 2;
  const at = [
    { up: 0, from: -half, to: half },
    { up: laid.height, from: -half, to: half },
  ];
  return { ...laid, stations: [0, ...places, laid.length].map((along) => ({ along, at })) };
}

describe('a void of stations', () => {
  test('that says a box is worth about what the box is, at any prices', () => {
    let box = 0;
    let said = 0;
    for (const seed of SEEDS) {
      const dice = throwDice(seed);
      const setting = throwSetting(dice, 'box');
      const prices = throwPrices(dice, setting, 8, false);
      const stations = asStations(setting.laid, [setting.laid.length / 3]);
      box += bestOf(setting, prices)?.value ?? 0;
      said += bestOf({ ...setting, laid: stations }, prices)?.value ?? 0;
    }
    expect(said / box).toBeGreaterThan(0.99);
    expect(said / box).toBeLessThan(1.01);
  });

  test('has the same layout whatever the order of its stations and readings', () => {
    for (const seed of SEEDS) {
      const dice = throwDice(seed);
      const setting = throwSetting(dice, 'stations');
      const prices = throwPrices(dice, setting, 8, false);
      const { stations } = setting.laid;
      const turned = [...stations!].reverse().map(({ along, at }) => ({ along, at: [...at].reverse() }));
      const [p, q] = [
        bestOf(setting, prices),
        bestOf({ ...setting, laid: { ...setting.laid, stations: turned } }, prices),
      ];
      expect(q?.layout.runs).toEqual(p?.layout.runs);
    }
  });

  // Not just the same: a short top row lies at the least side by the format, so that what it carries has no mirror image.
  test('is worth nearly the same as its mirror image', () => {
    let value = 0;
    let mirrored = 0;
    for (const seed of SEEDS) {
      const dice = throwDice(seed);
      const setting = throwSetting(dice, 'stations');
      const prices = throwPrices(dice, setting, 8, false);
      const stations = setting.laid.stations!.map(({ along, at }) => ({
        along,
        at: at.map(({ up, from, to }) => ({ up, from: -to, to: -from })),
      }));
      value += bestOf(setting, prices)?.value ?? 0;
      mirrored += bestOf({ ...setting, laid: { ...setting.laid, stations } }, prices)?.value ?? 0;
    }
    expect(Math.abs(mirrored / value - 1)).toBeLessThan(0.01);
  });
});

describe('what a run rests on', () => {
  const bearers = [100, 300, 500].map((along) => ({ along, width: 40, most: 50 }));
  const laid = laidOf({ bearers, mostPerMetre: 400 });

  test('is two bearers or more, its middle between them and no more than a quarter past', () => {
    expect(restOf(laid, 90, 320).stands).toBe(true);
    expect(restOf(laid, 110, 320).stands).toBe(false);
    expect(restOf(laid, 0, 300).stands).toBe(false);
    expect(restOf(laid, 40, 301).stands).toBe(true);
    expect(restOf(laid, 300, 720).stands).toBe(false);
    expect(restOf(laidOf(), 0, 10)).toEqual({ stands: true, most: Number.POSITIVE_INFINITY });
  });

  test('bears as much as its weakest bearer, or its length, lets it', () => {
    // 200 mm on two bearers at its ends: half each, so 100 kg; its length bears 80.
    expect(restOf(laid, 100, 300).most).toBeCloseTo(80, 3);
    // 400 mm over three: the middle one carries half, and a quarter more: 50 / 0.625.
    expect(restOf(laid, 100, 500).most).toBeCloseTo(80, 3);
    expect(restOf({ ...laid, mostPerMetre: undefined }, 100, 300).most).toBeCloseTo(100, 3);
  });
});
