/** The fingerprint that ties a plan to the job it was made for. */
import { createHash } from 'node:crypto';

/**
 * `sha256:…` of a JSON value as written, before defaults: keys sorted (by UTF-16 code units) at every level, no white
 * space, UTF-8. The order in which fields were written does not matter; everything else does.
 */
export function jobDigest(raw: unknown): string {
  return `sha256:${createHash('sha256').update(canonicalJson(raw), 'utf8').digest('hex')}`;
}

/** JSON with keys sorted at every level and no white space; fields that hold undefined are left out. */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map((entry) => canonicalJson(entry ?? null)).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const fields = Object.entries(value).filter(([, field]) => field !== undefined);
  fields.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${fields.map(([key, field]) => `${JSON.stringify(key)}:${canonicalJson(field)}`).join(',')}}`;
}
