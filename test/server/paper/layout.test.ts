/** The papers read back by another program: every word on its page and clear of the others, for whatever plan and names. */

import { buffer } from 'node:stream/consumers';
import PDFDocument from 'pdfkit';
import { describe, expect, test } from 'vitest';
import { PAPERS } from '../../../server/paper/papers.ts';
import { digest8, planDigest } from '../../../server/planDigest.ts';
import { checkPlan } from '../../../src/plan/check.ts';
import type { Entry } from '../../../src/plan/record.ts';
import { outside, overlapping, readPdf, textOf } from './readPdf.ts';
import { stackedPair } from './stackedPlan.ts';
import { PAIRS, read, readBytes, TRIAL, write } from './writePaper.ts';

describe('the readers', () => {
  test('find words that overlap and words beyond the page', async () => {
    const doc = new PDFDocument({ size: [300, 200], margin: 0 });
    const bytes = buffer(doc as unknown as NodeJS.ReadableStream);
    doc.fontSize(12).text('first', 20, 50, { lineBreak: false }).text('second', 30, 52, { lineBreak: false });
    doc.text('beyond', 280, 100, { lineBreak: false });
    doc.end();
    const pages = await readPdf(await bytes);
    expect(overlapping(pages)).toEqual(['page 1: “first” and “second”']);
    expect(outside(pages)).toEqual([expect.stringMatching(/^page 1: bey/)]);
  });
});

/** The long plan is read on one size only. */
function sizesFor(name: string): ('a4' | 'letter')[] {
  return name === '120 bundles' ? ['a4'] : ['a4', 'letter'];
}

describe.each(PAIRS)('papers of a plan: %s', (name, { job, plan }) => {
  test('the plan is right', () => {
    expect(checkPlan(job, plan)).toEqual([]);
  });

  describe.each(PAPERS.map((paper) => paper.file))('%s', (file) => {
    test.each(sizesFor(name))('keeps every word on the page and clear of the others on %s', async (paper) => {
      const pages = await read(file, job, plan, { paper });
      expect(pages.length).toBeGreaterThan(0);
      expect(pages[0]!.height).toBeCloseTo(paper === 'a4' ? 841.89 : 792, 1);
      expect(outside(pages)).toEqual([]);
      expect(overlapping(pages)).toEqual([]);
    });
  });
});

describe('every page', () => {
  test.each(PAPERS.map((paper) => paper.file))(
    'of %s has job, date, plan, its number and the caution',
    async (file) => {
      const { job, plan } = TRIAL;
      const pages = await read(file, job, plan);
      pages.forEach((page, i) => {
        const text = textOf([page]);
        expect(text).toContain('Trial');
        expect(text).toContain('2026-05-04');
        expect(text).toContain(digest8(planDigest(plan)));
        expect(text).toContain(`page ${i + 1} of ${pages.length}`);
        expect(text).toContain('Arithmetic, not approval');
      });
    },
  );

  test.each(['stowage.pdf', 'ballast-register.pdf', 'hold-down.pdf'])(
    'of %s says NOT SECURED while there is no hold-down',
    async (file) => {
      const { job, plan } = TRIAL;
      for (const page of await read(file, job, plan)) expect(textOf([page])).toContain('NOT SECURED, DO NOT GO TO SEA');
    },
  );
});

describe('the end of a page', () => {
  test('cuts nothing, wherever the making list ends', async () => {
    for (let voids = 1; voids <= 12; voids += 1) {
      const { job, plan } = stackedPair({ voids, runs: 1, tiers: 1, across: 2 });
      expect(overlapping(await read('making-list.pdf', job, plan)), `${voids} voids`).toEqual([]);
    }
  });

  test('carries a paragraph longer than a page over to the next', async () => {
    const keepOut = Array.from({ length: 400 }, (_, i) => ({
      what: `bolt number ${i} of the old keel`,
      along: [560, 600] as [number, number],
      across: [-20, 20] as [number, number],
      up: [0, 40] as [number, number],
      access: true,
    }));
    const voids = TRIAL.job.voids.map((space) => (space.void === 'V1' ? { ...space, keepOut } : space));
    const pages = await read('stowage.pdf', { ...TRIAL.job, voids }, TRIAL.plan);
    expect(outside(pages)).toEqual([]);
    expect(overlapping(pages)).toEqual([]);
    const text = textOf(pages).replace(/\s+/g, ' ');
    expect(text).toContain('bolt number 0 of');
    expect(text).toContain('bolt number 399 of');
  });

  test.each(PAIRS)('takes a long record on the register: %s', async (_, { job, plan }) => {
    const note = `${'rust under the bands, matting wet; '.repeat(13)}`.trim();
    const entries = (bundle: string, i: number): Entry[] => [
      { bundle, what: 'in', note: '', at: `2026-05-${String(1 + (i % 28)).padStart(2, '0')}` },
      { bundle, what: 'lies', note: `${note}${i}`, at: '2026-06-01' },
      ...(i % 2 === 0 ? [{ bundle, what: 'out', note, at: '2029-04-02' } as const] : []),
    ];
    const record = plan.bundles.slice(0, 120).flatMap(({ bundle }, i) => entries(bundle, i));
    const pages = await read('ballast-register.pdf', job, plan, { record });
    expect(outside(pages)).toEqual([]);
    expect(overlapping(pages)).toEqual([]);
    expect(textOf(pages)).toContain('Date, name, signature');
  });

  test('keeps the names of voids apart where they lie over each other', async () => {
    const voids = TRIAL.job.voids.map((space) => ({ ...space, origin: TRIAL.job.voids[0]!.origin }));
    const pages = await read('ballast-register.pdf', { ...TRIAL.job, voids }, TRIAL.plan);
    expect(overlapping(pages)).toEqual([]);
  });
});

describe('names of any alphabet', () => {
  test('Cyrillic and Greek are printed; what the font lacks becomes a visible □', async () => {
    const names = { job: 'Πλοίο Морошка', name: () => 'Балласт 船底 <b>&amp;</b> 🪨' };
    const { job, plan } = stackedPair({ voids: 1, runs: 1, tiers: 1, across: 1, ...names });
    for (const file of ['tags.pdf', 'stowage.pdf', 'bundle-sheet.pdf']) {
      const text = textOf(await read(file, job, plan));
      expect(text).toContain('Балласт □□ <b>&amp;</b> □');
      expect(text).toContain('Πλοίο Морошка');
    }
  });
});

describe('the bytes', () => {
  test.each(PAPERS.map((paper) => paper.file))('of %s depend on job, plan and options alone', async (file) => {
    const { job, plan } = TRIAL;
    const first = await readBytes(file, job, plan);
    expect(first.equals(await write(file, job, plan))).toBe(true);
    expect(first.equals(await write(file, job, plan, { date: new Date('2026-05-05T10:00:00Z') }))).toBe(false);
  });
});
