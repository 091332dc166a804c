/** Figures in feet and pounds on papers go to the safe side: what may be carried or cut goes down, what must be held or passed goes up. */
import { expect, test } from 'vitest';
import { duration } from '../../../server/paper/figures.ts';
import { byScale } from '../../../src/balance/byScale.ts';
import { bundleScene } from '../../../src/drawing/bundle.ts';
import { lengthOn } from '../../../src/drawing/scale.ts';
import { holdDownOf } from '../../../src/hold/holdDown.ts';
import type { Job } from '../../../src/job/job.ts';
import { massTolerances } from '../../../src/plan/massTolerance.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { parseForce, parseLength, printFeet, printPounds } from '../../../src/units.ts';
import { fittedPair } from './fittedPlan.ts';
import { heldPair } from './heldPair.ts';
import { textOf } from './readPdf.ts';
import { read, TRIAL } from './writePaper.ts';

const feet = { feet: true, paper: 'letter' } as const;

async function wordsOf(file: string, job: Job, plan: Plan, options: object = {}): Promise<string> {
  return textOf(await read(file, job, plan, { ...feet, ...options })).replaceAll(/\s+/g, ' ');
}

test('a lift limit on a tag and the most that a scale may be off go down', async () => {
  const { job, plan } = TRIAL;
  const [tags, sheet] = [await wordsOf('tags.pdf', job, plan), await wordsOf('bundle-sheet.pdf', job, plan)];
  const told = plan.bundles.map(({ limit }) => printPounds(limit, 'down'));
  expect(told).not.toEqual(plan.bundles.map(({ limit }) => printPounds(limit)));
  for (const { limit } of plan.bundles) expect(tags).toContain(`${limit} kg (${printPounds(limit, 'down')})`);
  const tolerances = massTolerances(job, plan);
  const ofBundle = (towards: 'down' | 'nearest') =>
    plan.bundles.map(
      ({ bundle, mass }) => `${printPounds(mass)} ± ${printPounds(tolerances.get(bundle)!, towards)} on`,
    );
  expect(ofBundle('down')).not.toEqual(ofBundle('nearest'));
  for (const words of ofBundle('down')) expect(sheet).toContain(words);
});

test('a remainder and what a cut may be off are never told longer than they are', async () => {
  const { job, plan } = TRIAL;
  const fine = { ...job, saw: { ...job.saw, tolerance: 1.5 } };
  const words = await wordsOf('saw-sheet.pdf', fine, plan);
  expect(printFeet(1.5, 32, 'down')).not.toBe(printFeet(1.5, 32));
  expect(words).toContain(`cut within ${printFeet(1.5, 32, 'down')} (1.5 mm)`);
  const left = [...words.matchAll(/(?:keep|scrap) ((?:\d+' )?(?:\d+ )?(?:\d+\/\d+|\d+)") \((\d+(?:\.\d+)?)\)/g)];
  expect(left.length).toBeGreaterThan(3);
  for (const [, inches, mm] of left) expect(parseLength(inches!)!).toBeLessThanOrEqual(Number(mm) + 0.006);
});

test('what is to be tried in its opening is told no smaller than it is', async () => {
  const { job, plan } = fittedPair();
  const words = await wordsOf('try-first.pdf', job, plan);
  const sizes = plan.bundles.map(({ size }) =>
    [size.along, size.across, size.up].map((mm) => `${printFeet(mm, 32, 'up')} (${mm} mm)`),
  );
  expect(sizes.some((own) => own.every((side) => words.includes(side)))).toBe(true);
  const plain = plan.bundles.map(({ size }) => `${printFeet(size.across, 32)} (${size.across} mm)`);
  expect(sizes.map(([, across]) => across)).not.toEqual(plain);
});

test('a bundle is drawn with its size no smaller than it is', () => {
  let rounded = 0;
  for (const bundle of TRIAL.plan.bundles) {
    const drawn = JSON.stringify(bundleScene(bundle, { width: 60, height: 55, units: 'inches' }).shapes);
    for (const mm of [bundle.size.across, bundle.size.up]) {
      expect(drawn).toContain(JSON.stringify(lengthOn('inches', mm, 'up')));
      if (lengthOn('inches', mm, 'up') !== lengthOn('inches', mm)) rounded += 1;
    }
  }
  expect(rounded).toBeGreaterThan(0);
});

test('a load on a hold-down is told no less than it is, whatever the scale said', async () => {
  const { job, plan } = heldPair();
  let rounded = 0;
  for (const more of [0.1, 0.3, 0.5]) {
    const weighed = new Map(plan.bundles.map(({ bundle, mass }) => [bundle, mass + more]));
    const words = await wordsOf('hold-down.pdf', job, plan, { weighed });
    const pairs = [...words.matchAll(/(\d+ lbf) (\d+\.\d\d) kN/g)];
    const [held] = holdDownOf(job, byScale(job, plan, weighed), weighed).filter(({ cases }) => cases.length > 0);
    for (const { demand } of held!.cases) {
      const told = pairs
        .filter(([, , kN]) => Number(kN) === Math.ceil(demand / 10 - 1e-6) / 100)
        .map(([, pounds]) => parseForce(pounds!)!);
      expect(Math.max(...told)).toBeGreaterThanOrEqual(demand / 1000 - 0.0006);
      const pounds = demand / 9.80665 / 0.45359237;
      if (pounds % 1 < 0.45 && pounds % 1 > 0.2) rounded += 1;
    }
  }
  // Of some of them the nearest pound is less.
  expect(rounded).toBeGreaterThan(0);
});

test('times are told to the nearest minute', () => {
  expect([44.4, 44.6, 59.5, 184.7].map(duration)).toEqual(['44 min', '45 min', '1 h 00', '3 h 05']);
});
