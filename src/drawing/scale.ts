/** Scales that a rule can be laid on, the scale bar, and lengths with their figures. */
import { printFeet, type Towards, type Units } from '../units.ts';
import { textWidth } from './letter.ts';
import { group, line, rect, type Shape, text } from './scene.ts';
import { DRAWING_WORDS as W } from './words.ts';

const SCALES = [1, 2, 2.5, 4, 5, 8, 10, 12.5, 15, 20, 25, 30, 40, 50, 75, 100, 125, 150, 200, 250, 500, 1000];

/** The largest usual scale 1 : n at which `width` × `height` mm of the real thing lie within `paperWidth` × `paperHeight`. */
export function chooseScale(width: number, height: number, paperWidth: number, paperHeight: number): number {
  const least = Math.max(width / paperWidth, height / paperHeight);
  return SCALES.find((scale) => scale >= least - 1e-9) ?? Math.ceil(least / 1000) * 1000;
}

/** Up to one decimal, and none where it is whole. */
export function figure(value: number): string {
  return String(Math.round(value * 10) / 10 || 0);
}

/**
 * A length as it stands on a drawing: its {@link figure}, or feet and inches alone. Both have no room there; what is cut or
 * fitted by is in the tables, in both.
 */
export function lengthOn(units: Units, mm: number, towards: Towards = 'nearest'): string {
  return units === 'metric' ? figure(mm) : printFeet(mm, 16, towards);
}

/** The same in words about a drawing, where millimetres are named: `476 mm`. */
export function withUnit(units: Units, mm: number, towards: Towards = 'nearest'): string {
  const told = lengthOn(units, mm, towards);
  return units === 'metric' ? `${told} mm` : told;
}

/** A size worked out between readings that were taken to the millimetre: whole, but under 10 as {@link figure}. */
export function measured(units: Units, mm: number): string {
  return lengthOn(units, units === 'inches' || mm < 10 ? mm : Math.round(mm));
}

const INCH = 25.4;
/** Parts of a scale bar, mm. */
const STEPS: Record<Units, readonly number[]> = {
  metric: [10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000],
  inches: [0.5, 1, 2, 3, 6, 12, 24, 60, 120, 240, 480].map((inches) => inches * INCH),
};

/** A bar of five equal parts, black and white by turns, no longer than `most` mm on paper, with the scale in words. */
export function scaleBar(
  scale: number,
  most: number,
  units: Units,
): { shapes: Shape[]; width: number; height: number } {
  const steps = STEPS[units];
  const step = [...steps].reverse().find((mm) => (5 * mm) / scale <= most) ?? steps[0]!;
  const part = step / scale;
  const shapes: Shape[] = [];
  for (let i = 0; i < 5; i += 1) shapes.push(rect(i % 2 === 0 ? 'scaleBar' : 'hollow', i * part, 0, part, 1.6));
  shapes.push(text('label', 0, 4.6, '0', 2.4));
  // Under a short bar the figure still stands clear of the nought.
  const words = units === 'metric' ? W.scaleBar(figure(5 * step)) : printFeet(5 * step);
  const end = Math.max(5 * part, textWidth('0', 2.4) + 1 + textWidth(words, 2.4));
  shapes.push(text('label', end, 4.6, words, 2.4, 'end'));
  shapes.push(text('note', 5 * part + 3, 2, W.scale(figure(scale)), 2.6));
  return { shapes, width: 5 * part + 32, height: 5 };
}

/** A dimension line between two points of one level, its figure above the middle; ends with short ticks. */
export function dimensionAcross(x1: number, x2: number, y: number, words: string, size = 2.6): Shape {
  return group({ x: 0, y: 0 }, [
    line('dimension', x1, y, x2, y),
    line('dimension', x1, y - 1, x1, y + 1),
    line('dimension', x2, y - 1, x2, y + 1),
    text('label', (x1 + x2) / 2, y - 0.7, words, size, 'middle'),
  ]);
}

/** The same upright, the figure turned to be read from the right. */
export function dimensionUp(x: number, y1: number, y2: number, words: string, size = 2.6): Shape {
  return group({ x: 0, y: 0 }, [
    line('dimension', x, y1, x, y2),
    line('dimension', x - 1, y1, x + 1, y1),
    line('dimension', x - 1, y2, x + 1, y2),
    { ...text('label', x - 0.7, (y1 + y2) / 2, words, size, 'middle'), turn: -90 },
  ]);
}
