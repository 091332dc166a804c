/** What the lots of a rest are called, and what their notes tell: after a second rest as after the first. */
import { canonicalJson } from '../job/digest.ts';
import type { Lot } from '../job/job.ts';
import type { Span } from '../job/lot.ts';

/** What a lot of a rest holds; `whole` are bars as they came. */
export type Kind = 'whole' | 'begun' | 'cut' | 'left over';

/** Bars of one kind that come of a lot. */
export interface Part {
  /** The lot that they come of. */
  lot: Lot;
  kind: Kind;
  lengths: number[];
  spoiled: Span[];
  /** mm off each end; undefined: as the saw has it. */
  squaring: number | undefined;
  /** What they are left of, in words; '' where the note of the lot says all. */
  of: string;
  /** From which end the spoiled stretches are counted: parts of which one is counted otherwise are no lot together. */
  isFromSawnEnd: boolean;
}

const NOTE_LONGEST = 2000;
/** The longest that the mark of a lot may be. */
const MARK_LONGEST = 200;
/** How the mark of a lot of a rest ends. */
const REST_MARK = / (begun|cut|left over)( \d+)?$/;
/** How the note of a lot of a rest begins. */
const LEFT_OF = 'left of ';
const FROM_SAWN_END = ', what is spoiled counted from the sawn end';

/**
 * Lots of these parts, in their order. Whole bars keep the mark of their lot. Others are named after the lot that the pile had
 * first, `A cut` also where they come of `A begun`, and are one lot with what is alike and named so already: else a
 * rest of a rest would have `A cut begun`, `A begun begun` and `A cut 2` for one sort of steel.
 */
export function gatherLots(parts: readonly Part[], taken: Iterable<string>): Lot[] {
  const marks = new Set(taken);
  const wholes = parts.filter(({ kind }) => kind === 'whole');
  const lots = new Map<Part, Lot>(wholes.map((part) => [part, lotOf(part, part.lot.lot)]));
  const first = new Map(wholes.map((part) => [keyOf(part), part]));
  for (const part of parts) {
    if (part.kind === 'whole') continue;
    const key = keyOf(part);
    const alike = first.get(key);
    if (alike) {
      lots.set(alike, joined(lots.get(alike)!, lotOf(part, '')));
      continue;
    }
    first.set(key, part);
    const mark = freeMark(`${part.lot.lot.replace(REST_MARK, '')} ${part.kind}`, marks);
    lots.set(part, lotOf(part, mark));
  }
  return parts.flatMap((part) => lots.get(part) ?? []);
}

/** True of a lot whose note says that what is spoiled is counted from where the saw went through. */
export function isCountedFromSawnEnd({ note }: Lot): boolean {
  return note.startsWith(LEFT_OF) && note.includes(FROM_SAWN_END);
}

/** True where the steel of both lots is that of one lot of the pile as it was at first. */
export function isOfOneSteel(one: Lot, other: Lot): boolean {
  const first = ({ lot }: Lot) => lot.replace(REST_MARK, '');
  return first(one) === first(other) && canonicalJson(one.section) === canonicalJson(other.section);
}

/** True of a lot of pieces that a plan before had cut. */
export function isOfCutPieces({ lot }: Lot): boolean {
  return REST_MARK.exec(lot)?.[1] === 'cut';
}

/** Alike for parts that may be one lot. */
function keyOf({ lot, kind, spoiled, squaring, isFromSawnEnd }: Part): string {
  const [, of] = REST_MARK.exec(lot.lot) ?? [];
  const alike = { ...lot, lot: '', length: undefined, count: undefined, lengths: undefined, note: '' };
  const ends = spoiled.length > 0 && isFromSawnEnd;
  return canonicalJson({
    ...alike,
    spoiled,
    squaring,
    ends,
    of: lot.lot.replace(REST_MARK, ''),
    kind: kind === 'whole' ? (of ?? kind) : kind,
  });
}

function lotOf({ lot, kind, lengths, spoiled, squaring, of, isFromSawnEnd }: Part, mark: string): Lot {
  const from = isFromSawnEnd && spoiled.length > 0 ? FROM_SAWN_END : '';
  // What the bars of a rest were left of says nothing of what was cut from them since.
  const { own } = partsOf(lot.note);
  const note = kind === 'whole' ? lot.note : noteOf(of === '' ? [] : [`${LEFT_OF}${of}${from}`], [own]);
  return { ...lot, lot: mark, length: undefined, count: undefined, lengths, spoiled, squaring, note };
}

function joined(one: Lot, other: Lot): Lot {
  const [p, q] = [partsOf(one.note), partsOf(other.note)];
  const lengths = [...(one.lengths ?? []), ...(other.lengths ?? [])].sort((a, b) => b - a);
  return { ...one, lengths, note: noteOf([...p.leads, ...q.leads], [p.own, q.own]) };
}

/** What a note says its bars are left of, and all else in it. */
function partsOf(note: string): { leads: string[]; own: string } {
  const items = note.split('; ');
  const end = items.findIndex((item) => !item.startsWith(LEFT_OF));
  const at = end < 0 ? items.length : end;
  return { leads: items.slice(0, at), own: items.slice(at).join('; ') };
}

function noteOf(leads: string[], own: string[]): string {
  return [...new Set([...leads, ...own])].filter(Boolean).join('; ').slice(0, NOTE_LONGEST);
}

/** The mark, or one with a number after it where that is taken; it is taken from then on. */
function freeMark(wanted: string, marks: Set<string>): string {
  let mark = wanted.slice(-MARK_LONGEST);
  for (let n = 2; marks.has(mark); n++) mark = `${wanted} ${n}`.slice(-MARK_LONGEST);
  marks.add(mark);
  return mark;
}
