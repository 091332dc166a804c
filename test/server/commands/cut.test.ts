import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runCut } from '../../../server/commands/cut.ts';
import { Capture } from '../capture.ts';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'kentledge-cut-'));
});

afterAll(() => rm(folder, { recursive: true }));

async function cut(list: unknown, options: { json?: boolean; seconds?: number } = {}) {
  const file = path.join(folder, 'list.json');
  await writeFile(file, typeof list === 'string' ? list : JSON.stringify(list));
  const [out, err] = [new Capture(), new Capture()];
  const status = await runCut(file, { seconds: 5, ...options }, out, err);
  return { status, out: out.text, err: err.text };
}

const format = 'kentledge-cutlist/1';

describe('the cut command', () => {
  it('prints the answer alone as JSON, marks beside pieces', async () => {
    const list = {
      format,
      stock: [{ length: 6000 }],
      pieces: [
        { length: 1997, count: 3, mark: 'A' },
        { length: 2997, count: 2 },
      ],
    };
    const { status, out, err } = await cut(list, { json: true });
    expect(status).toBe(0);
    expect(err).toBe('');
    const answer = JSON.parse(out);
    expect(answer).toMatchObject({
      format: 'kentledge-cutplan/1',
      used: 2,
      cost: 2,
      bound: 2,
      proven: true,
      short: [],
    });
    expect(answer.bars).toEqual([
      { stock: 0, pieces: [2997, 2997], marks: [null, null], times: 1 },
      { stock: 0, pieces: [1997, 1997, 1997], marks: ['A', 'A', 'A'], times: 1 },
    ]);
  });

  it('prices bars by their length where lengths differ', async () => {
    const list = { format, stock: [{ length: 5000 }, { length: 3000 }], pieces: [{ length: 2900, count: 2 }] };
    expect(JSON.parse((await cut(list, { json: true })).out)).toMatchObject({ cost: 6000, proven: true });
  });

  it('reckons with a kerf of 3/32 in exactly: ten pieces that fill a bar to the last 64th are cut from one', async () => {
    const kerf = 2.38125;
    const length = (6096 - 9 * kerf) / 10;
    const list = { format, stock: [{ length: 6096 }], pieces: [{ length, count: 10 }], saw: { kerf } };
    expect(JSON.parse((await cut(list, { json: true })).out)).toMatchObject({ used: 1, bound: 1, proven: true });
    const longer = { ...list, pieces: [{ length: length + 25.4 / 64, count: 10 }] };
    expect(JSON.parse((await cut(longer, { json: true })).out)).toMatchObject({ used: 2, bound: 2, proven: true });
    const hundredths = { ...list, pieces: [{ length: 470, count: 2 }], saw: { kerf: 2.38 } };
    expect((await cut(hundredths)).out).toContain('1 × 6096: 470, 470; left over 5151.24');
  });

  it('keeps spoiled spans and squaring out of pieces, and says which span each piece is in', async () => {
    const stock = [{ length: 1000, spoiled: [{ from: 400, to: 500 }] }];
    const pieces = [
      { length: 390, count: 1 },
      { length: 490, count: 1 },
    ];
    const { out } = await cut({ format, stock, pieces, saw: { kerf: 3, squaring: 10 } }, { json: true });
    expect(JSON.parse(out).bars).toEqual([{ stock: 0, pieces: [390, 490], spans: [[390], [490]], times: 1 }]);
  });

  it('tells the plan in words, with what is left over and a caution', async () => {
    const { status, out } = await cut({ format, stock: [{ length: 6000 }], pieces: [{ length: 1900, count: 3 }] });
    expect(status).toBe(0);
    expect(out).toContain('1 bar, cost 1: no plan costs less.');
    expect(out).toContain('1 × 6000: 1900, 1900, 1900; left over 291');
    expect(out).toContain('Caution:');
  });

  it('ends with status 3 where stock is short, with the plan of the rest', async () => {
    const list = {
      format,
      stock: [{ length: 6000, count: 1 }],
      pieces: [
        { length: 5900, count: 2, mark: 'keel' },
        { length: 7000, count: 1 },
      ],
    };
    const { status, out } = await cut(list, { json: true });
    expect(status).toBe(3);
    expect(JSON.parse(out)).toMatchObject({
      used: 1,
      short: [
        { length: 5900, count: 1, mark: 'keel' },
        { length: 7000, count: 1 },
      ],
    });
    expect((await cut(list)).out).toContain('1 piece of 5900 keel');
  });

  it('ends with status 2 and every fault where the list is refused', async () => {
    const { status, out, err } = await cut({ format, stock: [{ length: -5 }], pieces: [{ length: '9' }] });
    expect(status).toBe(2);
    expect(out).toBe('');
    expect(err).toContain('stock[0].length');
    expect(err).toContain('pieces[0].length');
    expect((await cut('{ not json')).status).toBe(2);
  });
});
