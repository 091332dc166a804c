/** What the papers say, read back and held against the plan. */
import { describe, expect, test } from 'vitest';
import { LEAST_TAG, readTagSheet } from '../../../server/paper/tagSheet.ts';
import { centreOf, weightsByVoid } from '../../../src/balance/moments.ts';
import { jobSchema } from '../../../src/job/job.ts';
import { calloutsOf, OUTSIDE_WORDS } from '../../../src/lift/callouts.ts';
import { firstPart, fixedPart, shareIn } from '../../../src/plan/share.ts';
import { printFeet, printPounds } from '../../../src/units.ts';
import { outside, overlapping, textOf } from './readPdf.ts';
import { stackedPair } from './stackedPlan.ts';
import { counts, PAIRS, read, TRIAL } from './writePaper.ts';

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
        const squared = bar.lot === 'A' ? 5 : 0;
        expect(text).toContain(`${rest.fate} ${rest.to - rest.from} (${rest.from - squared} to ${rest.to - squared})`);
      }
    }
  });

  test.each(PAIRS)(
    'feet, inches and pounds stand beside the metric figures where they are wanted: %s',
    async (_, { job, plan }) => {
      const pages = await read('saw-sheet.pdf', job, plan, { feet: true, paper: 'letter' });
      expect([...outside(pages), ...overlapping(pages)]).toEqual([]);
      const text = textOf(pages).replaceAll(/\s+/g, ' ');
      expect(text).toContain('Inches are to the nearest 1/32');
      for (const { length } of plan.bundles) expect(text).toContain(printFeet(length, 32));
      const squaring = job.pile.find(({ lot }) => lot === plan.bars[0]!.lot)?.squaring ?? job.saw.squaring;
      expect(text).toContain(printFeet(plan.bars[0]!.pieces[0]!.to - squaring, 32));
      const tags = await read('tags.pdf', job, plan, { feet: true });
      expect([...outside(tags), ...overlapping(tags)]).toEqual([]);
      const tagged = textOf(tags);
      for (const { mass } of plan.bundles) expect(tagged).toContain(`${printPounds(mass)} · `);
      expect(textOf(await read('saw-sheet.pdf', job, plan))).not.toContain('1/32');
    },
  );

  test('gives distances from the squared end, or from where the bar is parted first', async () => {
    const { job, plan } = TRIAL;
    const bar = plan.bars.find((each) => each.lot === 'A')!;
    const found = counts(await read('saw-sheet.pdf', job, plan));
    const afterSpoiled = bar.pieces.findIndex((piece) => piece.from === 1450);
    const [near, far] = [bar.pieces.slice(0, afterSpoiled), bar.pieces.slice(afterSpoiled)];
    expect([near.length > 0, far.length > 0]).toEqual([true, true]);
    for (const piece of near) expect(found.has(String(piece.to - 5)), piece.piece).toBe(true);
    // Parted there first: what lies behind is cut from that end, and a tape no longer reaches from the other.
    for (const piece of far) expect(found.has(String(piece.to - 1450)), piece.piece).toBe(true);
    expect(found.has('1445')).toBe(true);
    expect(found.has('first cut')).toBe(true);
    const text = textOf(await read('saw-sheet.pdf', job, plan)).replaceAll(/\s+/g, ' ');
    const whole = plan.bars.filter(({ pieces }) => !pieces.some((piece) => piece.from === 1450));
    const parted = /Before the first stop, part each of these at its first cut, .*? own: ([^.]*)\./.exec(text)![1]!;
    expect(parted).toContain(bar.bar);
    for (const other of whole) expect(parted).not.toContain(other.bar);
    expect(text).toContain('Part it first: saw it through at 1445 from the squared end, the kerf to the left of that');
    expect(text).toContain('spoiled, hatched: 1395 to 1445');
    expect(text).toContain('of what is left over or spoiled too, runs from the squared end');
  });
});

test('saw and bundle sheet say that pieces are numbered by hand and which may change places', async () => {
  for (const { job, plan, joints } of [
    { ...TRIAL, joints: true },
    { ...stackedPair({ voids: 1, runs: 1, tiers: 1, across: 1 }), joints: false },
  ]) {
    const saw = textOf(await read('saw-sheet.pdf', job, plan));
    const tied = textOf(await read('bundle-sheet.pdf', job, plan));
    expect(saw).toContain('Write its number, p and figures, on every piece');
    expect(saw.includes('parts of jointed bars among them')).toBe(joints);
    expect(tied).toContain('of one lot and one length any will do for another');
    expect(tied.includes('parts of jointed bars too')).toBe(joints);
  }
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
  });

  test('says of a jointed bar which pieces it is made of, how long they are and from which end, and of its bands', async () => {
    const { job, plan } = TRIAL;
    const text = textOf(await read('bundle-sheet.pdf', job, plan));
    const bundle = plan.bundles.find((each) => each.slots.some((slot) => slot.length > 1))!;
    const slot = bundle.slots.find((each) => each.length > 1)!;
    const lengthOf = (mark: string): number => {
      const piece = plan.bars.flatMap((bar) => bar.pieces).find((each) => each.piece === mark)!;
      return piece.to - piece.from;
    };
    expect(text).toContain(`${slot.map((mark) => `${mark} ${lengthOf(mark)}`).join(' + ')} (jointed, from port)`);
    expect(text).toContain(`${bundle.slots.length} × 678 mm, square 20, 1 of them jointed`);
    expect(text).toContain('set a band at each joint');
    expect(text).toContain('4 bands, the outer ones 100 mm from the ends');
    const tags = textOf(await read('tags.pdf', job, plan));
    expect(tags).toContain('3 × 678 mm, square 20, 1 jointed');
    const saw = textOf(await read('saw-sheet.pdf', job, plan));
    for (const [i] of slot.entries()) expect(saw).toContain(`${bundle.bundle} part ${i + 1}/${slot.length}`);
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

  test('of the least size still say every word of the lift note and of what the bundle is', async () => {
    const handling = { reach: 700, start: 750, end: 0 };
    const job = jobSchema.parse({
      ...TRIAL.job,
      voids: TRIAL.job.voids.map((space) => ({ ...space, handling })),
    });
    const callouts = calloutsOf(job, TRIAL.plan.bundles);
    expect(callouts.every(({ over, outside: beyond }) => over !== null && beyond)).toBe(true);
    const notes = callouts.map(({ over }) => `Two people or a mechanical aid: over ${over}. ${OUTSIDE_WORDS}`);
    const grid = { kind: 'grid', rows: 9, columns: 5, marginX: 0, marginY: 2, gapX: 0, gapY: 0 } as const;
    for (const tags of [
      { kind: 'roll', ...LEAST_TAG } as const,
      { kind: 'roll', width: 40, height: 60 } as const,
      grid,
    ]) {
      const pages = await read('tags.pdf', job, TRIAL.plan, { tags });
      const text = textOf(pages).replace(/\s+/g, ' ');
      for (const note of notes) expect(text).toContain(note);
      expect(text.match(/TWO PEOPLE/g)).toHaveLength(notes.length);
      expect(text).toContain('5 × 499 mm, round 24');
      expect(outside(pages)).toEqual([]);
      expect(overlapping(pages)).toEqual([]);
    }
  });

  test('whose layout is read from a form, and refused where tags come out too small to read', () => {
    const grid = { kind: 'grid', rows: '5', columns: '3', marginX: '7', marginY: '9', gapX: '2', gapY: '0' };
    expect(readTagSheet(grid, 'a4')).toEqual({
      ok: true,
      value: { kind: 'grid', rows: 5, columns: 3, marginX: 7, marginY: 9, gapX: 2, gapY: 0 },
    });
    const inches = readTagSheet({ ...grid, marginX: '1/4"', marginY: '9,5' }, 'letter');
    expect(inches.ok && inches.value).toMatchObject({ marginX: 6.35, marginY: 9.5 });
    for (const [wrong, ...paths] of [
      [{ ...grid, rows: '12' }, 'rows'],
      [{ ...grid, columns: '5' }, 'columns'],
      [{ ...grid, columns: 'x', gapX: '-1', rows: '2.5' }, 'rows', 'columns', 'gapX'],
      [{ ...grid, marginX: '', marginY: '140' }, 'marginX', 'marginY'],
      [{ kind: 'roll', width: 20, height: 400 }, 'width'],
      [{}, 'kind'],
      [null, 'kind'],
    ] as const) {
      const read = readTagSheet(wrong, 'a4');
      expect(!read.ok && read.faults.map((fault) => fault.path), JSON.stringify(wrong)).toEqual(paths);
      if (!read.ok) for (const fault of read.faults) expect(fault.remedy).toMatch(/^(Give|Take|Choose) .*\.$/);
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
    const part = shareIn(plan, firstPart(job, plan, job.aims.fixedShare).counts);
    // V2 lies under V1, by a little: all of it goes in first.
    expect(part).toBeGreaterThan(shareIn(plan, fixedPart(plan, job.aims.fixedShare)));
    const share = `${Math.round(100 * part)} % of all`;
    const told = `The fixed part is in, ${share}: go afloat, read the marks, time the roll. Then the rest.`;
    expect(text).toContain(told);
    // It stands in a frame that ends where the name of the job ends.
    const words = pages.flatMap((page) => page.words);
    const [line, name] = [told, job.name].map((own) => words.find((one) => one.text === own)!);
    expect(line!.right).toBeLessThan(name!.right - 6);
    expect(textOf(await read('balance.pdf', job, plan))).toContain(
      `fixed part, ${share} (at most 80 % of a void; all of V2)`,
    );
    for (const words of ['A quarter is in', 'Half is in', 'All is in']) expect(text).toContain(words);
    // Three quarters are in with the fixed part: the same marks are read once.
    expect(text).not.toContain('Three quarters are in');
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
    expect(text).toContain(`${plan.bundles.reduce((sum, bundle) => sum + bundle.mass, 0).toFixed(2)} kg`);
    expect(text).toContain('NOT SECURED: V1, V2.');
  });

  test('the register and the balance sheet round the same centre alike', async () => {
    const { job, plan } = TRIAL;
    const { z } = centreOf(weightsByVoid(job, plan).get('V1')!)!;
    const voids = job.voids.map((space) =>
      space.void === 'V1' ? { ...space, origin: { ...space.origin, z: space.origin.z + 0.39346 - z } } : space,
    );
    const filled = plan.voids.map((entry) =>
      entry.void === 'V1' ? { ...entry, centre: { ...entry.centre!, z: 0.3935 } } : entry,
    );
    for (const paper of ['ballast-register.pdf', 'balance.pdf']) {
      const text = textOf(await read(paper, { ...job, voids }, { ...plan, voids: filled }));
      expect(text, paper).toContain('0.394');
      expect(text, paper).not.toContain('0.393');
    }
  });

  test('the try-first sheet takes the bundle that is tightest in its opening', async () => {
    const { job, plan } = TRIAL;
    const text = textOf(await read('try-first.pdf', job, plan));
    expect(text).toMatch(/The hardest to get in: V1-0[123]/);
    expect(text).toContain('through an opening of 380 × 200 mm');
    expect(text).toContain('Template: V2, station at 350 mm along');
    expect(text).not.toContain('try a batten');
    const unplaced = { code: 'end-first-room', about: 'void V1', text: 'Too long to go in flat: try a batten first.' };
    const told = textOf(await read('try-first.pdf', job, { ...plan, cautions: [...plan.cautions, unplaced] }));
    expect(told).toContain(`Void V1: ${unplaced.text}`);
  });

  test('the making list names what falls short of a target', async () => {
    const { job, plan } = TRIAL;
    const text = textOf(await read('making-list.pdf', job, plan));
    const short = 75 - plan.bundles.filter((b) => b.void === 'V1').reduce((sum, b) => sum + b.mass, 0);
    expect(text).toContain(`${Math.round(short * 100) / 100} kg short of the target`);
    expect(text).toContain('for the ballast aimed at');
  });
});
