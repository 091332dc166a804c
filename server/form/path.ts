/** Places in a draft, written as in faults: `pile[2].spoiled[0].to`. A draft is any JSON: nothing of its shape is trusted. */

export type Step = string | number;

/** The steps of a path; null where the text is not a path. */
export function parsePath(text: string): Step[] | null {
  if (!/^[A-Za-z_][^.[\]]*(\[\d{1,6}\])*(\.[^.[\]]+(\[\d{1,6}\])*)*$/.test(text)) return null;
  const steps: Step[] = [];
  for (const [, name, index] of text.matchAll(/([^.[\]]+)|\[(\d+)\]/g)) steps.push(name ?? Number(index));
  return steps;
}

/** What stands at a place; undefined where the draft does not reach so far. */
export function valueAt(draft: unknown, path: Step[]): unknown {
  let value = draft;
  for (const step of path) {
    if (typeof value !== 'object' || value === null) return undefined;
    if (typeof step === 'number' && !Array.isArray(value)) return undefined;
    if (!Object.hasOwn(value, step)) return undefined;
    value = (value as Record<Step, unknown>)[step];
  }
  return value;
}

/** The list at a place; empty where something else stands there. */
export function listAt(draft: unknown, path: Step[]): unknown[] {
  const value = valueAt(draft, path);
  return Array.isArray(value) ? value : [];
}

/**
 * Puts a value at a place, in the draft itself, making the objects and lists on the way; undefined takes it away, and
 * with it an object that is left empty.
 */
export function setAt(draft: Record<string, unknown>, path: Step[], value: unknown): void {
  const [step, next] = path as [Step, Step | undefined];
  const here = draft as Record<Step, unknown>;
  if (next === undefined) {
    if (value !== undefined) define(here, step, value);
    else if (Array.isArray(draft)) draft.splice(step as number, 1);
    else delete here[step];
    return;
  }
  let inner = Object.hasOwn(here, step) ? here[step] : undefined;
  const fits = typeof next === 'number' ? Array.isArray(inner) : isRecord(inner);
  if (!fits) {
    if (value === undefined) return;
    inner = typeof next === 'number' ? [] : {};
    define(here, step, inner);
  }
  setAt(inner as Record<string, unknown>, path.slice(1), value);
  if (value === undefined && isRecord(inner) && Object.keys(inner).length === 0 && typeof step === 'string')
    delete here[step];
}

/** A path as an id of the page: `pile-2-section-sizes`. */
export function idOf(path: string): string {
  return path.replaceAll(/[^A-Za-z0-9]+/g, '-').replace(/-$/, '');
}

/** True of a JSON object, neither a list nor null. */
export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Sets an own property, whatever its name: a field called `__proto__` is data like any other. */
function define(target: object, name: Step, value: unknown): void {
  Object.defineProperty(target, name, { value, enumerable: true, configurable: true, writable: true });
}
