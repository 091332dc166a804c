/**
 * The marks of what holds a stow, the same in the working, in the table and on the drawing: a letter for each row that was
 * entered, bars across first, then straps, then what blocks a side; a number behind it for each of several.
 */
import type { BarAcross, HoldDown, Side, Strap } from '../job/holdDown.ts';
import { SIDES } from '../job/holdDown.ts';
import { halfWidth } from '../job/holdPlaceFaults.ts';

interface Marked {
  /** Of the row as entered. */
  letter: string;
}

/** A bar across or a strap over the top: what has a place along the void. */
export interface Fitting extends Marked {
  mark: string;
  kind: 'bar' | 'over';
  /** The row that it is one of, by its number in the job. */
  entry: number;
  /** Its middle, mm along the void; null where the job does not state it. */
  at: number | null;
  half: number;
}

export interface MarkedBar extends Marked {
  bar: BarAcross;
  fittings: Fitting[];
}

export interface MarkedStrap extends Marked {
  strap: Strap;
  /** None of a direct strap: nothing is stated of where it is made fast. */
  fittings: Fitting[];
}

export interface MarkedBlock extends Marked {
  side: Side | 'down';
  by: string;
  carries: number;
}

export interface MarkedHold {
  bars: MarkedBar[];
  straps: MarkedStrap[];
  blocks: MarkedBlock[];
}

/** Of several with places the one at the least place is number 1. */
export function markHold(hold: HoldDown): MarkedHold {
  let taken = 0;
  const next = (): string => {
    taken += 1;
    return letterOf(taken - 1);
  };
  const fittingsOf = (letter: string, kind: Fitting['kind'], entry: number, places: (number | null)[], half: number) =>
    places.map(
      (at, n): Fitting => ({
        letter,
        mark: places.length === 1 ? letter : `${letter}${n + 1}`,
        kind,
        entry,
        at,
        half,
      }),
    );
  const bars = hold.bars.map((bar, entry) => {
    const letter = next();
    return { letter, bar, fittings: fittingsOf(letter, 'bar', entry, placesOf(bar), halfWidth(bar)) };
  });
  const straps = hold.straps.map((strap, entry) => {
    const letter = next();
    return {
      letter,
      strap,
      fittings: strap.kind === 'over' ? fittingsOf(letter, 'over', entry, placesOf(strap), 0) : [],
    };
  });
  const blocks = [...SIDES, 'down' as const].flatMap((side): MarkedBlock[] => {
    const blocked = hold.blocked[side];
    return blocked ? [{ letter: next(), side, ...blocked }] : [];
  });
  return { bars, straps, blocks };
}

function placesOf({ count, at }: { count: number; at?: number[] | undefined }): (number | null)[] {
  return at ? [...at].sort((p, q) => p - q) : new Array<null>(count).fill(null);
}

/** A to Z, then AA, AB and so on. */
function letterOf(n: number): string {
  const last = String.fromCharCode(65 + (n % 26));
  return n < 26 ? last : `${letterOf(Math.floor(n / 26) - 1)}${last}`;
}

/** `A1 to A4`: the marks of one row. */
export function marksOf(fittings: readonly Fitting[]): string {
  const [first, last] = [fittings[0]?.mark ?? '', fittings.at(-1)?.mark ?? ''];
  return first === last ? first : `${first} to ${last}`;
}
