/** Which jobs are what was left of a plan, and what of that plan stands: what is in, and what finishes a run. */
import type { Connection } from './database.ts';

export interface Rest {
  /** The job of what is left. */
  job: number;
  name: string;
  /** That job has a plan of its own. */
  isPlanned: boolean;
  /** Marks of the bundles that stay by the plan before. */
  stands: ReadonlySet<string>;
  /** How many batches of moves that plan had when the job was made; null where that was not kept. */
  moves: number | null;
}

/** What a job that is a rest was made of. */
export interface RestOf extends Pick<Rest, 'stands' | 'moves'> {
  plan: number;
}

export interface Rests {
  add(job: number, plan: number, stands: Iterable<string>, moves?: number | null): void;
  /** What was left of a plan: of several jobs a planned one goes first, then the newest. Null where there is none, or it was deleted. */
  ofPlan(plan: number): Rest | null;
  /** The plan that a job is the rest of, and what of it stays; null where it is none. */
  ofJob(job: number): RestOf | null;
}

interface Row {
  job: number;
  name: string;
  planned: number;
  stands: string;
  moves: number | null;
}

export function openRests(connection: Connection): Rests {
  const add = connection.prepare('INSERT INTO rest (job, plan, stands, moves) VALUES (?, ?, ?, ?)');
  const ofPlan = connection.prepare<[number], Row>(
    `SELECT rest.job, job.name, rest.stands, rest.moves, EXISTS (SELECT 1 FROM plan WHERE plan.job = rest.job) AS planned
     FROM rest JOIN job ON job.id = rest.job
     WHERE rest.plan = ? AND job.deletedAt IS NULL ORDER BY planned DESC, rest.job DESC LIMIT 1`,
  );
  const ofJob = connection.prepare<[number], { plan: number; stands: string; moves: number | null }>(
    'SELECT plan, stands, moves FROM rest WHERE job = ?',
  );
  return {
    add: (job, plan, stands, moves = null) => void add.run(job, plan, JSON.stringify([...stands]), moves),
    ofPlan: (plan) => {
      const row = ofPlan.get(plan);
      if (!row) return null;
      const { job, name, planned, stands, moves } = row;
      return { job, name, isPlanned: planned === 1, stands: new Set(JSON.parse(stands)), moves };
    },
    ofJob: (job) => {
      const row = ofJob.get(job);
      return row ? { ...row, stands: new Set(JSON.parse(row.stands)) } : null;
    },
  };
}
