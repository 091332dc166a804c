/** What the cut bench tells: a table by class, and a JSON file that two runs can be compared by. */
import { spawnSync } from 'node:child_process';
import { mkdir, writeFile } from 'node:fs/promises';
import { cpus } from 'node:os';
import path from 'node:path';

export interface CutRecord {
  set: string;
  name: string;
  best: number | null;
  /** Infinity where pieces are short. */
  cost: number;
  bound: number;
  proven: boolean;
  ms: number;
  /** Share of the counted work that was pricing. */
  pricing: number;
  faults: string[];
  firstFit: number;
  /** Cost by the assignment program; null where it was too large, absent where it was not tried. */
  assignment?: number | null;
  assignmentMs?: number;
}

export interface CutReport {
  seconds: number;
  peakMiB: number;
  checksum: string;
  records: CutRecord[];
}

export interface Written extends CutReport {
  bench: 'cut';
  machine: string;
  node: string;
  commit: string;
}

/** One line a class: how many meet the best known cost, are proven, lie within half a per cent; times; and the peers. */
export function classTable(records: CutRecord[]): string {
  const sets = [...new Set(records.map(({ set }) => set)), ''];
  const head = [
    'class',
    'of',
    'best',
    'proven',
    '≤ 0.5 %',
    'mean ms',
    '95 % ms',
    'pricing',
    'first fit',
    'program',
    'ahead',
    'behind',
  ];
  const rows = sets.map((set) => classRow(set, set === '' ? records : records.filter((r) => r.set === set)));
  const widths = head.map((title, c) => Math.max(title.length, ...rows.map((row) => row[c]!.length)));
  return [head, ...rows]
    .map((row) => row.map((cell, c) => (c === 0 ? cell.padEnd(widths[c]!) : cell.padStart(widths[c]!))).join('  '))
    .join('\n');
}

function classRow(set: string, records: CutRecord[]): string[] {
  const known = records.filter(({ best }) => best !== null);
  const times = records.map(({ ms }) => ms).sort((a, b) => a - b);
  const tried = records.filter(({ assignment }) => assignment !== undefined && assignment !== null);
  const share = (some: CutRecord[], of: CutRecord[]): string => (of.length === 0 ? '–' : `${some.length}/${of.length}`);
  const peerBest = (r: CutRecord): number => Math.min(r.firstFit, r.assignment ?? Infinity);
  return [
    set || 'all',
    String(records.length),
    share(
      known.filter((r) => r.cost <= (r.best ?? 0) + 1e-6),
      known,
    ),
    share(
      records.filter((r) => r.proven),
      records,
    ),
    share(
      records.filter((r) => r.cost <= r.bound * 1.005),
      records,
    ),
    mean(times).toFixed(0),
    (times[Math.max(0, Math.ceil(times.length * 0.95) - 1)] ?? 0).toFixed(0),
    `${(100 * mean(records.map((r) => r.pricing))).toFixed(0)} %`,
    share(
      records.filter((r) => r.firstFit <= r.cost + 1e-6),
      records,
    ),
    share(
      tried.filter((r) => (r.assignment ?? Infinity) <= r.cost + 1e-6),
      tried,
    ),
    String(records.filter((r) => r.cost < peerBest(r) - 1e-6).length),
    String(records.filter((r) => r.cost > peerBest(r) + 1e-6).length),
  ];
}

export function mean(values: number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);
}

/** Writes the report with the machine, the Node version and the commit it was made on. */
export async function writeReport(file: string, report: CutReport): Promise<void> {
  const commit = spawnSync('git', ['rev-parse', '--short', 'HEAD'], { encoding: 'utf8' }).stdout.trim();
  const machine = `${cpus()[0]?.model ?? 'unknown'} × ${cpus().length}`;
  const written: Written = { bench: 'cut', machine, node: process.version, commit, ...report };
  await mkdir(path.dirname(file), { recursive: true });
  await writeFile(file, `${JSON.stringify(written, null, 1)}\n`);
}
