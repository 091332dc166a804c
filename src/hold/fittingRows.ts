/** What is fitted in a void, a row for each mark on its drawing: what it is, where it lies, over what, how it is made fast. */
import type { Void } from '../job/job.ts';
import type { PlanBundle } from '../plan/plan.ts';
import { kN } from './carriers.ts';
import type { Cover } from './cover.ts';
import { type Fitting, markHold, marksOf } from './fittings.ts';
import { type Over, tensionOf } from './straps.ts';
import { packingUnder, uppermost } from './tops.ts';

export interface FittingRow {
  marks: string;
  what: string;
  /** Its middle, mm from the end at along 0 and from the other; null where the job states no place. */
  place: { from: number; to: number } | null;
  /** Whether it could have a place: what blocks a side, and a direct strap, have none. */
  placeable: boolean;
  over: string;
  fixed: string;
}

/** In the order of their marks. `length` is that of the void along its bars, `bundles` those in it. */
export function fittingRows(
  space: Pick<Void, 'holdDown'>,
  length: number,
  covers: readonly Cover[],
  bundles: readonly PlanBundle[],
): FittingRow[] {
  if (!space.holdDown) return [];
  const marked = markHold(space.holdDown);
  const { bars, straps, blocks } = marked;
  const rows = (fittings: Fitting[], what: string, fixed: string): FittingRow[] =>
    placesApart(fittings).map((row, i) => {
      const at = row[0]!.at;
      const as = i === 0 ? null : `as ${fittings[0]!.mark}`;
      return {
        marks: marksOf(row),
        what: as ?? what,
        place: at === null ? null : { from: at, to: length - at },
        placeable: true,
        over: overWords(row, covers, bundles),
        fixed: as ?? fixed,
      };
    });
  return [
    ...bars.flatMap(({ bar, fittings }) => {
      const { perBar, size, grade, pull, into } = bar.bolts;
      const lie = bar.onEdge ? 'on edge' : 'flat';
      const what = `bar across ${bar.width} × ${bar.thickness} ${lie}, ${bar.span} mm between its outer bolts`;
      return rows(
        fittings,
        what,
        `${perBar} bolts ${size} ${grade}${pull === 'across' ? ' in shear' : ''} into ${into}`,
      );
    }),
    ...straps.flatMap(({ letter, strap, fittings }): FittingRow[] => {
      const fixed = `${strap.angle}° to the floor${strap.kind === 'direct' && strap.aside > 0 ? `, ${strap.aside}° aside` : ''}; what it is made fast to is not stated`;
      const force = `LC ${strap.lashingCapacity} kN`;
      if (strap.kind === 'over') return rows(fittings, `strap over the top, ${force}, ${tensionWords(strap)}`, fixed);
      const what = `${strap.count} × direct strap against going ${strap.against}, ${force}`;
      return [{ marks: letter, what, place: null, placeable: false, over: 'not drawn: no place is stated', fixed }];
    }),
    ...blocks.map(({ letter, side, by, carries }) => ({
      marks: letter,
      what:
        side === 'down'
          ? `stands on ${by}`
          : `${by}, against going ${side === 'port' || side === 'starboard' ? `to ${side}` : side}`,
      place: null,
      placeable: false,
      over: side === 'down' ? 'under it' : 'all along that side',
      fixed: `stated to carry ${carries} kN`,
    })),
  ];
}

/** What whoever fits it has to reach. */
function tensionWords(strap: Over): string {
  return `tension ${kN(tensionOf(strap), 'up')}${strap.tension === undefined ? ' (half its LC: none is stated)' : ''}`;
}

/** Each of those with a place by itself, the others together. */
function placesApart(fittings: Fitting[]): Fitting[][] {
  return fittings[0]?.at === null ? [fittings] : fittings.map((one) => [one]);
}

function overWords(row: Fitting[], covers: readonly Cover[], bundles: readonly PlanBundle[]): string {
  const { mark: first, at, half, kind } = row[0]!;
  const cover = covers.find(({ fittings }) => fittings.some(({ mark }) => mark === first));
  if (!cover) return `${at === null ? 'not drawn and ' : ''}not counted: too short for the void`;
  if (cover.over.length === 0) {
    return cover.lacking.length > 0 ? 'not drawn and not counted: too few for its runs' : 'its runs are not known yet';
  }
  const marks = row.map(({ mark }) => mark);
  const runs = cover.over
    .map(({ run, marks: over }) => ({ run: run.run, marks: over.filter((mark) => marks.includes(mark)) }))
    .filter((one) => one.marks.length > 0);
  if (at === null) return runs.map(({ run, marks: over }) => `${over.length} over run ${run}`).join(', ');
  if (runs.length === 0) return 'no bundle';
  const packing = packingUnder(uppermost(bundles, at - half, at + half + 1));
  const packed =
    packing > 1 && kind === 'bar' ? `; lower stacks packed up to it, ${Math.ceil(packing)} mm at most` : '';
  const counted = cover.lacking.length > 0 ? '; not counted' : '';
  return `run ${runs.map(({ run }) => run).join(' and ')}${packed}${counted}`;
}
