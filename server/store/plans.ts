/** Plans: each with a serial that is never used again, never overwritten, gone only with their job. */
import type { Bound, Effort, Totals } from '../../src/plan/plan.ts';
import type { Connection } from './database.ts';

/** What lists of plans show without reading the whole plan. */
export interface PlanSummary {
  totals: Totals;
  bound: Bound;
  effort: Effort;
}

export interface PlanRow {
  serial: number;
  job: number;
  jobDigest: string;
  digest: string;
  summary: PlanSummary;
  stoppedEarly: boolean;
  madeAt: string;
}

/** A plan with its own text and that of the job it was made for. */
export interface WholePlanRow extends PlanRow {
  jobBody: string;
  body: string;
}

export type NewPlan = Omit<WholePlanRow, 'serial'>;

export interface Plans {
  add(plan: NewPlan): number;
  find(serial: number): WholePlanRow | null;
  /** Serial of the newest plan of a job that was not deleted whose digest begins with these eight hexadecimal digits. */
  ofDigest(digits: string): number | null;
  /** Without the texts, newest first. */
  ofJob(job: number): PlanRow[];
}

interface Raw {
  serial: number;
  job: number;
  jobDigest: string;
  digest: string;
  summary: string;
  stoppedEarly: number;
  madeAt: string;
}

const COLUMNS = 'serial, job, jobDigest, digest, summary, stoppedEarly, madeAt';

export function openPlans(connection: Connection): Plans {
  const add = connection.prepare(
    `INSERT INTO plan (job, jobDigest, digest, jobBody, body, summary, stoppedEarly, madeAt)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const find = connection.prepare<[number], Raw & { jobBody: string; body: string }>(
    `SELECT ${COLUMNS}, jobBody, body FROM plan WHERE serial = ?`,
  );
  const ofDigest = connection.prepare<[string], { serial: number | null }>(
    `SELECT max(serial) AS serial FROM plan JOIN job ON job.id = plan.job
     WHERE substr(digest, 8, 8) = ? AND job.deletedAt IS NULL`,
  );
  const ofJob = connection.prepare<[number], Raw>(`SELECT ${COLUMNS} FROM plan WHERE job = ? ORDER BY serial DESC`);
  return {
    add: (plan) =>
      Number(
        add.run(
          plan.job,
          plan.jobDigest,
          plan.digest,
          plan.jobBody,
          plan.body,
          JSON.stringify(plan.summary),
          plan.stoppedEarly ? 1 : 0,
          plan.madeAt,
        ).lastInsertRowid,
      ),
    find: (serial) => {
      const raw = find.get(serial);
      return raw ? { ...raw, ...readRaw(raw) } : null;
    },
    ofDigest: (digits) => ofDigest.get(digits)?.serial ?? null,
    ofJob: (job) => ofJob.all(job).map(readRaw),
  };
}

function readRaw(raw: Raw): PlanRow {
  return {
    serial: raw.serial,
    job: raw.job,
    jobDigest: raw.jobDigest,
    digest: raw.digest,
    summary: JSON.parse(raw.summary) as PlanSummary,
    stoppedEarly: raw.stoppedEarly === 1,
    madeAt: raw.madeAt,
  };
}
