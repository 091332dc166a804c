/**
 * Hands each fault to the field that can mend it: the one of its own path, else the nearest above it; of a group of fields
 * that is missing as a whole, to each of them. Faults come back in the words of the page.
 */
import type { Fault } from '../../src/fault.ts';
import type { Units } from '../../src/units.ts';
import { tellIn } from '../otherUnits.ts';
import { idOf, parsePath, valueAt } from './path.ts';
import { isEmpty, plainFault, type Teller } from './plainFault.ts';

/** A fault in the words of the page, with the field or row that shows it; `id` is null where none does. */
export interface ToldFault {
  fault: Fault;
  id: string | null;
  label: string;
}

export class FaultBoard {
  readonly #faults: Fault[];
  readonly #draft: unknown;
  readonly #units: Units;
  /** The faults at each path and below it. */
  readonly #within = new Map<string, Fault[]>();
  readonly #claims = new Map<Fault, ToldFault[]>();

  constructor(faults: Fault[], draft: unknown, units: Units = 'metric') {
    this.#faults = faults;
    this.#draft = draft;
    this.#units = units;
    for (const fault of faults) for (const path of pathsAbove(fault.path)) this.#note(path, fault);
  }

  #note(path: string, fault: Fault): void {
    const noted = this.#within.get(path);
    if (noted) noted.push(fault);
    else this.#within.set(path, [fault]);
  }

  #claim(faults: Fault[], path: string, teller: Teller): Fault[] {
    return faults.map((fault) => {
      const plain = plainFault(fault, valueAt(this.#draft, parsePath(fault.path) ?? []), teller);
      const told = faultIn(this.#units, plain);
      const claims = this.#claims.get(fault) ?? [];
      this.#claims.set(fault, [...claims, { fault: told, id: idOf(path), label: teller.label }]);
      return told;
    });
  }

  /**
   * The faults of a path, and of what lies below it that nobody has claimed, told at `field`. Inner paths have to ask before
   * outer ones.
   */
  of(path: string, teller: Teller, field = path): Fault[] {
    const mine = (this.#within.get(path) ?? []).filter((fault) => !this.#claims.has(fault));
    // An unknown field is no fault of the row that it stands in: it has no field here that could mend it.
    return this.#claim(
      mine.filter((fault) => fault.code !== 'unknown-field'),
      field,
      teller,
    );
  }

  /** As {@link of}, of the field `name` of the row at `base`, and where the group is missing that it stands in: `bolts.size`. */
  ofField(base: string, name: string, teller: Teller): Fault[] {
    if (base !== '' && !this.#within.has(base)) return [];
    const path = base === '' ? name : `${base}.${name}`;
    const groups = pathsAbove(name)
      .slice(1)
      .map((group) => (base === '' ? group : `${base}.${group}`));
    const missing = groups.flatMap((group) =>
      (this.#within.get(group) ?? []).filter((fault) => fault.path === group && isEmpty(fault)),
    );
    return [...this.of(path, teller), ...this.#claim(missing, path, teller)];
  }

  /** The faults of this very path and of nothing below it. */
  at(path: string, teller: Teller): Fault[] {
    const mine = (this.#within.get(path) ?? []).filter((fault) => fault.path === path && !this.#claims.has(fault));
    return this.#claim(mine, path, teller);
  }

  /** The faults that no field has claimed, as the file has them. */
  rest(): Fault[] {
    return this.#faults.filter((fault) => !this.#claims.has(fault));
  }

  /** Every fault, once for each field that it asks to be filled in. */
  all(): ToldFault[] {
    return this.#faults.flatMap((fault) => this.#claims.get(fault) ?? [{ fault, id: null, label: '' }]);
  }
}

/** How something is written is told by examples, which stay as they are. */
function faultIn(units: Units, fault: Fault): Fault {
  if (units === 'metric' || fault.code === 'wrong-type') return fault;
  return { ...fault, message: tellIn(units, fault.message), remedy: tellIn(units, fault.remedy) };
}

/** `a[0].b` lies within `a[0].b`, `a[0]` and `a`. */
function pathsAbove(path: string): string[] {
  const paths = [path];
  for (let end = path.length - 1; end > 0; end--)
    if (path[end] === '.' || path[end] === '[') paths.push(path.slice(0, end));
  return paths;
}
