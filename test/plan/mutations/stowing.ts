/** Bundles in their voids and against each other. */
// biome-ignore-all lint/suspicious/noAssignInExpressions: a table of changes, one expression each
import type { Job, Opening } from '../../../src/job/job.ts';
import type { Plan } from '../../../src/plan/plan.ts';
import { filled, first, type Mutation, neighbours, spaceOf, upper } from './mutation.ts';

/** Leaves the void of the first bundle with this opening alone. */
const openOnly = (job: Job, plan: Plan, opening: Opening) =>
  Object.assign(spaceOf(job, plan.bundles[0]!), { opening, otherOpenings: undefined });

export const STOWING: Mutation[] = [
  [
    'an axis the job does not have',
    'void-axis',
    (plan, job) =>
      (filled(plan).axis =
        job.voids.find((space) => space.void === filled(plan).void)!.axis === 'athwartships'
          ? 'fore-and-aft'
          : 'athwartships'),
  ],
  [
    'a run that begins in the end clearance',
    'outside-ends',
    (plan) => plan.bundles.filter((b) => b.run === 1).map((b) => (b.at.along = 0.5 - 2)),
  ],
  ['a shorter void', 'outside-ends', (plan, job) => (spaceOf(job, plan.bundles[0]!).clear.ends += 300)],
  ['a bundle through the side', 'outside-sides', (plan) => (plan.bundles[0]!.at.across -= 300)],
  ['wider side clearances', 'outside-sides', (plan, job) => (spaceOf(job, plan.bundles[0]!).clear.sides += 60)],
  ['a lower void', 'outside-top', (plan, job) => (spaceOf(job, plan.bundles[0]!).clear.top += 200)],
  ['thicker dunnage', 'below-bottom', (plan, job) => (spaceOf(job, plan.bundles[0]!).dunnage += 3)],
  [
    'a bolt under a bundle',
    'keep-out',
    (plan, job) => {
      const { at, void: name } = plan.bundles[0]!;
      job.voids.find((space) => space.void === name)!.keepOut = [
        { along: [at.along + 5, at.along + 9], across: [at.across + 5, at.across + 9], up: [0, 2], access: true },
      ];
    },
  ],
  [
    'a pipe through a bundle',
    'keep-out',
    (plan, job) => {
      const { at, void: name } = plan.bundles[0]!;
      job.voids.find((space) => space.void === name)!.keepOut = [
        { along: [0, 5000], across: [at.across + 5, at.across + 9], up: [at.up + 2, at.up + 4], access: false },
      ];
    },
  ],
  [
    'a bulkhead of no thickness through a bundle',
    'keep-out',
    (plan, job) => {
      const { at, size, void: name } = plan.bundles[0]!;
      const along = at.along + size.along / 2;
      job.voids.find((space) => space.void === name)!.keepOut = [
        { along: [along, along], across: [-5000, 5000], up: [0, 5000], access: true },
      ];
    },
  ],
  [
    'a shelf of no thickness through a bundle',
    'keep-out',
    (plan, job) => {
      const { at, size, void: name } = plan.bundles[0]!;
      const up = at.up + size.up / 2;
      job.voids.find((space) => space.void === name)!.keepOut = [
        { along: [0, 5000], across: [-5000, 5000], up: [up, up], access: false },
      ];
    },
  ],
  [
    'a hatch too small',
    'opening',
    (plan, job) => openOnly(job, plan, { along: 60, across: 400, endFirst: true, deck: 0 }),
  ],
  [
    'a hatch too narrow',
    'opening',
    (plan, job) => openOnly(job, plan, { along: 9000, across: 10, endFirst: true, deck: 0 }),
  ],
  [
    'a hatch that wants them flat',
    'opening',
    (plan, job) =>
      openOnly(job, plan, { along: plan.bundles[0]!.size.along - 1, across: 900, endFirst: false, deck: 0 }),
  ],
  [
    'two bundles in one place',
    'overlap',
    (plan) => {
      const pair = neighbours(plan);
      return pair ? (pair[1].at.across = pair[0].at.across) : false;
    },
  ],
  ['a bundle sunk into the one below', 'overlap', (plan) => first(plan, upper, (b) => (b.at.up -= 10))],
  [
    'no finger room',
    'gap-across',
    (plan, job) => {
      const pair = neighbours(plan);
      return pair ? (spaceOf(job, pair[0]).gap.across += 500) : false;
    },
  ],
  [
    'runs too close',
    'gap-runs',
    (plan, job) => (plan.runs.some((run) => run.run > 1) ? job.voids.map((space) => (space.gap.runs += 200)) : false),
  ],
  [
    'a run that begins ragged',
    'run-start',
    (plan) => {
      const pair = neighbours(plan);
      return pair ? (pair[0].at.along += 2.5) : false;
    },
  ],
  [
    'a saw that allows no difference in length',
    'run-length',
    (plan, job) => {
      const differ = plan.bundles.some((b) =>
        plan.bundles.some((c) => c.void === b.void && c.run === b.run && c.length !== b.length),
      );
      return differ && Object.assign(job.saw, { tolerance: 0 });
    },
  ],
  ['runs numbered with a hole', 'run-number', (plan) => [...plan.bundles, ...plan.runs].map((each) => (each.run += 1))],
  [
    'runs numbered backwards',
    'run-number',
    (plan) => {
      const space = plan.runs.find((run) => run.run === 2)?.void;
      if (space === undefined) return false;
      const swap = (each: { void: string; run: number }) =>
        each.void === space && each.run < 3 ? (each.run = 3 - each.run) : undefined;
      plan.bundles.map(swap);
      plan.runs.map(swap);
    },
  ],
  ['a run not told', 'run-told', (plan) => plan.runs.pop()],
  ['a run told twice', 'run-told', (plan) => plan.runs.push(plan.runs[0]!)],
  ['a run told that is not there', 'run-told', (plan) => plan.runs.push({ ...plan.runs[0]!, run: 99 })],
  ['a run told in the wrong place', 'run-told', (plan) => (plan.runs[0]!.from += 1)],
  ['packing told too low', 'packing', (plan) => (plan.runs[0]!.packing[1] -= 1.1)],
  [
    'a tier of two heights',
    'tier-mixed',
    (plan) => {
      const pair = neighbours(plan);
      return pair ? (pair[1].at.up += 1) : false;
    },
  ],
  [
    'a ground tier numbered 2',
    'tier-number',
    (plan) =>
      first(
        plan,
        (b) => b.tier === 1,
        (b) => (b.tier = 2),
      ),
  ],
  ['an upper tier numbered 1', 'tier-number', (plan) => first(plan, upper, (b) => (b.tier = 1))],
  ['a bundle in the air', 'not-carried', (plan) => first(plan, upper, (b) => (b.at.up += 2.5))],
  [
    'orders that repeat',
    'order',
    (plan) =>
      first(
        plan,
        (b) => b.order > 1,
        (b) => (b.order -= 1),
      ),
  ],
  ['orders beyond the number of bundles', 'order', (plan) => (plan.bundles[0]!.order = 999)],
  [
    'an upper bundle first',
    'order',
    (plan) =>
      first(plan, upper, (b) => {
        const last = plan.bundles.find((other) => other.void === b.void && other.order === 1)!;
        [b.order, last.order] = [last.order, b.order];
      }),
  ],
];
