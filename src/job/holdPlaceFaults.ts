/** What can not be true of where along a void bars across and straps over the top lie. */
import type { Fault } from '../fault.ts';
import { withoutDust } from '../units.ts';
import type { BarAcross, HoldDown, Strap } from './holdDown.ts';
import type { Void } from './job.ts';

type Space = Pick<Void, 'axis' | 'length'>;

/** What has a place along the void, and how far it reaches to either side of it, mm. */
interface Placed {
  count: number;
  at: readonly number[];
  half: number;
  what: string;
}

/** Half of what a bar across covers of the void's length, mm: its width, or on edge its thickness. */
export function halfWidth({ width, thickness, onEdge }: Pick<BarAcross, 'width' | 'thickness' | 'onEdge'>): number {
  return (onEdge ? thickness : width) / 2;
}

/** `path` is the place of the hold-down in the file. */
export function holdPlaceFaults(hold: HoldDown, space: Space, path: string): Fault[] {
  return [
    ...hold.bars.flatMap((bar, i) => placeFaults(barPlaced(bar), space, `${path}.bars[${i}]`)),
    ...hold.straps.flatMap((strap, i) => placeFaults(strapPlaced(strap), space, `${path}.straps[${i}]`)),
    ...clashFaults(hold, path),
  ];
}

function barPlaced(bar: BarAcross): Placed | null {
  return bar.at ? { count: bar.count, at: bar.at, half: halfWidth(bar), what: 'bar across' } : null;
}

function strapPlaced(strap: Strap): Placed | null {
  if (strap.kind !== 'over' || !strap.at) return null;
  return { count: strap.count, at: strap.at, half: 0, what: 'strap over the top' };
}

function placeFaults(placed: Placed | null, { axis, length }: Space, path: string): Fault[] {
  if (!placed) return [];
  const { count, at, half, what } = placed;
  if (axis === 'either') {
    const message = `Places along the void are stated for a ${what}, and its bars may lie either way: it is not settled from which end they are measured.`;
    const remedy = 'State which way its bars lie, or leave the places out until you know.';
    return [{ path: `${path}.at`, code: 'contradiction', message, remedy }];
  }
  const faults: Fault[] = [];
  if (at.length !== count) {
    const message = `${at.length} ${at.length === 1 ? 'place is' : 'places are'} stated for ${count} of a ${what}.`;
    const remedy = 'Write one place for each, or leave the places out; of some placed and some not make two rows.';
    faults.push({ path: `${path}.at`, code: 'contradiction', message, remedy });
  }
  if (2 * half > length) {
    const message = `The ${what} covers ${withoutDust(2 * half)} mm, and the void is ${length} mm long.`;
    const remedy = 'Measure the bar again, and the void; or stand it on edge.';
    return [...faults, { path: `${path}.at`, code: 'contradiction', message, remedy }];
  }
  at.forEach((middle, n) => {
    if (middle - half >= 0 && middle + half <= length) return;
    const message = `The ${what} with its middle at ${middle} mm reaches out of the void, which is ${length} mm long.`;
    const remedy = `Measure its middle from the ${axis === 'athwartships' ? 'port' : 'after'} end: ${half} to ${withoutDust(length - half)} mm.`;
    faults.push({ path: `${path}.at[${n}]`, code: 'contradiction', message, remedy });
  });
  return faults;
}

/** Two bars across can not lie in one place. */
function clashFaults(hold: HoldDown, path: string): Fault[] {
  const lying = hold.bars
    .flatMap((bar, i) =>
      (bar.at ?? []).map((middle, n) => ({ middle, half: halfWidth(bar), path: `${path}.bars[${i}].at[${n}]` })),
    )
    .sort((p, q) => p.middle - q.middle);
  return lying.flatMap((bar, n): Fault[] => {
    const before = lying[n - 1];
    if (!before || bar.middle - bar.half >= before.middle + before.half) return [];
    const message = `The bars across at ${before.middle} and ${bar.middle} mm lie in each other's place.`;
    const remedy = `Place them at least ${withoutDust(before.half + bar.half)} mm apart, from middle to middle.`;
    return [{ path: bar.path, code: 'contradiction', message, remedy }];
  });
}
