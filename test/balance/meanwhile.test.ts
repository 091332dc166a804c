/** How she floats while some bundles are out: against the same figures worked out by hand. */
import { describe, expect, test } from 'vitest';
import { meanwhile } from '../../src/balance/meanwhile.ts';
import { weightsAboard } from '../../src/balance/moments.ts';
import type { Job } from '../../src/job/job.ts';
import { trialPair } from '../plan/trialPlan.ts';

const { job: bare, plan } = trialPair();
const VESSEL = {
  displacement: 4000,
  vcg: 1,
  gm: 0.8,
  list: 1,
  waterlineLength: 8,
  beam: 2.4,
  kgPerCm: 20,
  kgmPerCm: 10,
  lcf: 3.8,
};
const job: Job = { ...bare, vessel: VESSEL };
const out = plan.bundles.filter((bundle) => bundle.void === 'V1');

describe('while bundles are out', () => {
  test('the marks go by what is out, list and GM by what stays in', () => {
    const stays = { ...plan, bundles: plan.bundles.filter((bundle) => bundle.void !== 'V1') };
    const [all, left] = [weightsAboard(job, plan), weightsAboard(job, stays)];
    const sum = (of: typeof all, arm: (one: (typeof all)[number]) => number) =>
      of.reduce((total, one) => total + one.mass * arm(one), 0);
    const gone = (arm: (one: (typeof all)[number]) => number) => sum(all, arm) - sum(left, arm);
    const rise = gone(() => 1) / 20;
    const trim = -gone(({ x }) => x - 3.8) / 10;
    const [forward, aft] = [-rise + (trim * 4.2) / 8, -rise - (trim * 3.8) / 8];
    const gmWith = (of: typeof all) => 0.8 + 1 - (4000 + sum(of, ({ z }) => z)) / (4000 + sum(of, () => 1));
    const moment = 4000 * 0.8 * Math.tan(Math.PI / 180) + sum(left, ({ y }) => y);
    const list = (Math.atan(moment / ((4000 + sum(left, () => 1)) * gmWith(left))) * 180) / Math.PI;
    const way = (cm: number) => `${cm < 0 ? 'up' : 'down'} ${Math.abs(cm).toFixed(1)} cm`;
    expect(Math.abs(forward - aft)).toBeGreaterThan(0.5);
    expect(meanwhile(job, plan, out)).toBe(
      `While they are out: ${way(forward)} forward, ${way(aft)} aft, lists ${list.toFixed(1)}° to starboard, GM ${gmWith(left).toFixed(2)} m instead of ${gmWith(all).toFixed(2)} m.`,
    );
  });

  test('a GM that is told the same with them and without is told as it was before', () => {
    expect(meanwhile(job, plan, out.slice(0, 1))).toMatch(/GM 0\.\d\d m as before\.$/);
  });

  test('a GM too little then is told in place of list and GM', () => {
    const told = meanwhile({ ...job, vessel: { ...VESSEL, gm: 0.09, list: 0 } }, plan, out);
    expect(told).toMatch(
      /^While they are out: (up|down) [\d.]+ cm forward, (up|down) [\d.]+ cm aft\. GM is under 0\.10 m/,
    );
  });

  test('nothing is told where nothing comes out, or nothing is stated of her', () => {
    expect(meanwhile(job, plan, [])).toBe('');
    expect(meanwhile({ ...job, vessel: undefined }, plan, out)).toBe('');
    const { kgPerCm, kgmPerCm, lcf, waterlineLength } = VESSEL;
    expect(meanwhile({ ...job, vessel: { kgPerCm, kgmPerCm, lcf, waterlineLength } }, plan, out)).toMatch(
      /^While they are out: [^,]+ forward, [^,]+ aft\.$/,
    );
  });
});
