/** Cautions of a plan whose bundles were weighed: what follows from masses goes by the scale, the rest stays. */
import { expect, test } from 'vitest';
import type { Job } from '../../src/job/job.ts';
import { cautionsNow, cautionsOf } from '../../src/plan/cautions.ts';
import { trialPair } from './trialPlan.ts';

const trial = trialPair();
const own = trial.plan.bundles.filter((bundle) => bundle.void === 'V1');
const sum = own.reduce((all, { mass }) => all + mass, 0);
/** V1 may carry hardly more than is planned, and each bundle of it is hardly within its limit. */
const job: Job = {
  ...trial.job,
  voids: trial.job.voids.map((space) => (space.void === 'V1' ? { ...space, most: sum + 0.2 } : space)),
  vessel: { displacement: 4000, displacementMost: 4200, gm: 0.5, lcf: 4.5 },
  aims: { ...trial.job.aims, listMost: 0.5 },
};
const bundles = trial.plan.bundles.map((one) => ({ ...one, limit: one.mass + 0.05 }));
const made = { ...trial.plan, bundles };
const plan = { ...made, cautions: cautionsOf(job, made, () => 'What binds.') };
const weigh = (mass: (one: (typeof bundles)[number]) => number, which = bundles) =>
  cautionsNow(job, plan, new Map(which.map((one) => [one.bundle, mass(one)])));
const codes = (cautions: typeof plan.cautions) => [...new Set(cautions.map(({ code }) => code))].sort();

test('of what was weighed nothing is in doubt, of the rest it stays', () => {
  expect(codes(plan.cautions)).toEqual(expect.arrayContaining(['limit-on-paper', 'most-on-paper', 'void-short']));
  const after = weigh((one) => one.mass);
  expect(codes(after)).toEqual(codes(plan.cautions).filter((code) => !/on-paper$/.test(code)));
  // One of V1 is in doubt still, and so is what V1 carries.
  const rest = weigh(
    (one) => one.mass,
    bundles.filter(({ bundle }) => bundle !== own[0]!.bundle),
  );
  expect(codes(rest)).toEqual(codes(plan.cautions));
  expect(rest.find(({ code }) => code === 'limit-on-paper')!.text).toContain('take 1 bundle past');
});

test('what follows from masses is told at what the scale said', () => {
  const heavy = weigh((one) => one.mass + 26);
  expect(codes(heavy)).toEqual(expect.arrayContaining(['over-25-kg', 'overloaded']));
  expect(heavy.find(({ code }) => code === 'overloaded')!.text).toContain(
    `${(bundles.reduce((all, { mass }) => all + mass + 26, 0) - 200).toFixed(1)} kg past`,
  );
  const lists = weigh((one) => one.mass + (one.bundle === own[0]!.bundle ? 2000 : 0));
  expect(codes(lists)).toContain('list-passed');
  expect(codes(plan.cautions)).not.toContain('list-passed');
});

test('all else stays as the plan has it, and where nothing was weighed all of it does', () => {
  const still = (cautions: typeof plan.cautions) =>
    cautions.filter(({ code }) => !/on-paper$|^over|^list|missed$|^lift/.test(code));
  expect(still(weigh((one) => one.mass + 26))).toEqual(still(plan.cautions));
  expect(plan.cautions.find(({ code }) => code === 'void-short')?.text).toContain('What binds.');
  const same = cautionsNow(job, plan, new Map());
  expect(new Set(same.map((one) => JSON.stringify(one)))).toEqual(
    new Set(plan.cautions.map((one) => JSON.stringify(one))),
  );
});
