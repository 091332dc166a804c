/** The trial with everything fitted that a void may have: bearers, a drain, further openings, fixed contents, two shares. */
import { type Job, type JobInput, jobSchema } from '../../../src/job/job.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { withShares } from '../../../src/plan/share.ts';
import { trialJobInput, trialPair } from '../../plan/trialPlan.ts';

/** For papers, which print what they are given: whether this plan keeps the bearers’ loads is not asked. */
export function fittedPair(): { job: Job; plan: Plan } {
  const input: JobInput = trialJobInput();
  const [first, ...others] = input.voids;
  const space: JobInput['voids'][number] = {
    ...first!,
    opening: { ...first!.opening!, at: { along: 500, across: 10 } },
    otherOpenings: [{ along: 300, across: 150, at: { along: 850, across: 0 } }],
    bearers: [
      { along: 60, width: 50, most: 60 },
      { along: 260, width: 50 },
      { along: 460, width: 60, most: 80 },
      { along: 660, width: 50 },
      { along: 900, width: 50, most: 25 },
    ],
    mostPerMetre: 90,
    drain: { width: 40, height: 10, where: 'middle' },
    keepOut: [{ ...first!.keepOut![0]!, mass: 12.5 }],
  };
  const vessel = { ...input.vessel, gm: 0.5 };
  const job = jobSchema.parse({ ...input, voids: [space, ...others], vessel, aims: { ...input.aims, listMost: 1.5 } });
  const { plan } = trialPair();
  return { job, plan: { ...plan, bundles: withShares(plan, 0.8) } };
}
