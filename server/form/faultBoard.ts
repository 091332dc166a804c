/** Hands each fault to the field that can mend it: the one of its own path, else the nearest above it. */
import type { Fault } from '../../src/fault.ts';
import { idOf } from './path.ts';

export class FaultBoard {
  readonly #faults: Fault[];
  /** The faults at each path and below it. */
  readonly #within = new Map<string, Fault[]>();
  readonly #claims = new Map<Fault, { path: string; label: string }>();

  constructor(faults: Fault[]) {
    this.#faults = faults;
    for (const fault of faults) for (const path of pathsAbove(fault.path)) this.#note(path, fault);
  }

  #note(path: string, fault: Fault): void {
    const noted = this.#within.get(path);
    if (noted) noted.push(fault);
    else this.#within.set(path, [fault]);
  }

  /** The faults of a path, and of what lies below it that nobody has claimed. Inner paths have to ask before outer ones. */
  of(path: string, label: string): Fault[] {
    const mine = (this.#within.get(path) ?? []).filter((fault) => !this.#claims.has(fault));
    // An unknown field is no fault of the row that it stands in: it has no field here that could mend it.
    const claimed = mine.filter((fault) => fault.code !== 'unknown-field');
    for (const fault of claimed) this.#claims.set(fault, { path, label });
    return claimed;
  }

  /** The faults of this very path and of nothing below it. */
  at(path: string, label: string): Fault[] {
    const mine = (this.#within.get(path) ?? []).filter((fault) => fault.path === path && !this.#claims.has(fault));
    for (const fault of mine) this.#claims.set(fault, { path, label });
    return mine;
  }

  /** The faults that no field has claimed. */
  rest(): Fault[] {
    return this.#faults.filter((fault) => !this.#claims.has(fault));
  }

  all(): { fault: Fault; id: string | null; label: string }[] {
    return this.#faults.map((fault) => {
      const claim = this.#claims.get(fault);
      return { fault, id: claim ? idOf(claim.path) : null, label: claim?.label ?? '' };
    });
  }
}

/** `a[0].b` lies within `a[0].b`, `a[0]` and `a`. */
function pathsAbove(path: string): string[] {
  const paths = [path];
  for (let end = path.length - 1; end > 0; end--)
    if (path[end] === '.' || path[end] === '[') paths.push(path.slice(0, end));
  return paths;
}
