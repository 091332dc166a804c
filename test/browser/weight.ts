/** What a page weighs as it goes over the line: itself, and every style, script and picture that it names, compressed. */
import { gzipSync } from 'node:zlib';

export interface Weight {
  /** Bytes of everything. */
  whole: number;
  /** Bytes of everything but the drawings in the page. */
  withoutDrawings: number;
}

/** `weighed` keeps what an asset weighs, from one page to the next. */
export async function weighPage(address: string, path: string, weighed = new Map<string, number>()): Promise<Weight> {
  const html = await textOf(address + path);
  const named = [...html.matchAll(/(?:href|src)="(\/assets\/[^"]+)"/g)].map(([, asset]) => asset as string);
  let assets = 0;
  for (const asset of new Set(named)) {
    const known = weighed.get(asset) ?? gzipSync(await textOf(address + asset)).length;
    weighed.set(asset, known);
    assets += known;
  }
  const bare = html.replaceAll(/<svg[^>]*class="k-drawing".*?<\/svg>/gs, '');
  return { whole: gzipSync(html).length + assets, withoutDrawings: gzipSync(bare).length + assets };
}

async function textOf(address: string): Promise<string> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  return response.text();
}
