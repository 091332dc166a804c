/** Where bars across and straps lie on a drawing: as stated, else as the working takes them to lie, else nowhere. */
import type { Cover } from '../hold/cover.ts';
import { type Fitting, type MarkedHold, markHold } from '../hold/fittings.ts';
import type { HeldVoid } from '../hold/holdDown.ts';
import type { Void } from '../job/job.ts';

export interface PlacedFitting extends Fitting {
  /** Its middle, mm along. */
  middle: number;
  /** The job states it. */
  settled: boolean;
}

export interface HoldView {
  marked: MarkedHold;
  covers: readonly Cover[];
}

/** What is drawn of a void with a hold-down; null of one without. */
export function holdView(space: Void, held: HeldVoid | null): HoldView | null {
  return space.holdDown ? { marked: markHold(space.holdDown), covers: held?.covers ?? [] } : null;
}

/** All that can be drawn, from along 0 on. */
export function placedFittings({ marked, covers }: HoldView): PlacedFitting[] {
  const assumed = new Map(covers.flatMap((cover) => [...cover.assumed]));
  return [...marked.bars, ...marked.straps]
    .flatMap(({ fittings }) => fittings)
    .flatMap((one): PlacedFitting[] => {
      const middle = one.at ?? assumed.get(one.mark);
      return middle === undefined ? [] : [{ ...one, middle, settled: one.at !== null }];
    })
    .sort((p, q) => p.middle - q.middle);
}
