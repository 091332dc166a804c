import { describe, expect, it } from 'vitest';
import { readJson } from '../../src/job/jsonText.ts';
import { ownTime } from '../ownTime.ts';

function messageOf(text: string): string {
  const read = readJson(text);
  return read.ok ? '' : read.faults.map(({ message }) => message).join();
}

describe('a text that nests', () => {
  const nested = (levels: number) => `${'['.repeat(levels)}${']'.repeat(levels)}`;

  it('as deep as is read is read, one level more is refused with its place', () => {
    expect(readJson(nested(32))).toMatchObject({ ok: true });
    expect(messageOf(`{\n "lots":\n  ${nested(32)}}`)).toBe('Line 3, column 34: more than 32 brackets are open here.');
  });

  it('without end is refused at once', async () => {
    const spent = await ownTime(() => {
      for (let n = 0; n < 10; n += 1) expect(messageOf(nested(2_000_000))).toMatch(/^Line 1, column 33: /);
    });
    expect(spent).toBeLessThan(4000);
  });

  it('only by what is written in texts does not nest', () => {
    expect(readJson(JSON.stringify({ note: '['.repeat(100), other: '\\"{'.repeat(100) }))).toMatchObject({ ok: true });
  });

  it.each([
    ['brackets closed by the wrong kind', '[},', 'Line 1, column 2: a value is missing.'],
    ['braces closed by the wrong kind', '{"a":],', 'Line 1, column 6: a value is missing.'],
    ['brackets behind a comment', '/* " */[', 'Line 1, column 1: a comment, and JSON has none.'],
    ['brackets behind a text left open', '"\n[[[[', 'Line 1, column 1: a text that does not end.'],
  ])('and has a fault before is told that: %s', (_, part, message) => {
    expect(messageOf(part.repeat(300_000))).toBe(message);
  });
});
