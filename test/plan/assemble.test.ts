/** Sawing in fractions of an inch: kerfs, squaring, holes and bars whose figures are finer than a tenth of a millimetre. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { JobInput } from '../../src/job/job.ts';
import { readJobValue } from '../../src/job/readJob.ts';
import { checkPlan } from '../../src/plan/check.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { planJob } from '../../src/plan/planner.ts';

const boxes: JobInput = JSON.parse(readFileSync(new URL('../../fixtures/few-stops.json', import.meta.url), 'utf8'));

/** The plan of a job, found clean by the checker on the way out of the planner and once more here. */
async function planned(input: JobInput): Promise<Plan> {
  const read = readJobValue(input);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const { job, digest } = read.value;
  const result = await planJob(job, { effort: 'quick', seed: 1, jobDigest: digest });
  if (result.kind !== 'plan') throw new Error('nothing placed');
  expect(checkPlan(job, result.plan)).toEqual([]);
  return result.plan;
}

test.each([
  { kerf: 3.18 },
  { kerf: 2.54 },
  { kerf: 3.175 },
  { kerf: 1 / 3 },
  { squaring: 6.35 },
  { kerf: 1.59, squaring: 1.587 },
  { kerf: 3.18, squaring: 0.03 },
])('pieces stand from squaring to squaring one kerf apart, however fine: %o', async (saw) => {
  // One void and one section are enough: what is looked at are the bars.
  const [voids, pile] = [boxes.voids.slice(1, 2), boxes.pile.slice(0, 1)];
  const { bars } = await planned({ ...boxes, voids, pile, saw: { ...boxes.saw, ...saw }, aims: { stopsAtMost: 3 } });
  const { kerf, squaring } = { kerf: 3, squaring: 2, ...saw };
  expect(bars.filter(({ pieces }) => pieces.length > 2).length).toBeGreaterThan(5);
  for (const { pieces } of bars) {
    const lengths = pieces.map((piece) => piece.to - piece.from);
    let at = squaring;
    for (const [i, { from }] of pieces.entries()) {
      expect(from).toBeCloseTo(at, 5);
      at += lengths[i]! + kerf;
    }
  }
});

test('the kerf of a hundred bars squared by a quarter of an inch weighs what the checker counts', async () => {
  const [flat, angle] = boxes.pile;
  const squared = { ...boxes, saw: { squaring: 6.35 }, pile: [{ ...flat!, count: 100 }, angle!] };
  const { bars } = await planned({ ...squared, aims: {} });
  expect(bars.length).toBeGreaterThan(20);
});

test('a remainder thinner than a saw can feel is told, since every bar adds up exactly', async () => {
  // 12 × 400 mm and as many kerfs of 3.18 mm leave 0.055 mm of each bar.
  const plan = await planned({
    format: 'kentledge-job/1',
    name: 'Slivers',
    pile: [{ lot: 'A', section: { shape: 'square', side: 20 }, length: 4838.215, count: 4, bow: 0 }],
    saw: { kerf: 3.18 },
    voids: [{ void: 'V1', length: 422, width: 300, height: 100 }],
  });
  const whole = plan.bars.filter((bar) => bar.pieces.length === 12);
  expect(whole.length).toBeGreaterThan(0);
  for (const bar of whole) expect(bar.remainders).toEqual([{ from: 4838.16, to: 4838.215, fate: 'scrap' }]);
});
