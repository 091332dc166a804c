/** What the plan tells of itself in sums. */
// biome-ignore-all lint/suspicious/noAssignInExpressions: a table of changes, one expression each
import { filled, type Mutation, spaceOf } from './mutation.ts';

export const SUMMING: Mutation[] = [
  ['a void not told', 'void-told', (plan) => plan.voids.pop()],
  ['a void told twice', 'void-told', (plan) => plan.voids.push(plan.voids[0]!)],
  ['a void told that is not there', 'void-told', (plan) => plan.voids.push({ ...plan.voids[0]!, void: 'nowhere' })],
  ['a void told heavier', 'void-mass', (plan) => (filled(plan).mass += 0.5)],
  [
    'an empty void told full',
    'void-mass',
    (plan) => {
      const empty = plan.voids.find((space) => space.bundles === 0);
      return empty ? Object.assign(empty, { mass: 20, bundles: 3 }) : false;
    },
  ],
  ['a bundle too many told of a void', 'void-mass', (plan) => (filled(plan).bundles += 1)],
  ['a fill over 1', 'void-fill', (plan) => (filled(plan).fill = 1.01)],
  ['a void’s centre 5 mm off', 'void-centre', (plan) => (filled(plan).centre!.y += 0.005)],
  ['a void with no centre', 'void-centre', (plan) => (filled(plan).centre = null)],
  [
    'a most that is passed',
    'over-most',
    (plan, job) => (job.voids.find((space) => space.void === filled(plan).void)!.most = filled(plan).mass - 0.1),
  ],
  [
    'a target passed by a bundle',
    'over-target',
    (plan, job) => {
      const own = plan.bundles.filter((b) => b.void === filled(plan).void).map((b) => b.mass);
      job.voids.find((space) => space.void === filled(plan).void)!.target = filled(plan).mass - Math.min(...own) - 0.2;
    },
  ],
  [
    'a ballast passed by a bundle',
    'over-ballast',
    (plan, job) => {
      const masses = plan.bundles.map((b) => b.mass);
      job.aims.ballast = Math.max(0, masses.reduce((sum, mass) => sum + mass, 0) - Math.min(...masses) - 0.4);
    },
  ],
  ['fewer stops asked for', 'over-stops', (plan, job) => (job.aims.stopsAtMost = plan.totals.stops - 1)],
  ['stock told lighter', 'totals', (plan) => (plan.totals.stockMass -= 0.1)],
  ['scrap told lighter', 'totals', (plan) => (plan.totals.scrapMass -= 0.1)],
  ['a cut not counted', 'totals', (plan) => (plan.totals.cuts -= 1)],
  ['a stop not counted', 'totals', (plan) => (plan.totals.stops -= 1)],
  ['a piece not counted', 'totals', (plan) => (plan.totals.pieces -= 1)],
  ['two minutes not counted', 'totals', (plan) => (plan.totals.minutes -= 2)],
  ['a slower saw', 'totals', (_plan, job) => (job.saw.minutesPerCut += 1)],
  ['steel lost', 'mass-lost', (plan) => (plan.totals.placedMass += 0.2)],
  ['the centre 5 mm off', 'centre', (plan) => (plan.centre!.z += 0.005)],
  ['no centre', 'centre', (plan) => (plan.centre = null)],
  ['a void that lies elsewhere', 'centre', (plan, job) => (spaceOf(job, plan.bundles[0]!).origin.x += 1)],
  [
    'a centre missed and not told',
    'centre-untold',
    (plan, job) => (job.aims.centre = { x: [plan.centre!.x + 0.01, 99] }),
  ],
  [
    'a spread missed and not told',
    'spread-untold',
    (plan, job) => {
      job.vessel = { ...job.vessel, lcf: plan.centre!.x - 3 };
      job.aims.spread = 2;
    },
  ],
  [
    'a gap told half a percent too small',
    'bound',
    ({ bound }) => Object.assign(bound, { valueAtMost: 1.1 * bound.value, gap: 1 - 1 / 1.1 - 0.005 }),
  ],
  ['a value told too high', 'value', (plan) => (plan.bound.value += 0.5)],
  ['dearer labour', 'value', (_plan, job) => (job.aims.kgPerHour += 5)],
  [
    'a bound below the value',
    'bound',
    (plan) => Object.assign(plan.bound, { valueAtMost: plan.bound.value - 1, gap: 0 }),
  ],
  [
    'a gap that is not the bound’s',
    'bound',
    (plan) => Object.assign(plan.bound, { valueAtMost: Math.abs(plan.bound.value) * 2, gap: 0.1 }),
  ],
  ['a gap without a bound', 'bound', (plan) => Object.assign(plan.bound, { valueAtMost: null, gap: 0 })],
];
