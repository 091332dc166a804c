import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Draft } from '../../../server/form/apply.ts';
import { readDraft } from '../../../server/form/draftRead.ts';
import { pileSum } from '../../../server/form/sums.ts';
import { readableParts } from '../../../src/job/readJob.ts';
import { jobDoubts } from '../../../src/plan/jobDoubts.ts';
import { randomJob } from '../../bench/jobs.ts';

const FIXTURES = new URL('../../../fixtures/', import.meta.url);
const SEEDS = Array.from({ length: 20 }, (_, seed) => seed);
const DRAFTS = [
  ...readdirSync(FIXTURES)
    .filter((name) => name.endsWith('.json'))
    .map((name) => JSON.parse(readFileSync(new URL(name, FIXTURES), 'utf8'))),
  ...SEEDS.map((seed) => randomJob(seed, { small: true, shapes: true, fractions: true })),
] as Draft[];

test('a job read as a whole is doubted and summed up as its parts are, read one by one', () => {
  for (const draft of DRAFTS) {
    const { whole, parts, faults } = readDraft(draft);
    expect(faults).toEqual([]);
    expect(jobDoubts(parts)).toEqual(jobDoubts(readableParts(draft)));
    expect(pileSum(draft, whole!.job)).toEqual(pileSum(draft, null));
  }
  expect(DRAFTS.some((draft) => jobDoubts(readDraft(draft).parts).length > 0)).toBe(true);
});

test('of a job with faults what is in order is summed up and doubted all the same', () => {
  const draft = structuredClone(DRAFTS[0]) as Draft & { pile: object[]; voids: object[] };
  const { bars } = pileSum(draft, readDraft(draft).whole!.job);
  Object.assign(draft.pile[0]!, { length: 'long' });
  Object.assign(draft.voids[0]!, { handling: { reach: 30 } });
  const { whole, parts, faults } = readDraft(draft);
  expect(whole).toBeNull();
  expect(faults.map(({ path }) => path)).toEqual(['pile[0].length']);
  expect(jobDoubts(parts).map(({ path }) => path)).toContain('voids[0].handling.reach');
  const sums = pileSum(draft, null);
  expect(sums.lots.map((lot) => lot === null).indexOf(false)).toBe(1);
  expect(sums.partial).toBe(true);
  expect(sums.bars).toBeGreaterThan(0);
  expect(sums.bars).toBeLessThan(bars);
});
