/**
 * Bringing layouts under their caps: `most` is never passed; a target, and the ballast asked for, by less than the
 * lightest bundle counted. What is worth least for its mass is taken out first, from the tops of the runs.
 */
import { alongSize } from '../stow/bundle.ts';
import type { Layout } from '../stow/layout.ts';
import { isBorne } from '../stow/rest.ts';
import { at, type Place, topPlaces, withBars, without } from '../stow/trim.ts';
import { barMass, type Problem, type Space } from './problem.ts';

/** A layout of a space, or nothing in it. */
export type Filling = Layout | null;

/** A cap on the bundle mass of some spaces: by less than the lightest bundle where `byBundle`. */
export interface Cap {
  most: number;
  byBundle: boolean;
}

/** What a kilogram in the bundle at a place is worth, for choosing what to take out. */
export type Worth = (space: Space, layout: Layout, place: Place) => number;

const SLACK = 1e-6;

/** Masses of all bundles of the fillings, kg. */
export function bundleMasses(problem: Problem, fillings: Filling[]): number[] {
  const masses: number[] = [];
  for (const filling of fillings) {
    for (const { stack } of filling?.runs ?? []) {
      for (const tier of stack.tiers) {
        const perBar = barMass(problem.steels[tier.kind.steel]!, stack.length);
        for (const { tie } of tier.lying) masses.push(tie.bars * perBar + problem.job.bundle.wrapping);
      }
    }
  }
  return masses;
}

/** How far masses pass a cap, kg; ≤ 0 where they keep it. Where the lightest bundle counts, exactly its mass is too much. */
export function excess(masses: number[], cap: Cap): number {
  if (masses.length === 0) return Number.NEGATIVE_INFINITY;
  const total = masses.reduce((sum, mass) => sum + mass, 0);
  return cap.byBundle ? total - Math.min(...masses) - cap.most + SLACK : total - cap.most - SLACK;
}

/** The caps of one space. */
export function capsOf(space: Space): Cap[] {
  const caps: Cap[] = [];
  if (space.stated.most !== undefined) caps.push({ most: space.stated.most, byBundle: false });
  if (space.stated.target !== undefined) caps.push({ most: space.stated.target, byBundle: true });
  return caps;
}

/**
 * Takes bundles, or bars of a bundle, out of the fillings of the spaces listed until they keep the cap. Changes
 * `fillings`; `taken` gets what stood before each step.
 */
export function keepCap(
  problem: Problem,
  fillings: Filling[],
  spaces: Space[],
  cap: Cap,
  worth: Worth,
  taken: Taken[] = [],
): void {
  for (;;) {
    const inside = spaces.map((space) => fillings[space.index] ?? null);
    const over = excess(bundleMasses(problem, inside), cap);
    if (over <= 0) return;
    const options = spaces.flatMap((space) => removals(problem, fillings[space.index] ?? null, space, worth));
    const best = leastLoss(options, over);
    if (!best) return;
    const { index } = best.space;
    taken.push({ space: best.space, before: fillings[index] ?? null });
    fillings[index] = best.left;
  }
}

/** A step of taking out: what a space held before it. */
export interface Taken {
  space: Space;
  before: Filling;
}

/** One way of taking something out of a layout. */
export interface Removal {
  space: Space;
  /** What is left; undefined where that can not be. Made only for what is taken: there are many to choose from. */
  left(): Filling | undefined;
  mass: number;
  /** What that loses, kg of value. */
  loss: number;
}

/** The removal that ranks first of those that can be, and what it leaves; null where there is none. */
function leastLoss(options: Removal[], over: number): { space: Space; left: Filling } | null {
  const ranked = options.map((option) => ({ option, rank: rank(option, over) })).sort((p, q) => p.rank - q.rank);
  for (const { option } of ranked) {
    const left = option.left();
    if (left !== undefined) return { space: option.space, left };
  }
  return null;
}

/** Least loss first; a removal that takes more than is needed loses what it takes too much, one that takes less is to be followed by another. */
function rank(removal: Removal, over: number): number {
  const perKg = removal.loss / removal.mass;
  return removal.mass >= over ? removal.loss : perKg * over + 0.02 * over;
}

/** Every way of taking one bundle, or some bars of it, from the top of a run. */
export function removals(problem: Problem, filling: Filling, space: Space, worth: Worth): Removal[] {
  if (!filling) return [];
  const { job, steels } = problem;
  const found: Removal[] = [];
  for (const place of topPlaces(filling)) {
    const { run, tier, lying } = at(filling, place);
    const steel = steels[tier.kind.steel]!;
    const perBar = barMass(steel, run.stack.length);
    const perKg = worth(space, filling, place);
    const mass = lying.tie.bars * perBar + job.bundle.wrapping;
    const left = () => {
      const whole = without(filling, place);
      return whole.runs.length > 0 ? whole : null;
    };
    found.push({ space, left, mass, loss: perKg * mass - problem.labour.bundle });
    for (let bars = lying.tie.bars - 1; bars >= tier.kind.rows; bars--) {
      const taken = (lying.tie.bars - bars) * perBar;
      const lighter = () => withBars(filling, place, bars, steel, job.bundle) ?? undefined;
      found.push({ space, left: lighter, mass: taken, loss: perKg * taken });
    }
  }
  return found;
}

/** A layout of a space brought under caps, those of that space when absent; null where nothing is left of it. */
export function withinCaps(
  problem: Problem,
  space: Space,
  layout: Layout,
  worth: Worth,
  caps: Cap[] = capsOf(space),
): Filling {
  if (caps.length === 0) return layout;
  const fillings: Filling[] = problem.spaces.map((other) => (other === space ? layout : null));
  for (const cap of caps) keepCap(problem, fillings, [space], cap, worth);
  return fillings[space.index]!;
}

/** Brings the fillings under every cap of the job. Changes `fillings`; `taken` gets what was taken out for the ballast. */
export function keepEveryCap(problem: Problem, fillings: Filling[], worth: Worth, taken: Taken[] = []): void {
  for (const space of problem.spaces) for (const cap of capsOf(space)) keepCap(problem, fillings, [space], cap, worth);
  const { ballast } = problem.job.aims;
  if (ballast !== undefined)
    keepCap(problem, fillings, problem.spaces, { most: ballast, byBundle: true }, worth, taken);
}

/** True where every cap of the job is kept, and nothing weighs on bearers more than they bear. */
export function areCapsKept(problem: Problem, fillings: Filling[]): boolean {
  const { steels, job } = problem;
  const { ballast } = job.aims;
  if (ballast !== undefined && excess(bundleMasses(problem, fillings), { most: ballast, byBundle: true }) > 0)
    return false;
  return problem.spaces.every((space) => {
    const filling = fillings[space.index];
    if (!filling) return true;
    const along = (length: number) => alongSize(length, job.saw, job.bundle);
    if (!isBorne(filling, steels, job.bundle.wrapping, along)) return false;
    const masses = bundleMasses(problem, [filling]);
    return capsOf(space).every((cap) => excess(masses, cap) <= 0);
  });
}
