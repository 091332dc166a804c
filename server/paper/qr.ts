/** QR codes as scenes, and what a tag's code says. */
import { create } from 'qrcode';
import { rect, type Scene, type Shape } from '../../src/drawing/scene.ts';
import type { PaperOptions } from './page.ts';

/** The address of a bundle's page where the web application's is known, else a text that names plan and bundle. */
export function tagCode(bundle: string, digest: string, options: PaperOptions): string {
  const { base, planSerial } = options;
  if (base === undefined) return `kentledge ${digest} ${bundle}`;
  return `${base.replace(/\/+$/, '')}/b/${planSerial ?? digest}/${encodeURIComponent(bundle)}`;
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
