/** Exit statuses of every command, and how what went wrong is told on the terminal. */
import type { Fault } from '../src/fault.ts';

export const EXIT = { done: 0, defect: 1, refused: 2, nothing: 3 } as const;

/** One line a fault: path, message, remedy. */
export function faultLines(faults: Fault[]): string[] {
  return faults.map((fault) => `${fault.path || 'the file'}: ${fault.message} ${fault.remedy}`.trim());
}
