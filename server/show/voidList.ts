/** The voids of a draft by name, for pages that show one at a time. */
import { isRecord, listAt } from '../form/path.ts';

export interface VoidLink {
  /** In the job, from 0. */
  index: number;
  /** `V2 · Before the mast step`. */
  label: string;
  here: boolean;
}

/** Every void of the draft; `here` is the one shown. */
export function linkVoids(draft: unknown, here: number): VoidLink[] {
  return listAt(draft, ['voids']).map((space, index) => ({
    index,
    label: isRecord(space) ? nameOf(space) : String(index + 1),
    here: index === here,
  }));
}

/** Mark and name of a void as typed. */
export function nameOf(space: Record<string, unknown>): string {
  const [mark, name] = [space.void, space.name].map((text) => (typeof text === 'string' ? text : ''));
  return [mark, name].filter((text) => text !== '').join(' · ') || 'a void';
}
