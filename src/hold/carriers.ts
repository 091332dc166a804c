/**
 * What carries one load case: everything that was entered and can hold that way, each with its working. Unlike carriers
 * are never added up, they do not share a load as their strengths: the best one counts, straps of a kind together. Bars and
 * straps whose places are stated hold the runs that they lie over, and share them by their levers (`cover.ts`).
 */
import type { Side } from '../job/holdDown.ts';
import { fixed, type Towards } from '../units.ts';
import { type Beam, bendingOf, forceAt } from './beam.ts';
import { boltLoad, boltsSharing } from './bolts.ts';
import type { Cover } from './cover.ts';
import { type Fitting, type MarkedBar, type MarkedHold, marksOf } from './fittings.ts';
import { type Lean, leanOf } from './lever.ts';
import { demandOf, GRAVITY, type LoadCase } from './loads.ts';
import { directCapacity, directFriction, type Over, overCapacity, tensionOf, upliftCapacity } from './straps.ts';

/** Newtons that it carries in this case, and how that was worked out. */
export interface Carrier {
  what: string;
  carries: number;
  working: string[];
  /** What it carries was stated and not worked out. */
  stated: boolean;
  /** Of bars across that which bends most under this load, and by how much, mm. */
  bends?: { mark: string; by: number };
}

/** Steel in bars and bolts is worked to its yield or proof stress over this: a default to confirm. */
export const STEEL_FACTOR = 1.5;

/** What is entered for a void, and the weight that it has to hold. */
export interface Held {
  marked: MarkedHold;
  friction: number;
  covers: readonly Cover[];
  /** Where across the void the middle of each bar's span lies, mm, by mark. */
  middles: ReadonlyMap<string, number>;
  /** The sides of the void, the one with less across first. */
  sides: readonly [Side, Side];
  mass: number;
}

/** `alongTheBars`: the load is along round bars, which slide out of a strap over the top; of a direct one it is told what is taken for granted. */
export function carriersOf(held: Held, load: LoadCase, alongTheBars: boolean): Carrier[] {
  if (load.direction === 'up') return upCarriers(held, demandOf(load, held.mass));
  const side = load.direction;
  const blocked = held.marked.blocks.filter((block) => block.side === side);
  const carriers = blocked.map(({ letter, by, carries }): Carrier => {
    const what = side === 'down' ? `${letter}: stands on ${by}` : `${letter}: blocked by ${by}`;
    return { what, carries: carries * 1000, working: [`Stated to carry ${kN(carries * 1000, 'down')}.`], stated: true };
  });
  if (side === 'down') return carriers;
  carriers.push(...directCarriers(held, side));
  if (!alongTheBars) carriers.push(...whole(held, 'over').map((cover) => overCarrier(cover, held, side)));
  return carriers;
}

/** Only what holds every run counts. */
function whole({ covers }: Held, kind: Cover['kind']): Cover[] {
  return covers.filter((cover) => cover.kind === kind && cover.lacking.length === 0);
}

/** The row of a strap over the top that a fitting is one of. */
export function overOf({ straps }: MarkedHold, { entry }: Fitting): Over {
  return straps[entry]!.strap as Over;
}

/** Each run is kept by what presses on it and by the friction of its own weight. */
function overCarrier(cover: Cover, { marked, friction, mass }: Held, side: Side): Carrier {
  const forward = side === 'forward';
  const pressing = (one: Fitting) => overCapacity({ ...overOf(marked, one), count: 1 }, friction, forward);
  const entered = sumOf(cover.fittings, pressing);
  const total = sumOf(cover.over, ({ run }) => run.mass);
  const onRun = (marks: readonly string[]) =>
    sumOf(
      cover.fittings.filter(({ mark }) => marks.includes(mark)),
      pressing,
    );
  // For its weight as the whole: a run pressed less than its share lets go first.
  const onRuns = cover.over.map(({ run, marks }) => (onRun(marks) * total) / run.mass);
  const pressed = Math.min(entered, ...onRuns);
  const weight = friction * mass * GRAVITY;
  return {
    what: overName(cover, marked),
    stated: false,
    carries: pressed + weight,
    working: [
      ...rowsOf(cover).map((row) => {
        const strap = overOf(marked, row[0]!);
        return `${row.length} × 2 × μ ${friction} × sin ${strap.angle}° × tension ${kN(tensionOf(strap), 'up')} ÷ ${forward ? 1.25 : 1.1}: ${kN(sumOf(row, pressing), 'down')}.`;
      }),
      ...(entered - pressed > 1
        ? [`The run least pressed for its weight lets the whole carry ${kN(pressed, 'down')}.`]
        : []),
      `Friction of the weight itself, μ ${friction}: ${kN(weight, 'down')}.`,
    ],
  };
}

function directCarriers({ marked, friction, mass }: Held, side: Side): Carrier[] {
  const rows = marked.straps.flatMap(({ letter, strap }) =>
    strap.kind === 'direct' && strap.against === side ? [{ letter, strap }] : [],
  );
  if (rows.length === 0) return [];
  const weight = directFriction(mass, friction);
  const number = sumOf(rows, ({ strap }) => strap.count);
  return [
    {
      what: `${rows.map(({ letter }) => letter).join(', ')}: ${number} direct strap${number === 1 ? '' : 's'}`,
      stated: false,
      carries: sumOf(rows, ({ strap }) => directCapacity(strap, friction)) + weight,
      working: [
        ...rows.map(
          ({ strap }) =>
            `${strap.count} × ${kN(strap.lashingCapacity * 1000, 'down')} × (cos ${strap.angle}° · cos ${strap.aside}° + 0.75 · μ ${friction} · sin ${strap.angle}°): ${kN(directCapacity(strap, friction), 'down')}.`,
        ),
        `Friction of the weight, μ ${friction} × 0.75: ${kN(weight, 'down')}.`,
      ],
    },
  ];
}

function upCarriers(held: Held, demand: number): Carrier[] {
  return [
    ...whole(held, 'bar').map((cover) => barCarrier(cover, held, demand)),
    ...whole(held, 'over').map((cover) => strapCarrier(cover, held.marked)),
  ];
}

function strapCarrier(cover: Cover, marked: MarkedHold): Carrier {
  const lifts = (one: Fitting) => upliftCapacity({ ...overOf(marked, one), count: 1 });
  const weakest = weakestOf(cover, lifts);
  return {
    what: overName(cover, marked),
    stated: false,
    carries: weakest.carries,
    working: [
      ...rowsOf(cover).map((row) => {
        const strap = overOf(marked, row[0]!);
        return `${row.length} × 2 ends × ${kN(strap.lashingCapacity * 1000, 'down')} × sin ${strap.angle}°: ${kN(sumOf(row, lifts), 'down')}.`;
      }),
      ...mostWords(cover, weakest),
    ],
  };
}

/** A bar across as the beam that it is over the runs that it holds. */
export function beamOver({ bar }: Pick<MarkedBar, 'bar'>, mark: string, { over }: Pick<Cover, 'over'>): Beam {
  const wide = over.filter(({ marks }) => marks.includes(mark)).map(({ run }) => run.wide ?? 0);
  const pressed = bar.load === 'middle' || wide.length === 0 ? 0 : Math.min(bar.span, ...wide);
  return { ...bar, pressed };
}

/** Newtons that one bar across carries by its bending and by the bolts of its nearer end; the lesser of the two counts. */
function barStrength(
  { bar }: MarkedBar,
  beam: Beam,
  { share }: Lean,
): { bending: number; bolts: number; least: number } {
  const bending = forceAt(beam, bar.yield / STEEL_FACTOR);
  const bolts = ((boltsSharing(bar.bolts.perBar) / 2) * boltStrength(bar.bolts)) / share;
  return { bending, bolts, least: Math.min(bending, bolts) };
}

function boltStrength(bolts: MarkedBar['bar']['bolts']): number {
  return boltLoad(bolts) / STEEL_FACTOR;
}

function barCarrier(cover: Cover, { marked, middles, sides }: Held, demand: number): Carrier {
  const leaning = ({ entry, mark }: Fitting) =>
    leanOf(marked.bars[entry]!.bar.span, middles.get(mark) ?? 0, mark, cover);
  const strengthOf = (one: Fitting) => {
    const entry = marked.bars[one.entry]!;
    return barStrength(entry, beamOver(entry, one.mark, cover), leaning(one));
  };
  const weakest = weakestOf(cover, (one) => strengthOf(one).least);
  const rows = rowsOf(cover);
  const bends = cover.fittings
    .map(({ entry, mark }) => {
      const beam = beamOver(marked.bars[entry]!, mark, cover);
      return { mark, by: bendingOf(beam, demand * cover.shares.get(mark)!).deflection };
    })
    .reduce((most, one) => (one.by > most.by ? one : most));
  return {
    bends,
    what: rows.map((row) => barName(row, marked.bars[row[0]!.entry]!)).join('; '),
    stated: false,
    carries: weakest.carries,
    working: [
      ...mostWords(cover, weakest),
      ...rows.flatMap((row) => {
        const used = (one: Fitting) => cover.shares.get(one.mark)! / strengthOf(one).least;
        const most = row.reduce((top, one) => (used(one) > used(top) ? one : top));
        const entry = marked.bars[most.entry]!;
        const beam = beamOver(entry, most.mark, cover);
        const { stress, deflection } = bendingOf(beam, demand * cover.shares.get(most.mark)!);
        return [
          `${pressedWords(beam)}Under this load ${stress.toFixed(0)} MPa in ${row.length === 1 ? most.mark : `the bar ${entry.letter} that has most`} (allowed ${(entry.bar.yield / STEEL_FACTOR).toFixed(0)}: yield ${entry.bar.yield} ÷ ${STEEL_FACTOR}), it bends ${deflection.toFixed(1)} mm; a bar carries ${kN(strengthOf(most).bending, 'down')}.`,
          boltWords(entry, strengthOf(most).bolts, leanWords(leaning(most), sides)),
        ];
      }),
    ],
  };
}

/** Nothing of what is pressed on in the middle alone. */
function pressedWords({ pressed, span }: Beam): string {
  if (pressed === 0) return '';
  return `Pressed on over ${Math.round(pressed)} of its span of ${span} mm, where the stow lies under it. `;
}

/** Nothing under a millimetre aside. */
function leanWords({ aside, share }: Lean, [less, more]: Held['sides']): string {
  if (Math.abs(aside) < 1) return '';
  const side = aside < 0 ? less : more;
  return `The weight under it lies ${Math.round(Math.abs(aside))} mm ${side === 'port' || side === 'starboard' ? `to ${side}` : side} of the middle of its span: by the lever that end has ${Math.round(100 * share)} % of it. `;
}

function boltWords({ bar: { bolts } }: MarkedBar, carried: number, lean: string): string {
  const sharing = boltsSharing(bolts.perBar);
  // Of stainless no proof load is published: its 0.2 % stress counts as yield.
  const stress = bolts.grade === '8.8' ? 'proof' : 'yield';
  const odd = sharing === bolts.perBar ? '' : `, of which ${sharing} count, since one end has only ${sharing / 2}`;
  return `${lean}Its ${bolts.perBar} bolts${odd}, each ${kN(boltStrength(bolts), 'down')} (${bolts.pull === 'across' ? `in shear, ${stress} ÷ √3` : stress} ÷ ${STEEL_FACTOR}): ${kN(carried, 'down')}. What they go into (${bolts.into}), its edges and the washers are usually weaker than the bolts and are not worked out here.`;
}

/** At what load on the whole stow the first of them has all that it carries, and which that is. */
function weakestOf(cover: Cover, strength: (one: Fitting) => number): { carries: number; mark: string } {
  let weakest = { carries: Number.POSITIVE_INFINITY, mark: '' };
  for (const one of cover.fittings) {
    const share = cover.shares.get(one.mark)!;
    const carries = share > 0 ? strength(one) / share : Number.POSITIVE_INFINITY;
    if (carries < weakest.carries) weakest = { carries, mark: one.mark };
  }
  return weakest;
}

/** Nothing where all have what they carry at once: of one or two evenly over one run. */
function mostWords(cover: Cover, { mark }: { mark: string }): string[] {
  const runs = cover.over.filter(({ marks }) => marks.includes(mark)).map(({ run }) => run.run);
  if (cover.over.length < 2 && cover.assumed.size === cover.fittings.length && cover.fittings.length < 3) return [];
  if (runs.length === 0) return [];
  const share = Math.round(100 * cover.shares.get(mark)!);
  return [`${mark}, over run ${runs.join(' and run ')}, is the first to have all it carries: ${share} % of the load.`];
}

/** The fittings of a cover by the rows that they were entered in. */
function rowsOf(cover: Cover): Fitting[][] {
  const rows = new Map<string, Fitting[]>();
  for (const one of cover.fittings) rows.set(one.letter, [...(rows.get(one.letter) ?? []), one]);
  return [...rows.values()];
}

function barName(row: readonly Fitting[], { bar }: Pick<MarkedBar, 'bar'>): string {
  const lie = bar.onEdge ? 'on edge' : 'flat';
  return `${marksOf(row)}: ${row.length} × bar across ${bar.width} × ${bar.thickness} ${lie}, bolts ${bar.bolts.size} ${bar.bolts.grade}`;
}

function overName(cover: Cover, { straps }: MarkedHold): string {
  const number = cover.fittings.length;
  const letters = rowsOf(cover).map((row) => straps[row[0]!.entry]!.letter);
  return `${letters.join(', ')}: ${number} strap${number === 1 ? '' : 's'} over the top`;
}

function sumOf<T>(items: readonly T[], figure: (item: T) => number): number {
  return items.reduce((sum, item) => sum + figure(item), 0);
}

/** Newtons told in kN: what carries goes down, a load up. */
export function kN(newtons: number, towards: Towards): string {
  return `${fixed(newtons / 1000, 2, towards)} kN`;
}
