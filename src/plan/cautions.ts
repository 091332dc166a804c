/** Which cautions a plan carries. */
import type { Job, Lot, Void } from '../job/job.ts';
import { barLengths, lotMassPerMetre } from '../job/lot.ts';
import { sectionName } from '../job/section.ts';
import { wholeBarLimit } from '../lift/limit.ts';
import { layVoid, middlePoint } from '../stow/laid.ts';
import { fixed } from '../units.ts';
import { tell } from './cautionList.ts';
import { stillCarries } from './contents.ts';
import { liftCautions } from './liftCautions.ts';
import { atMassNow, type WeighedMasses } from './massNow.ts';
import type { Caution, Plan, PlanBundle } from './plan.ts';
import { voidCautions } from './voidCautions.ts';

/** Centres are told to the millimetre: less than half of one is no miss, m. */
const HALF_MILLIMETRE = 0.0005;

/** A plan before its cautions are known. */
export type PlanToCaution = Pick<Plan, 'bars' | 'bundles' | 'voids'>;

/**
 * The cautions of a plan, in the order of the list. `why` may say what binds in a void that is short, as a full sentence;
 * `masses`: of every bundle before rounding, kg, where they are known: a hundredth of a kilogram moves the centre of a
 * light stow by more than a millimetre. `weighed`: of bundles off the scale, kg.
 */
export function cautionsOf(
  job: Job,
  plan: PlanToCaution,
  why?: (space: string) => string | undefined,
  masses?: ReadonlyMap<string, number>,
  weighed: WeighedMasses = new Map(),
): Caution[] {
  if (plan.bundles.length === 0) return [];
  const now = weighed.size === 0 ? plan : { ...plan, bundles: atMassNow(plan.bundles, weighed) };
  const cut = new Set(plan.bars.map((bar) => bar.lot));
  const lots = job.pile.filter((lot) => cut.has(lot.lot));
  return [
    tell('not-secured', 'the whole plan', heldText(job, plan)),
    ...centreCautions(job, now, (bundle) => masses?.get(bundle.bundle) ?? bundle.mass),
    ...shortCautions(job, plan, why),
    ...voidCautions(job, plan, weighed),
    ...lots.flatMap((lot) => coatingCautions(lot)),
    ...lots.flatMap((lot) => barCautions(job, lot)),
    ...(lots.length > 0 ? [tell('cut-ends', 'every piece', 'Cut ends are bare steel, and sharp.')] : []),
    ...(job.bundle.wrap > 0
      ? [tell('wrap-holds-water', 'every bundle', `Bundles are reckoned with ${job.bundle.wrap} mm of wrap.`)]
      : []),
    ...liftCautions(job, now, weighed),
    ...vesselCautions(job, now),
    tell('compass', 'the vessel', 'Steel is placed in her.'),
  ];
}

/** What follows from the masses of bundles; how far a void is short of its target stays as it was planned. */
const BY_MASS: ReadonlySet<string> = new Set([
  'centre-missed',
  'spread-missed',
  'most-on-paper',
  'list-passed',
  'over-25-kg',
  'over-guide',
  'limit-on-paper',
  'lift-outside-method',
  'lift-unknown',
  'overloaded',
]);

/** The cautions of a plan whose bundles were weighed, kg in `weighed`: those that follow from masses by the scale, the others as they are. */
export function cautionsNow(job: Job, plan: Plan, weighed: WeighedMasses): Caution[] {
  const now = cautionsOf(job, plan, undefined, undefined, weighed);
  return [...plan.cautions.filter(({ code }) => !BY_MASS.has(code)), ...now.filter(({ code }) => BY_MASS.has(code))];
}

/** Whether a hold-down carries its loads is not the plan's to say; which voids have none entered is. */
function heldText(job: Job, plan: PlanToCaution): string {
  const filled = new Set(plan.bundles.map((bundle) => bundle.void));
  const open = job.voids.filter((space) => filled.has(space.void) && !space.holdDown).map((space) => space.void);
  if (open.length === 0) return 'What holds it down is entered, and not worked out here.';
  return `No hold-down is worked out for ${open.join(', ')}.`;
}

function massOf(bundles: PlanBundle[]): number {
  return bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
}

/** Centre and spread as the format page defines them: the mass of each bundle at the middle of its `size`. */
function centreCautions(job: Job, plan: PlanToCaution, weigh: (bundle: PlanBundle) => number): Caution[] {
  const { centre: asked, spread: askedSpread } = job.aims;
  if (!asked && askedSpread === undefined) return [];
  const voids = new Map(job.voids.map((space) => [space.void, space]));
  const axes = new Map(plan.voids.map((told) => [told.void, told.axis]));
  const mass = plan.bundles.reduce((sum, bundle) => sum + weigh(bundle), 0);
  const centre = { x: 0, y: 0, z: 0 };
  let second = 0;
  const lcf = job.vessel?.lcf;
  for (const bundle of plan.bundles) {
    const middle = middleOf(voids.get(bundle.void)!, axes.get(bundle.void), bundle);
    for (const axis of ['x', 'y', 'z'] as const) centre[axis] += (weigh(bundle) * middle[axis]) / mass;
    const off = middle.x - (lcf ?? 0);
    second += weigh(bundle) * off * off;
  }
  const cautions: Caution[] = [];
  for (const axis of ['x', 'y', 'z'] as const) {
    const [from, to] = asked?.[axis] ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    const off = Math.max(from - centre[axis], centre[axis] - to);
    if (off <= HALF_MILLIMETRE) continue;
    const text = `The centre lies at ${axis} = ${centre[axis].toFixed(3)} m, ${off.toFixed(3)} m outside ${from} … ${to}.`;
    cautions.push(tell('centre-missed', `centre ${axis}`, text));
  }
  const spread = Math.sqrt(second / mass);
  if (askedSpread !== undefined && lcf !== undefined && spread > askedSpread + HALF_MILLIMETRE) {
    const over = (spread - askedSpread).toFixed(3);
    cautions.push(
      tell('spread-missed', 'spread', `The spread is ${spread.toFixed(3)} m, ${over} m over ${askedSpread} m.`),
    );
  }
  return cautions;
}

function middleOf(space: Void, axis: string | undefined, bundle: PlanBundle): { x: number; y: number; z: number } {
  const ways = layVoid(space);
  const laid = ways.find((way) => way.axis === axis) ?? ways[0]!;
  return middlePoint(laid, bundle);
}

function shortCautions(job: Job, plan: PlanToCaution, why?: (space: string) => string | undefined): Caution[] {
  const held = new Map<string, number>();
  for (const bundle of plan.bundles) held.set(bundle.void, (held.get(bundle.void) ?? 0) + bundle.mass);
  return job.voids.flatMap((space): Caution[] => {
    const mass = held.get(space.void) ?? 0;
    const short = (space.target ?? 0) - mass;
    // A void that was asked to stay empty is not short.
    if (space.target === 0 || space.most === 0 || (mass > 0 && short <= 0.01)) return [];
    const binds = why?.(space.void);
    const state =
      mass === 0
        ? `${space.void} is left empty.`
        : `${space.void} holds ${fixed(mass, 1)} kg, ${fixed(short, 1)} kg short of its target.`;
    return [tell('void-short', `void ${space.void}`, binds === undefined ? state : `${state} ${binds}`)];
  });
}

function coatingCautions(lot: Lot): Caution[] {
  const about = `pile lot ${lot.lot}`;
  const unknown = lot.coating === 'unknown';
  const cautions: Caution[] = [];
  if (lot.coating === 'zinc' || unknown)
    cautions.push(
      tell(
        'zinc-fume',
        about,
        `${unknown ? 'The coating is not known and may be zinc' : 'The bars are zinc coated'}; cutting heat turns zinc to fume.`,
      ),
    );
  if (lot.coating === 'paint' || unknown)
    cautions.push(
      tell(
        'lead-paint',
        about,
        unknown ? 'The coating is not known and may be lead paint.' : 'The paint may hold lead.',
      ),
    );
  return cautions;
}

function barCautions(job: Job, lot: Lot): Caution[] {
  const cautions: Caution[] = [];
  const about = `pile lot ${lot.lot}`;
  const longest = barLengths(lot).reduce((most, length) => Math.max(most, length), 0);
  const mass = (longest * lotMassPerMetre(lot, job.steel.density)) / 1000;
  const limit = wholeBarLimit(job);
  if (mass > limit)
    cautions.push(
      tell(
        'heavy-bar',
        about,
        `A whole bar weighs up to ${fixed(mass, 1)} kg; one person lifts ${Math.floor(limit * 10 + 1e-9) / 10} kg.`,
      ),
    );
  if (lot.section.shape === 'tube' || lot.section.shape === 'box')
    cautions.push(tell('closed-tube', about, `The bars are ${sectionName(lot.section)}.`));
  return cautions;
}

function vesselCautions(job: Job, plan: PlanToCaution): Caution[] {
  const { vessel } = job;
  const cautions: Caution[] = [];
  if (/alumin/i.test(vessel?.hull ?? ''))
    cautions.push(tell('aluminium-hull', 'the hull', 'The hull is of aluminium.'));
  if (vessel?.displacement === undefined) {
    cautions.push(tell('vessel-unknown', 'the vessel', 'No displacement is given.'));
    return cautions;
  }
  const over = -stillCarries(job, massOf(plan.bundles));
  if (over > 0.01) {
    const most = `displacementMost ${vessel.displacementMost} kg`;
    cautions.push(tell('overloaded', 'the vessel', `The ballast takes her ${fixed(over, 1)} kg past ${most}.`));
  }
  return cautions;
}
