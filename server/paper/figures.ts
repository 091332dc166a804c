/** Numbers as they are printed. */
import { dayOf } from '../../src/plan/history.ts';
import { fixed, type Towards } from '../../src/units.ts';
import { localTime } from '../localTime.ts';

/** Points in a millimetre. */
export const MM = 72 / 25.4;

/** Up to two decimals, none where it is whole: `5.95`, `476`. */
export function plain(value: number, decimals = 2, towards: Towards = 'nearest'): string {
  return String(Number(fixed(value, decimals, towards)));
}

export function kg(value: number, decimals = 2): string {
  return `${plain(value, decimals)} kg`;
}

/** `2026-11-24`: the day where the machine stands, as the record has its days. */
export function dayHere(date: Date): string {
  return dayOf(localTime(date));
}

/** `45 min`, `3 h 05`. */
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) return `${whole} min`;
  return `${Math.floor(whole / 60)} h ${String(whole % 60).padStart(2, '0')}`;
}
