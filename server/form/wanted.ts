/** What keeps a form from being taken, told in the words of its page: what is still to fill in, and what to mend. */
import { isStillEmpty } from './plainFault.ts';
import type { FormView } from './show.ts';

export interface Wanted {
  /** `Void V1`, `Lot B`; '' for the job as a whole. */
  where: string;
  /** Fields that are still empty; `to` leads to each, null where no field is shown for it. */
  empty: { to: string | null; label: string }[];
  mend: { to: string | null; label: string; message: string }[];
}

/** What is to be mended in one field of another page. */
export function mendOne(id: string, label: string, message: string): Wanted {
  return { where: '', empty: [], mend: [{ to: `#${id}`, label, message }] };
}

/** By lot and void, in the order of the page. `pageOf` gives the query of the page that shows a path; '' for this one. */
export function wantedOf(form: Pick<FormView, 'all' | 'marks'>, pageOf: (path: string) => string = () => ''): Wanted[] {
  const places = new Map<string, Wanted>();
  for (const { fault, id, label } of form.all) {
    const where = whereOf(fault.path, form.marks);
    const place = places.get(where) ?? { where, empty: [], mend: [] };
    places.set(where, place);
    const to = id === null ? null : `${pageOf(fault.path)}#${id}`;
    if (isStillEmpty(fault)) place.empty.push({ to, label });
    else place.mend.push({ to, label, message: fault.message });
  }
  return [...places.values()];
}

function whereOf(path: string, marks: FormView['marks']): string {
  const [, list, index] = /^(pile|voids)\[(\d+)\]/.exec(path) ?? [];
  if (list === undefined) return '';
  const mark = (list === 'pile' ? marks.lots : marks.voids)[Number(index)] || `${Number(index) + 1}`;
  return `${list === 'pile' ? 'Lot' : 'Void'} ${mark}`;
}
