/** The fingerprint of a plan, which papers and tags carry so that a sheet of an older plan is found out. */
import { createHash } from 'node:crypto';
import { canonicalJson } from '../src/job/digest.ts';
import type { Plan } from '../src/plan/plan.ts';

const KNOWN = new WeakMap<Plan, string>();

/** `sha256:…` of the plan as canonical JSON. A plan does not change once it is made: all its papers ask for the same. */
export function planDigest(plan: Plan): string {
  const known = KNOWN.get(plan);
  if (known) return known;
  const digest = `sha256:${createHash('sha256').update(canonicalJson(plan), 'utf8').digest('hex')}`;
  KNOWN.set(plan, digest);
  return digest;
}

/** The first eight hexadecimal digits of a digest, enough to tell papers apart. */
export function digest8(digest: string): string {
  return digest.replace('sha256:', '').slice(0, 8);
}
