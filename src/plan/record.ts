/**
 * The record of what is really stowed: a list of entries that is only ever added to, from which follows where each bundle
 * is now and what became of it. It belongs to one plan: another plan gives the same marks to other bundles.
 */
import type { Plan, PlanBundle } from './plan.ts';

/**
 * `in`: it lies in its void; `out`: it was lifted out; `undone`: the last `in` or `out` was a mistake; `lies`: how it lies
 * otherwise than planned, nothing where it lies as planned after all; `seen`: what was seen of it; `ashore`: the trial left
 * it ashore, so that it is neither in nor next; `moved`: it lies in another place since, which its note names.
 */
export type What = 'in' | 'out' | 'undone' | 'lies' | 'seen' | 'ashore' | 'moved';

export interface Entry {
  bundle: string;
  what: What;
  /** As it was typed; empty where nothing was. */
  note: string;
  /** ISO time with the offset of where it was written, or the day alone where that was typed afterwards. */
  at: string;
}

/** What became of a bundle, without what turned out to be a mistake. */
export interface Move {
  bundle: string;
  did: 'stowed' | 'lifted out' | 'put back' | 'lies' | 'seen' | 'left ashore' | 'moved';
  note: string;
  at: string;
  /** Number of its entry in the order in which all were written, from 0. */
  nth: number;
}

export interface BundleRecord {
  state: 'in' | 'out' | 'not in';
  /** Not in, and not to go in: the trial left it ashore. */
  ashore: boolean;
  /** When it went in for the first time; null where it never did. */
  stowed: string | null;
  /** When it came to be `in` or `out`. */
  since: string | null;
  /** When it was last said to be `in`, `out` or neither, mistakes among them. */
  written: string | null;
  /** How it lies otherwise than planned; empty where nothing is said. */
  lies: string;
  /** When that was said; null where nothing ever was. */
  said: string | null;
  /** As they were written, oldest first. */
  moves: Move[];
}

const NOTHING: BundleRecord = {
  state: 'not in',
  ashore: false,
  stowed: null,
  since: null,
  written: null,
  lies: '',
  said: null,
  moves: [],
};

export type Recorded = ReadonlyMap<string, BundleRecord>;

/** The record of every bundle of which something is written. */
export function recordOf(entries: readonly Entry[]): Recorded {
  const moves = new Map<string, Move[]>();
  const written = new Map<string, string>();
  for (const [nth, entry] of entries.entries()) {
    if (entry.what !== 'lies' && entry.what !== 'seen') written.set(entry.bundle, entry.at);
    const own = moves.get(entry.bundle) ?? [];
    moves.set(entry.bundle, own);
    if (entry.what === 'undone') own.splice(own.findLastIndex(isPlace), own.some(isPlace) ? 1 : 0);
    // Said twice it is once: what takes it back takes all of it back.
    else if (entry.what !== 'ashore' || own.findLast(isPlace)?.did !== 'left ashore')
      own.push({ bundle: entry.bundle, did: didOf(entry.what, own), note: entry.note, at: entry.at, nth });
  }
  return new Map([...moves].map(([bundle, own]) => [bundle, standOf(own, written.get(bundle) ?? null)]));
}

/** The record of one bundle, also where nothing is written of it. */
export function recordIn(record: Recorded, bundle: string): BundleRecord {
  return record.get(bundle) ?? NOTHING;
}

/** True of what was lifted out and is not back, or was left ashore. */
export function isAway({ state, ashore }: BundleRecord): boolean {
  return state === 'out' || ashore;
}

/** Marks of the bundles that lie in their voids now. */
export function bundlesIn(record: Recorded): Set<string> {
  return new Set([...record].filter(([, { state }]) => state === 'in').map(([bundle]) => bundle));
}

/**
 * What is to be written so that the bundles `ashore`, and no others, are left ashore by the trial: those of them that are in
 * by the record come out; of others that were left ashore before, that is taken back.
 */
export function leftAshore(
  plan: Pick<Plan, 'bundles'>,
  record: Recorded,
  ashore: ReadonlySet<string>,
  at: string,
): Entry[] {
  const differ = plan.bundles
    .map(({ bundle }) => ({ bundle, now: recordIn(record, bundle) }))
    .filter(({ bundle, now }) => now.ashore !== ashore.has(bundle));
  const entriesOf = (some: typeof differ, whatOf: (now: BundleRecord) => What): Entry[] =>
    some.map(({ bundle, now }) => ({ bundle, what: whatOf(now), note: '', at }));
  return [
    ...entriesOf(
      differ.filter(({ now }) => now.state === 'in'),
      () => 'out',
    ),
    ...entriesOf(differ, (now) => (now.ashore ? 'undone' : 'ashore')),
  ];
}

/** A bundle that is in, and those under it that are not. */
export interface Hanging {
  bundle: PlanBundle;
  on: PlanBundle[];
}

/** Bundles that are in although one that they rest on by the plan is not: one that was passed over, or lifted out. */
export function hangingOf(plan: Pick<Plan, 'bundles'>, isIn: ReadonlySet<string>): Hanging[] {
  const missing = new Map<string, PlanBundle[]>();
  for (const bundle of plan.bundles)
    if (!isIn.has(bundle.bundle)) missing.set(runOf(bundle), [...(missing.get(runOf(bundle)) ?? []), bundle]);
  return plan.bundles
    .filter(({ bundle }) => isIn.has(bundle))
    .map((bundle) => ({ bundle, on: (missing.get(runOf(bundle)) ?? []).filter((low) => restsOn(bundle, low)) }))
    .filter(({ on }) => on.length > 0);
}

function runOf({ void: space, run }: PlanBundle): string {
  return `${run} ${space}`;
}

/** Whether `upper` rests on `lower` by the plan: of one run, over it by any part, and within 2 mm of its top. */
export function restsOn(upper: PlanBundle, lower: PlanBundle): boolean {
  return (
    upper.void === lower.void &&
    upper.run === lower.run &&
    Math.abs(upper.at.up - lower.at.up - lower.size.up) <= 2 &&
    upper.at.along < lower.at.along + lower.size.along &&
    lower.at.along < upper.at.along + upper.size.along &&
    upper.at.across < lower.at.across + lower.size.across &&
    lower.at.across < upper.at.across + upper.size.across
  );
}

function isMove({ did }: Move): boolean {
  return did === 'stowed' || did === 'lifted out' || did === 'put back';
}

/** Says where it is: in, out, or left ashore. */
export function isPlace(move: Move): boolean {
  return isMove(move) || move.did === 'left ashore';
}

function didOf(what: Exclude<What, 'undone'>, before: readonly Move[]): Move['did'] {
  if (what === 'out') return 'lifted out';
  if (what === 'ashore') return 'left ashore';
  if (what === 'in') return before.some(isMove) ? 'put back' : 'stowed';
  return what;
}

function standOf(moves: Move[], written: string | null): BundleRecord {
  const place = moves.findLast(isPlace);
  const ashore = place?.did === 'left ashore';
  const last = ashore ? undefined : place;
  const lying = moves.findLast(({ did }) => did === 'lies');
  return {
    state: !last ? 'not in' : last.did === 'lifted out' ? 'out' : 'in',
    ashore,
    stowed: moves.find(({ did }) => did === 'stowed')?.at ?? null,
    since: last?.at ?? null,
    written,
    lies: lying?.note ?? '',
    said: lying?.at ?? null,
    moves,
  };
}
