/** From shares of layouts to one layout a void: fixes void after void, pricing again in between. */
import type { Berth } from '../stow/layout.ts';
import { bundleMasses, capsOf, excess, type Filling, keepCap, type Taken, type Worth } from './caps.ts';
import { type GenerateOptions, generate } from './generate.ts';
import type { Master, MasterColumn } from './master.ts';
import { type Prices, worthAt } from './prices.ts';
import { barMass, type Problem, type Space } from './problem.ts';
import { putBack } from './putBack.ts';

type LayoutColumn = MasterColumn & { what: 'layout' };

export interface DiveOptions {
  lengths: number[][];
  /** Rounds of pricing after each void. */
  rounds: number;
  shouldStop?: () => boolean;
}

/** A share this near one is a whole layout. */
const WHOLE = 0.995;

/** One layout, or nothing, for every void, under every cap. The master is left as it was found, its columns freed. */
export function dive(problem: Problem, master: Master, berths: Berth[][], options: DiveOptions): Filling[] {
  const fillings: Filling[] = problem.spaces.map(() => null);
  const taken: Taken[] = [];
  const open = problem.spaces.map(() => true);
  const pricing: GenerateOptions = { ...options, tolerance: 0, open };
  try {
    master.solve();
    while (open.some(Boolean)) {
      const prices = master.prices();
      for (const choice of chooseFixed(problem, master, open)) {
        const { space } = choice;
        open[space.index] = false;
        const fitted = fitBest(problem, master, choice, fillings, prices);
        fillings[space.index] = fitted.filling;
        taken.push(...fitted.taken);
        master.fix(space, fitted.column);
        if (process.env.TR) trace(problem, master, prices, choice, fitted.filling);
      }
      if (options.rounds > 0 && open.some(Boolean)) generate(problem, master, berths, pricing);
      else master.solve();
    }
  } finally {
    for (const space of problem.spaces) master.free(space);
  }
  const { ballast } = problem.job.aims;
  if (ballast !== undefined) {
    const worth = worthBy(problem, master.prices());
    keepCap(problem, fillings, problem.spaces, { most: ballast, byBundle: true }, worth, taken);
  }
  putBack(problem, fillings, taken);
  return fillings;
}

interface Choice {
  space: Space;
  /** The columns with a share, and their shares. */
  columns: { column: LayoutColumn; share: number }[];
  /** The mass that all shares come to, kg, what they come to, and the largest. */
  mass: number;
  share: number;
  top: number;
}

/** The voids to fix now: all that are whole or empty, else the one with the largest share. */
function chooseFixed(problem: Problem, master: Master, open: boolean[]): Choice[] {
  const levels = master.levels();
  const choices: Choice[] = problem.spaces
    .filter((space) => open[space.index])
    .map((space) => ({ space, columns: [], mass: 0, share: 0, top: 0 }));
  const bySpace = new Map(choices.map((choice) => [choice.space.index, choice]));
  master.columns.forEach((column, i) => {
    if (column.what !== 'layout' || levels[i]! < 1e-6) return;
    const choice = bySpace.get(column.space.index);
    if (!choice) return;
    choice.columns.push({ column, share: levels[i]! });
    choice.mass += levels[i]! * column.load.mass;
    choice.share += levels[i]!;
    choice.top = Math.max(choice.top, levels[i]!);
  });
  const settled = choices.filter((choice) => choice.top > WHOLE || choice.share < 1e-3);
  if (settled.length > 0) return settled;
  choices.sort((p, q) => q.top - p.top || p.space.index - q.space.index);
  return choices.slice(0, 1);
}

interface Fitted {
  filling: Filling;
  column: LayoutColumn | null;
  taken: Taken[];
}

/** Layouts of a void that are tried before one is fixed. */
const TRIED = 5;

/** The layout of a choice that leaves the master worth most: each with a share is tried. */
function fitBest(problem: Problem, master: Master, choice: Choice, fillings: Filling[], prices: Prices): Fitted {
  const { space, columns, share } = choice;
  if (share < 1e-3) return { filling: null, column: null, taken: [] };
  const tries = [...columns].sort((p, q) => q.share - p.share).slice(0, TRIED);
  let best: (Fitted & { value: number }) | null = null;
  for (const { column } of tries) {
    const fitted = fitShare(problem, master, choice, column, fillings, prices);
    if (!fitted.filling) continue;
    const own = fitted.filling === column.layout ? column : master.addLayout(space, fitted.filling);
    if (tries.length === 1) return { ...fitted, column: own };
    master.fix(space, own);
    master.solve();
    if (!best || master.value > best.value + 1e-9) best = { ...fitted, column: own, value: master.value };
  }
  return best ?? { filling: null, column: null, taken: [] };
}

/**
 * A layout fitted to the shares of a choice. Where a cap or an aim presses on the void, the mass of the shares is what
 * counts: the layout is taken down to it where it is heavier. It always ends under its caps.
 */
function fitShare(
  problem: Problem,
  master: Master,
  choice: Choice,
  column: LayoutColumn,
  fillings: Filling[],
  prices: Prices,
): { filling: Filling; taken: Taken[] } {
  const { space, share } = choice;
  const taken: Taken[] = [];
  const worth = worthBy(problem, prices);
  const pressed = master.loadRows.some(
    (row, i) => prices.loads[i]! > 1e-7 && (row.space === null || row.space === space.index),
  );
  const partly = (pressed && choice.top <= WHOLE) || share < 0.97;
  const one: Filling[] = problem.spaces.map(() => null);
  one[space.index] = column.layout;
  const keep = (most: number, byBundle: boolean) => keepCap(problem, one, [space], { most, byBundle }, worth, taken);
  for (const cap of capsOf(space)) keep(cap.most, cap.byBundle);
  if (partly) keep(choice.mass + 0.4 * column.load.lightest, false);
  const { ballast } = problem.job.aims;
  if (ballast !== undefined) {
    const others = bundleMasses(problem, fillings).reduce((sum, mass) => sum + mass, 0);
    const cap = { most: ballast - others, byBundle: true };
    if (excess(bundleMasses(problem, one), cap) > 0) keep(cap.most, cap.byBundle);
  }
  return { filling: one[space.index]!, taken };
}

/** What a kilogram is worth in a bundle, its pieces paid for. */
export function worthBy(problem: Problem, prices: Prices): Worth {
  return (space, layout, place) => {
    const run = layout.runs[place.run]!;
    const { steel } = run.stack.tiers[place.tier]!.kind;
    const { length } = run.stack;
    return space.weight - worthAt(prices.pieces[steel]!, length) / barMass(problem.steels[steel]!, length);
  };
}

function trace(problem: Problem, master: Master, prices: Prices, choice: Choice, filling: Filling): void {
  const mass = bundleMasses(problem, [filling]).reduce((a, b) => a + b, 0);
  const loads = Array.from(prices.loads, (x, i) =>
    x > 1e-6 ? `${master.loadRows[i]!.name}${i}:${x.toFixed(2)}` : '',
  ).join(' ');
  console.log(
    'fix',
    choice.space.stated.void,
    choice.share.toFixed(3),
    choice.mass.toFixed(1),
    mass.toFixed(1),
    'lp',
    master.value.toFixed(2),
    master.misses(),
    JSON.stringify(master.shortages()),
    loads,
  );
}
