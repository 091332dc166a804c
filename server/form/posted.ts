/** A posted form as text by field name. */
import type { Posted } from './apply.ts';

/** Of a name that was posted twice the last value counts. Anything that is not text is left out. */
export function postedForm(body: unknown): Posted {
  const form = new Map<string, string>();
  if (typeof body !== 'object' || body === null) return form;
  for (const [name, value] of Object.entries(body)) {
    const last: unknown = Array.isArray(value) ? value.at(-1) : value;
    if (typeof last === 'string') form.set(name, last);
  }
  return form;
}
