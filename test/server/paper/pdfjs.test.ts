import { expect, test } from 'vitest';
import './pdfjs.ts';

test('the reader of PDFs leaves the language as it was', () => {
  const own = [
    Array.prototype.push,
    Array.prototype.sort,
    JSON.stringify,
    structuredClone,
    Promise,
    URL,
    Map.prototype.set,
  ];
  for (const one of own) expect(Function.prototype.toString.call(one)).toMatch(/native code|class URL/);
});
