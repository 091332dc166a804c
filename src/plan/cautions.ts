/**
 * Cautions: what a person must know before acting on a plan. One closed list; each says when it fires and what to do,
 * and nothing here approves anything.
 */
import type { Job, Lot, Void } from '../job/job.ts';
import { barLengths, lotMassPerMetre } from '../job/lot.ts';
import { sectionName } from '../job/section.ts';
import { layVoid, vesselPoint } from '../stow/laid.ts';
import type { Caution, Plan, PlanBundle } from './plan.ts';

/** By code: when it fires, and what to do. DEVELOPERS.md lists the same codes; a test keeps the two alike. */
export const CAUTIONS = {
  'not-secured': {
    when: 'Any bundle is stowed: no hold-down has been worked out for this plan.',
    remedy: 'NOT SECURED, DO NOT GO TO SEA until straps, bolts and bars that carry the loads are fitted and checked.',
  },
  'centre-missed': {
    when: 'The centre of the placed bundles is outside a range asked for.',
    remedy: 'Allow a wider range, or give voids on the other side of it more room, target or rank.',
  },
  'spread-missed': {
    when: 'The r.m.s. distance of the placed mass from the centre of flotation is over the one asked for.',
    remedy: 'Take ballast from the ends: lower the targets there, or allow a greater spread.',
  },
  'void-short': {
    when: 'A void is empty or short of its target while others are filled.',
    remedy: 'See what binds: more or other bars, a greater lift limit, smaller clearances, or less elsewhere.',
  },
  'zinc-fume': {
    when: 'A lot that is cut is zinc coated, or its coating is not known.',
    remedy:
      'Saw cold where you can; with a disc, work in the open or with extraction, head out of the plume, and wear a fume mask. No torch, no welding.',
  },
  'lead-paint': {
    when: 'A lot that is cut is painted, or its coating is not known.',
    remedy:
      'Treat old paint as lead: no dry grinding or burning, a P3 mask, catch the dust, wash before eating. Have it tested.',
  },
  'heavy-bar': {
    when: 'A whole bar of a lot that is cut weighs more than the lift limit of one person.',
    remedy: 'Two people or rollers; support both ends at the saw.',
  },
  'closed-tube': {
    when: 'A lot that is cut is tube or box.',
    remedy:
      'A closed end holds pressure, liquid or vapour: drill a vent hole before sawing, and keep the face away from it.',
  },
  'cut-ends': {
    when: 'Anything is cut.',
    remedy:
      'Deburr every cut end and coat it (zinc-rich paint) before it is tied; let it dry. Bundles bite hands and hulls.',
  },
  'wrap-holds-water': {
    when: 'Bundles are wrapped.',
    remedy:
      'A full wrap holds salt water against the steel: use two or three bands instead, unless the wrap is sure to stay dry.',
  },
  'over-25-kg': {
    when: 'A bundle weighs more than 25 kg.',
    remedy: 'Two people or a mechanical aid; check what the local authority and your own back allow.',
  },
  'aluminium-hull': {
    when: 'The hull is stated to be of aluminium.',
    remedy:
      'Steel eats aluminium where salt water joins them: no metal contact, a closed barrier that holds no water; better not at all. Ask the yard.',
  },
  'vessel-unknown': {
    when: 'The job gives no displacement of a vessel.',
    remedy:
      'The effect on the vessel is not known: give her displacement, and let a competent person judge stability and freeboard.',
  },
  overloaded: {
    when: 'The ballast placed is more than displacementMost less displacement.',
    remedy: 'Lower the ballast asked for or the targets; she would be heavier than stated to be safe.',
  },
  compass: {
    when: 'Any bundle is stowed.',
    remedy:
      'Steel below swings a compass and heading sensors: have the compass swung, read the marks, and tell the yard her new weight before the next lift-out.',
  },
} as const;

export type CautionCode = keyof typeof CAUTIONS;

/** Above this a bundle is called out whatever its limit, kg. */
const HEAVY_BUNDLE = 25;
/** Centres are told to the millimetre: less than half of one is no miss, m. */
const HALF_MILLIMETRE = 0.0005;

/** A plan before its cautions are known. */
export type PlanToCaution = Pick<Plan, 'bars' | 'bundles' | 'voids'>;

/**
 * The cautions of a plan, in the order of the list. `why` may say what binds in a void that is short, as a full sentence.
 */
export function cautionsOf(job: Job, plan: PlanToCaution, why?: (space: string) => string | undefined): Caution[] {
  if (plan.bundles.length === 0) return [];
  const cut = new Set(plan.bars.map((bar) => bar.lot));
  const lots = job.pile.filter((lot) => cut.has(lot.lot));
  return [
    tell('not-secured', 'the whole plan', 'No hold-down is worked out.'),
    ...centreCautions(job, plan),
    ...shortCautions(job, plan, why),
    ...lots.flatMap((lot) => coatingCautions(lot)),
    ...lots.flatMap((lot) => barCautions(job, lot)),
    ...(lots.length > 0 ? [tell('cut-ends', 'every piece', 'Cut ends are bare steel, and sharp.')] : []),
    ...(job.bundle.wrap > 0
      ? [tell('wrap-holds-water', 'every bundle', `Bundles are reckoned with ${job.bundle.wrap} mm of wrap.`)]
      : []),
    ...plan.bundles.filter((bundle) => bundle.mass > HEAVY_BUNDLE).map(heavyBundle),
    ...vesselCautions(job, plan),
    tell('compass', 'the vessel', 'Steel is placed in her.'),
  ];
}

function tell(code: CautionCode, about: string, text: string): Caution {
  return { code, about, text: `${text} ${CAUTIONS[code].remedy}` };
}

function massOf(bundles: PlanBundle[]): number {
  return bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
}

/** Centre and spread as the format page defines them: `mass` of each bundle at the middle of its `size`. */
function centreCautions(job: Job, plan: PlanToCaution): Caution[] {
  const { centre: asked, spread: askedSpread } = job.aims;
  if (!asked && askedSpread === undefined) return [];
  const voids = new Map(job.voids.map((space) => [space.void, space]));
  const axes = new Map(plan.voids.map((told) => [told.void, told.axis]));
  const mass = massOf(plan.bundles);
  const centre = { x: 0, y: 0, z: 0 };
  let second = 0;
  const lcf = job.vessel?.lcf;
  for (const bundle of plan.bundles) {
    const middle = middleOf(voids.get(bundle.void)!, axes.get(bundle.void), bundle);
    for (const axis of ['x', 'y', 'z'] as const) centre[axis] += (bundle.mass * middle[axis]) / mass;
    const off = middle.x - (lcf ?? 0);
    second += bundle.mass * off * off;
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

function middleOf(
  space: Void,
  axis: string | undefined,
  { at, size }: PlanBundle,
): { x: number; y: number; z: number } {
  const ways = layVoid(space);
  const laid = ways.find((way) => way.axis === axis) ?? ways[0]!;
  return vesselPoint(laid, at.along + size.along / 2, at.across + size.across / 2, at.up + size.up / 2);
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
        : `${space.void} holds ${mass.toFixed(1)} kg, ${short.toFixed(1)} kg short of its target.`;
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
  const { limit } = job.bundle;
  if (mass > limit)
    cautions.push(
      tell('heavy-bar', about, `A whole bar weighs up to ${mass.toFixed(1)} kg; one person lifts ${limit} kg.`),
    );
  if (lot.section.shape === 'tube' || lot.section.shape === 'box')
    cautions.push(tell('closed-tube', about, `The bars are ${sectionName(lot.section)}.`));
  return cautions;
}

function heavyBundle(bundle: PlanBundle): Caution {
  return tell('over-25-kg', `bundle ${bundle.bundle}`, `The bundle weighs ${bundle.mass} kg.`);
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
  const over = massOf(plan.bundles) - ((vessel.displacementMost ?? Number.POSITIVE_INFINITY) - vessel.displacement);
  if (over > 0.01) {
    const most = `displacementMost ${vessel.displacementMost} kg`;
    cautions.push(tell('overloaded', 'the vessel', `The ballast takes her ${over.toFixed(1)} kg past ${most}.`));
  }
  return cautions;
}
