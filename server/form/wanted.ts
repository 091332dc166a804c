/** What keeps a job from being planned, told in the words of its page: what is still to fill in, and what to mend. */
import type { Fault } from '../../src/fault.ts';
import type { Kind } from './kinds.ts';
import type { FormView } from './show.ts';

export interface Wanted {
  /** `Void V1`, `Lot B`; '' for the job as a whole. */
  where: string;
  /** Fields that are still empty. */
  empty: { id: string | null; label: string }[];
  mend: { id: string | null; label: string; message: string }[];
}

/** By lot and void, in the order of the page. */
export function wantedOf(form: Pick<FormView, 'all' | 'marks'>): Wanted[] {
  const places = new Map<string, Wanted>();
  for (const { fault, id, label } of form.all) {
    const where = whereOf(fault.path, form.marks);
    const place = places.get(where) ?? { where, empty: [], mend: [] };
    places.set(where, place);
    if (isEmpty(fault)) place.empty.push({ id, label });
    else place.mend.push({ id, label, message: plainFault(fault).message });
  }
  return [...places.values()];
}

/**
 * A fault as the page tells it: there an empty field is no mistake, and nobody is asked for JSON. `kind` is that of the
 * field that the fault is about.
 */
export function plainFault(fault: Fault, kind?: Kind): Fault {
  if (isEmpty(fault)) return { ...fault, message: 'Still to fill in.', remedy: '' };
  if (fault.code === 'out-of-range' && fault.path === 'pile')
    return { ...fault, message: 'No bars yet.', remedy: 'Type the first line below.' };
  if (fault.code === 'out-of-range' && fault.path === 'voids')
    return { ...fault, message: 'No void yet.', remedy: 'Add the first one below.' };
  const text = fault.code === 'wrong-type' ? /^“.*?” is text \("(.*)"\);/s.exec(fault.message)?.[1] : undefined;
  if (text === undefined) return fault;
  const [, thousands, rest] = /^\s*(\d+),(\d{3})\s*$/.exec(text) ?? [];
  if (thousands !== undefined) {
    const message = `“${text}” could be a thousand or a little over one.`;
    return { ...fault, message, remedy: `Write ${thousands}${rest} or ${thousands}.${rest}.` };
  }
  return { ...fault, message: `“${text}” can not be read here.`, remedy: HOW_TO_WRITE[kind ?? 'mm'] ?? fault.remedy };
}

/** How a field of each kind is written, for who wrote it otherwise. */
const HOW_TO_WRITE: Partial<Record<Kind, string>> = {
  mm: 'Write it as 1280, 1.28 m, 128 cm or 4\' 2 1/2".',
  metres: 'Write it as 4.2, 4200 mm or 13\' 9".',
  kg: 'Write it as 6.5, 6.5 kg or 14 lb.',
  kgPerMetre: 'Write it as 6.28, 4.2 lb/ft or 12.3 kg / 3200 mm.',
  number: 'Write a number.',
  lengths: 'Write them as 5480; 5475; 5210 × 3.',
  spans: 'Write them as 1200 to 1290; 2400 to 2420.',
  range: 'Write it as 600 to 660.',
  metreRange: 'Write it as 4.3 to 4.9.',
  readings: 'Write one a line, the height and then the sides: 165: -160 to 155.',
  taped: 'Write one a line, how far across and then how far down: -160: 20.',
};

/** True where nothing stands yet in a field that the job needs. */
function isEmpty({ code, message }: Fault): boolean {
  return code === 'missing-field' && /^“.*” is missing\.$/.test(message);
}

function whereOf(path: string, marks: FormView['marks']): string {
  const [, list, index] = /^(pile|voids)\[(\d+)\]/.exec(path) ?? [];
  if (list === undefined) return '';
  const mark = (list === 'pile' ? marks.lots : marks.voids)[Number(index)] || `${Number(index) + 1}`;
  return `${list === 'pile' ? 'Lot' : 'Void'} ${mark}`;
}
