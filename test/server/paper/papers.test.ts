/** The papers read back by another program: what is printed, where, and for whatever plan and names. */
import { PassThrough } from 'node:stream';
import { buffer } from 'node:stream/consumers';
import PDFDocument from 'pdfkit';
import { describe, expect, test } from 'vitest';
import type { PaperOptions } from '../../../server/paper/page.ts';
import { PAPERS, type PaperKind } from '../../../server/paper/papers.ts';
import { readTagSheet } from '../../../server/paper/tagSheet.ts';
import { digest8, planDigest } from '../../../server/planDigest.ts';
import { holdDownSchema } from '../../../src/job/holdDown.ts';
import type { Job } from '../../../src/job/job.ts';
import { checkPlan } from '../../../src/plan/check.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { trialPair } from '../../plan/trialPlan.ts';
import { outside, overlapping, type ReadPage, readPdf, textOf } from './readPdf.ts';
import { stackedPair } from './stackedPlan.ts';

const DATE = new Date('2026-05-04T10:00:00Z');

const paperOf = (file: string): PaperKind => PAPERS.find((paper) => paper.file === file)!;

async function write(file: string, job: Job, plan: Plan, options: Partial<PaperOptions> = {}): Promise<Buffer> {
  const out = new PassThrough();
  const [bytes] = await Promise.all([buffer(out), paperOf(file).write(job, plan, { date: DATE, ...options }, out)]);
  return bytes;
}

/** What was read before, by plan: writing and reading the long ones takes its time. */
const shelf = new Map<Plan, Map<string, Promise<ReadPage[]>>>();

function read(file: string, job: Job, plan: Plan, options: Partial<PaperOptions> = {}): Promise<ReadPage[]> {
  const known = shelf.get(plan) ?? new Map<string, Promise<ReadPage[]>>();
  shelf.set(plan, known);
  const key = JSON.stringify([file, { paper: 'a4', ...options }]);
  const pages = known.get(key) ?? write(file, job, plan, options).then(readPdf);
  known.set(key, pages);
  return pages;
}

/** How often each text stands by itself on the pages. */
function counts(pages: ReadPage[]): Map<string, number> {
  const found = new Map<string, number>();
  for (const { text } of pages.flatMap((page) => page.words)) found.set(text, (found.get(text) ?? 0) + 1);
  return found;
}

const TRIAL = trialPair();

const PAIRS: [string, { job: Job; plan: Plan }][] = [
  ['trial', TRIAL],
  ['one bundle', stackedPair({ voids: 1, runs: 1, tiers: 1, across: 1 })],
  ['600 bundles', stackedPair({ voids: 10, runs: 4, tiers: 3, across: 5 })],
  [
    'long names',
    stackedPair({
      voids: 2,
      runs: 2,
      tiers: 2,
      across: 2,
      job: 'The very long name of a job '.repeat(7).trim(),
      lot: 'Lot'.repeat(66),
      void: (n) => `V${n}${'Δοκός'.repeat(30)}`,
      name: (n) => `Трюм ${n} ${'под койкой '.repeat(15)}`,
      what: 'keel bolt '.repeat(19).trim(),
    }),
  ],
];

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
  return name === '600 bundles' ? ['a4'] : ['a4', 'letter'];
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

describe('saw sheet', () => {
  test.each(PAIRS.slice(0, 3))('names each piece once, each stop with its count: %s', async (_, { job, plan }) => {
    const found = counts(await read('saw-sheet.pdf', job, plan));
    const pieces = plan.bars.flatMap((bar) => bar.pieces.map((piece) => piece.piece));
    for (const piece of pieces) expect(found.get(piece), piece).toBe(1);
    expect(found.get(String(pieces.length))).toBeGreaterThanOrEqual(1);
  });

  test('says what each remainder becomes and where the first cut of each bar is', async () => {
    const { job, plan } = TRIAL;
    const text = textOf(await read('saw-sheet.pdf', job, plan));
    for (const bar of plan.bars) {
      for (const rest of bar.remainders) {
        expect(text).toContain(`${rest.fate} ${rest.to - rest.from} (${rest.from} to ${rest.to})`);
      }
    }
    expect(text).toContain('spoiled, hatched: 1400 to 1450');
  });

  test('gives distances from the squared end', async () => {
    const { job, plan } = TRIAL;
    const bar = plan.bars.find((each) => each.lot === 'A')!;
    const found = counts(await read('saw-sheet.pdf', job, plan));
    for (const piece of bar.pieces) expect(found.has(String(piece.to - 5)), piece.piece).toBe(true);
    const afterSpoiled = bar.pieces.find((piece) => piece.from === 1450)!;
    expect(found.has(String(afterSpoiled.from - 5))).toBe(true);
    expect(found.has('first cut')).toBe(true);
  });
});

describe('bundle sheet', () => {
  test('has each bundle once with its mass, its pieces and a box', async () => {
    const { job, plan } = TRIAL;
    const pages = await read('bundle-sheet.pdf', job, plan);
    const found = counts(pages);
    const text = textOf(pages);
    for (const bundle of plan.bundles) {
      expect(found.get(bundle.bundle), bundle.bundle).toBe(1);
      expect(text).toContain(`${bundle.mass} kg ±`);
      for (const piece of bundle.slots.flat()) expect(text.split(piece).length, piece).toBe(2);
    }
    expect(found.get('weighed, kg')).toBe(plan.bundles.length);
    expect(text).toContain('(jointed)');
  });
});

describe('tags', () => {
  test.each(PAIRS.slice(0, 3))('one a bundle with its mass and place: %s', async (_, { job, plan }) => {
    const pages = await read('tags.pdf', job, plan);
    const found = counts(pages);
    for (const bundle of plan.bundles) expect(found.get(bundle.bundle), bundle.bundle).toBe(1);
    const masses = pages.flatMap((page) =>
      page.words.filter((words) => / kg$/.test(words.text) && !/limit/.test(words.text)),
    );
    expect(masses).toHaveLength(plan.bundles.length);
    for (const bundle of plan.bundles) expect(found.has(`${bundle.mass} kg`)).toBe(true);
    expect(pages).toHaveLength(Math.ceil(plan.bundles.length / 8));
  });

  test('as the user lays them out: three by five, or one a page of a roll', async () => {
    const { job, plan } = stackedPair({ voids: 2, runs: 2, tiers: 2, across: 2 });
    const grid = { kind: 'grid', rows: 5, columns: 3, marginX: 7, marginY: 9, gapX: 2, gapY: 0 } as const;
    for (const [tags, count] of [
      [grid, 2],
      [{ kind: 'roll', width: 100, height: 62 } as const, 16],
      [{ kind: 'roll', width: 62, height: 100 } as const, 16],
      [{ kind: 'roll', width: 40, height: 30 } as const, 16],
    ] as const) {
      const pages = await read('tags.pdf', job, plan, { tags });
      expect(pages).toHaveLength(count);
      expect(outside(pages)).toEqual([]);
      expect(overlapping(pages)).toEqual([]);
      const found = counts(pages);
      for (const bundle of plan.bundles) expect(found.get(bundle.bundle)).toBe(1);
    }
  });

  test('whose layout is read from a form, and refused where tags come out too small to read', () => {
    const grid = { kind: 'grid', rows: '5', columns: '3', marginX: '7', marginY: '9', gapX: '2', gapY: '0' };
    expect(readTagSheet(grid, 'a4')).toEqual({
      ok: true,
      value: { kind: 'grid', rows: 5, columns: 3, marginX: 7, marginY: 9, gapX: 2, gapY: 0 },
    });
    for (const wrong of [
      { ...grid, rows: '12' },
      { ...grid, columns: 'x' },
      { kind: 'roll', width: 20, height: 400 },
      {},
      null,
    ]) {
      const read = readTagSheet(wrong, 'a4');
      expect(read.ok, JSON.stringify(wrong)).toBe(false);
      if (!read.ok) expect(read.faults[0]!.remedy).not.toBe('');
    }
  });

  test('the list for a paint marker has each bundle and its mass in plain text', async () => {
    const { job, plan } = TRIAL;
    const found = counts(await read('tag-list.pdf', job, plan));
    for (const bundle of plan.bundles) {
      expect(found.get(bundle.bundle)).toBe(1);
      expect(found.has(`${bundle.mass} kg`)).toBe(true);
    }
  });
});

describe('stowage sheets', () => {
  test('give every bundle twice: in the loading sequence and in the order of its void', async () => {
    const { job, plan } = TRIAL;
    const pages = await read('stowage.pdf', job, plan);
    const found = counts(pages);
    for (const bundle of plan.bundles) expect(found.get(bundle.bundle), bundle.bundle).toBe(2);
    const text = textOf(pages);
    for (const entry of plan.voids.filter((each) => each.bundles > 0)) {
      expect(text).toContain(`${entry.bundles} bundles, ${Math.round(entry.mass * 10) / 10} kg`);
    }
    expect(text).toContain('The fixed share, 80 %, is in: go afloat');
    for (const words of ['A quarter is in', 'Half is in', 'Three quarters are in', 'All is in'])
      expect(text).toContain(words);
    expect(text).toContain('Keep clear: keel bolt, 560 to 600 along, -20 to 20 across.');
  });
});

describe('other papers', () => {
  test('access cards tell what comes out for each keep-out, upper bundles first', async () => {
    const { job, plan } = TRIAL;
    const text = textOf(await read('access-cards.pdf', job, plan));
    expect(text).toContain('keel bolt: V1 Abaft the mast step');
    expect(text).toContain('Break out 6 bundles');
    expect(text.indexOf('V1-06')).toBeLessThan(text.indexOf('V1-04'));
  });

  test('the register adds up', async () => {
    const { job, plan } = TRIAL;
    const text = textOf(await read('ballast-register.pdf', job, plan));
    const total = Math.round(plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0) * 100) / 100;
    expect(text).toContain(`${total} kg`);
    expect(text).toContain('NOT SECURED: V1, V2.');
  });

  test('the try-first sheet takes the bundle that is tightest in its opening', async () => {
    const { job, plan } = TRIAL;
    const text = textOf(await read('try-first.pdf', job, plan));
    expect(text).toMatch(/The hardest to get in: V1-0[123]/);
    expect(text).toContain('through an opening of 380 × 200 mm');
    expect(text).toContain('Template: V2, station at 350 mm along');
  });

  test('the making list names what falls short of a target', async () => {
    const { job, plan } = TRIAL;
    const text = textOf(await read('making-list.pdf', job, plan));
    const short = 75 - plan.bundles.filter((b) => b.void === 'V1').reduce((sum, b) => sum + b.mass, 0);
    expect(text).toContain(`${Math.round(short * 100) / 100} kg short of the target`);
    expect(text).toContain('for the ballast aimed at');
  });
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
    const pages = await readPdf(await write('stowage.pdf', { ...TRIAL.job, voids }, TRIAL.plan));
    expect(outside(pages)).toEqual([]);
    expect(overlapping(pages)).toEqual([]);
    const text = textOf(pages).replace(/\s+/g, ' ');
    expect(text).toContain('bolt number 0 of');
    expect(text).toContain('bolt number 399 of');
  });

  test('keeps the names of voids apart where they lie over each other', async () => {
    const voids = TRIAL.job.voids.map((space) => ({ ...space, origin: TRIAL.job.voids[0]!.origin }));
    const pages = await readPdf(await write('ballast-register.pdf', { ...TRIAL.job, voids }, TRIAL.plan));
    expect(overlapping(pages)).toEqual([]);
  });
});

describe('lifting', () => {
  test('a bundle over the guide is called out on its tag, its bundle sheet and its stowage sheet', async () => {
    const handling = { reach: 600, start: 750, end: 0, twist: 60 };
    const voids = TRIAL.job.voids.map((space) => (space.void === 'V1' ? { ...space, handling } : space));
    const job = { ...TRIAL.job, voids };
    for (const file of ['tags.pdf', 'bundle-sheet.pdf', 'stowage.pdf']) {
      const pages = await readPdf(await write(file, job, TRIAL.plan));
      expect(textOf(pages)).toContain('TWO PEOPLE or a mechanical aid: 9.5 kg is over the guide of');
      expect(overlapping(pages)).toEqual([]);
    }
  });
});

describe('hold-down sheets', () => {
  const withHold = (carries: number): Job => ({
    ...TRIAL.job,
    voids: TRIAL.job.voids.map((space) => {
      const by = { by: 'the floors', carries };
      const holdDown = holdDownSchema.parse({
        straps: [{ kind: 'over', count: 4, lashingCapacity: carries, angle: 60 }],
        blocked: { forward: by, aft: by, port: by, starboard: by },
      });
      return space.void === 'V1' ? { ...space, holdDown } : space;
    }),
  });

  test('say what carries each load, and NOT CARRIED where nothing does', async () => {
    const strong = textOf(await readPdf(await write('hold-down.pdf', withHold(50), TRIAL.plan)));
    expect(strong).toContain('blocked by the floors');
    expect(strong).toContain('half or less');
    expect(strong).not.toContain('NOT CARRIED');
    const weak = textOf(await readPdf(await write('hold-down.pdf', withHold(0.1), TRIAL.plan)));
    expect(weak).toContain('NOT CARRIED');
  });

  test('NOT SECURED goes from the sheets of a held void alone', async () => {
    const pages = await readPdf(await write('stowage.pdf', withHold(50), TRIAL.plan));
    const secured = pages.map((page) => !textOf([page]).includes('NOT SECURED'));
    const named = pages.map((page) => textOf([page]).includes('V1 Abaft the mast step'));
    expect(secured[0]).toBe(false);
    expect(secured[named.indexOf(true)]).toBe(true);
    expect(secured.at(-1)).toBe(false);
  });
});

describe('balance sheet', () => {
  test('adds up moments and says what is not known', async () => {
    const text = textOf(await read('balance.pdf', TRIAL.job, TRIAL.plan));
    const mass = TRIAL.plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
    expect(text).toContain(String(Math.round(mass * 10) / 10));
    expect(text).toContain('not known');
  });

  test('names a limit that is passed on the stowage sheets too', async () => {
    const vessel = {
      displacement: 8000,
      displacementMost: 8010,
      lcf: 4.7,
      waterlineLength: 9,
      beam: 3,
      kgPerCm: 200,
      kgmPerCm: 100,
    };
    const job = { ...TRIAL.job, vessel };
    for (const file of ['balance.pdf', 'stowage.pdf', 'ballast-register.pdf']) {
      expect(textOf(await readPdf(await write(file, job, TRIAL.plan))), file).toContain('NOT ENOUGH');
    }
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
    const first = await write(file, job, plan);
    expect(first.equals(await write(file, job, plan))).toBe(true);
    expect(first.equals(await write(file, job, plan, { date: new Date('2026-05-05T10:00:00Z') }))).toBe(false);
  });
});
