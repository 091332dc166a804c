/** The voids of a master, each with the layouts that it may hold and the one that it holds: opened, closed, made lighter. */
import type { Berth, Layout } from '../stow/layout.ts';
import { type Stack, stackWithin } from '../stow/stack.ts';
import { capsOf, type Filling, keepCap, keepEveryCap } from './caps.ts';
import { addLoad, noLoad } from './load.ts';
import type { LayoutColumn, Master, Use } from './master.ts';
import { barMass, type Problem, type Space } from './problem.ts';
import { takeShort } from './short.ts';
import { fitUnderCaps } from './underCaps.ts';

/** A void, what it may hold, and what it holds. */
export interface Place {
  space: Space;
  berths: Berth[];
  columns: LayoutColumn[];
  byKey: Map<string, LayoutColumn>;
  /** The most bars of each steel and length that a column has. */
  most: Map<string, Use>;
  held: LayoutColumn | null;
  /** What it held when it was opened. */
  before: LayoutColumn | null;
}

/** A target is passed by so much less than its lightest bundle, kg. */
const UNDER = 1e-3;
/** What is less than a whole by this is whole. */
const WHOLE = 1e-6;

/** All voids of one master. */
export class Places {
  readonly all: Place[];
  private readonly problem: Problem;
  private readonly master: Master;

  constructor(master: Master, berths: Berth[][], fillings: Filling[]) {
    this.problem = master.problem;
    this.master = master;
    this.all = this.problem.spaces.map((space) => ({
      space,
      berths: berths[space.index]!,
      columns: [],
      byKey: new Map(),
      most: new Map(),
      held: null,
      before: null,
    }));
    this.hold(fillings);
  }

  /** What every void holds, without runs that hold nothing. */
  fillings(): Filling[] {
    return this.all.map(({ held }) => {
      const runs = held?.layout.runs.filter(({ stack }) => stack.bundles > 0) ?? [];
      return runs.length > 0 ? { laid: held!.layout.laid, runs } : null;
    });
  }

  /** Lets the voids hold these; true where that is another thing than before. */
  hold(fillings: Filling[]): boolean {
    let changed = false;
    for (const place of this.all) {
      const layout = fillings[place.space.index] ?? null;
      const held = layout && this.take(place, layout);
      if (held !== place.held) changed = true;
      place.held = held;
      this.close(place);
    }
    return changed;
  }

  /** The lengths of what is held, rising. */
  lengths(): number[] {
    const lengths = new Set<number>();
    for (const { held } of this.all) for (const { length } of held?.use ?? []) lengths.add(length);
    return [...lengths].sort((a, b) => a - b);
  }

  /** How many runs are held. */
  runs(): number {
    return this.all.reduce((sum, { held }) => sum + (held?.layout.runs.length ?? 0), 0);
  }

  /** The column of a layout, added where it is not there yet. */
  take(place: Place, layout: Layout): LayoutColumn {
    return this.add(place, layout) ?? place.byKey.get(keyOf(layout))!;
  }

  /** Adds what a void may hold; null where it is there already. */
  add(place: Place, layout: Layout): LayoutColumn | null {
    const key = keyOf(layout);
    if (place.byKey.has(key)) return null;
    const { space, byKey, columns, most } = place;
    const column = this.master.addLayout(space.index, space, layout);
    for (const use of column.use) {
      this.master.addHole(space, use.steel, use.length);
      const of = `${use.steel}:${use.length}`;
      if (use.bars > (most.get(of)?.bars ?? 0)) most.set(of, use);
    }
    byKey.set(key, column);
    columns.push(column);
    return column;
  }

  /** Lets a void have nothing but what it holds. */
  close({ space, columns, held, most }: Place): void {
    for (const column of columns) {
      const level = column === held ? 1 : 0;
      this.master.bound(column, level, level);
    }
    for (const use of most.values()) this.master.mostLeftOut(space, { ...use, bars: 0 });
    for (const use of held?.use ?? []) this.master.mostLeftOut(space, use);
  }

  /** Empties a void, and lets it have shares of all that it may hold. */
  open(place: Place): void {
    place.before = place.held;
    this.free(place);
  }

  /** Lets a void have shares of all that it may hold. */
  free(place: Place): void {
    place.held = null;
    for (const column of place.columns) this.master.bound(column, 0, 1);
    for (const use of place.most.values()) this.master.mostLeftOut(place.space, use);
  }

  /** Lets ballast and targets be passed by less than the lightest bundle of what is held; true where that is another one. */
  allowOver(): boolean {
    const { master, problem } = this;
    let changed = false;
    for (const row of master.loadRows) {
      if (row.name !== 'ballast' && row.name !== 'target') continue;
      const stated = row.space === null ? problem.job.aims.ballast! : problem.spaces[row.space]!.stated.target!;
      let lightest = Number.POSITIVE_INFINITY;
      for (const { held, space } of this.all)
        if (held && (row.space === null || row.space === space.index))
          lightest = Math.min(lightest, held.load.lightest);
      const most = stated + lightest - UNDER;
      if (!Number.isFinite(most) || Math.abs(most - row.most) < 1e-9) continue;
      master.setMost(row, most);
      changed = true;
    }
    return changed;
  }

  /** Brings what is held under the caps. The master is left solved. */
  keepCaps(): void {
    const fillings = this.fillings();
    fitUnderCaps(this.problem, fillings, (space) => space.weight);
    this.settle(fillings);
  }

  /**
   * A layout of a void made lighter where a cap wants that: of the void, and where nothing else is open of the ballast; null
   * where none does.
   */
  lighter({ space }: Place, layout: Layout, alone: boolean): Filling {
    const { ballast } = this.problem.job.aims;
    const caps = capsOf(space);
    if (ballast !== undefined && alone) {
      const others = noLoad();
      for (const other of this.all) if (other.space !== space && other.held) addLoad(others, other.held.load);
      const over = others.bundles > 0 ? others.lightest - UNDER : 0;
      caps.push({ most: ballast - others.mass + over, byBundle: others.bundles === 0 });
    }
    const runs = layout.runs.filter(({ stack }) => stack.bundles > 0);
    const fillings: Filling[] = this.problem.spaces.map((other) =>
      other === space ? { laid: layout.laid, runs } : null,
    );
    const before = fillings[space.index];
    for (const cap of caps) keepCap(this.problem, fillings, [space], cap, ({ weight }) => weight);
    const lighter = fillings[space.index] ?? null;
    return lighter === before ? null : lighter;
  }

  /** Takes what the last solve leaves out of voids, or is short of, out of what they hold; true where there was any. The master is left solved. */
  takeOut(): boolean {
    const { master, problem } = this;
    const fillings = this.fillings();
    for (const place of this.all) this.lighten(fillings, place, wholeOf(master.leftOut(place.space)));
    takeShort(problem, fillings, wholeOf(master.shortages()));
    keepEveryCap(problem, fillings, (space) => space.weight);
    return this.settle(fillings);
  }

  /** Holds fillings; true where that is another thing than before. The master is left solved. */
  private settle(fillings: Filling[]): boolean {
    const changed = this.hold(fillings);
    this.allowOver();
    this.master.solve();
    return changed;
  }

  /** Takes bars out of the filling of a void. Changes `fillings`. */
  private lighten(fillings: Filling[], { space, berths }: Place, out: Use[]): void {
    const filling = fillings[space.index];
    if (!filling || out.length === 0) return;
    const { steels, labour } = this.problem;
    const berth = berthOf(berths, filling);
    const runs = filling.runs.flatMap(({ from, stack }) => {
      const { length } = stack;
      const bars = stack.bars.map((count, steel) => {
        const use = out.find((other) => other.steel === steel && other.length === length);
        const less = Math.min(count, use?.bars ?? 0);
        if (use) use.bars -= less;
        return count - less;
      });
      if (bars.every((count, steel) => count === stack.bars[steel])) return [{ from, stack }];
      const perBar = steels.map((steel) => space.weight * barMass(steel, length));
      const lighter = stackWithin(berth.space(from, length), stack, bars, { perBar, perBundle: labour.bundle });
      return lighter ? [{ from, stack: lighter }] : [];
    });
    fillings[space.index] = runs.length > 0 ? { laid: filling.laid, runs } : null;
  }
}

/** The berth of a void that is laid as a layout is. */
export function berthOf(berths: Berth[], { laid }: Layout): Berth {
  return berths.find((berth) => berth.laid.axis === laid.axis)!;
}

/** The same for layouts of the same runs with the same bundles. */
function keyOf({ laid, runs }: Layout): string {
  const stackKey = ({ tiers }: Stack) =>
    tiers
      .map(({ kind, lying }) => `${kind.steel}${kind.onEdge}${kind.rows}:${lying.map(({ tie }) => tie.bars).join()}`)
      .join(';');
  return `${laid.axis}|${runs.map(({ from, stack }) => `${from}:${stack.length}:${stackKey(stack)}`).join('|')}`;
}

/** Shares rounded up. */
function wholeOf(uses: Use[]): Use[] {
  return uses.map((use) => ({ ...use, bars: Math.ceil(use.bars - WHOLE) }));
}
