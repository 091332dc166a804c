/** The trial plan once more, in a job that also says what carries it, what is kept free, and two openings. */
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { trialPair } from './trialPlan.ts';

/** V1: two runs on bearers, channels at its sides, a second opening; V2: a channel over the middle of a skew floor. */
export function carriedPair(): { job: Job; plan: Plan } {
  const { job, plan } = trialPair();
  const [v1, v2] = job.voids;
  Object.assign(v1!, {
    bearers: [
      { along: 130, width: 40 },
      { along: 390, width: 30, most: 13.2 },
      { along: 680, width: 20 },
      { along: 773, width: 20, most: 1.43 },
      { along: 866, width: 20 },
    ],
    mostPerMetre: 52,
    drain: { width: 10, height: 30, where: 'sides' },
    opening: { along: 60, across: 40, endFirst: true, deck: 20, at: { along: 100, across: 0 } },
    otherOpenings: [v1!.opening],
  });
  v2!.drain = { width: 8, height: 12, where: 'middle' };
  const trim = ['V1-03', 'V1-04', 'V1-05', 'V1-06', 'V2-02'];
  job.aims.fixedShare = 0.55;
  for (const bundle of plan.bundles) bundle.share = trim.includes(bundle.bundle) ? 'trim' : 'fixed';
  return { job, plan };
}
