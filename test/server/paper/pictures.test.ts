/**
 * One page of each paper against the picture of it that was looked at and found good. `KENTLEDGE_PICTURES=write` draws
 * the pictures anew: look at them before they are committed.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { PassThrough } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import { type Canvas, createCanvas, loadImage } from '@napi-rs/canvas';
import jsqr from 'jsqr';
import { describe, expect, test } from 'vitest';
import type { PaperOptions } from '../../../server/paper/page.ts';
import { PAPERS, type PaperKind } from '../../../server/paper/papers.ts';
import { trialPair } from '../../plan/trialPlan.ts';
import { heldPair } from './heldPair.ts';
import { getDocument } from './pdfjs.ts';

/** The decoder's types take its CommonJS export for a namespace. */
const readCode = jsqr as unknown as typeof jsqr.default;
const FOLDER = new URL('./pictures/', import.meta.url);
const WRITING = process.env.KENTLEDGE_PICTURES === 'write';
const SCALE = 0.7;
/** The page that shows most of each paper; the first where none is named. */
const PAGE: Partial<Record<string, number>> = { 'saw-sheet.pdf': 2, 'stowage.pdf': 2 };

async function drawPage(
  paper: PaperKind,
  number: number,
  scale = SCALE,
  more: Partial<PaperOptions> = {},
): Promise<Canvas> {
  const { job, plan } = paper.file === 'hold-down.pdf' ? heldPair() : trialPair();
  const out = new PassThrough();
  const options = { date: new Date('2026-05-04T10:00:00Z'), base: 'http://127.0.0.1:8017', planSerial: 1, ...more };
  const [bytes] = await Promise.all([buffer(out), paper.write(job, plan, options, out)]);
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  const page = await document.getPage(number);
  const viewport = page.getViewport({ scale });
  const canvas = createCanvas(Math.ceil(viewport.width), Math.ceil(viewport.height));
  await page.render({ canvas: canvas as never, viewport, background: 'white' }).promise;
  await document.loadingTask.destroy();
  return canvas;
}

function pixelsOf(canvas: Canvas): { width: number; height: number; data: Uint8ClampedArray } {
  return canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
}

/** How many pixels are nearly black, by their red. */
function inkOf(data: Uint8ClampedArray): number {
  let ink = 0;
  for (let i = 0; i < data.length; i += 4) if (data[i]! < 64) ink += 1;
  return ink;
}

/** Share of pixels of which a colour differs by more than a quarter. */
function difference(p: Uint8ClampedArray, q: Uint8ClampedArray): number {
  let differing = 0;
  for (let i = 0; i < p.length; i += 4) {
    const by = (k: number): number => Math.abs(p[i + k]! - q[i + k]!);
    if (Math.max(by(0), by(1), by(2)) > 64) differing += 1;
  }
  return differing / (p.length / 4);
}

describe('pictures', () => {
  test.each(PAPERS.map((paper) => [paper.file, paper] as const))('%s looks as it did', async (file, paper) => {
    const drawn = await drawPage(paper, PAGE[file] ?? 1);
    const kept = new URL(file.replace('.pdf', '.png'), FOLDER);
    if (WRITING) {
      mkdirSync(FOLDER, { recursive: true });
      writeFileSync(kept, drawn.toBuffer('image/png'));
    }
    const now = pixelsOf(drawn);
    const image = await loadImage(readFileSync(kept));
    const canvas = createCanvas(image.width, image.height);
    canvas.getContext('2d').drawImage(image, 0, 0);
    const before = pixelsOf(canvas);
    expect([now.width, now.height]).toEqual([before.width, before.height]);
    expect(difference(now.data, before.data)).toBeLessThan(0.005);
    expect(inkOf(now.data)).toBeGreaterThan(1000);
  });
});

describe('the tags as printed', () => {
  test('have a code that a camera reads, leading to the page of the bundle', async () => {
    const { plan } = trialPair();
    const tags = PAPERS.find((paper) => paper.file === 'tags.pdf')!;
    const canvas = await drawPage(tags, 1, 2.5);
    const context = canvas.getContext('2d');
    const [columns, rows] = [2, 4];
    const [width, height] = [Math.floor(canvas.width / columns), Math.floor(canvas.height / rows)];
    const found = plan.bundles.map((_, i) => {
      const { data } = context.getImageData((i % columns) * width, Math.floor(i / columns) * height, width, height);
      return readCode(data, width, height)?.data;
    });
    expect(found).toEqual(plan.bundles.map((bundle) => `http://127.0.0.1:8017/b/1/${bundle.bundle}`));
  });

  test.each([
    [100, 62],
    [62, 100],
    [40, 30],
  ])('also on a roll of %i × %i mm', async (width, height) => {
    const tags = PAPERS.find((paper) => paper.file === 'tags.pdf')!;
    const canvas = await drawPage(tags, 1, 4, { tags: { kind: 'roll', width, height } });
    const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
    expect(readCode(data, canvas.width, canvas.height)?.data).toBe('http://127.0.0.1:8017/b/1/V1-01');
  });
});
