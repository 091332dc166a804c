/** Reads a job file: size, JSON, schema and what fields say of each other; every fault that can be found, at once. */
import type { Fault, Read } from '../fault.ts';
import { jobDigest } from './digest.ts';
import { formatFault, needsFault } from './formatFault.ts';
import { liftRulesSchema } from './handling.ts';
import {
  aimsSchema,
  bundleRulesSchema,
  JOB_FORMAT,
  type Job,
  jobSchema,
  lotSchema,
  sawSchema,
  vesselSchema,
  voidSchema,
} from './job.ts';
import { jobFaults, type StatedParts, spreadFaults } from './jobFaults.ts';
import { readJson } from './jsonText.ts';
import { keepOutFaults } from './keepOutFaults.ts';
import { readKnown, schemaFaults } from './schemaFaults.ts';
import { unprintedFaults } from './unprinted.ts';

/** A job that was read: with defaults, its digest (of the job as written), and the job as written. */
export interface JobRead {
  job: Job;
  digest: string;
  raw: unknown;
}

export interface ReadJobOptions {
  /** Read only to check a plan that was made for it: what merely keeps it from being planned is no fault. */
  toCheck?: boolean;
}

/** Reads the text of a job file. Names keep whatever they hold, markup and all. Never throws for what the text holds. */
export function readJob(text: string | Uint8Array, options: ReadJobOptions = {}): Read<JobRead> {
  const json = readJson(text);
  return json.ok ? readJobValue(json.value, options) : json;
}

/** As {@link readJob}, from a JSON value. */
export function readJobValue(raw: unknown, options: ReadJobOptions = {}): Read<JobRead> {
  const format = formatFault(raw, JOB_FORMAT, 'job');
  if (format?.code === 'newer-file' || format?.code === 'wrong-type') return { ok: false, faults: [format] };
  const needs = needsFault(raw);
  if (needs) return { ok: false, faults: [needs] };
  const unplanned = ({ voids }: Pick<StatedParts, 'voids'>): Fault[] =>
    options.toCheck ? [] : [...strayFaults(voids), ...spreadFaults(raw), ...unprintedFaults(raw)];
  const parsed = jobSchema.safeParse(raw);
  if (parsed.success) {
    const { data: job } = parsed;
    const faults = [...jobFaults({ ...job, density: job.steel.density }), ...unplanned(job)];
    return faults.length > 0 ? { ok: false, faults } : { ok: true, value: { job, digest: jobDigest(raw), raw } };
  }
  const found = schemaFaults(jobSchema, raw, 'job').filter((fault) => fault.path !== 'format');
  const parts = readableParts(raw);
  const faults = [...(format ? [format] : []), ...found, ...jobFaults(parts), ...unplanned(parts)];
  return { ok: false, faults: withoutRepeats(faults) };
}

/** Keep-outs that lie nowhere in their voids; an older plan of such a job can be checked all the same. */
function strayFaults(voids: StatedParts['voids']): Fault[] {
  return voids.flatMap((space, i) => (typeof space === 'object' ? keepOutFaults(space, `voids[${i}]`) : []));
}

/** Of a job as written, the parts that can be read for themselves, so that their fields can be compared all the same. */
export function readableParts(raw: unknown): StatedParts {
  const stated = isRecord(raw) ? raw : {};
  const steel = isRecord(stated.steel) ? stated.steel.density : undefined;
  return {
    density: typeof steel === 'number' && steel > 0 ? steel : 7850,
    pile: listOf(stated.pile).map((lot) => readKnown(lotSchema, lot) ?? named(lot, 'lot')),
    saw: readKnown(sawSchema, stated.saw ?? {}),
    bundle: readKnown(bundleRulesSchema, stated.bundle ?? {}),
    voids: listOf(stated.voids).map((space) => readKnown(voidSchema, space) ?? named(space, 'void')),
    vessel: readKnown(vesselSchema, stated.vessel),
    aims: readKnown(aimsSchema, stated.aims ?? {}),
    lift: readKnown(liftRulesSchema, stated.lift ?? {}),
  };
}

function named(value: unknown, key: string): string | undefined {
  const name = isRecord(value) ? value[key] : undefined;
  return typeof name === 'string' ? name : undefined;
}

function listOf(value: unknown): unknown[] {
  return Array.isArray(value) ? value : [];
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** One sentence a place: what the schema said of a field goes before what a comparison says of it. */
function withoutRepeats(faults: Fault[]): Fault[] {
  const seen = new Set<string>();
  return faults.filter((fault) => {
    const key = `${fault.path} ${fault.message}`;
    return !seen.has(key) && seen.add(key);
  });
}
