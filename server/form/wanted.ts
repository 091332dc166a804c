/** What keeps a form from being taken, told in the words of its page: what is still to fill in, and what to mend. */
import { type Place, placesOfLot, placesOfVoid, placesOnce } from './layout.ts';
import { idOf, listAt } from './path.ts';
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

/** The questions at fields that have a doubt: how many, and links to them. */
export interface Questions {
  count: number;
  /** By lot and void, in the order of the page. */
  places: { where: string; fields: { to: string; label: string }[] }[];
}

/** `draft` has the fields; see {@link wantedOf} for `pageOf`. */
export function questionsOf(
  { doubts, marks }: Pick<FormView, 'doubts' | 'marks'>,
  draft: unknown,
  pageOf: (path: string) => string = () => '',
): Questions {
  const places = new Map<string, Questions['places'][number]>();
  let count = 0;
  if (doubts.size > 0)
    for (const { path, field } of placesOf(draft)) {
      if (!doubts.has(path)) continue;
      count++;
      const where = whereOf(path, marks);
      const place = places.get(where) ?? { where, fields: [] };
      places.set(where, place);
      place.fields.push({ to: `${pageOf(path)}#${idOf(path)}`, label: field.label });
    }
  return { count, places: [...places.values()] };
}

/** Every field of a draft, but for sections, which are never doubted. */
function placesOf(draft: unknown): Place[] {
  return [
    ...listAt(draft, ['pile']).flatMap((_, index) => placesOfLot(index)),
    ...listAt(draft, ['voids']).flatMap((_, index) => placesOfVoid(draft, index)),
    ...placesOnce(draft),
  ];
}

function whereOf(path: string, marks: FormView['marks']): string {
  const [, list, index] = /^(pile|voids)\[(\d+)\]/.exec(path) ?? [];
  if (list === undefined) return '';
  const mark = (list === 'pile' ? marks.lots : marks.voids)[Number(index)] || `${Number(index) + 1}`;
  return `${list === 'pile' ? 'Lot' : 'Void'} ${mark}`;
}
