/** Which jobs are what was left of a plan, and what of that plan stands: what is in, and what finishes a run. */
import { bundlesIn, type Entry, recordOf } from '../../src/plan/record.ts';
import type { Connection } from './database.ts';

export interface Rest {
  /** The job of what is left. */
  job: number;
  name: string;
  /** That job has a plan of its own. */
  isPlanned: boolean;
  /** Bundles lie in her by a plan of its own. */
  isIn: boolean;
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
  /** What was left of a plan: of several jobs that which counts, the first of `allOfPlan`. Null where there is none. */
  ofPlan(plan: number): Rest | null;
  /** All jobs of what was left of a plan that were not deleted: first those by which bundles lie in her, then planned ones, then the newest. */
  allOfPlan(plan: number): Rest[];
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
     WHERE rest.plan = ? AND job.deletedAt IS NULL ORDER BY planned DESC, rest.job DESC`,
  );
  const ofJob = connection.prepare<[number], { plan: number; stands: string; moves: number | null }>(
    'SELECT plan, stands, moves FROM rest WHERE job = ?',
  );
  const entries = connection.prepare<[number], Entry & { plan: number }>(
    'SELECT entry.plan, bundle, what, note, at FROM entry JOIN plan ON plan.serial = entry.plan WHERE plan.job = ? ORDER BY entry.id',
  );
  const isInBy = (job: number): boolean => {
    const all = entries.all(job);
    const serials = [...new Set(all.map(({ plan }) => plan))];
    return serials.some((serial) => bundlesIn(recordOf(all.filter(({ plan }) => plan === serial))).size > 0);
  };
  const allOfPlan = (plan: number): Rest[] =>
    ofPlan
      .all(plan)
      .map(({ job, name, planned, stands, moves }) => {
        const own = { job, name, isPlanned: planned === 1, isIn: isInBy(job) };
        return { ...own, stands: new Set<string>(JSON.parse(stands)), moves };
      })
      .sort((p, q) => Number(q.isIn) - Number(p.isIn));
  return {
    add: (job, plan, stands, moves = null) => void add.run(job, plan, JSON.stringify([...stands]), moves),
    ofPlan: (plan) => allOfPlan(plan)[0] ?? null,
    allOfPlan,
    ofJob: (job) => {
      const row = ofJob.get(job);
      return row ? { ...row, stands: new Set(JSON.parse(row.stands)) } : null;
    },
  };
}
