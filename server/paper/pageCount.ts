/**
 * The number of pages, known only when the last one is written. Every page shows the same little form, whose content
 * follows at the end; so pages leave memory as they are done.
 */
import type { Doc } from './letters.ts';

/** What is used here of pdfkit beyond its published types. */
interface OpenDoc {
  _font: { id: string; ref(): unknown; encode(text: string): [string[], unknown] };
  page: { xobjects: Record<string, unknown> };
  ref(data: Record<string, unknown>): { end(content: string): void; data: Record<string, unknown> };
}

export class PageCount {
  readonly #doc: Doc;
  readonly #form: ReturnType<OpenDoc['ref']>;
  readonly #size: number;

  constructor(doc: Doc, size: number) {
    this.#doc = doc;
    this.#size = size;
    const box = [0, -size, 6 * size, size];
    this.#form = (doc as unknown as OpenDoc).ref({ Type: 'XObject', Subtype: 'Form', BBox: box });
  }

  /** Shows the number on the present page, its left end on the base line at (`x`, `y`). */
  show(x: number, y: number): void {
    (this.#doc as unknown as OpenDoc).page.xobjects.Count = this.#form;
    this.#doc.addContent(`q 1 0 0 1 ${x.toFixed(3)} ${y.toFixed(3)} cm /Count Do Q`);
  }

  /** Writes the number in the font that is set now. Call once, before the document ends. */
  finish(pages: number): void {
    const font = (this.#doc as unknown as OpenDoc)._font;
    const [glyphs] = font.encode(String(pages));
    this.#form.data.Resources = { Font: { [font.id]: font.ref() } };
    // The page's y runs downward; the letters are turned back upright.
    this.#form.end(`BT 1 0 0 -1 0 0 Tm /${font.id} ${this.#size} Tf 0.11 0.1 0.09 rg <${glyphs.join('')}> Tj ET`);
  }
}
