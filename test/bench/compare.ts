/**
 * Compares two files of the cut bench, class by class: what is met and proven, and the ratio of the mean times.
 *
 *     npm run bench:compare -- BEFORE.json AFTER.json
 */
import { readFile } from 'node:fs/promises';
import { type CutRecord, mean, type Written } from './cutReport.ts';

const [before, after] = await Promise.all(process.argv.slice(2, 4).map(read));
if (before === undefined || after === undefined) {
  console.error('Give two files of the cut bench.');
  process.exitCode = 2;
} else compare(before, after);

async function read(file: string): Promise<Written> {
  return JSON.parse(await readFile(file, 'utf8')) as Written;
}

function compare(one: Written, other: Written): void {
  for (const { commit, node, machine, seconds, checksum } of [one, other]) {
    console.log(`${commit}, Node ${node}, ${machine}, ${seconds} s, checksum ${checksum}`);
  }
  if (one.machine !== other.machine) console.log('The machines differ: times can not be compared.');
  const names = new Set(other.records.map(({ name }) => name));
  const shared = one.records.filter(({ name }) => names.has(name));
  for (const set of new Set(shared.map((record) => record.set))) {
    const then = shared.filter((record) => record.set === set);
    const now = then.map(({ name }) => other.records.find((record) => record.name === name)!);
    console.log(
      `${set}: proven ${count(then)} → ${count(now)}, bars or cost ${change(then, now)}, time × ${ratio(then, now)} (${then.length} instances)`,
    );
  }
}

function count(records: CutRecord[]): number {
  return records.filter(({ proven }) => proven).length;
}

function change(then: CutRecord[], now: CutRecord[]): string {
  const better = now.filter((record, k) => record.cost < then[k]!.cost - 1e-6).length;
  const worse = now.filter((record, k) => record.cost > then[k]!.cost + 1e-6).length;
  return `better on ${better}, worse on ${worse}`;
}

function ratio(then: CutRecord[], now: CutRecord[]): string {
  return (mean(now.map(({ ms }) => ms)) / mean(then.map(({ ms }) => ms))).toFixed(2);
}
