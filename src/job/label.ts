/** Names and other words of the user's own, which stand on papers and tags: there is something to be seen in them. */
import { z } from 'zod';

/** Neither a space nor a character that is never seen. */
export const SEEN = /[^\s\p{Cf}]/u;

/** Words of at most so many letters, and not only spaces; none at all is told as empty. */
export function wordsOf(most: number): z.ZodString {
  return z
    .string()
    .min(1)
    .max(most)
    .regex(new RegExp(`^$|${SEEN.source}`, 'u'));
}

export const label = wordsOf(200);
