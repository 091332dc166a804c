/**
 * “last 60” among the spoiled stretches of a lot: so much of the far end of every bar, mm. Where all bars have one length it
 * is a stretch like any other; where they have not it stays as typed, to be faulted.
 */
import { parseLength, withoutDust } from '../../src/units.ts';
import type { Draft } from './apply.ts';
import { readField } from './kinds.ts';
import { isRecord, listAt, setAt, valueAt } from './path.ts';
import { splitList } from './splitList.ts';

const FAR_END = /^(?:last|end)\s+(.+)$/i;

/** How much of the far end an item says, mm; null where it says something else. */
export function farEndOf(item: string): number | null {
  const [, text] = FAR_END.exec(item.trim()) ?? [];
  return text === undefined ? null : parseLength(text);
}

/** Reads the far ends of every lot of `draft` that was typed over `base`. */
export function takeFarEnds(draft: Draft, base: Draft): void {
  for (const [n, lot] of listAt(draft, ['pile']).entries()) {
    const path = ['pile', n];
    if (!isRecord(lot) || JSON.stringify(lot) === JSON.stringify(valueAt(base, path))) continue;
    setAt(draft, [...path, 'spoiled'], withFarEnds(lot));
  }
}

/** The spoiled stretches of a lot, far ends among them where they can be reckoned. */
export function withFarEnds({ spoiled, length, lengths }: Draft): unknown {
  const [first, ...others] = Array.isArray(lengths) ? lengths : [length];
  if (typeof spoiled !== 'string' || typeof first !== 'number' || others.some((other) => other !== first))
    return spoiled;
  const items = splitList(spoiled).map((item) => {
    const end = farEndOf(item);
    return end === null ? item : `${withoutDust(first - end)} to ${first}`;
  });
  const read = readField('spans', items.join('; '));
  return Array.isArray(read) ? read : spoiled;
}
