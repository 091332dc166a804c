/**
 * A list as people write it: items apart by semicolons, new lines or commas, and decimal commas inside of them. A comma
 * parts two items unless figures stand on both its sides and what follows it can only be a decimal: `1,9 m; 2,4 m`.
 */
import { SHORTEST_BAR } from '../../src/job/lotFaults.ts';

/** The items of a list, without the empty ones. One that could be read two ways stays whole (`1,280`), to be refused. */
export function splitList(text: string): string[] {
  return text
    .split(/[;\n]/)
    .flatMap(splitAtCommas)
    .map((item) => item.trim())
    .filter((item) => item !== '');
}

function splitAtCommas(text: string): string[] {
  const items: string[] = [];
  let start = 0;
  for (const { index } of text.matchAll(/,/g)) {
    if (!parts(text.slice(start, index), text.slice(index + 1))) continue;
    items.push(text.slice(start, index));
    start = index + 1;
  }
  return [...items, text.slice(start)];
}

/** The count that an item begins with: `2 × 1985`. Null where there is none, or the number could be the length of a bar. */
export function countBefore(item: string): number | null {
  const count = Number(/^\s*(\d+)\s*[x×*]/i.exec(item)?.[1] ?? 0);
  return count >= 1 && count < SHORTEST_BAR ? count : null;
}

/** True of a comma between `before`, all of its item so far, and `after`, all that follows, where it parts two items. */
function parts(before: string, after: string): boolean {
  // `× 3,` ends a count, which has no decimals, unless that stands first; `5475,5,` has had its decimal comma.
  if ((/[x×*]\s*\d+$/i.test(before) && countBefore(before) === null) || /\d[.,]\d+$/.test(before)) return true;
  const whole = /\d+$/.exec(before)?.[0].length ?? 0;
  const decimals = /^\d+/.exec(after)?.[0].length ?? 0;
  if (whole === 0 || decimals === 0 || decimals > 3) return true;
  // `1,280` is a thousand to one reader and a little over one to another; `950,875` is neither.
  return decimals === 3 && whole > 2;
}
