/**
 * Times and measures whole plans. A line for each job and effort: seconds to the first plan and to the last, value, bound,
 * gap, steel placed, scrap as a share of the steel cut up, stops, peak memory of its own process, ratio to the plan by
 * hand, checksum. Afterwards the sums, and with `--growth` how time grows.
 *
 *     npm run bench -- plan [--effort quick,steady] [--jobs family|fixtures|small|2-5] [--stops free] [--growth]
 *                           [--hand SCRIPT] [--verify SCRIPT] [--json FILE] [JOB.json …]
 *
 * `--hand SCRIPT` runs `node SCRIPT JOB`; it is compared with a plan at `kgPerHour` 0, stops free. `--verify SCRIPT` runs
 * `node SCRIPT JOB PLAN`; status 0 is a clean plan. `--jobs 2-5` takes the second to the fifth of the family.
 */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import type { Effort } from '../../src/plan/plan.ts';
import { familyOfTwelve, growingLots, growingVoids, type Measured, measured } from './family.ts';
import { type HandPlan, planByHand, verifyOutside, withoutLabour } from './outside.ts';
import { type PlanReport, planApart } from './planOne.ts';
import { fittedExponent, printSums, type Row, table } from './planTable.ts';

interface Wish {
  efforts: Effort[];
  stops: number | 'free' | null;
  hand?: string;
  verify?: string;
}

const FIXTURES = fileURLToPath(new URL('../../fixtures', import.meta.url));

export async function run(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      effort: { type: 'string', default: 'steady' },
      jobs: { type: 'string', default: 'family' },
      stops: { type: 'string', default: 'free' },
      growth: { type: 'boolean', default: false },
      hand: { type: 'string' },
      verify: { type: 'string' },
      json: { type: 'string' },
    },
  });
  const wish: Wish = {
    efforts: values.effort.split(',') as Effort[],
    stops: values.stops === 'free' ? 'free' : values.stops === 'default' ? null : Number(values.stops),
    ...(values.hand ? { hand: values.hand } : {}),
    ...(values.verify ? { verify: values.verify } : {}),
  };
  const rows: Row[] = [];
  console.log(table.head());
  for (const job of jobsOf(values.jobs, positionals)) {
    for (const effort of wish.efforts) rows.push(await measure(job, effort, wish));
  }
  printSums(rows);
  const growth = values.growth ? await measureGrowth(wish.efforts[0]!) : null;
  if (values.json) writeFileSync(values.json, `${JSON.stringify({ rows, growth }, null, 1)}\n`);
  if (rows.some((row) => row.faults.length > 0)) process.exitCode = 1;
}

function jobsOf(wanted: string, files: string[]): Measured[] {
  if (files.length > 0) return files.map(fromFile);
  const fixtures = () => readdirSync(FIXTURES).filter((file) => file.endsWith('.json'));
  if (wanted === 'fixtures') return fixtures().map((file) => fromFile(path.join(FIXTURES, file)));
  const family = familyOfTwelve();
  if (wanted === 'small') return family.filter((job) => job.voids <= 8);
  const [from, to] = wanted.split('-').map(Number);
  return Number.isInteger(from) ? family.slice(from! - 1, to ?? from) : family;
}

function fromFile(file: string): Measured {
  return measured(path.basename(file, '.json'), JSON.parse(readFileSync(file, 'utf8')));
}

async function measure({ name, job, voids, lots, bars }: Measured, effort: Effort, wish: Wish): Promise<Row> {
  const report = await planApart({ job, effort, stops: wish.stops });
  const hand = wish.hand ? planByHand(wish.hand, job) : null;
  const row: Row = { ...rowOf(name, effort, report), voids, lots, bars, hand, ratio: null };
  if (hand) row.ratio = await ratioTo(hand, { name, job, voids, lots, bars }, effort, row);
  if (report.plan && wish.verify) {
    row.faults.push(...verifyOutside(wish.verify, job, report.plan).map((line) => `outside: ${line}`));
  }
  console.log(table.line(row));
  for (const fault of row.faults.slice(0, 3)) console.log(`    ${fault}`);
  return row;
}

function rowOf(name: string, effort: Effort, { first, whole, peak, before, plan, faults }: PlanReport) {
  const checksum = createHash('sha256').update(JSON.stringify(plan)).digest('hex').slice(0, 12);
  return {
    name,
    effort,
    firstMs: first,
    wholeMs: whole,
    peakMiB: peak,
    beforeMiB: before,
    value: plan?.bound.value ?? null,
    valueAtMost: plan?.bound.valueAtMost ?? null,
    gap: plan?.bound.gap ?? null,
    placed: plan?.totals.placedMass ?? 0,
    scrap: plan?.totals.scrapMass ?? 0,
    cutUp: plan?.totals.stockMass ?? 0,
    stops: plan?.totals.stops ?? 0,
    bundles: plan?.totals.bundles ?? 0,
    faults: [...faults],
    checksum,
  };
}

/** Steel placed at `kgPerHour` 0 over what the hand plan places. */
async function ratioTo(hand: HandPlan, { job }: Measured, effort: Effort, row: Row): Promise<number | null> {
  const { plan, faults } = await planApart({ job: withoutLabour(job), effort, stops: 'free' });
  row.faults.push(...faults.map((fault) => `at kgPerHour 0: ${fault}`));
  return hand.placed > 0 ? (plan?.totals.placedMass ?? 0) / hand.placed : null;
}

async function measureGrowth(effort: Effort): Promise<Record<string, number>> {
  const found: Record<string, number> = {};
  for (const [what, series] of [
    ['voids', growingVoids()],
    ['lots', growingLots()],
  ] as const) {
    const points: [number, number][] = [];
    for (const each of series) {
      const { whole } = await planApart({ job: each.job, effort, stops: 'free' });
      points.push([each[what], whole]);
    }
    found[what] = fittedExponent(points);
    const told = points.map(([size, ms]) => `${size}: ${(ms / 1000).toFixed(2)} s`).join(', ');
    console.log(`growth with ${what}, effort ${effort}: time ~ ${what}^${found[what].toFixed(2)} (${told})`);
  }
  return found;
}
