/** What is fitted in a void, and the two shares, as the papers tell them. */
import { beforeAll, describe, expect, test } from 'vitest';
import { MAKING_WORDS } from '../../../server/paper/makingWords.ts';
import { laidVoid } from '../../../src/drawing/laid.ts';
import { accessOf } from '../../../src/plan/access.ts';
import { bearerLoads, runLoads } from '../../../src/plan/bearing.ts';
import { chocksOf } from '../../../src/plan/chocks.ts';
import { loadingSequence } from '../../../src/plan/sequence.ts';
import { fixedPart } from '../../../src/plan/share.ts';
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
      'matting and blocks on its bearers, 12 mm high at 60, 12 mm high at 260, 12 mm high at 460.',
    );
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
        `${chock.mark} ${MAKING_WORDS.side(chock.side, laid.axis)} ${wide} ${told(chock.height, 2)} ${told(chock.length, 0)}`,
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
    const steps = loadingSequence(job, plan, fixedPart(plan, job.aims.fixedShare));
    const lists = steps.map((step) => Math.abs(step.list!));
    expect(text).toContain(`Greatest list on the way ${told(Math.max(...lists), 1)}°, the most allowed 1.5°.`);
    for (const list of lists) expect(text).toContain(`${told(list, 1)}°`);
  });
});

test('a wedge too thin to saw at its foot is told to run out to an edge', () => {
  const told = (foot: number, head: number) => MAKING_WORDS.wedgeOf(foot, head, String);
  expect([told(24, 24), told(3, 31), told(2, 31), told(27, 0)]).toEqual(['24', '3/31', 'edge/31', '27/edge']);
});

test('the making list has a block for each bearer under a run, and every chock', async () => {
  const text = await textIn('making-list.pdf');
  expect(text).toContain('blocks on the bearers, V1: 50 wide, with the matting 12 mm high');
  expect(text).toContain('run 1 at 60, run 1 at 260');
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
