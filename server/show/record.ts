/** What pages tell of the record: a plan's voids with their bundles and what became of each, and what is aboard now. */
import type { Weight } from '../../src/balance/moments.ts';
import { type AboardNow, aboardNow } from '../../src/balance/recorded.ts';
import type { Job } from '../../src/job/job.ts';
import { type Act, historyOf } from '../../src/plan/history.ts';
import { massNow, type WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import {
  type BundleRecord,
  bundlesIn,
  type Entry,
  type Hanging,
  hangingOf,
  recordIn,
  recordOf,
} from '../../src/plan/record.ts';
import { byMark, markRanges } from '../../src/plan/stops.ts';

export interface RecordLine {
  /** Number of the bundle in the plan's list, from 0; its fields end in it. */
  index: number;
  bundle: PlanBundle;
  record: BundleRecord;
  /** kg, off the scale where it was weighed. */
  mass: number;
  /** By the scale it is over the lift limit of its void. */
  overLimit: boolean;
}

export interface RecordVoid {
  /** Number of the void in the plan's list, from 0. */
  index: number;
  void: string;
  name: string;
  mass: number;
  /** In loading order. */
  lines: RecordLine[];
  counts: { in: number; out: number };
  /** Of what is in, kg. */
  massIn: number;
  history: Act[];
}

/** Bundles of one void that came out at one time and are not back. */
export interface OutOfVoid {
  /** By ranges; `all 14 bundles of V2` where the void is empty by that. */
  bundles: string;
  mass: number;
  since: string;
}

export interface RecordView {
  voids: RecordVoid[];
  aboard: AboardNow;
  /** `isOut`: something under it was lifted out. */
  hanging: (Hanging & { isOut: boolean })[];
  out: OutOfVoid[];
  /** What was left ashore, its marks by ranges; null where that is nothing. */
  ashore: { marks: string; mass: number } | null;
  /** How many entries the record has. */
  entries: number;
}

/** `others`: what lies in her by other plans, as {@link aboardNow} counts it. */
export function showRecord(
  job: Job,
  plan: Plan,
  entries: readonly Entry[],
  masses: WeighedMasses,
  others: readonly Weight[] = [],
): RecordView {
  const record = recordOf(entries);
  const lines = plan.bundles.map((bundle, index) => ({
    index,
    bundle,
    record: recordIn(record, bundle.bundle),
    mass: massNow(bundle, masses),
    overLimit: (masses.get(bundle.bundle) ?? 0) > bundle.limit + 1e-9,
  }));
  const voids = plan.voids.flatMap((told, index) => {
    const own = lines.filter(({ bundle }) => bundle.void === told.void).sort((p, q) => p.bundle.order - q.bundle.order);
    return own.length === 0 ? [] : [voidOf(job, told.void, index, own)];
  });
  return {
    voids,
    aboard: aboardNow(job, plan, record, masses, others),
    hanging: hangingOf(plan, bundlesIn(record)).map((each) => ({
      ...each,
      isOut: each.on.some((low) => recordIn(record, low.bundle).state === 'out'),
    })),
    out: voids.flatMap(outOf),
    ashore: ashoreOf(lines),
    entries: entries.length,
  };
}

function ashoreOf(lines: readonly RecordLine[]): RecordView['ashore'] {
  const own = lines.filter(({ record }) => record.ashore);
  if (own.length === 0) return null;
  const marks = own.map(({ bundle }) => bundle.bundle).sort(byMark);
  return { marks: markRanges(marks).join(', '), mass: own.reduce((sum, { mass }) => sum + mass, 0) };
}

/** Lines with one minute are one. */
function outOf({ void: name, lines }: RecordVoid): OutOfVoid[] {
  const groups = new Map<string, RecordLine[]>();
  for (const line of lines) {
    if (line.record.state !== 'out' || line.record.since === null) continue;
    const minute = line.record.since.slice(0, 16);
    groups.set(minute, [...(groups.get(minute) ?? []), line]);
  }
  return [...groups.values()].map((own) => ({
    bundles:
      own.length === lines.length && own.length > 2
        ? `all ${own.length} bundles of ${name}`
        : markRanges(own.map(({ bundle }) => bundle.bundle)).join(', '),
    mass: own.reduce((sum, { mass }) => sum + mass, 0),
    since: own[0]!.record.since!,
  }));
}

function voidOf(job: Job, name: string, index: number, lines: RecordLine[]): RecordVoid {
  const count = (state: BundleRecord['state']) => lines.filter(({ record }) => record.state === state).length;
  return {
    index,
    void: name,
    name: job.voids.find((space) => space.void === name)?.name ?? '',
    mass: lines.reduce((sum, { mass }) => sum + mass, 0),
    lines,
    counts: { in: count('in'), out: count('out') },
    massIn: lines.reduce((sum, { mass, record }) => sum + (record.state === 'in' ? mass : 0), 0),
    history: historyOf(lines.map(({ record }) => record)),
  };
}
