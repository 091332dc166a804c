/** From layouts and cut bars to a plan file: bars with their pieces, bundles with their slots and places, runs, voids, totals. */
import { Defect } from '../fault.ts';
import type { Lot } from '../job/job.ts';
import { barLengths, barMark, type Span } from '../job/lot.ts';
import { becketsOf } from '../lift/becket.ts';
import { alongSize } from '../stow/bundle.ts';
import { bottomAt, envelope } from '../stow/envelope.ts';
import type { Layout } from '../stow/layout.ts';
import { type Pattern, patternKey } from './barPattern.ts';
import type { Filling } from './caps.ts';
import type { Cutting, JointedLength } from './cutting.ts';
import { tiedAlike } from './jointCutting.ts';
import { dealJoints, type Placed } from './jointPlaces.ts';
import type { PlanBar, PlanBundle, PlanRun } from './plan.ts';
import type { Problem, Space } from './problem.ts';

/** The parts of a plan that say what is cut, tied and stowed. */
export interface Assembled {
  bars: PlanBar[];
  bundles: PlanBundle[];
  runs: PlanRun[];
  /** Mass of every bundle before rounding, kg. */
  masses: Map<string, number>;
}

interface Piece {
  id: string;
  /** kg */
  mass: number;
  place: PlanBar['pieces'][number];
}

/** Puts the pieces of the bars into the bundles of the fillings; the two must match in number, steel and length. */
export function assemble(problem: Problem, fillings: Filling[], cutting: Cutting): Assembled {
  const { bars, pieces } = layOutBars(problem, cutting.bars);
  const jointed = dealtJoints(problem, fillings, cutting.joints);
  const bundles: PlanBundle[] = [];
  const runs: PlanRun[] = [];
  const masses = new Map<string, number>();
  for (const space of problem.spaces) {
    const layout = fillings[space.index];
    if (layout) stowLayout(problem, space, layout, { pieces, jointed }, { bars, bundles, runs, masses });
  }
  for (const left of pieces.values()) if (left.length > 0) throw new Defect('pieces cut that no bundle takes');
  return { bars, bundles, runs, masses };
}

function pieceKey(steel: number, length: number): string {
  return `${steel}:${length}`;
}

/** Bars in the order of the pile, alike ones together, their pieces numbered along them. */
function layOutBars(problem: Problem, cut: Pattern[]): { bars: PlanBar[]; pieces: Map<string, Piece[]> } {
  const { job } = problem;
  const lots = new Map(job.pile.map((lot) => [lot.lot, lot]));
  const free = new Map(problem.barKinds.map((kind) => [kind.index, marksOf(lots.get(kind.lot)!, kind.length)]));
  const ordered = [...cut].sort((p, q) => p.kind.index - q.kind.index || compare(patternKey(p), patternKey(q)));
  const bars: PlanBar[] = [];
  const pieces = new Map<string, Piece[]>();
  let count = 0;
  for (const { kind, spans } of ordered) {
    const mark = free.get(kind.index)!.shift();
    if (mark === undefined) throw new Defect(`more bars of lot ${kind.lot} are cut than there are`);
    const bar: PlanBar = { bar: mark, lot: kind.lot, length: kind.length, pieces: [], remainders: [] };
    kind.spans.forEach((span, i) => {
      let at = span.from;
      for (const length of spans[i]!) {
        const id = `p${String(++count).padStart(4, '0')}`;
        const place = { piece: id, from: exact(at), to: exact(at + length), bundle: '' };
        bar.pieces.push(place);
        const key = pieceKey(kind.steel, length);
        const list = pieces.get(key) ?? [];
        list.push({ id, mass: (length * kind.perMetre) / 1000, place });
        pieces.set(key, list);
        at += length + job.saw.kerf;
      }
      addRemainder(bar, { from: exact(at), to: span.to }, job.saw.keepFrom);
    });
    bars.push(bar);
  }
  return { bars, pieces };
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/**
 * A position on a bar, mm, as fine as the job's own figures (a kerf of 1/8 in is 3.175 mm), less the dust of summing.
 * Coarser ones would drift from what kerf after kerf comes to.
 */
function exact(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}

function addRemainder(bar: PlanBar, span: Span, keepFrom: number): void {
  if (span.to - span.from < 1e-6) return;
  bar.remainders.push({ ...span, fate: span.to - span.from >= keepFrom ? 'keep' : 'scrap' });
}

function marksOf(lot: Lot, length: number): string[] {
  return barLengths(lot).flatMap((own, i) => (own === length ? [barMark(lot, i + 1)] : []));
}

/** Takes a piece for a bundle out of those cut. */
function takePiece(pieces: Map<string, Piece[]>, key: string, bundle: string): Piece {
  const piece = pieces.get(key)?.shift();
  if (!piece) throw new Defect(`bundle ${bundle} lacks a piece (${key} mm)`);
  piece.place.bundle = bundle;
  return piece;
}

/** The jointed bars of every bundle, by steel and length, bundles in the order in which they are stowed. */
function dealtJoints(problem: Problem, fillings: Filling[], joints: JointedLength[]): Map<string, Placed[]> {
  const dealt = new Map<string, Placed[]>();
  const { joints: rules } = problem.job.bundle;
  if (joints.length === 0 || !rules) return dealt;
  for (const { steel, length, bundles } of tiedAlike(problem, fillings)) {
    const own = joints.filter((jointed) => jointed.steel === steel && jointed.length === length);
    const { placed, left } = dealJoints(bundles, rules, own);
    if (left.length > 0) throw new Defect(`a jointed bar of ${length} mm finds no place`);
    dealt.set(pieceKey(steel, length), placed);
  }
  return dealt;
}

function stowLayout(
  problem: Problem,
  space: Space,
  layout: Layout,
  from: { pieces: Map<string, Piece[]>; jointed: Map<string, Placed[]> },
  into: Assembled,
): void {
  const { job } = problem;
  const { void: id } = space.stated;
  const width = String(layout.runs.reduce((sum, run) => sum + run.stack.bundles, 0)).length;
  let order = 0;
  layout.runs.forEach((run, r) => {
    const { length, tiers } = run.stack;
    const along = alongSize(length, job.saw, job.bundle);
    tiers.forEach((tier, t) => {
      for (const lying of tier.lying) {
        order++;
        const bundle = `${id}-${String(order).padStart(Math.max(2, width), '0')}`;
        const placed = from.jointed.get(pieceKey(tier.kind.steel, length))?.shift();
        const bars = Array.from({ length: lying.tie.bars }, (_, slot) => placed?.[slot] ?? [length]);
        const slots = bars.map((parts) =>
          parts.map((part) => takePiece(from.pieces, pieceKey(tier.kind.steel, part), bundle)),
        );
        const taken = slots.flat();
        const mass = taken.reduce((sum, piece) => sum + piece.mass, job.bundle.wrapping);
        const size = { along, across: lying.across, up: tier.kind.up };
        into.masses.set(bundle, mass);
        into.bundles.push({
          bundle,
          void: id,
          run: r + 1,
          tier: t + 1,
          order,
          section: tier.kind.section,
          length,
          arrangement: lying.tie.arrangement,
          rows: tier.kind.rows,
          columns: lying.tie.columns,
          onEdge: tier.kind.onEdge,
          slots: slots.map((slot) => slot.map((piece) => piece.id)),
          mass: Math.round(mass * 100) / 100,
          limit: space.stated.limit ?? job.bundle.limit,
          size,
          at: { along: run.from, across: lying.from, up: tier.up },
          ...(job.bundle.becket ? { becket: becketsOf(size, job.bundle.becket).cord } : {}),
        });
      }
    });
    const raised = envelope(layout.laid, run.from, run.from + along).bottom;
    const packing = (at: number) => Math.floor((raised - bottomAt(layout.laid, at)) * 10 + 1e-6) / 10;
    into.runs.push({
      void: id,
      run: r + 1,
      from: run.from,
      to: run.from + along,
      packing: [packing(run.from), packing(run.from + along)],
    });
  });
}
