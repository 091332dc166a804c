/** Jobs and their drafts. A draft is the job as typed, JSON text; it may hold faults. Every save is a revision. */
import type { Connection } from './database.ts';

export interface JobRow {
  id: number;
  name: string;
  revision: number;
  madeAt: string;
  savedAt: string;
  archivedAt: string | null;
  deletedAt: string | null;
}

export interface DraftRow {
  id: number;
  revision: number;
  body: string;
  savedAt: string;
}

/** The outcome of a save: the new revision, or `late` where another save came between (then the text is kept beside). */
export type Saved = { kind: 'saved'; revision: number } | { kind: 'late'; draft: number; revision: number };

/** Revisions kept of each job; older ones go. Texts kept beside never go by themselves. */
export const REVISIONS_KEPT = 50;

export interface Jobs {
  all(): JobRow[];
  find(id: number): JobRow | null;
  /** The body of the job's present revision, or of an older one that is still kept. */
  body(id: number, revision?: number): string | null;
  add(name: string, body: string, at: string): number;
  /** Saves a text that was typed over `revision`. */
  save(id: number, revision: number, name: string, body: string, at: string): Saved;
  /** Texts that came too late, newest first. */
  beside(id: number): DraftRow[];
  /** Makes a text kept beside the present one, which is kept beside in its place. */
  swapBeside(id: number, draft: number, name: string, at: string): boolean;
  dropBeside(id: number, draft: number): void;
  setArchived(id: number, at: string | null): void;
  setDeleted(id: number, at: string | null): void;
  /** Removes jobs deleted before `at`, with their plans; not one of whose plans what was left is a job that stays. */
  purge(at: string): number;
}

export function openJobs(connection: Connection): Jobs {
  const all = connection.prepare<[], JobRow>('SELECT * FROM job ORDER BY savedAt DESC, id DESC');
  const find = connection.prepare<[number], JobRow>('SELECT * FROM job WHERE id = ?');
  const body = connection.prepare<[number, number], { body: string }>(
    'SELECT body FROM draft WHERE job = ? AND revision = ? AND beside = 0',
  );
  const addJob = connection.prepare('INSERT INTO job (name, revision, madeAt, savedAt) VALUES (?, 1, ?, ?)');
  const addDraft = connection.prepare(
    'INSERT INTO draft (job, revision, beside, body, savedAt) VALUES (?, ?, ?, ?, ?)',
  );
  const touch = connection.prepare('UPDATE job SET name = ?, revision = ?, savedAt = ? WHERE id = ?');
  const prune = connection.prepare('DELETE FROM draft WHERE job = ? AND beside = 0 AND revision <= ?');
  const beside = connection.prepare<[number], DraftRow>(
    'SELECT id, revision, body, savedAt FROM draft WHERE job = ? AND beside = 1 ORDER BY id DESC',
  );
  const oneBeside = connection.prepare<[number, number], DraftRow>(
    'SELECT id, revision, body, savedAt FROM draft WHERE job = ? AND id = ? AND beside = 1',
  );
  const sameBeside = connection.prepare<[number, string], { id: number }>(
    'SELECT id FROM draft WHERE job = ? AND beside = 1 AND body = ?',
  );
  const drop = connection.prepare('DELETE FROM draft WHERE job = ? AND id = ? AND beside = 1');
  const archive = connection.prepare('UPDATE job SET archivedAt = ? WHERE id = ?');
  const remove = connection.prepare('UPDATE job SET deletedAt = ? WHERE id = ?');
  // A job goes no sooner than those of what was left of its plans: what lies in her by it is theirs as well.
  const purge = connection.prepare(`
    WITH RECURSIVE stays (id) AS (
      SELECT id FROM job WHERE deletedAt IS NULL OR deletedAt >= ?
      UNION SELECT plan.job FROM stays JOIN rest ON rest.job = stays.id JOIN plan ON plan.serial = rest.plan
    ) DELETE FROM job WHERE id NOT IN (SELECT id FROM stays)`);

  const next = (job: JobRow, name: string, text: string, at: string): number => {
    const revision = job.revision + 1;
    addDraft.run(job.id, revision, 0, text, at);
    touch.run(name, revision, at, job.id);
    prune.run(job.id, revision - REVISIONS_KEPT);
    return revision;
  };

  return {
    all: () => all.all(),
    find: (id) => find.get(id) ?? null,
    body: (id, revision) => body.get(id, revision ?? find.get(id)?.revision ?? 0)?.body ?? null,
    add: connection.transaction((name: string, text: string, at: string) => {
      const id = Number(addJob.run(name, at, at).lastInsertRowid);
      addDraft.run(id, 1, 0, text, at);
      return id;
    }),
    save: connection.transaction((id: number, revision: number, name: string, text: string, at: string): Saved => {
      const job = find.get(id) as JobRow;
      if (body.get(id, job.revision)?.body === text) return { kind: 'saved', revision: job.revision };
      if (revision === job.revision) return { kind: 'saved', revision: next(job, name, text, at) };
      // A form that is sent once more is kept beside once.
      const draft = sameBeside.get(id, text)?.id ?? Number(addDraft.run(id, revision, 1, text, at).lastInsertRowid);
      return { kind: 'late', draft, revision: job.revision };
    }),
    beside: (id) => beside.all(id),
    swapBeside: connection.transaction((id: number, draft: number, name: string, at: string) => {
      const job = find.get(id);
      const kept = oneBeside.get(id, draft);
      if (!job || !kept) return false;
      const present = body.get(id, job.revision)?.body;
      if (present !== undefined) addDraft.run(id, job.revision, 1, present, at);
      drop.run(id, draft);
      next(job, name, kept.body, at);
      return true;
    }),
    dropBeside: (id, draft) => void drop.run(id, draft),
    setArchived: (id, at) => void archive.run(at, id),
    setDeleted: (id, at) => void remove.run(at, id),
    purge: (at) => purge.run(at).changes,
  };
}
