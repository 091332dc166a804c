/** Marks that can not both be hers: a point or a digit slipped where one was read or written. */

/** A change of draught beyond this, m, was read or written wrongly. */
const CHANGE_MOST = 0.5;

export const ENDS = ['forward', 'aft'] as const;
export type End = (typeof ENDS)[number];
/** Draughts, m; null where there is none. */
type Marks = Record<End, number | null>;

/** Whether two draughts of one end, m, can be hers before and after ballast of this size was put in or moved. */
export function goTogether(before: number | null, after: number | null): boolean {
  return before === null || after === null || Math.abs(after - before) <= CHANGE_MOST;
}

/** The ends at which the marks read and those before do not go together. */
export function slippedEnds(before: Marks, read: Marks): End[] {
  return ENDS.filter((end) => !goTogether(before[end], read[end]));
}

/** `8.91 m and 0.86 m before do not go together`. */
export function apartWords(before: number, read: number): string {
  return `${metres(read)} and ${metres(before)} before do not go together`;
}

function metres(value: number): string {
  return `${Number(value.toFixed(4))} m`;
}
