/**
 * Planning children: processes of their own, a little less urgent than the server that answers pages. A child that has
 * planned a job waits for the next one, for code that has run before plans in about half the time.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { setPriority } from 'node:os';
import { extname } from 'node:path';
import type { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { framesOf } from '../frames.ts';
import type { Message, Order, Word } from './message.ts';

/** How a child ended; `words` says where it broke, from its error output. */
export interface Ending {
  code: number | null;
  signal: string | null;
  words: string;
}

/** A child for as long as it is at one order: after its last word it may be at another. */
export interface Child {
  /** Ends the child at once. */
  kill(): void;
  /** Resident memory in bytes; null where the platform does not tell. */
  memory(): Promise<number | null>;
}

export type Launch = (order: Order, onWord: (word: Word) => void, onEnd: (ending: Ending) => void) => Child;

export interface Launcher {
  launch: Launch;
  /** Ends every child. */
  close(): void;
}

const NICENESS = 5;
const WORDS_KEPT = 2000;
/** A child waits so long for another order, ms. */
const PATIENCE = 20 * 60 * 1000;

/** A child process and the order it is at; none while it waits. */
interface Hand {
  process: ChildProcess;
  order: { onWord: (word: Word) => void; onEnd: (ending: Ending) => void } | null;
  /** The end of its error output. */
  words: string;
  /** Ended from outside: it takes no further order. */
  killed: boolean;
  /** It said what can not be read, and is ended for that. */
  astray: boolean;
}

export function openLauncher(): Launcher {
  let waiting: Hand | null = null;
  let patience: NodeJS.Timeout | undefined;
  let closed = false;
  const hands = new Set<Hand>();

  const take = (): Hand | null => {
    const hand = waiting;
    waiting = null;
    clearTimeout(patience);
    hand?.process.ref();
    hand?.process.channel?.ref();
    return hand;
  };
  const dismiss = (): void => void take()?.process.kill('SIGKILL');

  /** After its last word a child waits, where none does yet. */
  function rest(hand: Hand): void {
    if (closed || waiting) {
      hand.process.kill('SIGKILL');
      return;
    }
    waiting = hand;
    patience = setTimeout(dismiss, PATIENCE).unref();
    hand.process.unref();
    hand.process.channel?.unref();
  }

  /** Nothing that such a child says can be relied on. How it ended is told once it has. */
  function giveUp(hand: Hand): void {
    if (hand.astray) return;
    if (waiting === hand) take();
    hand.astray = true;
    hand.killed = true;
    hand.words = 'Error: a line that is no word of a planning child\n';
    hand.process.kill('SIGKILL');
  }

  function begin(): Hand {
    const extension = extname(import.meta.url);
    const script = fileURLToPath(new URL(`./child${extension}`, import.meta.url));
    const process = fork(script, [], {
      execArgv: extension === '.ts' ? ['--import', 'tsx'] : [],
      stdio: ['ignore', 'pipe', 'pipe', 'ipc'],
    });
    const hand: Hand = { process, order: null, words: '', killed: false, astray: false };
    hands.add(hand);
    const end = (ending: Ending): void => {
      hands.delete(hand);
      if (waiting === hand) take();
      const { order } = hand;
      hand.order = null;
      order?.onEnd({ ...ending, words: framesOf(ending.words) });
    };
    process.stderr?.on('data', (chunk: Buffer) => {
      hand.words = (hand.words + chunk.toString('utf8')).slice(-WORDS_KEPT);
    });
    hearLines(process.stdout, (line) => {
      const word = hand.astray ? null : readMessage(line);
      if (!word) {
        giveUp(hand);
        return;
      }
      const { order } = hand;
      if ('waits' in word) {
        hand.order = null;
        if (word.waits && !hand.killed) rest(hand);
      }
      order?.onWord(word);
    });
    process.on('error', (error) => end({ code: null, signal: null, words: error.message }));
    process.on('close', (code, signal) => end({ code, signal: hand.astray ? null : signal, words: hand.words }));
    process.on('spawn', () => {
      if (process.pid !== undefined) lowerPriority(process.pid);
    });
    return hand;
  }

  return {
    launch: (order, onWord, onEnd) => {
      const hand = take() ?? begin();
      const own = { onWord, onEnd };
      hand.order = own;
      hand.words = '';
      hand.process.send(order);
      return {
        kill: () => {
          if (hand.order !== own) return;
          hand.killed = true;
          hand.process.kill('SIGKILL');
        },
        memory: () => (hand.order === own ? memoryOf(hand) : Promise.resolve(null)),
      };
    },
    close: () => {
      closed = true;
      clearTimeout(patience);
      for (const { process } of hands) process.kill('SIGKILL');
    },
  };
}

/** A line of a child as what it says; null for one that is no word of it, such as what a library prints. */
function readMessage(line: string): Message | null {
  try {
    const read: unknown = JSON.parse(line);
    return typeof read === 'object' && read !== null && 'kind' in read ? (read as Message) : null;
  } catch {
    return null;
  }
}

/** Calls `hear` with each line of a stream, without its end. */
function hearLines(stream: Readable | null, hear: (line: string) => void): void {
  let begun: string[] = [];
  stream?.setEncoding('utf8').on('data', (chunk: string) => {
    const [first = '', ...more] = chunk.split('\n');
    begun.push(first);
    for (const next of more) {
      hear(begun.join(''));
      begun = [next];
    }
  });
}

function lowerPriority(pid: number): void {
  try {
    setPriority(pid, NICENESS);
  } catch {
    // The child may have ended already; a platform may refuse. Either way the plan is the same.
  }
}

/** Resident memory of a child by the kernel's own account (Linux), bytes. */
async function memoryOf({ process: { pid } }: Hand): Promise<number | null> {
  if (pid === undefined) return null;
  try {
    const status = await readFile(`/proc/${pid}/status`, 'utf8');
    const kibibytes = /^VmRSS:\s+(\d+) kB/m.exec(status)?.[1];
    return kibibytes ? Number(kibibytes) * 1024 : null;
  } catch {
    return null;
  }
}
