/** Which of her figures marks tell well enough to be hers, and in what words: a figure with a wide range is told, and not taken. */
import type { Vessel } from '../job/job.ts';
import { amount } from './amount.ts';
import { isKnown, type Range } from './range.ts';

/** kg and kg·m; a figure is absent where the marks moved too little to tell it. */
export type MarkFigures = Pick<Vessel, 'kgPerCm' | 'kgmPerCm'>;

const FIGURES = {
  kgPerCm: { label: 'kg per cm', unit: 'kg' },
  kgmPerCm: { label: 'Moment to trim 1 cm', unit: 'kg·m' },
} as const;
type Name = keyof typeof FIGURES;

/** Farther than so many times from every figure that she may have by what is stated, a mark is likelier wrong than she is: our own choice. */
const APART = 2;
/** A range wider than this share of its figure to each side tells nothing: our own choice. */
const SPREAD_MOST = 1 / 3;

export interface FiguresTold {
  figures: MarkFigures;
  /** Those told that lie far from what is stated of her, or estimated: not to be gone by before the readings are looked at. */
  doubtful: MarkFigures;
  /** A sentence for each of the two. */
  lines: string[];
}

/** `found` is null where the marks did not move as weights move them; `own` what she has by what is stated, null where nothing tells. */
export function figuresFromMarks(found: Record<Name, Range | null>, own: Record<Name, Range | null>): FiguresTold {
  const names = Object.keys(FIGURES) as Name[];
  const told = names.flatMap((name) => (isTold(found[name]) ? [[name, found[name].likely] as const] : []));
  const isDoubtful = (name: Name): boolean => isFar(found[name], own[name]);
  return {
    figures: Object.fromEntries(told.filter(([name]) => !isDoubtful(name))),
    doubtful: Object.fromEntries(told.filter(([name]) => isDoubtful(name))),
    lines: names.map((name) => `${lineOf(name, found[name])}${isDoubtful(name) ? doubtOf(name, own[name]) : ''}`),
  };
}

/** Whether a figure that is told lies far outside of the range that she has. */
function isFar(found: Range | null, own: Range | null): boolean {
  return isTold(found) && own !== null && (APART * found.high < own.low || found.low > APART * own.high);
}

function doubtOf(name: Name, own: Range | null): string {
  const { unit } = FIGURES[name];
  return ` DOUBTFUL: ${amount(own!, 0, unit)} ${isKnown(own!) ? 'is stated' : 'is estimated of her'}, and that is too far from it to be gone by.`;
}

function isTold(range: Range | null): range is Range {
  return range !== null && range.high - range.low <= 2 * SPREAD_MOST * range.likely;
}

function lineOf(name: Name, range: Range | null): string {
  const { label, unit } = FIGURES[name];
  if (!range) return `${label}: the marks moved too little to tell it, or otherwise than these weights move them.`;
  const between = `from ${range.low.toFixed(0)} to ${range.high.toFixed(0)} ${unit}, as each mark is read to half a centimetre`;
  if (isTold(range)) return `${label} from the marks: ${range.likely.toFixed(0)} ${unit}; ${between}.`;
  return `${label} could be anything ${between}: the marks moved too little to tell it.`;
}
