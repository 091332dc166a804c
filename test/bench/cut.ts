/**
 * The cutting engine on classes of instances: how often the best known cost is met and proven, how fast, and beside it
 * first fit and the assignment program given to the linear solver for the same time.
 *
 *     npm run bench -- cut [--instances FILE] [--classes a,b] [--each N] [--seconds 10] [--peers N] [--seed 1] [--out FILE]
 *
 * Without a file it makes its own instances. `--peers N` tries the peers on the first N of each class, after ours.
 */
import { createHash } from 'node:crypto';
import { parseArgs } from 'node:util';
import { cutStock } from '../../src/cut/cutStock.ts';
import type { CutPlan } from '../../src/cut/problem.ts';
import { loadHighs } from '../../src/linear/highs.ts';
import type { LinearEngine } from '../../src/linear/model.ts';
import { recount } from '../cut/recount.ts';
import { type Instance, makeInstances, readInstances } from './cutInstances.ts';
import { assignmentProgram, firstFit } from './cutPeers.ts';
import { type CutRecord, classTable, writeReport } from './cutReport.ts';

/** Counted work for a second of the limit; the clock ends what the work does not. */
const WORK_PER_SECOND = 1000;

export async function run(args: string[]): Promise<void> {
  const { values } = parseArgs({
    args,
    options: {
      instances: { type: 'string' },
      classes: { type: 'string' },
      each: { type: 'string' },
      seconds: { type: 'string', default: '10' },
      peers: { type: 'string', default: '0' },
      seed: { type: 'string', default: '1' },
      out: { type: 'string', default: 'out/bench-cut.json' },
    },
  });
  const seconds = Number(values.seconds);
  const each = Number(values.each ?? (values.instances ? Infinity : 10));
  const all = values.instances ? readInstances(values.instances) : makeInstances(Number(values.seed), each);
  const wanted = values.classes?.split(',');
  const instances = firstOfEach(
    all.filter(({ set }) => wanted === undefined || wanted.includes(set)),
    each,
  );
  const checksum = createHash('sha256');
  const records: CutRecord[] = [];
  const engine = await loadHighs();
  for (const instance of instances) {
    const record = cutOne(engine, instance, seconds);
    records.push(record);
    checksum.update(JSON.stringify([instance.name, record.cost, record.bound]));
    if (record.faults.length > 0) console.log(`${instance.name}: ${record.faults.join('; ')}`);
  }
  const peakMiB = process.resourceUsage().maxRSS / 1024;
  await tryPeers(firstOfEach(instances, Number(values.peers)), records, seconds);
  console.log(classTable(records));
  const digest = checksum.digest('hex').slice(0, 16);
  console.log(`peak resident memory ${peakMiB.toFixed(0)} MiB, before the peers; checksum ${digest}`);
  await writeReport(values.out, { seconds, peakMiB, checksum: digest, records });
  console.log(`written: ${values.out}`);
  if (records.some(({ faults }) => faults.length > 0)) process.exitCode = 1;
}

function firstOfEach(instances: Instance[], each: number): Instance[] {
  const seen = new Map<string, number>();
  return instances.filter(({ set }) => {
    const count = seen.get(set) ?? 0;
    seen.set(set, count + 1);
    return count < each;
  });
}

function cutOne(engine: LinearEngine, { set, name, problem, best }: Instance, seconds: number): CutRecord {
  const start = performance.now();
  const plan: CutPlan = cutStock(problem, {
    engine,
    effort: seconds * WORK_PER_SECOND,
    shouldStop: () => performance.now() - start > seconds * 1000,
  });
  const ms = performance.now() - start;
  const faults = recount(problem, plan);
  if (best !== null && plan.bound > best + 1e-6) faults.push(`bound ${plan.bound} above the best known ${best}`);
  const cost = plan.short.length > 0 ? Infinity : plan.cost;
  const { bound, proven, work } = plan;
  const pricing = work.pricingUnits / Math.max(1e-9, work.units);
  return { set, name, best, cost, bound, proven, ms, pricing, faults, firstFit: firstFit(problem) };
}

/** Each peer gets a solver of its own memory, and the seconds that ours had. */
async function tryPeers(instances: Instance[], records: CutRecord[], seconds: number): Promise<void> {
  for (const { name, problem } of instances) {
    const record = records.find((r) => r.name === name);
    if (record === undefined) continue;
    const start = performance.now();
    record.assignment = assignmentProgram(await loadHighs(), problem, seconds);
    record.assignmentMs = performance.now() - start;
  }
}
