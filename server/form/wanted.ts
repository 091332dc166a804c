/** What keeps a form from being taken, told in the words of its page: what is still to fill in, and what to mend. */
import { isStillEmpty } from './plainFault.ts';
import type { FormView } from './show.ts';

export interface Wanted {
  /** `Void V1`, `Lot B`; '' for the job as a whole. */
  where: string;
  /** Fields that are still empty. */
  empty: { id: string | null; label: string }[];
  mend: { id: string | null; label: string; message: string }[];
}

/** What is to be mended in one field of another page. */
export function mendOne(id: string, label: string, message: string): Wanted {
  return { where: '', empty: [], mend: [{ id, label, message }] };
}

/** By lot and void, in the order of the page. */
export function wantedOf(form: Pick<FormView, 'all' | 'marks'>): Wanted[] {
  const places = new Map<string, Wanted>();
  for (const { fault, id, label } of form.all) {
    const where = whereOf(fault.path, form.marks);
    const place = places.get(where) ?? { where, empty: [], mend: [] };
    places.set(where, place);
    if (isStillEmpty(fault)) place.empty.push({ id, label });
    else place.mend.push({ id, label, message: fault.message });
  }
  return [...places.values()];
}

function whereOf(path: string, marks: FormView['marks']): string {
  const [, list, index] = /^(pile|voids)\[(\d+)\]/.exec(path) ?? [];
  if (list === undefined) return '';
  const mark = (list === 'pile' ? marks.lots : marks.voids)[Number(index)] || `${Number(index) + 1}`;
  return `${list === 'pile' ? 'Lot' : 'Void'} ${mark}`;
}
