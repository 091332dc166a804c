/** The plan's tables as CSV (RFC 4180, UTF-8 with a byte order mark so that spreadsheets read every alphabet). */

import { byScale } from '../../src/balance/byScale.ts';
import { loadingOf } from '../../src/balance/loading.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Job } from '../../src/job/job.ts';
import { sectionName } from '../../src/job/section.ts';
import { massNow, type WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { type Entry, recordIn, recordOf } from '../../src/plan/record.ts';
import { alikeBars, markRanges, pieceLength, stopsOf } from '../../src/plan/stops.ts';
import { makingsOf } from './makingList.ts';
import { FILE_WORDS as W } from './names.ts';
import { BY_WORDS } from './stowageWords.ts';
import { sumWeighed, weighingsOf } from './weighing.ts';

type Cell = string | number | null;

export interface CsvTable {
  file: string;
  title: string;
  heads: readonly string[];
  rows(job: Job, plan: Plan, weighed: WeighedMasses, record: readonly Entry[]): Cell[][];
}

export const CSV_TABLES: readonly CsvTable[] = [
  { file: 'stops.csv', ...W.stops, rows: stopRows },
  { file: 'pieces.csv', ...W.pieces, rows: pieceRows },
  { file: 'remainders.csv', ...W.remainders, rows: remainderRows },
  { file: 'bundles.csv', ...W.bundles, rows: bundleRows },
  { file: 'voids.csv', ...W.voids, rows: voidRows },
  { file: 'loading.csv', ...W.loading, rows: loadingRows },
  { file: 'record.csv', ...W.record, rows: recordRows },
  { file: 'making-list.csv', ...W.making, rows: makingRows },
];

/** The whole file. Numbers keep a point for the decimals; text that a spreadsheet would run as a formula is led by `'`. */
export function csvOf(
  table: CsvTable,
  job: Job,
  plan: Plan,
  weighed: WeighedMasses = new Map(),
  record: readonly Entry[] = [],
): string {
  const rows = [[...table.heads], ...table.rows(job, plan, weighed, record)];
  return `\ufeff${rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('')}`;
}

function cell(value: Cell): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(Math.round(value * 1000) / 1000 || 0);
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

function stopRows(job: Job, plan: Plan): Cell[][] {
  return stopsOf(job, plan).map((stop) => [
    stop.length,
    stop.pieces,
    stop.running,
    stop.cuts,
    stop.minutes,
    stop.sections.join('; '),
    markRanges(stop.bars).join('; '),
  ]);
}

function pieceRows(job: Job, plan: Plan): Cell[][] {
  return alikeBars(job, plan)
    .flat()
    .flatMap((bar) =>
      bar.pieces.map((piece) => [
        bar.bar,
        bar.lot,
        bar.length,
        piece.piece,
        piece.from,
        piece.to,
        pieceLength(piece),
        piece.bundle,
      ]),
    );
}

function remainderRows(job: Job, plan: Plan): Cell[][] {
  return alikeBars(job, plan)
    .flat()
    .flatMap((bar) =>
      bar.remainders.map((rest) => [bar.bar, bar.lot, rest.from, rest.to, pieceLength(rest), rest.fate]),
    );
}

function bundleRows(job: Job, plan: Plan, masses: WeighedMasses, entries: readonly Entry[]): Cell[][] {
  const record = recordOf(entries);
  const states = (bundle: string): Cell[] => {
    const { state, since, lies } = recordIn(record, bundle);
    return [state === 'not in' ? null : state, since, lies];
  };
  const names = new Map(job.voids.map((space) => [space.void, space.name]));
  return weighingsOf(job, plan, masses).map(({ bundle, tolerance, weighed, differs, beyond }) => [
    bundle.bundle,
    bundle.void,
    names.get(bundle.void) ?? '',
    bundle.run,
    bundle.tier,
    bundle.order,
    sectionName(bundle.section),
    bundle.slots.length,
    bundle.length,
    bundle.mass,
    bundle.limit,
    bundle.at.along,
    bundle.at.across,
    bundle.at.up,
    bundle.size.along,
    bundle.size.across,
    bundle.size.up,
    bundle.slots.map((slot) => slot.join('+')).join(' '),
    bundle.share ?? null,
    tolerance,
    weighed,
    differs,
    beyond ? W.bundles.beyond : null,
    ...states(bundle.bundle),
    massNow(bundle, masses),
  ]);
}

function voidRows(job: Job, plan: Plan, masses: WeighedMasses): Cell[][] {
  const weighings = weighingsOf(job, plan, masses);
  const placed = new Map(plan.voids.map((entry) => [entry.void, entry]));
  const now = new Map(byScale(job, plan, masses).voids.map((entry) => [entry.void, entry]));
  return job.voids.map((space) => {
    const entry = placed.get(space.void);
    const { centre = null, mass = 0 } = now.get(space.void) ?? {};
    const weighed = sumWeighed(weighings.filter((each) => each.bundle.void === space.void));
    return [
      space.void,
      space.name,
      laidVoid(space, plan).axis,
      entry?.bundles ?? 0,
      entry?.mass ?? 0,
      entry?.fill ?? 0,
      centre?.x ?? null,
      centre?.y ?? null,
      centre?.z ?? null,
      weighed.count,
      weighed.count === 0 ? null : weighed.mass,
      mass,
    ];
  });
}

function loadingRows(job: Job, plan: Plan, weighed: WeighedMasses): Cell[][] {
  return loadingOf(job, plan, weighed).map(({ bundle, mass, moment, list, quarter }, i) => [
    i + 1,
    bundle.bundle,
    bundle.void,
    bundle.order,
    bundle.mass,
    mass,
    moment,
    list,
    quarter,
    weighed.has(bundle.bundle) ? BY_WORDS.scale : BY_WORDS.plan,
  ]);
}

/** Every entry as it was written, mistakes among them. */
function recordRows(_job: Job, plan: Plan, masses: WeighedMasses, entries: readonly Entry[]): Cell[][] {
  const bundles = new Map(plan.bundles.map((bundle) => [bundle.bundle, bundle]));
  return entries.map(({ at, bundle, what, note }, i) => {
    const own = bundles.get(bundle);
    return [i + 1, at, own?.void ?? '', bundle, own ? massNow(own, masses) : null, W.record.whats[what], note];
  });
}

function makingRows(job: Job, plan: Plan): Cell[][] {
  return makingsOf(job, plan).map((item) => [item.group, item.what, item.quantity, item.reckoning]);
}
