/**
 * Planning as the server sees it: one planning of a job at a time, two children at most, the rest wait their turn.
 * The best plan that a child has sent stands, however the child ends.
 */

import { framesOf } from '../frames.ts';
import { isNotWritten } from '../notWritten.ts';
import type { Wish } from '../store/plannings.ts';
import type { Store } from '../store/store.ts';
import type { Child, Ending, Launch } from './launch.ts';
import type { Word } from './message.ts';
import { recordPlan } from './record.ts';

/** What is known of a planning that is under way. Value and bound in kilograms, as in the plan file. */
export interface Progress {
  /** `unkept`: worked out, and the disk does not take it yet. */
  state: 'queued' | 'running' | 'unkept';
  phase: string;
  step: number;
  value: number | null;
  bound: number | null;
  /** How many plannings are before this one. */
  ahead: number;
}

export interface Limits {
  children: number;
  /** Bytes of resident memory. */
  memory: number;
  /** Seconds, by effort. */
  seconds: Record<Wish['effort'], number>;
  /** Seconds after which what the disk did not take is written once more. */
  again: number;
}

export const LIMITS: Limits = {
  children: 2,
  memory: 1.5 * 2 ** 30,
  // Some times what sixty voids take on a slow machine: only what would never end is ended.
  seconds: { quick: 900, steady: 1800, thorough: 3600 },
  again: 5,
};

/** What a planning that was ended comes to. */
const BEST_KEPT = 'The best plan so far is kept.';
const NONE_YET = 'There was no plan yet to keep: plan once more, and give it a little longer.';
const NOT_KEPT = "What came of it could not be kept: this is kentledge's own mistake, not yours.";
const TOO_MUCH = 'There was no plan yet to keep: plan once more, quickly, when the machine has less else to do.';

/** How often a child's memory is looked at, ms. */
const LOOK = 500;

export interface Planning {
  /** Asks for a plan. False where one of this job is under way already. */
  ask(job: number, wish: Wish, body: string): boolean;
  /** Ends the planning of a job, keeping the best plan so far. False where none is under way. */
  stop(job: number): boolean;
  progress(job: number): Progress | null;
  /** Calls `listener` at each step and, with null, at the end. Returns what stops listening. */
  listen(job: number, listener: (progress: Progress | null) => void): () => void;
  /** Ends every child. What they had not finished is told as broken off. */
  close(): void;
}

interface Task {
  id: number;
  job: number;
  wish: Wish;
  body: string;
  child: Child | null;
  phase: string;
  step: number;
  value: number | null;
  bound: number | null;
  plan: string | null;
  listeners: Set<(progress: Progress | null) => void>;
  /** Set where the server ends the child: why. */
  endedFor: { state: 'stopped' | 'failed'; note: string } | null;
  timers: NodeJS.Timeout[];
  /** Set once it has ended: writes what came of it, true where the disk took it. */
  write: (() => boolean) | null;
}

type Ended = 'done' | 'stopped' | 'nothing' | 'failed';

interface Outcome {
  state: Ended;
  note: string;
  serial: number | null;
}

export interface PlanningParts {
  store: Store;
  launch: Launch;
  clock: () => Date;
  /** Told how each planning ended; never what is in the job. */
  log: (event: { planning: number; job: number; state: string; words?: string }) => void;
  limits?: Limits;
}

/** Why a child is gone that the server has not ended. */
function brokenOff({ code, signal }: Ending): string {
  return signal === 'SIGKILL'
    ? 'Planning was ended by the system of the machine where kentledge runs, which mostly is for want of memory.'
    : `Planning broke off by itself (${signal ?? `status ${code ?? 'unknown'}`}): this is kentledge's own mistake, not yours.`;
}

/** `30 minutes`, or `0.2 seconds`. */
function lasting(seconds: number): string {
  return seconds < 120 ? `${seconds} seconds` : `${Math.round(seconds / 60)} minutes`;
}

export function startPlanning({ store, launch, clock, log, limits = LIMITS }: PlanningParts): Planning {
  const tasks = new Map<number, Task>();
  let closing = false;
  const at = (): string => clock().toISOString();

  for (const left of store.plannings.unfinished()) {
    store.plannings.end(
      left.id,
      'failed',
      'The server ended while this plan was being worked out. Ask for it again.',
      null,
      at(),
    );
  }

  const ahead = (task: Task): number =>
    [...tasks.values()].filter((other) => !other.child && other.id < task.id).length;
  const progressOf = (task: Task): Progress => ({
    state: task.write ? 'unkept' : task.child ? 'running' : 'queued',
    phase: task.phase,
    step: task.step,
    value: task.value,
    bound: task.bound,
    ahead: task.child ? 0 : ahead(task),
  });
  const tell = (task: Task): void => {
    for (const listener of task.listeners) listener(progressOf(task));
  };

  function startWaiting(): void {
    for (const task of tasks.values()) {
      const running = [...tasks.values()].filter((other) => other.child).length;
      if (closing || running >= limits.children) return;
      if (!task.child) begin(task);
    }
  }

  function begin(task: Task): void {
    ifWritten(() => store.plannings.begin(task.id));
    const seconds = limits.seconds[task.wish.effort];
    task.child = launch(
      { body: task.body, wish: task.wish },
      (word) => hear(task, word),
      (ending) => conclude(task, ending),
    );
    task.timers.push(
      setTimeout(
        () => endChild(task, 'failed', `Planning was ended: it had not finished in ${lasting(seconds)}.`),
        seconds * 1000,
      ),
      setInterval(() => void lookAtMemory(task), LOOK),
    );
    tell(task);
  }

  async function lookAtMemory(task: Task): Promise<void> {
    const bytes = (await task.child?.memory()) ?? 0;
    if (bytes > limits.memory) {
      endChild(
        task,
        'failed',
        `Planning was ended: it took more than ${(limits.memory / 2 ** 30).toFixed(1)} GiB of memory.`,
      );
    }
  }

  function endChild(task: Task, state: 'stopped' | 'failed', note: string): void {
    task.endedFor ??= { state, note };
    task.child?.kill();
  }

  function hear(task: Task, word: Word): void {
    if (task.write) return;
    if (task.endedFor) {
      // Ended as its last word was on the way: nothing more is heard of it, so this is its end.
      const { state, note } = task.endedFor;
      if (word.kind === 'plan') finish(task, state, note, word.plan, false);
      else if (word.kind !== 'progress') finish(task, state, note, task.plan, true);
    } else if (word.kind === 'progress') {
      task.phase = word.phase;
      task.step = word.step;
      task.value = word.value ?? task.value;
      task.bound = word.bound ?? task.bound;
      task.plan = word.plan ?? task.plan;
      tell(task);
    } else if (word.kind === 'plan') {
      finish(task, 'done', '', word.plan, false);
    } else if (word.kind === 'nothing') {
      const lines = word.reasons.map(
        ({ void: where, why, remedy }) => `${where}: ${why.replace(/\.$/, '')}. ${remedy}`,
      );
      finish(task, 'nothing', lines.join('\n'), null, false);
    } else {
      finish(task, 'failed', word.why, null, false);
    }
  }

  /** The child is gone without a last word: ended by the server, or dead of itself. */
  function conclude(task: Task, ending: Ending): void {
    if (tasks.get(task.job) !== task || task.write) return;
    const { state, note } = task.endedFor ?? { state: 'failed' as const, note: brokenOff(ending) };
    finish(task, state, note, task.plan, true, task.endedFor ? undefined : ending.words);
  }

  function finish(task: Task, state: Ended, note: string, plan: string | null, early: boolean, words?: string): void {
    for (const timer of task.timers) clearTimeout(timer);
    let outcome: Outcome | null = null;
    task.write = () =>
      ifWritten(() => {
        outcome ??= keep(task, state, note, plan, early);
        store.plannings.end(task.id, outcome.state, outcome.note, outcome.serial, at());
        log({ planning: task.id, job: task.job, state: outcome.state, ...(words ? { words } : {}) });
      });
    writeDown(task);
  }

  /** A child is heard in here: what is no matter of the disk ends this planning, and not the server. */
  function isWrittenDown(task: Task): boolean {
    try {
      return task.write?.() ?? true;
    } catch (error) {
      tellDefect(task, error);
    }
    try {
      return ifWritten(() => store.plannings.end(task.id, 'failed', NOT_KEPT, null, at()));
    } catch (error) {
      tellDefect(task, error);
      return true;
    }
  }

  function tellDefect(task: Task, error: unknown): void {
    const words = framesOf(error instanceof Error ? (error.stack ?? '') : '');
    log({ planning: task.id, job: task.job, state: 'failed', words });
  }

  /** Half an hour's work is not lost to a full disk: it waits here for room, and its job with it. */
  function writeDown(task: Task): void {
    if (!isWrittenDown(task) && !closing) {
      log({ planning: task.id, job: task.job, state: 'unkept' });
      task.timers.push(setTimeout(() => writeDown(task), limits.again * 1000));
      tell(task);
      return;
    }
    tasks.delete(task.job);
    for (const listener of task.listeners) listener(null);
    startWaiting();
    // Those that still wait are further on.
    for (const other of tasks.values()) if (!other.child) tell(other);
  }

  /** Stores the plan, if any. A plan that can not be read is the child's defect and stops nothing else. */
  function keep(task: Task, state: Ended, note: string, plan: string | null, early: boolean): Outcome {
    if (plan === null) {
      const isEnded = state === 'stopped' || task.endedFor !== null;
      const advice = state === 'stopped' ? NONE_YET : TOO_MUCH;
      return { state, serial: null, note: isEnded ? `${note} ${advice}` : note };
    }
    try {
      const serial = recordPlan(store, task, plan, early ? task.bound : null, early, at());
      return { state, note: state === 'done' ? note : `${note} ${BEST_KEPT}`, serial };
    } catch (error) {
      if (isNotWritten(error)) throw error;
      tellDefect(task, error);
      return {
        state: 'failed',
        serial: null,
        note: "The plan could not be read: this is kentledge's own mistake, not yours.",
      };
    }
  }

  return {
    ask: (job, wish, body) => {
      if (tasks.has(job) || closing) return false;
      const id = store.plannings.add(job, wish, body, at());
      tasks.set(job, {
        id,
        job,
        wish,
        body,
        child: null,
        phase: 'waiting',
        step: 0,
        value: null,
        bound: null,
        plan: null,
        listeners: new Set(),
        endedFor: null,
        timers: [],
        write: null,
      });
      startWaiting();
      return true;
    },
    stop: (job) => {
      const task = tasks.get(job);
      if (!task || task.write) return false;
      if (task.child) endChild(task, 'stopped', 'Stopped by you.');
      else finish(task, 'stopped', 'Taken out of the queue.', null, true);
      return true;
    },
    progress: (job) => {
      const task = tasks.get(job);
      return task ? progressOf(task) : null;
    },
    listen: (job, listener) => {
      const task = tasks.get(job);
      task?.listeners.add(listener);
      return () => void task?.listeners.delete(listener);
    },
    close: () => {
      closing = true;
      for (const task of [...tasks.values()]) {
        for (const timer of task.timers) clearTimeout(timer);
        if (task.write) {
          writeDown(task);
          continue;
        }
        task.endedFor ??= { state: 'failed', note: 'The server was stopped while this plan was being worked out.' };
        task.child?.kill();
        finish(task, 'failed', task.endedFor.note, task.plan, true);
      }
    },
  };
}

/** True where the disk took it; what else goes wrong is thrown. */
function ifWritten(write: () => void): boolean {
  try {
    write();
    return true;
  } catch (error) {
    if (!isNotWritten(error)) throw error;
    return false;
  }
}
