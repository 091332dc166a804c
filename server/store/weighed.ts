/** Masses read off the scale, beside the plan that they belong to: the plan itself never changes. */
import type { Connection } from './database.ts';

export interface Weighed {
  /** kg by bundle of the plan; empty where none was weighed. */
  of(plan: number): ReadonlyMap<string, number>;
  /** Sets the masses of these bundles, or takes them away where null; all of them or, where one fails, none. */
  set(plan: number, masses: ReadonlyMap<string, number | null>, at: string): void;
}

export function openWeighed(connection: Connection): Weighed {
  const ofPlan = connection.prepare<[number], { bundle: string; mass: number }>(
    'SELECT bundle, mass FROM weighed WHERE plan = ? ORDER BY bundle',
  );
  const put = connection.prepare(
    `INSERT INTO weighed (plan, bundle, mass, weighedAt) VALUES (?, ?, ?, ?)
     ON CONFLICT (plan, bundle) DO UPDATE SET mass = excluded.mass, weighedAt = excluded.weighedAt
     WHERE mass <> excluded.mass`,
  );
  const take = connection.prepare('DELETE FROM weighed WHERE plan = ? AND bundle = ?');
  return {
    of: (plan) => new Map(ofPlan.all(plan).map(({ bundle, mass }) => [bundle, mass])),
    set: connection.transaction((plan: number, masses: ReadonlyMap<string, number | null>, at: string) => {
      for (const [bundle, mass] of masses) {
        if (mass === null) take.run(plan, bundle);
        else put.run(plan, bundle, mass, at);
      }
    }),
  };
}
