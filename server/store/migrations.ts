/**
 * The steps from an empty database to the present one, in order. A step that has been published is never edited: a
 * change is a new step at the end. `PRAGMA user_version` counts the steps taken.
 */
export const MIGRATIONS: readonly string[] = [
  `
  CREATE TABLE job (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL,
    revision INTEGER NOT NULL,
    madeAt TEXT NOT NULL,
    savedAt TEXT NOT NULL,
    archivedAt TEXT,
    deletedAt TEXT
  ) STRICT;

  -- Every saved text of a job. 'beside' marks one that came too late to be the job's next revision.
  CREATE TABLE draft (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job INTEGER NOT NULL REFERENCES job (id) ON DELETE CASCADE,
    revision INTEGER NOT NULL,
    beside INTEGER NOT NULL DEFAULT 0,
    body TEXT NOT NULL,
    savedAt TEXT NOT NULL
  ) STRICT;
  CREATE INDEX draftOfJob ON draft (job, beside, revision);

  CREATE TABLE plan (
    serial INTEGER PRIMARY KEY AUTOINCREMENT,
    job INTEGER NOT NULL REFERENCES job (id) ON DELETE CASCADE,
    jobDigest TEXT NOT NULL,
    digest TEXT NOT NULL,
    jobBody TEXT NOT NULL,
    body TEXT NOT NULL,
    summary TEXT NOT NULL,
    stoppedEarly INTEGER NOT NULL,
    madeAt TEXT NOT NULL
  ) STRICT;
  CREATE INDEX planOfJob ON plan (job);

  CREATE TABLE planning (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job INTEGER NOT NULL REFERENCES job (id) ON DELETE CASCADE,
    state TEXT NOT NULL,
    wish TEXT NOT NULL,
    jobBody TEXT NOT NULL,
    note TEXT NOT NULL DEFAULT '',
    plan INTEGER REFERENCES plan (serial),
    askedAt TEXT NOT NULL,
    endedAt TEXT
  ) STRICT;
  CREATE INDEX planningOfJob ON planning (job);

  CREATE TABLE setting (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
  `,
  `
  -- kg read off the scale for a bundle of a plan.
  CREATE TABLE weighed (
    plan INTEGER NOT NULL REFERENCES plan (serial) ON DELETE CASCADE,
    bundle TEXT NOT NULL,
    mass REAL NOT NULL,
    weighedAt TEXT NOT NULL,
    PRIMARY KEY (plan, bundle)
  ) STRICT;
  `,
  `
  -- What was done to bundles of a plan, in the order in which it was written; never changed, only added to. 'at' is the
  -- moment, or the day alone where that was typed afterwards.
  CREATE TABLE entry (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    plan INTEGER NOT NULL REFERENCES plan (serial) ON DELETE CASCADE,
    bundle TEXT NOT NULL,
    what TEXT NOT NULL,
    note TEXT NOT NULL,
    at TEXT NOT NULL
  ) STRICT;
  CREATE INDEX entryOfPlan ON entry (plan, id);
  `,
  `
  -- A job that is what was left of a plan. 'stands' are the marks of the bundles that stay by that plan, JSON.
  CREATE TABLE rest (
    job INTEGER PRIMARY KEY REFERENCES job (id) ON DELETE CASCADE,
    plan INTEGER NOT NULL REFERENCES plan (serial) ON DELETE CASCADE,
    stands TEXT NOT NULL
  ) STRICT;
  CREATE INDEX restOfPlan ON rest (plan);
  `,
  `
  -- What was read afloat, under its number in the job: the last text of a number stands, the others are what it said before.
  -- Never changed, only added to. 'form' is the page that it was sent from: sent twice, it is written once.
  CREATE TABLE taken (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    job INTEGER NOT NULL REFERENCES job (id) ON DELETE CASCADE,
    number INTEGER NOT NULL,
    form TEXT NOT NULL,
    body TEXT NOT NULL,
    writtenAt TEXT NOT NULL
  ) STRICT;
  CREATE INDEX takenOfJob ON taken (job, number, id);
  `,
  `
  -- Where bundles of a plan were moved to, in the order in which it was done; what was done at once is of one batch. 'place'
  -- is JSON: void, run, tier, order, at. The plan itself never changes.
  CREATE TABLE moved (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    plan INTEGER NOT NULL REFERENCES plan (serial) ON DELETE CASCADE,
    batch INTEGER NOT NULL,
    bundle TEXT NOT NULL,
    place TEXT NOT NULL,
    at TEXT NOT NULL
  ) STRICT;
  CREATE INDEX movedOfPlan ON moved (plan, batch, id);
  `,
  `
  -- How many batches of moves the plan had when the job of what was left was made; null of one made before this was kept.
  ALTER TABLE rest ADD COLUMN moves INTEGER;
  `,
];
