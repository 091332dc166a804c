/** What neither a chock nor a run beside keeps from sliding in a void, in sentences: told wherever the void is. */
import type { LaidVoid } from '../stow/laid.ts';
import { openEndLines } from './openEnds.ts';
import { overRunLines } from './overRuns.ts';
import type { Plan } from './plan.ts';

export function slideLines(laid: LaidVoid, plan: Pick<Plan, 'runs' | 'bundles'>): string[] {
  return [...overRunLines(plan.bundles, laid.void), ...openEndLines(laid, plan)];
}
