/** QR codes as scenes, and what a tag's code says. */
import { create } from 'qrcode';
import { rect, type Scene, type Shape } from '../../src/drawing/scene.ts';
import type { Plan, PlanBundle } from '../../src/plan/plan.ts';
import type { PaperOptions } from './page.ts';

/**
 * The most letters that a mark may take in a code. With the rest of an address that makes 41 modules a side or so, 0.7 mm each
 * on the usual tag; 200 letters of another alphabet made 137 of 0.23 mm, which no phone reads off a tag.
 */
const LONGEST = 60;
/** Of a longer mark so many letters stand in a code without an address: the end tells it from its like. */
const END = 12;

/**
 * The address of a bundle's page where the web application's is known, else a text that names plan and bundle. `number` is
 * the bundle's in the plan's list, from 1: it stands for a mark that is too long for a code.
 */
export function tagCode(bundle: string, number: number, digest: string, options: PaperOptions): string {
  const { base, planSerial } = options;
  const mark = encodeURIComponent(bundle);
  const isLong = mark.length > LONGEST;
  if (base === undefined) {
    const told = isLong ? `no. ${number}, …${[...bundle].slice(-END).join('')}` : bundle;
    return `kentledge ${digest} ${told}`;
  }
  return `${base.replace(/\/+$/, '')}/b/${planSerial ?? digest}/${isLong ? number : mark}`;
}

/** The bundle that the code of a tag names, by its mark or its number; undefined where the plan has none such. */
export function taggedBundle({ bundles }: Pick<Plan, 'bundles'>, named: string): PlanBundle | undefined {
  // A mark is never figures alone: it has a hyphen before its number.
  return (
    bundles.find(({ bundle }) => bundle === named) ??
    (/^[1-9]\d{0,4}$/.test(named) ? bundles[Number(named) - 1] : undefined)
  );
}

/** The code in a square of `side` mm, its quiet border of four modules included. */
export function qrScene(words: string, side: number): Scene {
  const { size, data } = create(words, { errorCorrectionLevel: 'M' }).modules;
  const module = side / (size + 8);
  const shapes: Shape[] = [];
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; ) {
      let end = column;
      while (end < size && data[row * size + end]) end += 1;
      if (end > column) {
        // A hair of overlap keeps the rows from parting on screens.
        shapes.push(rect('ink', (column + 4) * module, (row + 4) * module, (end - column) * module, module * 1.02));
      }
      column = end + 1;
    }
  }
  return { width: side, height: side, title: words, description: words, shapes };
}
