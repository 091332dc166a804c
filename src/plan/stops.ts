/**
 * The saw's day: which stops in which order, how many pieces at each, and which bars are alike.
 *
 * A stop is one piece length, whatever the section. Cuts are counted as in the plan format: one for each piece end that
 * is not a bar end, two ends one kerf apart being one cut.
 */
import type { Job } from '../job/job.ts';
import { usableSpans } from '../job/lot.ts';
import { sectionName } from '../job/section.ts';
import type { Plan, PlanBar } from './plan.ts';

export interface Stop {
  /** Piece length, mm. */
  length: number;
  pieces: number;
  /** Pieces cut when this stop is done, counted from the first. */
  running: number;
  cuts: number;
  /** Cuts at the job's gang and minutes per cut, and the setting of the stop. */
  minutes: number;
  sections: string[];
  /** Marks of the bars that give pieces of this length, in the order of the plan. */
  bars: string[];
}

/** Every stop, longest first. */
export function stopsOf(job: Job, plan: Plan): Stop[] {
  const sections = new Map(job.pile.map((lot) => [lot.lot, sectionName(lot.section)]));
  const stops = new Map<number, Stop & { names: Set<string>; marks: Set<string> }>();
  for (const bar of plan.bars) {
    const cuts = cutsOfPieces(bar, job.saw.kerf);
    bar.pieces.forEach((piece, i) => {
      const length = pieceLength(piece);
      let stop = stops.get(length);
      if (!stop) {
        const empty = { pieces: 0, running: 0, cuts: 0, minutes: 0, sections: [], bars: [] };
        stop = { length, ...empty, names: new Set(), marks: new Set() };
        stops.set(length, stop);
      }
      stop.pieces += 1;
      stop.cuts += cuts[i]!;
      stop.names.add(sections.get(bar.lot) ?? bar.lot);
      stop.marks.add(bar.bar);
    });
  }
  let running = 0;
  return [...stops.values()]
    .sort((p, q) => q.length - p.length)
    .map(({ names, marks, ...stop }) => {
      running += stop.pieces;
      const minutes = (stop.cuts / job.saw.gang) * job.saw.minutesPerCut + job.saw.minutesPerStop;
      return { ...stop, running, minutes, sections: [...names], bars: [...marks] };
    });
}

/** Length of a piece, mm, free of the last bit's rounding. */
export function pieceLength(piece: { from: number; to: number }): number {
  return Math.round((piece.to - piece.from) * 10) / 10;
}

/** Nearer than this to the end of its bar a piece ends with it, mm. */
const END = 0.01;

/** Cuts that each piece of the bar adds, in the order of `pieces`. */
export function cutsOfPieces(bar: PlanBar, kerf: number): number[] {
  return bar.pieces.map((piece) => {
    const shared = bar.pieces.some((other) => Math.abs(piece.from - other.to - kerf) < 0.05);
    const start = piece.from > END && !shared ? 1 : 0;
    return start + (piece.to < bar.length - END ? 1 : 0);
  });
}

/**
 * Of each piece of a bar the cut that it lies behind, mm from the squared end: one that parts off what lies before it and is
 * lost, `frees` where it is the first behind that. 0 for what is measured from the squared end itself.
 */
export function cutsBefore(bar: PlanBar, kerf: number, squaring: number): { behind: number; frees: boolean }[] {
  let behind = 0;
  return bar.pieces.map((piece, i) => {
    const before = bar.pieces[i - 1];
    const frees = piece.from - (before ? before.to + kerf : squaring) >= 0.05;
    if (frees) behind = piece.from - squaring;
    return { behind, frees };
  });
}

/**
 * Marks of the bars of which a piece comes out short by more than the tolerance where each cut takes `wider` mm more than the
 * kerf stated. Of k pieces one behind the other k − 1 kerfs lie before the end of the last; what the span has left behind
 * that is to spare. Behind a spoiled stretch the saw is set anew.
 */
export function tightBars(job: Job, plan: Plan, wider: number): string[] {
  const lots = new Map(job.pile.map((lot) => [lot.lot, lot]));
  return plan.bars
    .filter((bar) => {
      const lot = lots.get(bar.lot);
      return (lot ? usableSpans(lot, bar.length, job.saw) : []).some((span) => {
        const pieces = bar.pieces.filter(({ from, to }) => from >= span.from - END && to <= span.to + END);
        const spare = span.to - Math.max(span.from, ...pieces.map(({ to }) => to));
        return (pieces.length - 1) * wider - spare > job.saw.tolerance;
      });
    })
    .map(({ bar }) => bar);
}

/** Bars grouped where one drawing serves them all, in the order in which the lots and the bars stand. */
export function alikeBars(job: Job, plan: Plan): PlanBar[][] {
  const place = new Map(job.pile.map((lot, i) => [lot.lot, i]));
  const groups = new Map<string, PlanBar[]>();
  for (const bar of [...plan.bars].sort((p, q) => byMark(p.bar, q.bar))) {
    const cuts = bar.pieces.map((piece) => `${piece.from}-${piece.to}`).join(' ');
    const key = JSON.stringify([bar.lot, bar.length, cuts, bar.remainders]);
    const alike = groups.get(key);
    if (alike) alike.push(bar);
    else groups.set(key, [bar]);
  }
  return [...groups.values()].sort((p, q) => (place.get(p[0]!.lot) ?? 0) - (place.get(q[0]!.lot) ?? 0));
}

/** Marks compared by what stands before their number, then by the number: `A-2` before `A-10`. */
export function byMark(p: string, q: string): number {
  const a = splitMark(p);
  const b = splitMark(q);
  if (a.lead !== b.lead) return a.lead < b.lead ? -1 : 1;
  return a.number - b.number;
}

/** Marks told by their ranges: `A-01 to A-06`, `B-02`. */
export function markRanges(marks: string[]): string[] {
  const sorted = [...marks].sort(byMark);
  const ranges: string[] = [];
  for (let i = 0; i < sorted.length; ) {
    let j = i;
    while (j + 1 < sorted.length && follows(sorted[j]!, sorted[j + 1]!)) j += 1;
    ranges.push(j === i ? sorted[i]! : j === i + 1 ? `${sorted[i]}, ${sorted[j]}` : `${sorted[i]} to ${sorted[j]}`);
    i = j + 1;
  }
  return ranges;
}

function follows(p: string, q: string): boolean {
  const a = splitMark(p);
  const b = splitMark(q);
  return a.lead === b.lead && b.number === a.number + 1;
}

function splitMark(mark: string): { lead: string; number: number } {
  const digits = /[0-9]+$/.exec(mark)?.[0] ?? '';
  return { lead: mark.slice(0, mark.length - digits.length), number: digits === '' ? -1 : Number(digits) };
}
