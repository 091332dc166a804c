/** A value beside its field in other words: how a text was read, and feet, inches and pounds for who wants them. */

import type { Units } from '../../src/units.ts';
import { printFeet, printOther, printPoundsFinely } from '../../src/units.ts';
import type { Field } from './field.ts';
import type { Kind } from './kinds.ts';
import { printList } from './listKind.ts';

const NUMERIC: ReadonlySet<Kind> = new Set<Kind>([
  'mm',
  'kg',
  'kgPerMetre',
  'kN',
  'metres',
  'offset',
  'number',
  'list',
]);

/** What stands under a field whose draft holds `value`; `typed` is the text in the field. '' for nothing to say. */
export function echoOf(
  { kind, unit }: Pick<Field, 'kind' | 'unit'>,
  value: unknown,
  typed: string,
  units: Units,
): string {
  if (!NUMERIC.has(kind) || typed.trim() === '') return '';
  if (typeof value !== 'number') return 'Not read as a number: it stays as typed.';
  if (kind === 'list') return value === 0 || printList(value) === typed.trim() ? '' : `= ${printList(value)}`;
  const read = String(value) === typed.trim() ? '' : `= ${value}${unit ? ` ${unit}` : ''}`;
  const other = units === 'inches' ? otherUnits(kind, value) : '';
  return [read, other].filter((part) => part !== '').join(' ');
}

function otherUnits(kind: Kind, value: number): string {
  if (kind === 'mm') return `= ${printFeet(value, 32)}`;
  if (kind === 'metres' || kind === 'offset') return `= ${printFeet(value * 1000, 32)}`;
  if (kind === 'kN') return `= ${printOther(value, 'kN')}`;
  if (kind === 'kgPerMetre') return `= ${printOther(value, 'kg/m')}`;
  return kind === 'kg' ? `= ${printPoundsFinely(value)}` : '';
}
