/** Pieces tied in bundles. */
// biome-ignore-all lint/suspicious/noAssignInExpressions: a table of changes, one expression each
import { first, jointed, type Mutation, spaceOf } from './mutation.ts';

export const TYING: Mutation[] = [
  ['a piece left out of its bundle', 'piece-untied', (plan) => (plan.bundles[0]!.slots[0] = [])],
  [
    'a piece tied twice',
    'piece-tied-twice',
    (plan) => (plan.bundles.length > 1 ? (plan.bundles[0]!.slots[0] = [...plan.bundles[1]!.slots[0]!]) : false),
  ],
  ['a piece from nowhere', 'piece-unknown', (plan) => (plan.bundles[0]!.slots[0] = ['p9999'])],
  ['a piece cut for another bundle', 'piece-bundle', (plan) => (plan.bars[0]!.pieces[0]!.bundle = 'nowhere')],
  [
    'pieces of two sections in one bundle',
    'piece-section',
    (plan) => {
      const here = plan.bundles[0]!;
      const other = plan.bundles.find((bundle) => JSON.stringify(bundle.section) !== JSON.stringify(here.section));
      return other ? ([here.slots[0], other.slots[0]] = [other.slots[0]!, here.slots[0]!]) : false;
    },
  ],
  ['two bundles of one mark', 'bundle-twice', (plan) => (plan.bundles[1]!.bundle = plan.bundles[0]!.bundle)],
  ['a bundle in no void', 'bundle-void', (plan) => (plan.bundles[0]!.void = 'nowhere')],
  [
    'a bundle of no lot’s section',
    'bundle-section',
    (plan) => (plan.bundles[0]!.section = { shape: 'round', diameter: 99 }),
  ],
  ['a row too many', 'bundle-rows', (plan) => (plan.bundles[0]!.rows += 1)],
  ['a bar drawn that is not tied', 'bundle-rows', (plan) => (plan.bundles[0]!.columns[0]! += 1)],
  [
    'a row of no bars',
    'bundle-rows',
    (plan) => {
      plan.bundles[0]!.columns.push(0);
      plan.bundles[0]!.rows += 1;
    },
  ],
  [
    'rounds stacked square',
    'bundle-arrangement',
    (plan) =>
      first(
        plan,
        (b) => b.arrangement === 'nested' && b.rows > 1,
        (b) => (b.arrangement = 'grid'),
      ),
  ],
  [
    'flat bars nested',
    'bundle-arrangement',
    (plan) =>
      first(
        plan,
        (b) => b.arrangement === 'grid' && !['round', 'tube', 'deformed'].includes(b.section.shape),
        (b) => (b.arrangement = 'nested'),
      ),
  ],
  [
    'the short row at the bottom',
    'bundle-arrangement',
    (plan) =>
      first(
        plan,
        (b) => b.arrangement === 'grid' && b.rows > 1 && b.columns[0] !== b.columns.at(-1),
        (b) => b.columns.reverse(),
      ),
  ],
  [
    'nested rows two bars apart',
    'bundle-arrangement',
    (plan) =>
      first(
        plan,
        (b) => b.arrangement === 'nested' && b.rows > 1,
        (b) => {
          b.columns[0]! += 2;
          b.columns[1]! -= 2;
        },
      ),
  ],
  [
    'rounds laid on edge',
    'bundle-lie',
    (plan) =>
      first(
        plan,
        (b) => ['round', 'square', 'tube', 'deformed'].includes(b.section.shape),
        (b) => (b.onEdge = true),
      ),
  ],
  [
    'more bars than maxBars',
    'bundle-bars',
    (plan, job) => (job.bundle.maxBars = Math.max(...plan.bundles.map((b) => b.slots.length)) - 1),
  ],
  ['a bundle told longer', 'bundle-length', (plan) => (plan.bundles[0]!.length += 1)],
  ['a bundle of broken length', 'bundle-length', (plan) => (plan.bundles[0]!.length += 0.5)],
  [
    'joints where none are allowed',
    'joint-not-allowed',
    (plan, job) => (plan.bundles.some(jointed) ? (job.bundle.joints = null) : false),
  ],
  [
    'joints in more bars than the share',
    'joint-share',
    (plan, job) => (plan.bundles.some(jointed) ? (job.bundle.joints!.share = 0.01) : false),
  ],
  [
    'a jointed piece too short',
    'joint-short',
    (plan, job) => (plan.bundles.some(jointed) ? (job.bundle.joints!.shortest = 2000) : false),
  ],
  [
    'a joint at the end of a row',
    'joint-outer',
    (plan) =>
      first(
        plan,
        (b) => jointed(b) && b.columns[0]! > 2,
        (b) => {
          const at = b.slots.findIndex((slot) => slot.length > 1);
          [b.slots[0], b.slots[at]] = [b.slots[at]!, b.slots[0]!];
        },
      ),
  ],
  ['a bundle told lighter', 'bundle-mass', (plan) => (plan.bundles[0]!.mass -= 0.02)],
  ['lighter steel than was planned with', 'bundle-mass', (_plan, job) => job.pile.map((lot) => (lot.massPerMetre = 1))],
  ['another wrapping', 'bundle-mass', (_plan, job) => (job.bundle.wrapping += 0.1)],
  ['a limit told too high', 'bundle-limit', (plan) => (plan.bundles[0]!.limit += 5)],
  [
    'a lift limit lowered',
    'over-limit',
    (plan, job) => (spaceOf(job, plan.bundles[0]!).limit = plan.bundles[0]!.mass - 0.02),
  ],
  [
    'bundles over the guide forbidden',
    'over-limit',
    (plan, job) => {
      job.lift = { legs: [], forbidHeavy: true };
      for (const space of job.voids) space.handling = { reach: 630, start: 100, end: 1700, perMinute: 7.9, twist: 130 };
      return plan.bundles.some((b) => b.mass > 1.5);
    },
  ],
  ['a bundle told half a millimetre narrower', 'bundle-size', (plan) => (plan.bundles[0]!.size.across -= 0.5)],
  ['a bundle told half a millimetre higher', 'bundle-size', (plan) => (plan.bundles[0]!.size.up += 0.5)],
  ['bars more crooked', 'bundle-size', (_plan, job) => job.pile.map((lot) => (lot.bow += 9))],
  ['a thicker wrap', 'bundle-size', (_plan, job) => (job.bundle.wrap += 1)],
  ['thicker end covers', 'bundle-size', (_plan, job) => (job.bundle.endCover += 1)],
  ['a bundle between half millimetres', 'bundle-place', (plan) => (plan.bundles[0]!.at.across += 0.2)],
  ['a becket of nothing', 'becket', (plan) => (plan.bundles[0]!.becket = 0)],
];
