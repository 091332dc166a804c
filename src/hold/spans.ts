/**
 * Whether a bar across can reach what it is bolted to. It lies over the stow from side to side, across the bars in it, and
 * its bolts stand outside them: a span under the clear width is a slip, and the shorter the span, the more a bar seems to
 * carry. Where its place along the void is not stated, the widest place counts; a longer span carries less, so that who
 * writes too much errs towards not secured.
 */
import type { BarAcross } from '../job/holdDown.ts';
import { halfWidth } from '../job/holdPlaceFaults.ts';
import type { Void } from '../job/job.ts';
import { sideOf, sortStations } from '../job/stationSides.ts';
import { withoutDust } from '../units.ts';
import { type MarkedHold, marksOf } from './fittings.ts';

/** The clear width that a bar across has to bridge, mm, as high as the stow may reach: over it at `at`, or anywhere. */
function widthToBridge(place: Void, athwartships: boolean, at: { at: number; half: number } | null): number {
  // Only a void that lies either way is turned; any other is stated with its length along the bars.
  if (place.axis === 'either' && athwartships) return place.length;
  if (!place.stations) return place.width;
  const top = place.height - place.clear.top;
  const stations = sortStations(place.stations).map((one) => {
    return { along: one.along, across: sideOf(one, top, 'to') - sideOf(one, top, 'from') };
  });
  if (!at) return Math.max(...stations.map(({ across }) => across));
  const [from, to] = [at.at - at.half, at.at + at.half];
  const inside = stations.filter(({ along }) => along > from && along < to).map(({ across }) => across);
  return Math.max(acrossAt(stations, from), acrossAt(stations, to), ...inside);
}

/** Where the middle of a bar's span is taken to lie: half-way between the sides at `at`, as high as the stow may reach. */
export function middleOfSpan(place: Void, at: number): number {
  if (!place.stations) return 0;
  const top = place.height - place.clear.top;
  const middles = sortStations(place.stations).map((one) => {
    return { along: one.along, across: (sideOf(one, top, 'to') + sideOf(one, top, 'from')) / 2 };
  });
  return acrossAt(middles, at);
}

/** Straight between stations, which are in order. */
function acrossAt(stations: readonly { along: number; across: number }[], along: number): number {
  const next = stations.findIndex((one) => one.along >= along);
  const after = stations[next < 0 ? stations.length - 1 : next]!;
  const before = stations[Math.max(0, (next < 0 ? stations.length : next) - 1)]!;
  const share = after.along > before.along ? (along - before.along) / (after.along - before.along) : 0;
  return before.across + Math.min(1, Math.max(0, share)) * (after.across - before.across);
}

export interface TooShort {
  /** Marks of the bars that are not counted. */
  marks: Set<string>;
  /** Why, a sentence for each row. */
  why: string[];
  /** The clear width that each row has to bridge, mm. */
  widths: number[];
}

/** Which bars across do not reach. */
export function tooShort(marked: MarkedHold, place: Void, athwartships: boolean): TooShort {
  const short: TooShort = { marks: new Set(), why: [], widths: [] };
  for (const { bar, fittings } of marked.bars) {
    const half = halfWidth(bar);
    const reached = fittings.map(({ mark, at }) => {
      const width = widthToBridge(place, athwartships, at === null ? null : { at, half });
      return { mark, width };
    });
    const failing = reached.filter(({ width }) => bar.span < width);
    short.widths.push(Math.max(...reached.map(({ width }) => width)));
    for (const { mark } of failing) short.marks.add(mark);
    if (failing.length === 0) continue;
    const marks = failing.length === fittings.length ? marksOf(fittings) : failing.map(({ mark }) => mark).join(', ');
    short.why.push(sentence(bar, marks, failing.length > 1, Math.max(...failing.map(({ width }) => width))));
  }
  return short;
}

function sentence({ width: wide, thickness, span }: BarAcross, marks: string, many: boolean, width: number): string {
  const slip = span * 10 >= width ? ` If it was in cm, write ${withoutDust(span * 10)}.` : '';
  const which = many
    ? `The bars across ${marks} (${wide} × ${thickness}) are`
    : `The bar across ${marks} (${wide} × ${thickness}) is`;
  return `${which} not counted: ${many ? 'their' : 'its'} span of ${span} mm is less than the ${Math.ceil(width)} mm of the void that ${many ? 'they have' : 'it has'} to bridge.${slip} Measure it between its bolts; a longer span is reckoned as carrying less.`;
}
