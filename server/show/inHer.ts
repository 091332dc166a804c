/** By which plans of a job something lies in her now: who plans all of it anew, or deletes it, is asked first. */
import { bundlesIn, recordOf } from '../../src/plan/record.ts';
import type { Store } from '../store/store.ts';

export interface InHer {
  serial: number;
  bundles: number;
}

/** The oldest plan first. */
export function inHerBy(store: Store, job: number): InHer[] {
  return store.records.ofJob(job).flatMap((serial) => {
    const bundles = bundlesIn(recordOf(store.records.of(serial))).size;
    return bundles > 0 ? [{ serial, bundles }] : [];
  });
}
