/**
 * Filling up to a cap as nearly as the bundles allow: for every bundle at the top of a run, how many bars it holds, or
 * none; a multiple-choice knapsack over the mass. A cap that may be passed by less than the lightest bundle is tried for
 * several masses of the lightest.
 */
import { alongSize } from '../stow/bundle.ts';
import { openingOf } from '../stow/opening.ts';
import { at, type Place, roomAt, topPlaces, withBars, without } from '../stow/trim.ts';
import { areCapsKept, bundleMasses, type Cap, excess, type Filling, type Worth } from './caps.ts';
import { missOf } from './misses.ts';
import { barMass, type Problem, type Space } from './problem.ts';

/** The knapsack reckons in this many parts of a kilogram, masses rounded up. */
const PARTS = 20;
/** A cap further off than this many bundles is left alone. */
const NEAR = 4;

interface Option {
  /** Mass in parts; 0 for no bundle. */
  mass: number;
  worth: number;
  bars: number;
}

interface Choice {
  space: Space;
  place: Place;
  options: Option[];
}

/** Changes the bundles at the tops of the spaces listed so that they fill the cap at the greatest worth. Changes `fillings`. */
export function fitCap(problem: Problem, fillings: Filling[], spaces: Space[], cap: Cap, worth: Worth): void {
  const inside = () => spaces.map((space) => fillings[space.index] ?? null);
  const masses = bundleMasses(problem, inside());
  if (masses.length === 0 || excess(masses, cap) < -NEAR * Math.max(...masses)) return;
  const choices = spaces.flatMap((space) => choicesOf(problem, fillings, space, worth));
  const total = masses.reduce((sum, mass) => sum + mass, 0);
  const tops = choices.reduce((sum, { options }) => sum + options[0]!.mass, 0);
  const fixed = bundleMasses(
    problem,
    inside().map((filling) => filling && underTops(filling)),
  );
  const base = total - tops / PARTS;
  const now = choices.reduce((sum, { options }) => sum + options[0]!.worth, 0);
  const lightest = Math.min(...fixed, Math.max(...masses));
  const floors = cap.byBundle ? floorsUpTo(lightest) : [0];
  let best: { value: number; chosen: Option[] } | null = null;
  for (const floor of floors) {
    const room = Math.floor((cap.most + floor - base) * PARTS - 1e-4);
    const solved = solve(choices, room, Math.ceil(floor * PARTS - 1e-6));
    if (solved && solved.value > (best?.value ?? now) + 1e-6) best = solved;
  }
  if (!best) return;
  const changed = [...fillings];
  apply(problem, changed, choices, best.chosen);
  if (!areCapsKept(problem, changed) || missOf(problem, changed) > missOf(problem, fillings) + 1e-9) return;
  for (const { index } of spaces) fillings[index] = changed[index]!;
}

/** Masses of the lightest bundle to try, kg: what is fixed bounds them. */
function floorsUpTo(lightest: number): number[] {
  const count = 5;
  return Array.from({ length: count }, (_, i) => (lightest * (i + 1)) / count);
}

function underTops(filling: NonNullable<Filling>): Filling {
  const runs = filling.runs.map((run) => ({ ...run, stack: { ...run.stack, tiers: run.stack.tiers.slice(0, -1) } }));
  return { ...filling, runs };
}

/** What each top bundle of a space may be; its present state first. */
function choicesOf(problem: Problem, fillings: Filling[], space: Space, worth: Worth): Choice[] {
  const filling = fillings[space.index];
  if (!filling) return [];
  const { job, steels, labour } = problem;
  return topPlaces(filling).map((place) => {
    const { run, tier, lying } = at(filling, place);
    const steel = steels[tier.kind.steel]!;
    const perBar = barMass(steel, run.stack.length);
    const perKg = worth(space, filling, place);
    const most = Math.min(job.bundle.maxBars, Math.floor((space.limit - job.bundle.wrapping) / perBar + 1e-9));
    const option = (bars: number): Option => ({
      bars,
      mass: Math.ceil((bars * perBar + job.bundle.wrapping) * PARTS - 1e-6),
      worth: perKg * bars * perBar - labour.bundle,
    });
    const options = [option(lying.tie.bars), { bars: 0, mass: 0, worth: 0 }];
    const along = alongSize(run.stack.length, job.saw, job.bundle);
    const room = roomAt(filling, place, along);
    room.to = Math.min(room.to, room.from + openingOf(filling.laid, along, tier.kind.up, tier.up));
    for (let bars = tier.kind.rows; bars <= most; bars++) {
      const within = bars <= lying.tie.bars ? undefined : room;
      if (bars !== lying.tie.bars && withBars(filling, place, bars, steel, job.bundle, within))
        options.push(option(bars));
    }
    return { space, place, options };
  });
}

/** The options worth most within `room` parts, none lighter than `floor`; null where they do not fit. */
function solve(choices: Choice[], room: number, floor: number): { value: number; chosen: Option[] } | null {
  if (room < 0) return null;
  let value = new Float64Array(room + 1);
  const picks: Int16Array[] = [];
  for (const { options } of choices) {
    const next = new Float64Array(room + 1).fill(Number.NEGATIVE_INFINITY);
    const pick = new Int16Array(room + 1);
    options.forEach(({ mass, worth }, i) => {
      if (mass > 0 && mass < floor) return;
      for (let m = mass; m <= room; m++) {
        const sum = value[m - mass]! + worth;
        if (sum > next[m]! + 1e-9) {
          next[m] = sum;
          pick[m] = i;
        }
      }
    });
    value = next;
    picks.push(pick);
  }
  if (value[room] === Number.NEGATIVE_INFINITY) return null;
  const chosen: Option[] = [];
  let m = room;
  for (let c = choices.length - 1; c >= 0; c--) {
    const option = choices[c]!.options[picks[c]![m]!]!;
    chosen.unshift(option);
    m -= option.mass;
  }
  return { value: value[room]!, chosen };
}

/** Carries choices out, the last place first, so that the others keep their numbers. */
function apply(problem: Problem, fillings: Filling[], choices: Choice[], chosen: Option[]): void {
  const { job, steels } = problem;
  for (let c = choices.length - 1; c >= 0; c--) {
    const { space, place, options } = choices[c]!;
    const { bars } = chosen[c]!;
    const filling = fillings[space.index];
    if (!filling || bars === options[0]!.bars) continue;
    if (bars === 0) {
      const left = without(filling, place);
      fillings[space.index] = left.runs.length > 0 ? left : null;
      continue;
    }
    const { run, tier } = at(filling, place);
    const room = roomAt(filling, place, alongSize(run.stack.length, job.saw, job.bundle));
    const changed = withBars(filling, place, bars, steels[tier.kind.steel]!, job.bundle, room);
    if (changed) fillings[space.index] = changed;
  }
}
