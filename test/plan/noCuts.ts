import type { FirstCuts } from '../../src/plan/firstCuts.ts';

/** A stop that was set, and nothing measured at it. */
export const noCutsAt = (ordered: number): FirstCuts => ({
  ordered,
  measured: [],
  bar: null,
  remained: null,
  fromBar: null,
  bundle: null,
  weighed: null,
});
