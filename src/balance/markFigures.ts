/** Which of her figures marks tell well enough to be hers, and in what words: a figure with a wide range is told, and not taken. */
import type { Vessel } from '../job/job.ts';
import type { Range } from './range.ts';

/** kg and kg·m; a figure is absent where the marks moved too little to tell it. */
export type MarkFigures = Pick<Vessel, 'kgPerCm' | 'kgmPerCm'>;

const FIGURES = {
  kgPerCm: { label: 'kg per cm', unit: 'kg' },
  kgmPerCm: { label: 'Moment to trim 1 cm', unit: 'kg·m' },
} as const;
type Name = keyof typeof FIGURES;

/** A range wider than this share of its figure to each side tells nothing: our own choice. */
const SPREAD_MOST = 1 / 3;

/** The figures told, and a sentence for each of the two. `found` is null where the marks did not move as weights move them. */
export function figuresFromMarks(found: Record<Name, Range | null>): { figures: MarkFigures; lines: string[] } {
  const names = Object.keys(FIGURES) as Name[];
  const told = names.flatMap((name) => (isTold(found[name]) ? [[name, found[name].likely]] : []));
  return { figures: Object.fromEntries(told), lines: names.map((name) => lineOf(name, found[name])) };
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
