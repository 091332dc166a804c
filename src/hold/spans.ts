/**
 * Whether a bar across can reach what it is bolted to. It lies over the stow from side to side, across the bars in it, and
 * its bolts stand outside them: a span under the clear width is a slip, and the shorter the span, the more a bar seems to
 * carry. Where along the void it lies is not entered, so that the widest place counts; a longer span carries less, so that
 * who writes too much errs towards not secured.
 */
import type { BarAcross } from '../job/holdDown.ts';
import type { Void } from '../job/job.ts';
import { sideOf, sortStations } from '../job/stationSides.ts';

/** The clear width that a bar across has to bridge, mm: at the widest station, as high as the stow may reach. */
export function widthToBridge(place: Void, athwartships: boolean): number {
  // Only a void that lies either way is turned; any other is stated with its length along the bars.
  if (place.axis === 'either' && athwartships) return place.length;
  if (!place.stations) return place.width;
  const top = place.height - place.clear.top;
  const widths = sortStations(place.stations).map((one) => sideOf(one, top, 'to') - sideOf(one, top, 'from'));
  return Math.max(...widths);
}

/** Why bars across are not counted, a sentence for each that is too short. */
export function tooShort(bars: readonly BarAcross[], width: number): string[] {
  return bars.filter((bar) => bar.span < width).map((bar) => sentence(bar, width));
}

function sentence({ count, width: wide, thickness, span }: BarAcross, width: number): string {
  const slip = span * 10 >= width ? ` If it was in cm, write ${span * 10}.` : '';
  return `The bar across ${count} × ${wide} × ${thickness} is not counted: its span of ${span} mm is less than the ${Math.ceil(width)} mm of the void that it has to bridge.${slip} Measure it between its bolts; a longer span is reckoned as carrying less.`;
}
