/** The app on a port of its own over a folder of its own, with a planner that says what the test tells it to. */
import { accessSync, constants, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildApp, type LogLine } from '../../server/app.ts';
import type { Child, Ending, Launch } from '../../server/planning/launch.ts';
import type { Order, Word } from '../../server/planning/message.ts';
import { LIMITS, type Limits, type Planning, startPlanning } from '../../server/planning/planning.ts';
import { hostNames } from '../../server/security.ts';
import { openStore, type Store } from '../../server/store/store.ts';

/** A planning child in the hands of the test. */
export interface FakeChild {
  order: Order;
  say(word: Word): void;
  end(ending?: Partial<Ending>): void;
  killed: boolean;
  memory: number;
}

export interface World {
  store: Store;
  planning: Planning;
  children: FakeChild[];
  log: LogLine[];
  address: string;
  get(path: string, init?: RequestInit): Promise<Response>;
  /** Posts a form with the token. */
  post(path: string, fields?: Record<string, string>, init?: RequestInit): Promise<Response>;
  token: string;
  /** Brings a job in and gives its address. */
  bring(text: string): Promise<string>;
  /** The text of a page, which must be there; quotes and spaces as they are read. */
  text(path: string): Promise<string>;
  close(): Promise<void>;
}

/** The demonstration, as a file. */
export const BOGBEAN = readFileSync(new URL('../../fixtures/bogbean.json', import.meta.url), 'utf8');

/** Where there is a folder in memory a save does not wait for a disk. */
const FOLDERS = isWritable('/dev/shm') ? '/dev/shm' : tmpdir();

function isWritable(folder: string): boolean {
  try {
    accessSync(folder, constants.W_OK);
    return true;
  } catch {
    return false;
  }
}

/** `launch` starts real planning children in place of the test's own; the clock stands still unless one that runs is given. */
export async function openWorld(limits: Limits = LIMITS, launch?: Launch, clock = standing): Promise<World> {
  const folder = mkdtempSync(join(FOLDERS, 'kentledge-test-'));
  const store = openStore(folder);
  const children: FakeChild[] = [];
  const log: LogLine[] = [];
  const planning = startPlanning({ store, clock, log: () => {}, limits, launch: launch ?? fakeLaunch(children) });
  const app = buildApp({ store, planning, clock, log: (line) => log.push(line), hosts: hostNames('127.0.0.1') });
  const server = app.listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  const token = store.settings.get('formToken') as string;
  const get: World['get'] = (path, init) => fetch(address + path, { redirect: 'manual', ...init });
  return {
    store,
    planning,
    children,
    log,
    address,
    token,
    get,
    bring: async (text) => {
      const form = new FormData();
      form.set('token', token);
      form.set('file', new Blob([text]), 'job.json');
      const answer = await get('/jobs/bring', { method: 'POST', body: form });
      return answer.headers.get('location')!.replace(/[?#].*/, '');
    },
    text: async (path) => {
      const answer = await get(path);
      if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}`);
      return plainSpaces((await answer.text()).replaceAll('&#39;', "'"));
    },
    post: (path, fields = {}, init) =>
      fetch(address + path, {
        method: 'POST',
        redirect: 'manual',
        body: new URLSearchParams({ token, ...fields }),
        ...init,
      }),
    close: async () => {
      planning.close();
      server.closeAllConnections();
      await new Promise((resolve) => server.close(resolve));
      store.close();
      rmSync(folder, { recursive: true });
    },
  };
}

/** A text with those spaces as others at which no line ends. */
export function plainSpaces(text: string): string {
  return text.replaceAll('\u00a0', ' ');
}

function standing(): Date {
  return new Date('2026-05-04T10:00:00Z');
}

function fakeLaunch(children: FakeChild[]): Launch {
  return (order, onWord, onEnd): Child => {
    const child: FakeChild = {
      order,
      say: onWord,
      end: (ending = {}) => onEnd({ code: 0, signal: null, words: '', ...ending }),
      killed: false,
      memory: 0,
    };
    children.push(child);
    return {
      kill: () => {
        child.killed = true;
        setImmediate(() => onEnd({ code: null, signal: 'SIGKILL', words: '' }));
      },
      memory: () => Promise.resolve(child.memory),
    };
  };
}
