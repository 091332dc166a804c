/** Bundles on their bearers, beside the drain, through several openings; the fixed and the trim part. */
// biome-ignore-all lint/suspicious/noAssignInExpressions: a table of changes, one expression each
import type { Job } from '../../../src/job/job.ts';
import { filled, first, type Mutation, spaceOf, upper } from './mutation.ts';

const borne = (job: Job) => job.voids.find((space) => space.bearers);
const drained = (job: Job, where: string) => job.voids.find((space) => space.drain?.where === where);

export const CARRYING: Mutation[] = [
  ['a bearer that is not there', 'not-on-bearers', (_, job) => borne(job)?.bearers?.shift() ?? false],
  [
    'a bearer a little further from the end',
    'not-on-bearers',
    (_, job) => {
      const [bearer] = borne(job)?.bearers ?? [];
      return bearer ? (bearer.along += 6) : false;
    },
  ],
  [
    'bearers under one half only',
    'not-on-bearers',
    (_, job) => {
      const space = borne(job);
      return space ? (space.bearers = space.bearers!.map((bearer) => ({ ...bearer, along: bearer.along / 2 }))) : false;
    },
  ],
  [
    'a weaker bearer',
    'over-bearer',
    (_, job) => {
      const bearer = borne(job)?.bearers?.find((each) => each.most !== undefined);
      return bearer ? (bearer.most! -= 0.1) : false;
    },
  ],
  [
    'a weaker bearer between two others',
    'over-bearer',
    (_, job) => {
      const bearer = borne(job)?.bearers?.filter((each) => each.most !== undefined)[1];
      return bearer ? (bearer.most! -= 0.03) : false;
    },
  ],
  [
    'a weaker floor',
    'over-metre',
    (plan, job) => {
      const run = plan.runs[0]!;
      const own = plan.bundles.filter((bundle) => bundle.void === run.void && bundle.run === run.run);
      const mass = own.reduce((sum, bundle) => sum + bundle.mass, 0);
      spaceOf(job, own[0]!).mostPerMetre = (1000 * (mass - 0.1)) / (run.to - run.from);
    },
  ],
  [
    'a drain under a bundle',
    'drain',
    (plan, job) => {
      const bundle = plan.bundles[0]!;
      spaceOf(job, bundle).drain = { width: 5000, height: bundle.at.up + 1, where: 'middle' };
    },
  ],
  [
    'a wider drain at the sides',
    'drain',
    (_, job) => {
      const drain = drained(job, 'sides')?.drain;
      return drain ? (drain.width += 1) : false;
    },
  ],
  [
    'a higher drain in the middle',
    'drain',
    (_, job) => {
      const drain = drained(job, 'middle')?.drain;
      return drain ? (drain.height += 1) : false;
    },
  ],
  [
    'the wider of two openings closed',
    'opening',
    (_, job) => {
      const space = job.voids.find((each) => each.otherOpenings);
      return space ? (space.otherOpenings = undefined) : false;
    },
  ],
  [
    'a bundle of the fixed part after the trim part',
    'share',
    (plan) => {
      const told = plan.bundles.filter((bundle) => bundle.void === filled(plan).void && bundle.share);
      const last = told.reduce<(typeof told)[number] | null>((p, q) => (p && p.order > q.order ? p : q), null);
      return last ? (last.share = 'fixed') : false;
    },
  ],
  [
    'a fixed part over the share',
    'share',
    (plan, job) => (plan.bundles.some((bundle) => bundle.share) ? (job.aims.fixedShare = 0.3) : false),
  ],
  [
    'a trim part with too much',
    'share',
    (plan, job) => (plan.bundles.some((bundle) => bundle.share) ? (job.aims.fixedShare = 0.95) : false),
  ],
  [
    'a bundle that is neither',
    'share',
    (plan) =>
      first(
        plan,
        (bundle) => upper(bundle) && bundle.share !== undefined,
        (bundle) => delete bundle.share,
      ),
  ],
];
