/** What the server and a planning child say to each other. Plans and jobs travel as JSON text, read only where needed. */
import type { Wish } from '../store/plannings.ts';

/** The server's one word to a child: plan this job so. */
export interface Order {
  body: string;
  wish: Wish;
}

/** The child's words. A plan in them has passed the checker. `plan` is a plan file as JSON text. */
export type Word =
  | { kind: 'progress'; phase: string; step: number; value: number | null; bound: number | null; plan: string | null }
  | LastWord;

/** How an order ended. */
export type LastWord =
  | { kind: 'plan'; plan: string }
  | { kind: 'nothing'; reasons: { void: string; why: string; remedy: string }[] }
  | { kind: 'refused'; why: string };

/** What a child says, each a line of JSON on its standard output: its last word with whether it waits for another order, or is about to end. */
export type Message = Extract<Word, { kind: 'progress' }> | (LastWord & { waits: boolean });
