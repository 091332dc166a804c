/** Plannings: each time a plan of a job was asked for, and what came of it. */
import type { Effort } from '../../src/plan/plan.ts';
import type { Connection } from './database.ts';

/** What the user wishes of a plan. */
export interface Wish {
  effort: Effort;
  seed: number;
  /** As in the planner's options; null: its default. */
  stops: number | 'free' | null;
}

/**
 * `queued` and `running` end in one of: `done` (a plan, the planner's last word), `stopped` (by the user, with the best
 * plan so far if there was one), `nothing` (no bundle can be placed), `failed` (the note says how).
 */
export type PlanningState = 'queued' | 'running' | 'done' | 'stopped' | 'nothing' | 'failed';

export interface PlanningRow {
  id: number;
  job: number;
  state: PlanningState;
  wish: Wish;
  jobBody: string;
  /** In sentences: why it failed, or why nothing can be placed. */
  note: string;
  plan: number | null;
  askedAt: string;
  endedAt: string | null;
}

export interface Plannings {
  add(job: number, wish: Wish, jobBody: string, at: string): number;
  begin(id: number): void;
  end(id: number, state: PlanningState, note: string, plan: number | null, at: string): void;
  latest(job: number): PlanningRow | null;
  /** Those that were under way when the last server ended: none can be, at start. */
  unfinished(): PlanningRow[];
}

interface Raw extends Omit<PlanningRow, 'wish' | 'state'> {
  wish: string;
  state: string;
}

export function openPlannings(connection: Connection): Plannings {
  const add = connection.prepare(
    "INSERT INTO planning (job, state, wish, jobBody, askedAt) VALUES (?, 'queued', ?, ?, ?)",
  );
  const begin = connection.prepare("UPDATE planning SET state = 'running' WHERE id = ?");
  const end = connection.prepare('UPDATE planning SET state = ?, note = ?, plan = ?, endedAt = ? WHERE id = ?');
  const latest = connection.prepare<[number], Raw>('SELECT * FROM planning WHERE job = ? ORDER BY id DESC LIMIT 1');
  const unfinished = connection.prepare<[], Raw>("SELECT * FROM planning WHERE state IN ('queued', 'running')");
  return {
    add: (job, wish, body, at) => Number(add.run(job, JSON.stringify(wish), body, at).lastInsertRowid),
    begin: (id) => void begin.run(id),
    end: (id, state, note, plan, at) => void end.run(state, note, plan, at, id),
    latest: (job) => readRaw(latest.get(job)),
    unfinished: () => unfinished.all().map((raw) => readRaw(raw) as PlanningRow),
  };
}

function readRaw(raw: Raw | undefined): PlanningRow | null {
  return raw ? { ...raw, state: raw.state as PlanningState, wish: JSON.parse(raw.wish) as Wish } : null;
}
