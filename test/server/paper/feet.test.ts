import { describe, expect, test } from 'vitest';
import { PAPERS } from '../../../server/paper/papers.ts';
import { byScale } from '../../../src/balance/byScale.ts';
import { bedsOf, partLength } from '../../../src/drawing/bed.ts';
import { laidVoid } from '../../../src/drawing/laid.ts';
import { holdDownOf } from '../../../src/hold/holdDown.ts';
import { chocksOf } from '../../../src/plan/chocks.ts';
import type { Entry } from '../../../src/plan/record.ts';
import { parseForce, parseLength, parseMass, printFeet, printPounds } from '../../../src/units.ts';
import { fittedPair } from './fittedPlan.ts';
import { heldPair } from './heldPair.ts';
import { outside, overlapping, textOf } from './readPdf.ts';
import { PAIRS, read } from './writePaper.ts';

const feet = { feet: true, paper: 'letter' } as const;
const OF_FEET = /\b(?:lbf?|ft²?)\b|\d"/;

/** The long plan and that of one bundle have no figure of another kind than these. */
const SHORT = PAIRS.filter(([name]) => name === 'trial' || name === 'long names');

const [held, fitted]: typeof PAIRS = [
  ['held', heldPair()],
  ['fitted', fittedPair()],
];

describe.each([...SHORT, held!, fitted!])('feet, inches and pounds on the papers of %s', (name, { job, plan }) => {
  test.each(PAPERS.map(({ file }) => file))(
    '%s keeps to its page, and has none where they are not wanted',
    async (file) => {
      const pages = await read(file, job, plan, feet);
      expect([...outside(pages), ...overlapping(pages)]).toEqual([]);
      expect(textOf(pages)).toMatch(OF_FEET);
      // Whatever is on the papers of the others is on those of these two.
      if (name === 'held' || name === 'fitted') expect(textOf(await read(file, job, plan))).not.toMatch(OF_FEET);
    },
  );

  test('every mass to tie and stow by is there in pounds, every length to lay it by in inches', async () => {
    const tied = textOf(await read('bundle-sheet.pdf', job, plan, feet)).replaceAll(/\s+/g, ' ');
    const stowed = textOf(await read('stowage.pdf', job, plan, feet)).replaceAll(/\s+/g, ' ');
    for (const { mass, length, at, limit } of plan.bundles) {
      expect(tied).toContain(`${printPounds(mass)} ±`);
      expect(tied).toContain(`${length} mm (${printFeet(length)})`);
      expect(tied).toContain(`(${printPounds(limit, 'down')}) on the scale`);
      expect(stowed).toContain(`${printPounds(mass)} · `);
      expect(stowed).toContain(`${printFeet(at.along)} / ${printFeet(at.across)}`);
    }
  });
});

/** Both figures of every `1' 6 3/4" (476 mm)` or `(476)` in the words. */
function lengthsIn(words: string): { told: number; mm: number }[] {
  return [...words.matchAll(/((?:\d+' ?)?(?:\d+ )?(?:\d+\/\d+|\d+)") \((\d+(?:\.\d+)?)(?: mm)?\)/g)].map(
    ([, inches, mm]) => ({
      told: parseLength(inches!)!,
      mm: Number(mm),
    }),
  );
}

test('wood to be cut is never told longer than it is, and within a 32nd of what the list rounds to', async () => {
  const { job, plan } = fittedPair();
  const words = textOf(await read('making-list.pdf', job, plan, feet)).replaceAll(/\s+/g, ' ');
  const told = lengthsIn(words);
  const cut = job.voids.flatMap((space) => {
    const laid = laidVoid(space, plan);
    return [
      ...chocksOf(laid, plan).flatMap(({ size, height }) => [size, height]),
      ...bedsOf(laid, plan).flatMap(({ battens, bearers }) =>
        (laid.bearers ? bearers : battens).flatMap(({ parts }) => parts.map(partLength)),
      ),
    ].filter((mm) => mm >= 3);
  });
  expect(cut.length).toBeGreaterThan(8);
  for (const mm of cut) {
    const those = told.filter((one) => one.mm === mm);
    expect(those.length, `${mm} mm`).toBeGreaterThan(0);
    expect(Math.min(...those.map((one) => one.told)), `${mm} mm`).toBeLessThanOrEqual(mm + 0.005);
  }
  for (const one of told) expect(Math.abs(one.told - one.mm), `${one.mm} mm`).toBeLessThanOrEqual(25.4 / 32 + 0.51);
});

test('a load on a hold-down is never told less in pounds than it is, and what carries it never more', async () => {
  const { job, plan } = heldPair();
  const words = textOf(await read('hold-down.pdf', job, plan, feet)).replaceAll(/\s+/g, ' ');
  const pairs = [...words.matchAll(/(\d+ lbf) (\d+\.\d\d) kN/g)].map(([, pounds, kN]) => [
    parseForce(pounds!)!,
    Number(kN),
  ]);
  const [held] = holdDownOf(job, plan).filter((entry) => entry.cases.length > 0);
  for (const { demand, best } of held!.cases) {
    const those = pairs.filter(([, kN]) => kN === Math.ceil(demand / 10 - 1e-6) / 100);
    expect(Math.max(...those.map(([told]) => told!))).toBeGreaterThanOrEqual(demand / 1000 - 0.0006);
    if (!best) continue;
    const carried = pairs.filter(([, kN]) => kN === Math.floor(best.carries / 10 + 1e-6) / 100);
    expect(Math.min(...carried.map(([told]) => told!))).toBeLessThanOrEqual(best.carries / 1000 + 0.0006);
  }
  const [, mass, kg] = /: ([\d.]+ lb) \(([\d.]+) kg\) to hold/.exec(words)!;
  expect(parseMass(mass!)!).toBeGreaterThanOrEqual(Number(kg) - 0.05);
});

test('the register has every place in feet and every mass in pounds, weighed and recorded ones too', async () => {
  const { job, plan } = fittedPair();
  const first = plan.bundles[0]!;
  const record: Entry[] = [{ at: '2026-05-03T10:00:00Z', bundle: first.bundle, what: 'in', note: '' }];
  const weighed = new Map([[first.bundle, first.limit + 1]]);
  const pages = await read('ballast-register.pdf', job, plan, { ...feet, record, weighed });
  const words = textOf(pages).replaceAll(/\s+/g, ' ');
  expect([...outside(pages), ...overlapping(pages)]).toEqual([]);
  expect(words).toContain(
    `${printPounds(first.limit + 1)} (${first.limit + 1} kg), limit ${printPounds(first.limit, 'down')}`,
  );
  expect(words).toContain(
    `Weighed over the lift limit of its void: ${first.bundle} ${printPounds(first.limit + 1)} (${first.limit + 1} kg), limit`,
  );
  for (const { mass } of plan.voids.filter(({ bundles }) => bundles > 0)) expect(words).toContain(printPounds(mass));
  for (const { centre, mass } of byScale(job, plan, weighed).voids.filter(({ bundles }) => bundles > 0)) {
    expect(words).toContain(printPounds(mass));
    for (const metres of [centre!.x, centre!.z]) expect(words).toContain((metres / 0.3048).toFixed(2));
  }
  expect(words).toContain('Weighed total, kg or lb');
});

test.each(PAPERS.map(({ file }) => file))(
  '%s of a plan that is weighed in part keeps to its page, too',
  async (file) => {
    const { job, plan } = fittedPair();
    const weighed = new Map(plan.bundles.flatMap((one, n) => (n % 2 === 0 ? [[one.bundle, one.limit + n]] : [])));
    const record = plan.bundles.map(
      ({ bundle }): Entry => ({ at: '2026-05-03T10:00:00Z', bundle, what: 'in', note: '' }),
    );
    const pages = await read(file, job, plan, { ...feet, record, weighed });
    expect([...outside(pages), ...overlapping(pages)]).toEqual([]);
    expect(textOf(pages)).toMatch(OF_FEET);
  },
);
