/** Tables, drawings, the archive and the codes on the tags. */
import { PassThrough } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import jsqr from 'jsqr';
import { describe, expect, test } from 'vitest';
import { writeArchive } from '../../../server/paper/archive.ts';
import { CSV_TABLES, csvOf } from '../../../server/paper/csv.ts';
import { PAPERS } from '../../../server/paper/papers.ts';
import { picturesOf } from '../../../server/paper/pictures.ts';
import { qrScene, tagCode } from '../../../server/paper/qr.ts';
import type { Scene } from '../../../src/drawing/scene.ts';
import { trialPair } from '../../plan/trialPlan.ts';
import { stackedPair } from './stackedPlan.ts';
import { unzip } from './unzip.ts';

const { job, plan } = trialPair();
const DATE = new Date('2026-05-04T10:00:00Z');

/** The decoder's types take its CommonJS export for a namespace. */
const readCode = jsqr as unknown as typeof jsqr.default;

/** The black and white picture of a scene of filled rectangles. */
function raster(scene: Scene, pixels: number): Uint8ClampedArray {
  const data = new Uint8ClampedArray(4 * pixels * pixels).fill(255);
  const scale = pixels / scene.width;
  for (const shape of scene.shapes) {
    if (shape.kind !== 'rect') continue;
    for (let y = Math.round(shape.y * scale); y < Math.round((shape.y + shape.height) * scale); y += 1)
      for (let x = Math.round(shape.x * scale); x < Math.round((shape.x + shape.width) * scale); x += 1)
        data.fill(0, 4 * (y * pixels + x), 4 * (y * pixels + x) + 3);
  }
  return data;
}

describe('the code on a tag', () => {
  const decode = (words: string): string | undefined => {
    const pixels = 300;
    return readCode(raster(qrScene(words, 30), pixels), pixels, pixels)?.data;
  };

  test('leads to the page of its bundle where the address is known', () => {
    const options = { date: DATE, base: 'http://192.168.1.20:8017/', planSerial: 12 };
    const words = tagCode('V1-07', 7, 'abcdef01', options);
    expect(words).toBe('http://192.168.1.20:8017/b/12/V1-07');
    expect(decode(words)).toBe(words);
  });

  test('names plan and bundle where it is not', () => {
    const words = tagCode('V1-07', 7, 'abcdef01', { date: DATE });
    expect(decode(words)).toBe('kentledge abcdef01 V1-07');
  });

  test('carries any name, as an address does', () => {
    const words = tagCode('Трюм 1/№-07', 7, 'abcdef01', { date: DATE, base: 'http://b.example' });
    expect(decodeURIComponent(words)).toBe('http://b.example/b/abcdef01/Трюм 1/№-07');
    expect(new URL(words).pathname.split('/')).toHaveLength(4);
    expect(decode(words)).toBe(words);
  });

  test('of a mark too long for it, it has the number, so that its modules can be read off a tag', () => {
    for (const letter of ['木', 'Ω', 'x']) {
      for (const count of [1, 5, 57, 200]) {
        const mark = `${letter.repeat(count)}-07`;
        for (const base of [undefined, 'http://192.168.178.120:8017']) {
          const words = tagCode(mark, 123, 'abcdef01', { date: DATE, ...(base ? { base } : {}) });
          expect(decode(words)).toBe(words);
          expect(decodeURIComponent(words)).toMatch(
            count < 6 || (letter === 'x' && count < 58) ? mark : /\/123$|no\. 123, ….+-07$/,
          );
          // As high as the code of the usual tag is.
          const module = Math.min(
            ...qrScene(words, 34).shapes.map((shape) => (shape.kind === 'rect' ? shape.height : 34)),
          );
          expect(module, words).toBeGreaterThan(0.65);
        }
      }
    }
  });
});

/** Rows of a CSV file, by the RFC. */
function parseCsv(text: string): string[][] {
  const rows: string[][] = [[]];
  let cell = '';
  let quoted = false;
  for (let i = 1; i < text.length; i += 1) {
    const c = text[i]!;
    if (quoted && c === '"' && text[i + 1] === '"') {
      cell += '"';
      i += 1;
    } else if (c === '"') quoted = !quoted;
    else if (quoted) cell += c;
    else if (c === ',' || c === '\r') {
      rows.at(-1)!.push(cell);
      cell = '';
    } else if (c === '\n') rows.push([]);
    else cell += c;
  }
  return rows.slice(0, -1);
}

describe('tables', () => {
  test.each(CSV_TABLES.map((table) => [table.file, table] as const))(
    '%s has a head and rows of one width',
    (_, table) => {
      const record = [{ bundle: 'V1-01', what: 'in', note: 'a, "b"', at: '2026-05-04' } as const];
      const rows = parseCsv(csvOf(table, job, plan, new Map(), record));
      expect(rows.length).toBeGreaterThan(1);
      for (const row of rows) expect(row).toHaveLength(table.heads.length);
    },
  );

  test('give every piece and bundle once and masses that add up', () => {
    const table = (file: string) => parseCsv(csvOf(CSV_TABLES.find((each) => each.file === file)!, job, plan)).slice(1);
    expect(
      table('pieces.csv')
        .map((row) => row[3])
        .sort(),
    ).toEqual(plan.bars.flatMap((bar) => bar.pieces.map((piece) => piece.piece)).sort());
    const mass = plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
    expect(table('bundles.csv').reduce((sum, row) => sum + Number(row[9]), 0)).toBeCloseTo(mass, 6);
    expect(Number(table('loading.csv').at(-1)![5])).toBeCloseTo(mass, 2);
  });

  test('quote what must be quoted and run nothing as a formula', () => {
    const pair = stackedPair({ voids: 1, runs: 1, tiers: 1, across: 1, name: () => '=SUM(A1:"x",\n2)' });
    const voids = parseCsv(csvOf(CSV_TABLES.find((each) => each.file === 'voids.csv')!, pair.job, pair.plan));
    expect(voids[1]![1]).toBe('\'=SUM(A1:"x",\n2)');
  });
});

describe('the archive', () => {
  const write = async (): Promise<Buffer> => {
    const out = new PassThrough();
    const [bytes] = await Promise.all([buffer(out), writeArchive(job, plan, { date: DATE }, out)]);
    return bytes;
  };
  const written = write();

  test('holds every paper, table and drawing and the plan', async () => {
    const files = unzip(await written);
    for (const { file } of PAPERS) expect(files.get(file)?.subarray(0, 5).toString('latin1'), file).toBe('%PDF-');
    for (const { file } of CSV_TABLES) expect(files.has(`tables/${file}`), file).toBe(true);
    const drawings = [...picturesOf(job, plan)];
    expect(new Set(drawings.map((each) => each.file)).size).toBe(drawings.length);
    for (const { file } of drawings) expect(files.get(`drawings/${file}`)?.toString('utf8'), file).toContain('</svg>');
    expect(JSON.parse(files.get('plan.json')!.toString('utf8'))).toEqual(plan);
  });

  test('is the same, byte for byte, for the same date', async () => {
    expect((await written).equals(await write())).toBe(true);
  });

  test('fails where its reader goes away', async () => {
    const out = new PassThrough();
    out.destroy(new Error('gone'));
    await expect(writeArchive(job, plan, { date: DATE }, out)).rejects.toThrow();
  });
});
