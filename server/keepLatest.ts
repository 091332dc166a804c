/** A few results kept at hand, of things that never change: a stored plan read, its pages' drawings made. */

/** Returns what gives the value of a key, made at the first asking; the `most` keys asked for last are kept. */
export function keepLatest<Key, Value>(most: number): (key: Key, make: () => Value) => Value {
  const kept = new Map<Key, Value>();
  return (key, make) => {
    const value = kept.has(key) ? (kept.get(key) as Value) : make();
    kept.delete(key);
    kept.set(key, value);
    if (kept.size > most) kept.delete(kept.keys().next().value as Key);
    return value;
  };
}
