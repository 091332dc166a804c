/** Starts a planning child as a process of its own, a little less urgent than the server that answers pages. */
import { fork } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { setPriority } from 'node:os';
import { extname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { framesOf } from '../frames.ts';
import type { Order, Word } from './message.ts';

/** How a child ended; `words` says where it broke, from its error output. */
export interface Ending {
  code: number | null;
  signal: string | null;
  words: string;
}

export interface Child {
  /** Ends the child at once. */
  kill(): void;
  /** Resident memory in bytes; null where the platform does not tell. */
  memory(): Promise<number | null>;
}

export type Launch = (order: Order, onWord: (word: Word) => void, onEnd: (ending: Ending) => void) => Child;

const NICENESS = 5;
const WORDS_KEPT = 2000;

export const launchProcess: Launch = (order, onWord, onEnd) => {
  const extension = extname(import.meta.url);
  const script = fileURLToPath(new URL(`./child${extension}`, import.meta.url));
  const process = fork(script, [], {
    execArgv: extension === '.ts' ? ['--import', 'tsx'] : [],
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
  });
  let words = '';
  let ended = false;
  const end = (ending: Ending): void => {
    if (!ended) onEnd({ ...ending, words: framesOf(ending.words) });
    ended = true;
  };
  process.stderr?.on('data', (chunk: Buffer) => {
    words = (words + chunk.toString('utf8')).slice(-WORDS_KEPT);
  });
  process.on('message', (word) => onWord(word as Word));
  process.on('error', (error) => end({ code: null, signal: null, words: error.message }));
  process.on('close', (code, signal) => end({ code, signal, words }));
  process.on('spawn', () => {
    if (process.pid !== undefined) lowerPriority(process.pid);
  });
  process.send(order);
  return {
    kill: () => void process.kill('SIGKILL'),
    memory: () => (process.pid === undefined ? Promise.resolve(null) : residentMemory(process.pid)),
  };
};

function lowerPriority(pid: number): void {
  try {
    setPriority(pid, NICENESS);
  } catch {
    // The child may have ended already; a platform may refuse. Either way the plan is the same.
  }
}

/** Resident memory of a process by the kernel's own account (Linux), bytes. */
async function residentMemory(pid: number): Promise<number | null> {
  try {
    const status = await readFile(`/proc/${pid}/status`, 'utf8');
    const kibibytes = /^VmRSS:\s+(\d+) kB/m.exec(status)?.[1];
    return kibibytes ? Number(kibibytes) * 1024 : null;
  } catch {
    return null;
  }
}
