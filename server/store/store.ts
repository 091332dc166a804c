/** The one door to what is kept: jobs, plans, plannings, masses weighed, the record of what is stowed, which jobs are rests of others, what was read afloat, what was moved, settings. Nothing outside `store/` speaks SQL. */
import { type Connection, openDatabase } from './database.ts';
import { type Jobs, openJobs } from './jobs.ts';
import { type MovedBundles, openMoved } from './moved.ts';
import { openPlannings, type Plannings } from './plannings.ts';
import { openPlans, type Plans } from './plans.ts';
import { openRecords, type Records } from './records.ts';
import { openRests, type Rests } from './rests.ts';
import { openTaken, type TakenReadings } from './taken.ts';
import { openWeighed, type Weighed } from './weighed.ts';

export interface Settings {
  get(name: string): string | null;
  set(name: string, value: string): void;
}

export interface Store {
  jobs: Jobs;
  plans: Plans;
  plannings: Plannings;
  weighed: Weighed;
  records: Records;
  rests: Rests;
  taken: TakenReadings;
  moved: MovedBundles;
  settings: Settings;
  close(): void;
}

/** Opens the store in a data folder, made and migrated where need be. Throws `FolderRefused`. */
export function openStore(folder: string): Store {
  const connection = openDatabase(folder);
  return {
    jobs: openJobs(connection),
    plans: openPlans(connection),
    plannings: openPlannings(connection),
    weighed: openWeighed(connection),
    records: openRecords(connection),
    rests: openRests(connection),
    taken: openTaken(connection),
    moved: openMoved(connection),
    settings: openSettings(connection),
    close: () => connection.close(),
  };
}

function openSettings(connection: Connection): Settings {
  const get = connection.prepare<[string], { value: string }>('SELECT value FROM setting WHERE name = ?');
  const set = connection.prepare(
    'INSERT INTO setting (name, value) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET value = excluded.value',
  );
  return {
    get: (name) => get.get(name)?.value ?? null,
    set: (name, value) => void set.run(name, value),
  };
}
