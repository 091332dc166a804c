/**
 * Ends of runs that have room to slide and no chock of the list: what is kept clear takes the place of it. Whoever stows must
 * know, since it is no chock's gap that is left but a way to go. Mm.
 */
import type { Job, KeepOut } from '../job/job.ts';
import { type LaidVoid, layVoid } from '../stow/laid.ts';
import { CAUTIONS, tell } from './cautionList.ts';
import { type EndSide, facings, type Interval, LEAST_FACING, type Room, takenIn } from './chockRoom.ts';
import { type Chock, chocksOf, leastGap, roomOf, spaceBefore } from './chocks.ts';
import type { Caution, Plan, PlanBundle, PlanRun } from './plan.ts';
import { markRanges } from './stops.ts';

/** Bundles of a run that may slide alike. */
export interface OpenEnd {
  run: number;
  end: EndSide;
  bundles: PlanBundle[];
  /** How far, mm, until they come up against something. */
  room: number;
  /** What that is: a keep-out by its name, the run beside, or null for the end of the void. */
  against: string | number | null;
  /** What is kept clear and takes the place of a chock, by its name; empty where there is no such thing. */
  taken: string[];
}

type Stow = Pick<Plan, 'runs' | 'bundles'>;

/** The open ends of a void, run by run from along 0. */
export function openEnds(laid: LaidVoid, plan: Stow): OpenEnd[] {
  const own = plan.bundles.filter((bundle) => bundle.void === laid.void);
  const filled = new Set(own.map(({ run }) => run));
  const runs = plan.runs.filter((run) => run.void === laid.void && filled.has(run.run)).sort((p, q) => p.run - q.run);
  const chocks = chocksOf(laid, plan);
  return runs.flatMap((run, i) =>
    (['first end', 'last end'] as const).flatMap((end) => {
      const other = end === 'first end' ? runs[i - 1] : runs[i + 1];
      const beside = own.filter((bundle) => bundle.run === other?.run);
      const found = own
        .filter((bundle) => bundle.run === run.run)
        .flatMap((bundle) => openEnd({ laid, run, end, other, beside, chocks }, bundle));
      return joined(found);
    }),
  );
}

interface End {
  laid: LaidVoid;
  run: PlanRun;
  end: EndSide;
  other: PlanRun | undefined;
  /** The bundles of the other run. */
  beside: PlanBundle[];
  chocks: readonly Chock[];
}

/** One bundle at one end of its run; none where it is kept, or stands higher than the run beside it, which is told otherwise. */
function openEnd({ laid, run, end, other, beside, chocks }: End, bundle: PlanBundle): OpenEnd[] {
  const { at, size } = bundle;
  const across = { from: at.across, to: at.across + size.across };
  const up = { from: at.up, to: at.up + size.up };
  const before = spaceBefore(laid, run, end, other);
  const away = ({ along }: KeepOut) => (end === 'first end' ? run.from - along[1] : along[0] - run.to);
  const [bearing] = facings(laid, before, { side: end, across, up })
    .flatMap(({ keepOut, from, to }) => (keepOut && isEnough(to - from, size.across) ? [keepOut] : []))
    .sort((p, q) => away(p) - away(q));
  if (!bearing && other && !beside.some((one) => isFaced(bundle, placeOf(one)))) return [];
  const reach = { ...before };
  if (bearing && end === 'first end') [, reach.from] = bearing.along;
  if (bearing && end === 'last end') [reach.to] = bearing.along;
  if (reach.to - reach.from < leastGap(laid)) return [];
  const held = chocks.some(
    (chock) => chock.from >= reach.from && chock.to <= reach.to && isFaced(bundle, roomOf(chock)),
  );
  if (held) return [];
  const taken = takenIn(laid, { along: reach, across, up });
  const [nearest] = laid.keepOut
    .filter((one) => one.along[0] < reach.to && one.along[1] > reach.from)
    .filter((one) => isFaced(bundle, { across: asInterval(one.across), up: asInterval(one.up) }))
    .sort((p, q) => away(p) - away(q));
  const stop = nearest ?? bearing;
  const against = stop ? nameOf(stop) : (other?.run ?? null);
  const room = Math.max(0, Math.floor(stop ? away(stop) : reach.to - reach.from));
  return [{ run: run.run, end, bundles: [bundle], room, against, taken: [...new Set(taken.map(nameOf))] }];
}

function nameOf({ what }: { what?: string }): string {
  return what ?? 'what is kept clear';
}

function asInterval([from, to]: readonly [number, number]): Interval {
  return { from, to };
}

type Face = Omit<Room, 'along'>;

function placeOf({ at, size }: PlanBundle): Face {
  return {
    across: { from: at.across, to: at.across + size.across },
    up: { from: at.up, to: at.up + size.up },
  };
}

/** True where something stands in front of enough of a bundle to keep it, across and up. */
function isFaced(bundle: PlanBundle, { across, up }: Face): boolean {
  const own = placeOf(bundle);
  return isEnough(shared(own.across, across), bundle.size.across) && isEnough(shared(own.up, up), bundle.size.up);
}

function shared(p: Interval, q: Interval): number {
  return Math.min(p.to, q.to) - Math.max(p.from, q.from);
}

function isEnough(share: number, whole: number): boolean {
  return share >= Math.min(LEAST_FACING, whole / 2);
}

/** Those of one run and end that may slide as far, up to the same. */
function joined(found: readonly OpenEnd[]): OpenEnd[] {
  const alike = new Map<string, OpenEnd>();
  for (const one of found) {
    const key = JSON.stringify([one.room, one.against, one.taken]);
    const before = alike.get(key);
    alike.set(key, before ? { ...before, bundles: [...before.bundles, ...one.bundles] } : one);
  }
  return [...alike.values()];
}

const WAYS = {
  'fore-and-aft': { 'first end': 'aft', 'last end': 'forward' },
  athwartships: { 'first end': 'to port', 'last end': 'to starboard' },
} as const;

/** The same in sentences, each with what to do about it. */
export function openEndLines(laid: LaidVoid, plan: Stow): string[] {
  return openEndTexts(laid, plan).map((text) => `${text} ${CAUTIONS['slides-along'].remedy}`);
}

/** Every void with such ends has its caution. */
export function openEndCautions(job: Job, plan: Pick<Plan, 'runs' | 'bundles' | 'voids'>): Caution[] {
  return job.voids.flatMap((space) => {
    const ways = layVoid(space);
    const axis = plan.voids.find((told) => told.void === space.void)?.axis;
    const texts = openEndTexts(ways.find((way) => way.axis === axis) ?? ways[0]!, plan);
    return texts.length > 0 ? [tell('slides-along', `void ${space.void}`, texts.join(' '))] : [];
  });
}

function openEndTexts(laid: LaidVoid, plan: Stow): string[] {
  return openEnds(laid, plan).map(({ run, end, bundles, room, against, taken }) => {
    const marks = markRanges(bundles.map(({ bundle }) => bundle)).join(', ');
    const stop = typeof against === 'number' ? `run ${against}` : (against ?? 'the end of the void');
    const slides =
      room === 0
        ? `bear ${WAYS[laid.axis][end]} on ${stop}`
        : `may slide ${room} mm ${WAYS[laid.axis][end]}, up to ${stop}`;
    const besides = taken.filter((what) => what !== against);
    const why = besides.length > 0 ? `; kept clear there: ${besides.join(', ')}` : '';
    return `${marks} of run ${run} ${slides}: no chock of the list fits there${why}.`;
  });
}
