/** What is fitted in a void, and the two shares, as the papers tell them. */
import { beforeAll, describe, expect, test } from 'vitest';
import { MAKING_WORDS } from '../../../server/paper/makingWords.ts';
import { meanwhile } from '../../../src/balance/meanwhile.ts';
import { laidVoid } from '../../../src/drawing/laid.ts';
import { holdDownSchema } from '../../../src/job/holdDown.ts';
import { accessOf } from '../../../src/plan/access.ts';
import { bearerLoads, runLoads } from '../../../src/plan/bearing.ts';
import { chocksOf } from '../../../src/plan/chocks.ts';
import { loadingSequence } from '../../../src/plan/sequence.ts';
import { fixedPart } from '../../../src/plan/share.ts';
import { BAR } from '../../hold/heldJob.ts';
import { trialPair } from '../../plan/trialPlan.ts';
import { fittedPair } from './fittedPlan.ts';
import { outside, overlapping, textOf } from './readPdf.ts';
import { read } from './writePaper.ts';

const { job, plan } = fittedPair();
const laid = laidVoid(job.voids[0]!, plan);
const told = (value: number, decimals: number): string => String(Math.round(value * 10 ** decimals) / 10 ** decimals);
const textIn = async (file: string): Promise<string> => textOf(await read(file, job, plan)).replace(/\s+/g, ' ');

describe('the stowage sheet', () => {
  let text = '';
  beforeAll(async () => {
    text = await textIn('stowage.pdf');
  });

  test('tells every opening with its place, and how bundles go in', () => {
    expect(text).toContain(
      'Opening, drawn in heavy dashes: 380 along × 200 across, its middle at 500 along, 10 across, end first under 20 mm of deck',
    );
    expect(text).toContain(
      'Opening, drawn in heavy dashes: 300 along × 150 across, its middle at 850 along, 0 across.',
    );
  });

  test('tells no place of an opening that nobody stated', async () => {
    const trial = trialPair();
    const unsaid = textOf(await read('stowage.pdf', trial.job, trial.plan)).replace(/\s+/g, ' ');
    expect(unsaid).toContain('across, over the middle because nobody said where it lies');
    expect(unsaid).not.toContain('its middle at');
  });

  test('tells what each bearer carries, and the most that it may', () => {
    const loads = bearerLoads(laid, plan);
    expect(loads.some(({ load }) => load > 0)).toBe(true);
    for (const { along, width, load, most } of loads) {
      const of = most === undefined ? '' : ` of ${most} kg at most`;
      expect(text).toContain(`at ${along} (${width} wide) ${told(load, 1)} kg${of}`);
    }
    for (const { run, perMetre } of runLoads(laid, plan)) expect(text).toContain(`run ${run} ${told(perMetre, 1)} kg`);
    expect(text).toContain('At most 90 kg on a metre of length');
  });

  test('tells the drain, what stands on the bearers in place of battens, and what lies there already', () => {
    expect(text).toContain('Drain channel 40 wide and 10 high along the middle of the floor');
    expect(text).toContain(
      'matting and blocks on its bearers, 12 mm high at 60, 12 mm high at 260, 12 mm high at 460, in parts, -125 to -20 and 20 to 125 across. Its matting: cut out 506 × 40 for drain at 8 along, -20 across.',
    );
    expect(text).toContain('notched battens 193 long, their middles at 28, 243, 457, 672,');
    expect(text).toContain('keel bolt, 12.5 kg, 560 to 600 along');
  });

  test('has every chock by its mark', () => {
    const chocks = job.voids.flatMap((space) => chocksOf(laidVoid(space, plan), plan));
    expect(chocks.length).toBeGreaterThan(3);
    for (const { mark } of chocks) expect(text).toContain(mark);
  });

  test('has the chocks in a table, each with its side and sizes in its row', () => {
    for (const chock of chocksOf(laid, plan)) {
      const sizes = [chock.size, chock.sizeAtHead].map((mm) => (mm < 3 ? 'edge' : told(mm, 2)));
      const wide = chock.size === chock.sizeAtHead ? sizes[0] : sizes.join('/');
      expect(text).toContain(
        `${chock.mark} ${MAKING_WORDS.side(chock, laid.axis)} ${wide} ${told(chock.height, 2)} ${told(chock.length, 0)}`,
      );
    }
  });

  test('parts the trim share from the fixed one', () => {
    const own = plan.bundles.filter((bundle) => bundle.void === 'V1');
    const trim = own.filter((bundle) => bundle.share === 'trim').reduce((sum, bundle) => sum + bundle.mass, 0);
    expect(trim).toBeGreaterThan(0);
    expect(text).toContain(`trim part ${told(trim, 1)} kg`);
  });

  test('gives the list after every bundle, and the greatest against the most allowed', () => {
    const steps = loadingSequence(job, plan, { first: fixedPart(plan, job.aims.fixedShare) });
    const lists = steps.map((step) => Math.abs(step.list!));
    const up = (degrees: number) => told(Math.ceil(10 * degrees - 1e-6) / 10, 1);
    expect(text).toContain(`Greatest list on the way ${up(Math.max(...lists))}°, the most allowed 1.5°.`);
    for (const list of lists) expect(text).toContain(`${up(list)}°`);
  });
});

test('a wedge too thin to saw at its foot is told to run out to an edge', () => {
  const told = (foot: number, head: number) => MAKING_WORDS.wedgeOf(foot, head, String);
  expect([told(24, 24), told(3, 31), told(2, 31), told(27, 0)]).toEqual(['24', '3/31', 'edge/31', '27/edge']);
});

test('a chock that stands against what is there already names it, on the making list and on the sheet', async () => {
  const floor = {
    what: 'floor 7',
    along: [laid.length - 30, laid.length - 20] as [number, number],
    across: [-laid.width / 2, laid.width / 2] as [number, number],
    up: [0, laid.height] as [number, number],
    access: false,
    bears: true,
  };
  const besides = {
    ...job,
    voids: job.voids.map((one) => (one.void === laid.void ? { ...one, keepOut: [...one.keepOut, floor] } : one)),
  };
  const leant = chocksOf(laidVoid(besides.voids.find((one) => one.void === laid.void)!, plan), plan).filter(
    ({ against }) => against === 'floor 7',
  );
  expect(leant.length).toBeGreaterThan(0);
  for (const file of ['stowage.pdf', 'making-list.pdf']) {
    const words = textOf(await read(file, besides, plan)).replace(/\s+/g, ' ');
    expect(words).toContain('forward, against floor 7');
    expect(words.includes('measure the gap first')).toBe(file === 'stowage.pdf');
  }
});

test('a long chock at an end is told as a frame, and of pieces what the opening does not pass whole', async () => {
  const [own] = plan.runs.filter((run) => run.void === laid.void).slice(-1);
  const longer = (more: object) => ({
    ...job,
    voids: job.voids.map((one) =>
      one.void === laid.void ? { ...one, length: own!.to + 404, opening: undefined, otherOpenings: [], ...more } : one,
    ),
  });
  const wide = { along: 100, across: 100, endFirst: false, deck: 0 };
  for (const file of ['stowage.pdf', 'making-list.pdf']) {
    const framed = textOf(await read(file, longer({}), plan)).replace(/\s+/g, ' ');
    expect(framed, file).toMatch(/\d struts of 340/);
    expect(framed, file).toContain('A long one is a frame: two boards 30 mm thick');
    expect(framed, file).not.toContain('would not pass the opening whole');
    const through = textOf(await read(file, longer({ opening: wide }), plan)).replace(/\s+/g, ' ');
    expect(through, file).toContain('What would not pass the opening whole is made of pieces that do');
  }
});

test('the making list has a block for each bearer under a run, and every chock', async () => {
  const text = await textIn('making-list.pdf');
  expect(text).toContain('blocks on the bearers, V1: 50 wide, with the matting 12 mm high');
  expect(text).toContain(
    '8 of 105 mm run 1 at 60, 260 along, -125 to -20 and 20 to 125 across; run 2 at 660, 900 along, -125 to -20 and 20 to 125 across',
  );
  expect(text).toContain('run 1: 506 × 250, cut out 506 × 40 for drain at 8 along, -20 across; run 2: 326 × 250');
  expect(text).not.toContain('notched battens, V1');
  expect(text).toContain('notched battens, V2');
  for (const { mark } of chocksOf(laid, plan)) expect(text).toContain(mark);
});

test('an access card takes out what its reckoning says, in that order, with its mass', async () => {
  const text = await textIn('access-cards.pdf');
  for (const { bundles, mass } of accessOf(job, plan, 100)) {
    expect(text).toContain(`Break out ${bundles.length} bundles, ${told(mass, 1)} kg`);
    const places = bundles.map((bundle) => text.indexOf(bundle.bundle));
    expect(Math.min(...places)).toBeGreaterThan(0);
    expect([...places].sort((p, q) => p - q)).toEqual(places);
  }
});

test('an access card tells chocks in the room about it, and what holds the void, where no bundle has to come out', async () => {
  const own = job.voids[0]!;
  const end = Math.max(...plan.runs.filter((run) => run.void === own.void).map(({ to }) => to));
  const seacock = {
    what: 'seacock',
    along: [end + 250, end + 280] as [number, number],
    across: [-20, 20] as [number, number],
    up: [0, 20] as [number, number],
    access: true,
  };
  const longer = (keepOut: typeof seacock) => ({
    ...job,
    voids: job.voids.map((one) => (one === own ? { ...one, length: end + 404, keepOut: [keepOut] } : one)),
  });
  const told = async (keepOut: typeof seacock) =>
    textOf(await read('access-cards.pdf', longer(keepOut), plan)).replace(/\s+/g, ' ');
  const near = await told(seacock);
  const [card] = accessOf(longer(seacock), plan, 100);
  expect(card!.bundles).toEqual([]);
  const marks = card!.chocks.map(({ mark }) => mark);
  expect(marks.length).toBeGreaterThan(1);
  expect(near).toContain(`No bundle has to come out, but chocks ${marks.join(', ')}.`);
  expect(near).toContain('No hold-down is entered for it: whatever holds it comes off first');
  expect(await told({ ...seacock, across: [-900, -800] })).toContain('Nothing has to come out.');
});

test('an access card begins with what comes off, what is too heavy for one, and how she floats meanwhile', async () => {
  const [first, ...others] = job.voids;
  const space = {
    ...first!,
    holdDown: holdDownSchema.parse({
      bars: [{ ...BAR, count: 3, span: 500 }],
      straps: [
        { kind: 'over', count: 1, lashingCapacity: 5, angle: 60 },
        { kind: 'direct', count: 2, lashingCapacity: 5, angle: 30, against: 'aft' },
      ],
    }),
    handling: { reach: 600, start: 750, end: 0, twist: 60 },
  };
  const vessel = {
    ...job.vessel,
    displacement: 4000,
    kgPerCm: 130,
    kgmPerCm: 60,
    waterlineLength: 8,
    beam: 2.4,
    lcf: 3.8,
  };
  const held = { ...job, vessel, voids: [space, ...others] };
  const pages = await read('access-cards.pdf', held, plan);
  const text = textOf(pages).replace(/\s+/g, ' ');
  expect(text).toContain(
    'First its hold-down comes off, marked as on its sheet: bars across A1 to A3; straps B, C. Until',
  );
  expect(text).toContain('TWO PEOPLE or a mechanical aid');
  const card = accessOf(held, plan, 100).find(({ bundles }) => bundles.length > 0)!;
  expect(meanwhile(held, plan, card.bundles)).toContain('While they are out: ');
  expect(text).toContain(meanwhile(held, plan, card.bundles));
  const own = chocksOf(card.laid, plan).filter(({ after }) => card.bundles.some(({ order }) => order === after));
  expect(own.length).toBeGreaterThan(0);
  for (const { mark } of own) expect(text).toContain(mark);
  expect(await textIn('access-cards.pdf')).toContain('No hold-down is entered for it');
  expect(overlapping(pages)).toEqual([]);
  expect(outside(pages)).toEqual([]);
});

test('a page that goes on with a void says with which, and one that begins with it does not', async () => {
  const holdDown = holdDownSchema.parse({
    bars: [{ ...BAR, span: 500 }],
    straps: Array.from({ length: 12 }, () => ({ kind: 'over', count: 1, lashingCapacity: 5, angle: 60 })),
  });
  const voids = job.voids.map((space) => ({ ...space, holdDown }));
  const pages = await read('hold-down.pdf', { ...job, voids }, plan);
  const texts = pages.map((page) => textOf([page]).replace(/\s+/g, ' '));
  const begins = texts.flatMap((text, i) => (/ to hold /.test(text) ? [i] : []));
  expect(begins).toHaveLength(2);
  expect(begins[1]).toBeGreaterThan(1);
  texts.forEach((text, i) => {
    if (begins.includes(i)) expect(text).not.toContain('continued:');
    else expect(text).toContain(`continued: ${i < begins[1]! ? 'V1 Abaft the mast step' : 'V2'}`);
  });
  expect(overlapping(pages)).toEqual([]);
});

test('tags of the trim part say so', async () => {
  const text = await textIn('tags.pdf');
  expect(text.split('trim part')).toHaveLength(1 + plan.bundles.filter((bundle) => bundle.share === 'trim').length);
});

test.each(['stowage.pdf', 'making-list.pdf', 'access-cards.pdf', 'tags.pdf', 'try-first.pdf'])(
  'every word of %s stands on its page and clear of the others',
  async (file) => {
    const pages = await read(file, job, plan);
    expect(outside(pages)).toEqual([]);
    expect(overlapping(pages)).toEqual([]);
  },
);
