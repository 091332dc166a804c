/** What a PDF says and where: its words with their boxes, page by page, read by another program than the one that wrote it. */
import { getDocument } from './pdfjs.ts';

/** A run of words; the box reaches from what hangs below the line to the top of the capitals, points from the lower left corner of the page. */
export interface Words {
  text: string;
  left: number;
  right: number;
  bottom: number;
  top: number;
}

export interface ReadPage {
  width: number;
  height: number;
  words: Words[];
}

/** Of the em: how far capitals and figures of DejaVu rise above the base line, and how far letters hang below it. */
const RISE = 0.73;
const HANG = 0.2;

export async function readPdf(bytes: Uint8Array): Promise<ReadPage[]> {
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  const pages: ReadPage[] = [];
  for (let n = 1; n <= document.numPages; n += 1) {
    const page = await document.getPage(n);
    const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = page.view;
    const { items } = await page.getTextContent();
    const words: Words[] = [];
    for (const item of items) {
      if (!('str' in item) || item.str.trim() === '') continue;
      words.push(boxOf(item.str, item.transform as number[], item.width));
    }
    pages.push({ width: x1 - x0, height: y1 - y0, words });
  }
  await document.loadingTask.destroy();
  return pages;
}

function boxOf(text: string, [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0]: number[], width: number): Words {
  const size = Math.hypot(c, d);
  const along = { x: (a / Math.hypot(a, b)) * width, y: (b / Math.hypot(a, b)) * width };
  const up = { x: (c / size) * size * RISE, y: (d / size) * size * RISE };
  const low = { x: e - (up.x * HANG) / RISE, y: f - (up.y * HANG) / RISE };
  const high = { x: e + up.x, y: f + up.y };
  const xs = [low.x, low.x + along.x, high.x, high.x + along.x];
  const ys = [low.y, low.y + along.y, high.y, high.y + along.y];
  return { text, left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...ys), top: Math.max(...ys) };
}

/** Every word of the file, in the order written. */
export function textOf(pages: ReadPage[]): string {
  return pages.flatMap((page) => page.words.map((words) => words.text)).join(' ');
}

/** Words beyond the page, told with the page's number. */
export function outside(pages: ReadPage[]): string[] {
  return pages.flatMap((page, i) =>
    page.words
      .filter((w) => w.left < -0.1 || w.bottom < -0.1 || w.right > page.width + 0.1 || w.top > page.height + 0.1)
      .map((w) => `page ${i + 1}: ${w.text}`),
  );
}

/** Pairs of words whose boxes overlap by more than a hair, told with the page's number. */
export function overlapping(pages: ReadPage[], hair = 0.3): string[] {
  return pages.flatMap((page, i) => {
    const sorted = [...page.words].sort((p, q) => p.left - q.left);
    const found: string[] = [];
    sorted.forEach((p, k) => {
      for (let j = k + 1; j < sorted.length; j += 1) {
        const q = sorted[j]!;
        if (q.left >= p.right - hair) break;
        if (Math.min(p.top, q.top) - Math.max(p.bottom, q.bottom) > hair) {
          found.push(`page ${i + 1}: “${p.text}” and “${q.text}”`);
        }
      }
    });
    return found;
  });
}
