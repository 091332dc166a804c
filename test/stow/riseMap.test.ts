/** Laws of risings in spaces whose sides go in and out with the height: against what is reckoned height by height. */
import { expect, test } from 'vitest';
import { type Block, blocksIn, type Profile, Sides } from '../../src/stow/profile.ts';
import { Riser } from '../../src/stow/rise.ts';
import { RiseMap, type RisingKind } from '../../src/stow/riseMap.ts';
import { WidthSteps } from '../../src/stow/widthSteps.ts';
import { type Dice, throwDice } from '../bench/dice.ts';
import { laidOf } from './spaces.ts';

const CASES = 60;

interface Setting {
  profile: Profile;
  blocks: Block[];
  kinds: RisingKind[];
}

/** Sides with hollows and bulges, something to stay off as often as not, a drain here and there; three kinds of tier. */
function throwSetting(dice: Dice): Setting {
  const height = dice.whole(40, 90);
  const side = () => dice.whole(20, 90);
  const stations = [0, 300, 600].map((along) => ({
    along,
    at: [0, 0.3, 0.6, 1].map((share) => ({ up: Math.round(share * height), from: -side(), to: side() })),
  }));
  const across = dice.whole(-60, 30);
  const up = dice.whole(0, 30);
  const laid = laidOf({
    length: 600,
    width: 200,
    height,
    stations,
    keepOut: dice.chance(0.5)
      ? [
          {
            along: [100, 200],
            across: [across, across + 25],
            up: [up, up + dice.whole(5, 40)],
            access: dice.chance(0.3),
          },
        ]
      : [],
    ...(dice.chance(0.3) ? { drain: { width: 20, height: 15, where: 'middle' } } : {}),
  });
  const from = dice.whole(0, 200);
  const to = from + dice.whole(100, 350);
  const kinds = Array.from({ length: 3 }, () => {
    const each = dice.whole(15, 50);
    return {
      up: dice.whole(12, 60),
      last: dice.whole(0, 2 * height),
      steps: new WidthSteps((width) => Array.from({ length: Math.floor(width / each) }, (_, m) => m + 1), 300),
    };
  });
  return { profile: new Sides(laid).profile(from, to), blocks: blocksIn(laid, from, to), kinds };
}

/** The free widths with every half millimetre of the tier looked at. */
function slowWidths({ profile, blocks }: Setting, low: number, up: number): number[] {
  const high = low + up;
  let from = Number.NEGATIVE_INFINITY;
  let to = Number.POSITIVE_INFINITY;
  for (let h = low; h <= high; h++) [from, to] = [Math.max(from, profile.from[h]!), Math.min(to, profile.to[h]!)];
  const met = [...blocks, ...profile.drain].filter((block) => block.low < high && block.high > low);
  const widths: number[] = [];
  let open = 0;
  for (let place = from; place < to; place++) {
    if (!met.some((block) => block.from <= place && place < block.to)) open++;
    else if (open > 0) [open] = [0, widths.push(open)];
  }
  return open > 0 ? [...widths, open] : widths;
}

/** What tiers are worth from `low` on, tried in every order. */
function slowWorth(setting: Setting, perBundle: number, low: number, known = new Map<number, number>()): number {
  const found = known.get(low);
  if (found !== undefined) return found;
  let most = 0;
  for (const { up, last, steps } of setting.kinds) {
    if (low > last || low + up > setting.profile.top) continue;
    const worths = slowWidths(setting, low, up)
      .map((width) => Math.max(...steps.bars[steps.of(width)]![0]!.map((bars) => bars - perBundle), -1e9))
      .filter((worth) => worth > -1e9);
    if (worths.length === 0) continue;
    const gains = worths.filter((worth) => worth > 0);
    const tier = gains.length > 0 ? gains.reduce((sum, worth) => sum + worth, 0) : Math.max(...worths);
    most = Math.max(most, tier + slowWorth(setting, perBundle, low + up, known));
  }
  known.set(low, most);
  return most;
}

test('the free widths of a tier are those left by every half millimetre of its height', () => {
  const dice = throwDice(41);
  let pinched = 0;
  for (let n = 0; n < CASES; n++) {
    const setting = throwSetting(dice);
    const { profile, blocks, kinds } = setting;
    const map = new RiseMap(profile, blocks, kinds);
    for (const [k, { up, last, steps }] of kinds.entries())
      for (let low = profile.bottom; low <= profile.top; low++) {
        const stands = low <= last && low + up <= profile.top;
        const widths = stands ? slowWidths(setting, low, up) : [];
        if (stands) expect(map.widths(low, up)).toEqual(widths);
        expect(steps.bars[map.stepAt(k, low)]).toEqual(widths.map((width) => steps.bars[steps.of(width)]![0]));
        if (stands && profile.pinches.from.some((h) => h > low && h < low + up)) pinched++;
      }
  }
  expect(pinched).toBeGreaterThan(100);
});

test('steps of widths side by side are told apart, however many there are', () => {
  const steps = new WidthSteps((width) => [width], 300);
  const key = ([p, q]: [number, number]) => steps.ofAll(2, [p, q]);
  const pairs = Array.from({ length: 270 * 270 }, (_, i): [number, number] => [i % 270, Math.floor(i / 270)]);
  // A map of each: one height, at which what is kept off leaves these two widths.
  const kind = { up: 1, last: 0, steps };
  const wrong = pairs.filter(([p, q], i) => {
    const step = key([p, q]);
    if (steps.bars[step]!.flat().join() !== `${p},${q}`) return true;
    // All steps are told apart; of the maps an eighth, spread over all of them, is enough.
    if (i % 8 > 0) return false;
    const profile = { bottom: 0, top: 1, from: new Int32Array(2), to: new Int32Array(2).fill(p + q + 1) };
    const clear = { ...profile, pinches: { from: [], to: [] }, flares: true, upright: true, drain: [] };
    const map = new RiseMap(clear, [{ from: p, to: p + 1, low: 0, high: 1 }], [kind]);
    const free = [p, q].filter((width) => width > 0);
    return steps.bars[map.stepAt(0, 0)]!.flat().join() !== free.join();
  });
  expect(wrong).toEqual([]);
  expect(steps.bars.length).toBeGreaterThan(2 ** 16);
});

test('a rising is worth what the best of all orders of tiers is, and its path is worth as much', () => {
  const dice = throwDice(42);
  const riser = new Riser();
  let worthAnything = 0;
  for (let n = 0; n < CASES; n++) {
    const setting = throwSetting(dice);
    const perBundle = dice.pick([0, 0.5, 1.5]);
    const map = new RiseMap(setting.profile, setting.blocks, setting.kinds);
    const price = (bars: number[]) => Math.max(Number.NEGATIVE_INFINITY, ...bars.map((count) => count - perBundle));
    const rungs = setting.kinds.map(({ up, steps }, k) => riser.rung(k).set(k, up, steps, price));
    const worth = riser.worth(map, rungs);
    expect(worth).toBeCloseTo(slowWorth(setting, perBundle, map.bottom), 9);
    const path = riser.path(rungs);
    const along = path.reduce((sum, { rung, low }) => sum + rungs[rung]!.worth(map.stepAt(rung, low)), 0);
    expect(along).toBeCloseTo(worth, 9);
    const toGo = riser.toGo(map, rungs);
    expect(toGo[map.bottom]).toBeCloseTo(worth, 9);
    expect(riser.worth(map, rungs, { near: 20 })).toBeLessThanOrEqual(worth + 1e-9);
    expect(riser.worth(map, rungs, { lift: 4 })).toBeGreaterThanOrEqual(worth - 1e-9);
    if (worth > 0) worthAnything++;
  }
  expect(worthAnything).toBeGreaterThan(CASES / 2);
});
