/**
 * The reader of PDFs, with the language left as it was.
 *
 * The build for Node brings its own `Array.prototype.push`, `JSON.stringify`, `structuredClone` and the like, in place
 * of those there are: whatever ran afterwards in the same process, our planner too, took a quarter longer.
 */
type Described = Record<string, PropertyDescriptor>;

const had = holders().map((holder) => ({ holder, was: Object.getOwnPropertyDescriptors(holder) as Described }));
const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs');
// Else loaded, with what it brings, when the first file is read. It has no types.
await import('pdfjs-dist/legacy/build/pdf.worker.mjs' as string);
for (const { holder, was } of had) putBack(holder, was);

export { getDocument };

/** Everything of the language that has properties that could be replaced: what is global, and the prototypes. */
function holders(): object[] {
  const globals = Object.values(Object.getOwnPropertyDescriptors(globalThis) as Described)
    .map(({ value }) => value as unknown)
    .filter((value) => isHolder(value) && value !== globalThis) as object[];
  const typed = Object.getPrototypeOf(Uint8Array) as { prototype: object };
  const found = [globalThis, typed, ...globals];
  const prototypes = found.map((value) => (value as { prototype?: unknown }).prototype).filter(isHolder) as object[];
  return [...new Set([...found, ...prototypes])];
}

function isHolder(value: unknown): boolean {
  return (typeof value === 'object' && value !== null) || typeof value === 'function';
}

/** What was added stays. */
function putBack(holder: object, was: Described): void {
  const now = Object.getOwnPropertyDescriptors(holder) as Described;
  for (const [name, before] of Object.entries(was)) {
    const after = now[name];
    const same = after && after.value === before.value && after.get === before.get;
    if (!same && (!after || after.configurable)) Object.defineProperty(holder, name, before);
  }
}
