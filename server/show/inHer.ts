/** By which plans of a job something lies in her now: who plans all of it anew, or deletes it, is asked first. */
import { bundlesIn, recordOf } from '../../src/plan/record.ts';
import type { Store } from '../store/store.ts';
import { plansAfter } from './validity.ts';

export interface InHer {
  serial: number;
  bundles: number;
}

/** The oldest plan first. */
export function inHerBy(store: Store, job: number): InHer[] {
  return inHerOf(store, store.records.ofJob(job));
}

/** By which plans of other jobs of the same rest, and of what was left of those: they have the same steel and the same room. */
export function inHerBeside(store: Store, job: number): InHer[] {
  const rest = store.rests.ofJob(job);
  if (!rest) return [];
  const own = new Set(store.plans.ofJob(job).flatMap(({ serial }) => [serial, ...plansAfter(store, serial)]));
  return inHerOf(
    store,
    plansAfter(store, rest.plan).filter((serial) => !own.has(serial)),
  );
}

/** Whether who plans all of a job anew is asked first. */
export function isAskedAnew(store: Store, job: number): boolean {
  return inHerBy(store, job).length + inHerBeside(store, job).length > 0;
}

function inHerOf(store: Store, serials: readonly number[]): InHer[] {
  return serials.flatMap((serial) => {
    const bundles = bundlesIn(recordOf(store.records.of(serial))).size;
    return bundles > 0 ? [{ serial, bundles }] : [];
  });
}
