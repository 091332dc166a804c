/** A bar to scale: its pieces with their lengths, the kerfs between them, what is spoiled and what each remainder becomes. */
import type { Job, Lot } from '../job/job.ts';
import { lotSquaring } from '../job/lot.ts';
import type { PlanBar } from '../plan/plan.ts';
import type { Units } from '../units.ts';
import { hatchRect } from './hatch.ts';
import { fitSize } from './letter.ts';
import { lengthOn, withUnit } from './scale.ts';
import { centredText, group, line, rect, type Scene, type Shape, text } from './scene.ts';
import { DRAWING_WORDS as W } from './words.ts';

export interface BarSceneOptions {
  /** Length on paper of `full` mm of bar. */
  width: number;
  /** What fills the whole width, mm; default: this bar. Bars of one page share it, so that they compare. */
  full?: number;
  /** Each piece is named by its number, so that a page can tell which one was touched. */
  named?: boolean;
  /** Numbers 1 … n under the pieces, for a table below; default true. */
  numbers?: boolean;
  units?: Units;
}

/** How wide a bar is drawn, mm of paper: a length in feet that stands upright in a short piece asks for more. */
const DEPTHS: Record<Units, number> = { metric: 7, inches: 10 };
const TOP = 0.6;

/** The bar lies with its squared end, from which distances run, at the left. */
export function barScene(job: Job, bar: PlanBar, options: BarSceneOptions): Scene {
  const lot = job.pile.find((candidate) => candidate.lot === bar.lot);
  const scale = options.width / (options.full ?? bar.length);
  const numbers = options.numbers ?? true;
  const units = options.units ?? 'metric';
  const depth = DEPTHS[units];
  const shapes: Shape[] = [rect('hollow', 0, TOP, bar.length * scale, depth)];
  if (lot) shapes.push(...lostEnds(lot, job, bar, scale, depth));
  bar.remainders.forEach((remainder) => {
    shapes.push(...remainderShapes(remainder, scale, units));
  });
  bar.pieces.forEach((piece, i) => {
    const x = piece.from * scale;
    const width = (piece.to - piece.from) * scale;
    const label = fittedLabel(x, width, depth, lengthOn(units, piece.to - piece.from));
    const steel = [rect('steel', x, TOP, width, depth), ...label];
    if (options.named) shapes.push(group({ x: 0, y: 0 }, steel, String(i + 1)));
    else shapes.push(...steel);
    const size = numbers ? fitSize(String(i + 1), width, 2.6, 1.2) : null;
    if (size !== null) shapes.push(text('note', x + width / 2, TOP + depth + 2.9, String(i + 1), size, 'middle'));
    shapes.push(line('kerf', x + width, TOP - 0.5, x + width, TOP + depth + 0.5));
  });
  const pieces = bar.pieces.map((piece) => lengthOn(units, piece.to - piece.from)).join(', ') || W.nothingCut;
  return {
    width: bar.length * scale + 0.3,
    height: TOP + depth + (numbers ? 3.6 : 0.6),
    title: W.bar(bar.bar),
    description: W.barInWords(withUnit(units, bar.length), pieces),
    shapes,
  };
}

function lostEnds(lot: Lot, job: Job, bar: PlanBar, scale: number, depth: number): Shape[] {
  const squaring = lotSquaring(lot, job.saw) * scale;
  const shapes: Shape[] = [];
  for (const spoiled of lot.spoiled) {
    const x = spoiled.from * scale;
    const width = (spoiled.to - spoiled.from) * scale;
    shapes.push(rect('spoiled', x, TOP, width, depth), ...hatchRect(x, TOP, width, depth, 1.1));
  }
  if (squaring > 0) {
    for (const x of [0, bar.length * scale - squaring]) {
      shapes.push(rect('spoiled', x, TOP, squaring, depth), ...hatchRect(x, TOP, squaring, depth, 0.6));
    }
  }
  return shapes;
}

function remainderShapes(remainder: PlanBar['remainders'][number], scale: number, units: Units): Shape[] {
  const depth = DEPTHS[units];
  const x = remainder.from * scale;
  const width = (remainder.to - remainder.from) * scale;
  const length = lengthOn(units, remainder.to - remainder.from);
  const words = remainder.fate === 'keep' ? W.keep(length) : W.scrap(length);
  return [rect(remainder.fate, x, TOP, width, depth), ...fittedLabel(x, width, depth, words, length)];
}

/** The first of the words that fits in `width`, upright or turned; nothing where none does: the table below says it. */
function fittedLabel(x: number, width: number, depth: number, ...choices: string[]): Shape[] {
  const middle = TOP + depth / 2;
  for (const words of choices) {
    const size = fitSize(words, width - 0.8, 3.2, 2.2);
    if (size !== null) return [centredText('label', x + width / 2, middle, words, size)];
  }
  const last = choices.at(-1) ?? '';
  const size = Math.min(2.4, fitSize(last, depth - 0.8, 2.4, 1.6) ?? 0);
  if (size === 0 || width < size) return [];
  return [{ ...text('label', x + width / 2 + 0.365 * size, middle, last, size, 'middle'), turn: -90 }];
}
