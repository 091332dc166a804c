/** Listens: takes the data folder, opens the store, starts planning and answers, until a signal ends it cleanly. */
import type { Server } from 'node:http';
import { pino } from 'pino';
import { buildApp, type LogLine } from './app.ts';
import { logTo } from './logTo.ts';
import { openLauncher } from './planning/launch.ts';
import { startPlanning } from './planning/planning.ts';
import { addDraft, demonstration } from './routes/jobs.ts';
import { hostNames, reachableHosts } from './security.ts';
import { lockFolder } from './store/database.ts';
import { openStore, type Store } from './store/store.ts';

export interface ServeOptions {
  port: number;
  host: string;
  data: string;
}

export interface Serving {
  /** Where it can be opened: on this machine first, then from others where it listens to them. */
  addresses: string[];
  /** Stops taking requests, ends the planning children, closes the store and lets go of the folder. */
  close(): Promise<void>;
}

const STANDARD_OUTPUT = 1;
/** Deleted jobs can be put back for so long, ms. */
const KEPT_DELETED = 30 * 24 * 3600 * 1000;
/** Requests under way are given so long at the end, ms. */
const LAST_WORD = 1000;

/** Starts serving. Throws `FolderRefused`, and what the system says of a port that can not be had. */
export async function serve(options: ServeOptions): Promise<Serving> {
  const unlock = lockFolder(options.data);
  try {
    return await serveFolder(options, unlock);
  } catch (error) {
    unlock();
    throw error;
  }
}

async function serveFolder(options: ServeOptions, unlock: () => void): Promise<Serving> {
  const store = openStore(options.data);
  const logger = pino({ base: null, level: process.env.KENTLEDGE_LOG ?? 'info' }, logTo(STANDARD_OUTPUT));
  const clock = (): Date => new Date();
  const log = ({ level, what, ...detail }: LogLine): void => logger[level](detail, what);
  store.jobs.purge(new Date(clock().getTime() - KEPT_DELETED).toISOString());
  const launcher = openLauncher();
  const planning = startPlanning({
    store,
    launch: launcher.launch,
    clock,
    log: (event) => log({ level: event.words ? 'error' : 'info', what: 'planning', ...event }),
  });
  const app = buildApp({ store, planning, clock, log, hosts: hostNames(options.host) });
  const server = await new Promise<Server>((resolve, reject) => {
    const listening = app.listen(options.port, options.host, (error?: Error) =>
      error ? reject(error) : resolve(listening),
    );
  }).catch((error: unknown) => {
    store.close();
    throw error;
  });
  const wish = { effort: 'steady', seed: 1, stops: null } as const;
  const begun = bringDemonstration(store, clock, (job, body) => planning.ask(job, wish, body));
  // Planned for nothing, so that a child is at hand whose code has run before: a plan then takes half the time.
  if (!begun)
    launcher.launch(
      { body: JSON.stringify(demonstration()), wish },
      () => {},
      () => {},
    );

  const bound = server.address();
  const port = typeof bound === 'object' && bound !== null ? bound.port : options.port;
  return {
    addresses: reachableHosts(options.host).map((host) => `http://${host}:${port}`),
    close: async () => {
      planning.close();
      launcher.close();
      const ended = new Promise<void>((resolve) => server.close(() => resolve()));
      server.closeIdleConnections();
      setTimeout(() => server.closeAllConnections(), LAST_WORD).unref();
      await ended;
      store.close();
      unlock();
    },
  };
}

/** At the first start of a data folder the demonstration is there, and being planned; false at any other. */
function bringDemonstration(store: Store, clock: () => Date, plan: (job: number, body: string) => void): boolean {
  if (store.settings.get('demonstration') !== null) return false;
  const draft = demonstration();
  const job = addDraft({ store, clock }, draft);
  store.settings.set('demonstration', String(job));
  plan(job, JSON.stringify(draft));
  return true;
}
