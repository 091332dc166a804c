/** Where two drafts differ, field by field, for who has to choose between them. */

export interface Difference {
  path: string;
  one: string;
  other: string;
}

/** The fields that differ, by path; nothing is left out. */
export function differences(one: unknown, other: unknown): Difference[] {
  const [mine, theirs] = [leaves(one), leaves(other)];
  const paths = new Set([...mine.keys(), ...theirs.keys()]);
  return [...paths]
    .map((path) => ({ path, one: mine.get(path) ?? '', other: theirs.get(path) ?? '' }))
    .filter((difference) => difference.one !== difference.other);
}

function leaves(value: unknown, path = '', found = new Map<string, string>()): Map<string, string> {
  if (Array.isArray(value)) for (const [n, entry] of value.entries()) leaves(entry, `${path}[${n}]`, found);
  else if (typeof value === 'object' && value !== null) {
    for (const [name, entry] of Object.entries(value)) leaves(entry, path === '' ? name : `${path}.${name}`, found);
  } else found.set(path, String(value));
  return found;
}
