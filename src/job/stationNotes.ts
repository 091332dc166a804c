/**
 * Readings that look like a slipped tape, and places where one more reading is wanted: nothing here is wrong for certain.
 * Heights and sides are compared with what the neighbouring readings let expect, straight lines between them.
 */
import { withoutDust } from '../units.ts';
import type { Void } from './job.ts';
import { type Side, type Sorted, sideOf, sortStations } from './stationSides.ts';

/** What is doubtful of a reading, and what would settle it. */
export interface StationNote {
  void: string;
  /** The station or reading in the file, from the void on: `stations[2].at[1]`. */
  path: string;
  code: 'jump' | 'heights' | 'hollow' | 'batten';
  text: string;
  /** Where the doubt lies, mm; a place for one more reading where that is asked for. */
  along: number;
  up: number;
  side: Side | null;
}

/** A side or bottom that is off by more than this share of the clear width and by more than so many mm has jumped. */
const JUMP = 0.15;
const JUMP_LEAST = 30;
/** A hollow under this is lost in the planking, mm. */
const HOLLOW_LEAST = 4;

const SIDES: readonly Side[] = ['from', 'to'];

/** The notes on one void, station by station; none where it is a box. */
export function stationNotes(space: Void): StationNote[] {
  if (!space.stations) return [];
  const stations = sortStations(space.stations).filter((station, i, all) => station.along !== all[i - 1]?.along);
  const jumps = jumpNotes(space, stations);
  const doubted = new Set(jumps.map((note) => note.along));
  const rest = stations.filter((station) => !doubted.has(station.along));
  return [...heightNotes(space), ...overNotes(space), ...battenNotes(space), ...jumps, ...hollowNotes(space, rest)];
}

/** Heights that neither rise nor fall as they are written: 0, 80, 60, 165 was 0, 80, 160, 165, or a line was left out. */
function heightNotes(space: Void): StationNote[] {
  return (space.stations ?? []).flatMap((station, i): StationNote[] => {
    if (station.batten) return [];
    const ups = station.at.map((reading) => reading.up);
    const falling = ups.length > 1 && ups.at(-1)! < ups[0]!;
    const out = ups.findIndex((up, j) => j > 0 && (falling ? up > ups[j - 1]! : up < ups[j - 1]!));
    if (out < 0) return [];
    const text = `At ${station.along} mm the reading at ${ups[out]} mm up is written after the one at ${ups[out - 1]} mm: heights out of order. Is the height right?`;
    return [note(space, `stations[${i}].at[${out}].up`, 'heights', text, station.along, ups[out]!, null)];
  });
}

/** Over the height by so much is rounding, mm. */
const ROUNDED = 1;

/** The highest reading over the height of the void, for all of them: one slip in the height asks once. A batten may well lie over it. */
function overNotes(space: Void): StationNote[] {
  const readings = (space.stations ?? []).flatMap(({ batten, along, at }, i) =>
    batten ? [] : at.map(({ up }, j) => ({ path: `stations[${i}].at[${j}].up`, along, up })),
  );
  const over = readings.filter(({ up }) => up > space.height + ROUNDED);
  if (over.length === 0) return [];
  const { path, along, up } = over.reduce((most, one) => (one.up > most.up ? one : most));
  const text = `At ${along} mm there is a reading at ${rounded(up)} mm up, and the void is ${rounded(space.height)} mm high. Nothing is stowed over that: is one of them a slip?`;
  return [note(space, path, 'heights', text, along, up, null)];
}

/** What a batten left unmeasured: sides higher than the outermost touch, or a tape that ran below the bottom. */
function battenNotes(space: Void): StationNote[] {
  return (space.stations ?? []).flatMap((station, i): StationNote[] => {
    const { batten, along } = station;
    if (!batten) return [];
    const notes: StationNote[] = [];
    const below = batten.readings.findIndex((reading) => reading.down > batten.up);
    if (below >= 0) {
      const { down } = batten.readings[below]!;
      const text = `At ${along} mm the tape ran ${rounded(down)} mm down from a batten ${batten.up} mm up: below the bottom of the void. Is the batten's height right?`;
      notes.push(note(space, `stations[${i}].batten.readings[${below}].down`, 'batten', text, along, 0, null));
    }
    const sorted = [...batten.readings].sort((p, q) => p.across - q.across);
    for (const [side, reading] of [['from', sorted[0]!] as const, ['to', sorted.at(-1)!] as const]) {
      const top = Math.max(...sorted.filter((r) => r.across === reading.across).map((r) => batten.up - r.down));
      if (top >= Math.min(batten.up, space.height - space.clear.top) - 1) continue;
      const text = `At ${along} mm nothing is measured to ${sideName(space, side)} above ${withoutDust(top)} mm: one more reading nearer the end of the batten.`;
      notes.push(note(space, `stations[${i}].batten`, 'batten', text, along, top, side));
    }
    return notes;
  });
}

/**
 * The stations that stand out from the straight line through their neighbours. One slipped tape makes its neighbours look
 * wrong too, so that the one is told without which the rest agrees best, and then the rest is looked at again.
 */
function jumpNotes(space: Void, stations: Sorted[]): StationNote[] {
  let left = stations;
  const notes: StationNote[] = [];
  while (left.length >= 3) {
    const jumps = left.map((_, i) => jumpOf(left, i)).filter((jump) => jump.ratio > 1);
    // Of three each is as far off the line of the other two: only that they do not agree is known, told in the middle.
    if (left.length === 3) {
      if (jumps.length > 0) notes.push(jumpNote(space, left[1]!, jumpOf(left, 1), true));
      break;
    }
    const rests = jumps.map(({ index }) => left.toSpliced(index, 1));
    const worsts = rests.map((rest) => Math.max(...rest.map((_, i) => jumpOf(rest, i).ratio)));
    const order = jumps.map((_, i) => i).sort((p, q) => worsts[p]! - worsts[q]! || jumps[q]!.weight - jumps[p]!.weight);
    const [told] = order;
    if (told === undefined) break;
    notes.push(jumpNote(space, left[jumps[told]!.index]!, jumps[told]!, false));
    left = rests[told]!;
  }
  return notes.sort((p, q) => p.along - q.along);
}

function jumpNote(space: Void, station: Sorted, { off, up, side }: Jump, ofThree: boolean): StationNote {
  const what = side === null ? 'the bottom' : `the side to ${sideName(space, side)} at ${Math.round(up)} mm up`;
  const where = `At ${station.along} mm ${what} stands ${Math.round(Math.abs(off))} mm off the line of the stations beside it`;
  const text = ofThree
    ? `${where}: a slipped tape there or at one of those, or a frame? Measure all three again.`
    : `${where}: a slipped tape, or a frame? Measure it again.`;
  return note(space, `stations[${station.index}]`, 'jump', text, station.along, up, side);
}

interface Jump {
  index: number;
  /** How far it is off, over how far it may be. */
  ratio: number;
  /** The same, less for an end, which is held against a line drawn on beyond the readings. */
  weight: number;
  off: number;
  up: number;
  side: Side | null;
}

/** A station at an end may be so much further off the line through the next two. */
const END = 1.5;

/** The greatest jump of one station against two others: those beside it, or, at an end, the next two. */
function jumpOf(stations: Sorted[], index: number): Jump {
  const isEnd = index === 0 || index === stations.length - 1;
  const p = stations[index === 0 ? 1 : index - 1]!;
  const q = stations[index === 0 ? 2 : isEnd ? index - 2 : index + 1]!;
  const here = stations[index]!;
  const share = (here.along - p.along) / (q.along - p.along);
  const line = (a: number, b: number) => a + share * (b - a);
  let worst: Jump = { index, ratio: 0, weight: 0, off: 0, up: here.at[0]!.up, side: null };
  const consider = (off: number, room: number, up: number, side: Side | null) => {
    const most = Math.max(JUMP_LEAST, JUMP * room);
    const ratio = Math.abs(off) / (most * (isEnd ? END : 1));
    const weight = Math.abs(off) / (most * (isEnd ? 1 + Math.abs(share) : 1));
    if (ratio > worst.ratio) worst = { index, ratio, weight, off, up, side };
  };
  const bottom = here.at[0]!.up;
  consider(bottom - line(p.at[0]!.up, q.at[0]!.up), here.at.at(-1)!.up - bottom, bottom, null);
  const near = [here, p, q];
  const touched = Math.max(...near.map((station) => station.at[0]!.up));
  for (const up of new Set(near.flatMap((station) => station.at.map((reading) => reading.up)))) {
    if (up < touched) continue;
    const wide = near.map((station) => sideOf(station, up, 'to') - sideOf(station, up, 'from')).sort((a, b) => a - b);
    for (const side of SIDES)
      consider(sideOf(here, up, side) - line(sideOf(p, up, side), sideOf(q, up, side)), wide[1]!, up, side);
  }
  return worst;
}

/**
 * Hollows that straight lines overstate: with the slopes s, t of a side outward before and after a reading, steeper after
 * it (t > s) by more than a fair curve lets pass, the side between two readings H apart lies up to (t − s)·H/8 inside the
 * line (a parabola through the three readings, spans alike).
 */
function hollowNotes(space: Void, stations: Sorted[]): StationNote[] {
  const most = Math.max(HOLLOW_LEAST, space.clear.sides);
  const notes: StationNote[] = [];
  for (const station of stations)
    for (const side of SIDES) {
      const line = station.at.map((reading) => [reading.up, outward(reading[side], side)] as const);
      const found = deepest(line);
      if (!found || found.depth <= most) continue;
      const text = `At ${station.along} mm the side to ${sideName(space, side)} is hollow, by about ${Math.round(found.depth)} mm between readings: take one more at ${Math.round(found.at)} mm up.`;
      notes.push(note(space, `stations[${station.index}].at`, 'hollow', text, station.along, found.at, side));
    }
  const heights = new Set(stations.flatMap((station) => station.at.map((reading) => reading.up)));
  const touched = stations.length > 0 ? Math.max(...stations.map((station) => station.at[0]!.up)) : 0;
  for (const side of SIDES) {
    let worst: { depth: number; at: number; up: number } | null = null;
    for (const up of heights) {
      if (up < touched) continue;
      const found = deepest(
        stations.map((station) => [station.along, outward(sideOf(station, up, side), side)] as const),
      );
      if (found && found.depth > (worst?.depth ?? most)) worst = { ...found, up };
    }
    if (!worst) continue;
    const text = `${Math.round(worst.up)} mm up the side to ${sideName(space, side)} is hollow along the void, by about ${Math.round(worst.depth)} mm between stations: take one more station at ${Math.round(worst.at)} mm.`;
    notes.push(note(space, 'stations', 'hollow', text, worst.at, worst.up, side));
  }
  return notes;
}

/** To a hundredth, as lengths are read: a batten's height less a reading has a tail of figures otherwise. */
function rounded(mm: number): number {
  return Math.round(mm * 100) / 100;
}

function outward(across: number, side: Side): number {
  return side === 'from' ? -across : across;
}

/** The deepest hollow of a line of [place, breadth], and the middle of the stretch in which it lies; null without one. */
function deepest(line: (readonly [number, number])[]): { depth: number; at: number } | null {
  let worst: { depth: number; at: number } | null = null;
  for (let i = 1; i + 1 < line.length; i++) {
    const [[x0, b0], [x1, b1], [x2, b2]] = [line[i - 1]!, line[i]!, line[i + 1]!];
    // Two readings at one place are a fault, and told as one.
    if (x0 === x1 || x1 === x2) continue;
    const bend = (b2 - b1) / (x2 - x1) - (b1 - b0) / (x1 - x0);
    const [from, to] = x2 - x1 > x1 - x0 ? [x1, x2] : [x0, x1];
    const depth = (bend * (to - from) * (to - from)) / (4 * (x2 - x0));
    if (depth > (worst?.depth ?? 0)) worst = { depth, at: (from + to) / 2 };
  }
  return worst;
}

function sideName(space: Void, side: Side): string {
  if (space.axis === 'athwartships') return side === 'from' ? 'aft' : 'forward';
  return side === 'from' ? 'port' : 'starboard';
}

function note(
  space: Void,
  path: string,
  code: StationNote['code'],
  text: string,
  along: number,
  up: number,
  side: Side | null,
): StationNote {
  return { void: space.void, path, code, text, along, up, side };
}
