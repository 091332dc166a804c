import { expect, test } from 'vitest';
import { correctFromCuts } from '../../src/plan/firstCuts.ts';
import { noCutsAt } from './noCuts.ts';
import { trialPair } from './trialPlan.ts';

const NOTHING = noCutsAt(470);
const { job, plan } = trialPair();

test('kerf follows from the bar, the pieces and what remained', () => {
  const measured = [470, 470.5, 469.5, 470];
  const cuts = { ...NOTHING, measured, bar: 3000, remained: 3000 - 1880 - 4 * 2.6 };
  expect(correctFromCuts(job, plan, cuts)).toMatchObject({ kerf: 2.6, tolerance: 0.5, notes: [] });
});

test('of pieces from several bars only those of the one measured count for the kerf', () => {
  const measured = [470, 470.5, 469.5, 472, 468];
  const cuts = { ...NOTHING, measured, bar: 3000, remained: 3000 - 1410 - 3 * 2.6, fromBar: 3 };
  expect(correctFromCuts(job, plan, cuts)).toMatchObject({ kerf: 2.6, tolerance: 2, notes: [] });
});

test('a kerf or a tolerance that no saw has is not believed', () => {
  const cuts = { ...NOTHING, measured: [470, 510], bar: 3000, remained: 1900 };
  const { kerf, tolerance, notes } = correctFromCuts(job, plan, cuts);
  expect([kerf, tolerance, notes.length]).toEqual([null, null, 2]);
});

test('a bundle of what is left weighs for all that is left of its steel, and for no other of its name', () => {
  const bundle = plan.bundles.find((candidate) => candidate.section.shape === 'round')!;
  const lot = job.pile.find((own) => own.lot === 'B')!;
  const other = { ...lot, lot: 'B begun 2', section: { shape: 'round', diameter: 99 } as const };
  const rest = ['B cut', 'B left over', 'BB'].map((mark) => ({ ...lot, lot: mark }));
  const cuts = { ...NOTHING, bundle: bundle.bundle, weighed: bundle.mass };
  const { massPerMetre } = correctFromCuts({ ...job, pile: [...job.pile, ...rest, other] }, plan, cuts);
  expect(massPerMetre.map((own) => own.lot)).toEqual(['B', 'B cut', 'B left over']);
});

test('a bundle weighed as planned gives back the mass per metre of its lots', () => {
  const bundle = plan.bundles.find((candidate) => candidate.section.shape === 'round')!;
  const { massPerMetre, notes } = correctFromCuts(job, plan, {
    ...NOTHING,
    bundle: bundle.bundle,
    weighed: bundle.mass,
  });
  expect(notes).toEqual([]);
  expect(massPerMetre.map(({ lot }) => lot)).toEqual(['B']);
  expect(massPerMetre[0]?.planned).toBe(3.5);
  expect(massPerMetre[0]?.value).toBeCloseTo(3.5, 1);
});

test('the wrong bundle, or a scale that is off, is noticed', () => {
  const { bundle, mass } = plan.bundles[0]!;
  expect(correctFromCuts(job, plan, { ...NOTHING, bundle, weighed: mass * 3 }).notes).toHaveLength(1);
  expect(correctFromCuts(job, plan, { ...NOTHING, bundle: 'none', weighed: 5 }).notes).toHaveLength(1);
});

test('where nothing was measured nothing is said', () => {
  expect(correctFromCuts(job, plan, NOTHING)).toEqual({
    kerf: null,
    tolerance: null,
    massPerMetre: [],
    notes: [],
    remarks: [],
  });
});
