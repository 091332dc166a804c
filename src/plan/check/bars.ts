/** The cutting, derived again: every bar, its usable spans, pieces, kerfs and remainders, and where its steel went. */
import type { Job, Lot } from '../../job/job.ts';
import { barLengths, lotMassPerMetre, lotSquaring, type Span } from '../../job/lot.ts';
import { sectionKey } from '../../job/section.ts';
import type { Plan, PlanBar } from '../plan.ts';
import { DUST, figure, type Tell } from './planFault.ts';

/** One piece as cut. `section` is the key of its section; `tied` counts the bundles that hold it. */
export interface CutPiece {
  piece: string;
  length: number;
  perMetre: number;
  section: string;
  bundle: string;
  tied: number;
}

/** Where the steel of the listed bars went, kg; and the saw's cuts. */
export interface Cutting {
  pieces: Map<string, CutPiece>;
  stock: number;
  kept: number;
  scrap: number;
  kerf: number;
  squaring: number;
  spoiled: number;
  cuts: number;
  /** Cuts that run through a spoiled span no wider than the kerf and end two pieces: counted as one or as two. */
  sharedCuts: number;
}

type Stretch = [from: number, to: number];

/** Positions on a bar are exact to 0.1 mm or finer: what lies closer than this lies in the same place, mm. */
const CLOSE = 0.06;

/** Checks the bars and adds up their steel. */
export function checkBars(job: Job, plan: Plan, tell: Tell): Cutting {
  const cutting: Cutting = {
    pieces: new Map(),
    stock: 0,
    kept: 0,
    scrap: 0,
    kerf: 0,
    squaring: 0,
    spoiled: 0,
    cuts: 0,
    sharedCuts: 0,
  };
  const lots = new Map(job.pile.map((lot) => [lot.lot, lot]));
  const left = new Map(job.pile.map((lot) => [lot.lot, [...barLengths(lot)].sort((p, q) => p - q)]));
  const marks = new Set<string>();
  for (const bar of plan.bars) {
    const about = `bar ${bar.bar}`;
    if (marks.has(bar.bar)) tell('bar-twice', about, `${about} is listed twice.`);
    marks.add(bar.bar);
    const lot = lots.get(bar.lot);
    if (!lot || !takeBar(left.get(bar.lot) ?? [], bar.length))
      tell('bar-not-in-pile', about, `${about}: the pile has no such bar left of ${bar.length} mm in lot ${bar.lot}.`);
    if (lot) checkBar(job, lot, bar, cutting, tell);
  }
  return cutting;
}

/** Takes a bar of this length out of the sorted lengths left; false where there is none. */
function takeBar(lengths: number[], length: number): boolean {
  let low = 0;
  let high = lengths.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (lengths[middle]! < length - DUST) low = middle + 1;
    else high = middle;
  }
  if (low === lengths.length || lengths[low]! > length + DUST) return false;
  lengths.splice(low, 1);
  return true;
}

function checkBar(job: Job, lot: Lot, bar: PlanBar, cutting: Cutting, tell: Tell): void {
  const about = `bar ${bar.bar}`;
  const { saw } = job;
  const perMetre = lotMassPerMetre(lot, job.steel.density);
  const kg = (length: number) => (length * perMetre) / 1000;
  const spans = spansOf(lot, bar.length, lotSquaring(lot, saw), saw.kerf);
  const pieces = [...bar.pieces].sort((p, q) => p.from - q.from);
  if (pieces.length === 0) tell('bar-uncut', about, `${about} is listed, and nothing is cut from it.`);
  const section = sectionKey(lot.section);
  for (const piece of pieces) {
    const length = piece.to - piece.from;
    const name = `piece ${piece.piece}`;
    const whole = Math.round(length);
    if (cutting.pieces.has(piece.piece)) tell('piece-twice', name, `${name} is cut twice.`);
    cutting.pieces.set(piece.piece, { ...piece, length: whole, perMetre, section, tied: 0 });
    if (Math.abs(length - whole) > CLOSE)
      tell('piece-length', name, `${name} is ${figure(length)} mm long, not whole.`);
    if (length < saw.shortestPiece - DUST)
      tell(
        'piece-length',
        name,
        `${name} is ${figure(length)} mm, under ${saw.shortestPiece}.`,
        saw.shortestPiece - length,
      );
    if (!spans.some(([from, to]) => piece.from >= from - DUST && piece.to <= to + DUST))
      tell('piece-outside', name, `${name} lies at ${piece.from} … ${piece.to} on ${bar.bar}, in no usable span.`);
  }
  const expected: Stretch[] = [];
  for (const [from, to] of spans) {
    const inside = pieces.filter((piece) => piece.from >= from - DUST && piece.to <= to + DUST);
    let at = from;
    for (const [i, piece] of inside.entries()) {
      const start = i === 0 ? from : at + saw.kerf;
      const off = piece.from - start;
      if (off < -CLOSE)
        tell('kerf-missing', about, `${about}: ${figure(-off)} mm of kerf are missing before ${piece.piece}.`, -off);
      if (off > CLOSE)
        tell(
          'steel-unaccounted',
          about,
          `${about}: ${figure(off)} mm before ${piece.piece} are not accounted for.`,
          off,
        );
      at = piece.to;
      cutting.cuts += (i === 0 && piece.from > DUST ? 1 : 0) + (piece.to < bar.length - DUST ? 1 : 0);
    }
    const last = inside.length > 0 ? Math.min(at + saw.kerf, to) : from;
    if (to > last) expected.push([last, to]);
    cutting.kerf += kg(inside.reduce((sum, piece) => sum + Math.max(0, Math.min(saw.kerf, to - piece.to)), 0));
  }
  for (let i = 1; i < pieces.length; i++) {
    const spoiledBetween = !spans.some(
      ([from, to]) => pieces[i - 1]!.from >= from - DUST && pieces[i]!.to <= to + DUST,
    );
    if (spoiledBetween && Math.abs(pieces[i]!.from - pieces[i - 1]!.to - saw.kerf) <= CLOSE) cutting.sharedCuts++;
  }
  checkRemainders(job, bar, expected, kg, cutting, tell);
  const usable = spans.reduce((sum, [from, to]) => sum + to - from, 0);
  const squared = 2 * lotSquaring(lot, saw);
  cutting.stock += kg(bar.length);
  cutting.squaring += kg(squared);
  cutting.spoiled += kg(bar.length - squared - usable);
}

function checkRemainders(
  job: Job,
  bar: PlanBar,
  left: Stretch[],
  kg: (length: number) => number,
  cutting: Cutting,
  tell: Tell,
): void {
  const about = `bar ${bar.bar}`;
  const told = [...bar.remainders].sort((p, q) => p.from - q.from);
  const lies = (remainder: Span, [from, to]: Stretch) =>
    Math.abs(remainder.from - from) <= CLOSE && Math.abs(remainder.to - to) <= CLOSE;
  // What is hardly there may be told or not.
  const expected = left.filter(
    (stretch) => stretch[1] - stretch[0] > CLOSE || told.some((remainder) => lies(remainder, stretch)),
  );
  for (const [i, remainder] of told.entries()) {
    const length = remainder.to - remainder.from;
    const long = length >= job.saw.keepFrom - DUST;
    const [from, to] = expected[i] ?? [Number.NaN, Number.NaN];
    if (!lies(remainder, [from, to]))
      tell(
        'remainder',
        about,
        `${about}: a remainder is told at ${remainder.from} … ${remainder.to}; ${stretch(from, to)}.`,
      );
    if ((remainder.fate === 'keep') !== long)
      tell(
        'remainder-fate',
        about,
        `${about}: a remainder of ${figure(length)} mm is told “${remainder.fate}”; keepFrom is ${job.saw.keepFrom}.`,
      );
    if (remainder.fate === 'keep') cutting.kept += kg(length);
    else cutting.scrap += kg(length);
  }
  for (const [from, to] of expected.slice(told.length))
    tell('remainder', about, `${about}: the remainder at ${figure(from)} … ${figure(to)} is not told.`, to - from);
}

function stretch(from: number, to: number): string {
  return Number.isNaN(from) ? 'there is none' : `it is ${figure(from)} … ${figure(to)}`;
}

/**
 * The bar less squaring at both ends, less its spoiled spans; a spoiled span narrower than the kerf counts as one kerf,
 * because the saw runs in it.
 */
function spansOf(lot: Lot, length: number, squaring: number, kerf: number): Stretch[] {
  const spans: Stretch[] = [];
  const end = length - squaring;
  let at = squaring;
  for (const { from, to } of [...lot.spoiled].sort((p, q) => p.from - q.from)) {
    if (Math.min(from, end) > at) spans.push([at, Math.min(from, end)]);
    at = Math.max(at, to, from + kerf);
  }
  if (end > at) spans.push([at, end]);
  return spans;
}
