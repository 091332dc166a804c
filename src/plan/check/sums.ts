/** What the plan says of itself in sums: voids, totals, centre, aims, value, bound. */
import type { Job } from '../../job/job.ts';
import type { Plan, PlanVoid } from '../plan.ts';
import type { Cutting } from './bars.ts';
import type { Tied } from './bundles.ts';
import { DUST_KG, figure, type Tell } from './planFault.ts';
import { inVessel, type LaidVoid } from './space.ts';

/** Told masses are rounded to 0.01 kg, centres to 0.001 m; a rounded sum may differ from a sum of rounded parts. */
const KG = 0.011;
const METRES = 0.0011;
/** A cap passed by so little less than a bundle is passed by all of it: the dust of adding up, kg. */
const WHOLE = 1e-7;
/** Told minutes may be rounded to whole ones. */
const MINUTES = 0.51;

interface Point {
  x: number;
  y: number;
  z: number;
}

/** Checks what is told of one void. */
export function checkVoid(space: LaidVoid, bundles: Tied[], told: PlanVoid[], tell: Tell): void {
  const about = `void ${space.void}`;
  const [only] = told;
  const mass = massOf(bundles);
  checkCaps(space, bundles, mass, tell);
  if (!only || told.length !== 1) {
    tell('void-told', about, `${about} is told ${told.length} times.`);
    return;
  }
  if (!(Math.abs(only.mass - mass) <= KG + 0.005 * bundles.length))
    tell('void-mass', about, `${about} says ${only.mass} kg and holds ${figure(mass)}.`, Math.abs(only.mass - mass));
  if (only.bundles !== bundles.length)
    tell('void-mass', about, `${about}: bundles is told ${only.bundles}, it is ${bundles.length}.`);
  if (!(only.fill >= 0 && only.fill <= 1)) tell('void-fill', about, `${about} says its fill is ${only.fill}.`);
  if (only.axis !== undefined && only.axis !== space.axis)
    tell('void-axis', about, `${about} is told ${only.axis}; the job says ${space.stated.axis}.`);
  if (bundles.length > 0) checkCentre('void-centre', about, only.centre, centreOf(bundles), tell);
}

function checkCaps(space: LaidVoid, bundles: Tied[], mass: number, tell: Tell): void {
  const { most, target } = space.stated;
  const about = `void ${space.void}`;
  if (most !== undefined && mass > most + DUST_KG)
    tell('over-most', about, `${about} holds ${figure(mass, most)} kg, its most is ${most}.`, mass - most);
  if (target !== undefined && passesByBundle(bundles, target)) {
    const text = `${about} holds ${figure(mass)} kg, past its target ${target} by a whole bundle.`;
    tell('over-target', about, text, mass - target);
  }
}

/** True where bundles pass a cap by as much as the lightest of them weighs, or more. */
function passesByBundle(bundles: Tied[], cap: number): boolean {
  return massOf(bundles) - lightest(bundles) - cap > -WHOLE;
}

function massOf(bundles: Tied[]): number {
  return bundles.reduce((sum, tied) => sum + tied.mass, 0);
}

function lightest(bundles: Tied[]): number {
  return bundles.reduce((least, tied) => Math.min(least, tied.mass), Number.POSITIVE_INFINITY);
}

/** The middle of a bundle's size, m in the vessel. */
function middleOf({ space, along, across, up }: Tied): Point {
  return inVessel(space, (along[0] + along[1]) / 2, (across[0] + across[1]) / 2, (up[0] + up[1]) / 2);
}

function centreOf(bundles: Tied[]): Point {
  const sum = { x: 0, y: 0, z: 0 };
  const mass = massOf(bundles);
  for (const tied of bundles) {
    const middle = middleOf(tied);
    for (const axis of ['x', 'y', 'z'] as const) sum[axis] += (tied.mass * middle[axis]) / mass;
  }
  return sum;
}

function checkCentre(
  code: 'centre' | 'void-centre',
  about: string,
  told: Point | null,
  counted: Point,
  tell: Tell,
): void {
  if (!told) {
    tell(code, about, `${about}: its centre is not told.`);
    return;
  }
  for (const axis of ['x', 'y', 'z'] as const) {
    const off = Math.abs(told[axis] - counted[axis]);
    if (!(off <= METRES))
      tell(code, about, `${about}: centre ${axis} is told ${told[axis]} m, it is ${counted[axis].toFixed(4)}.`, off);
  }
}

/** Checks totals, centre, aims, value and bound of the whole plan. */
export function checkSums(job: Job, plan: Plan, cutting: Cutting, bundles: Tied[], tell: Tell): void {
  const { totals } = plan;
  const { wrapping } = job.bundle;
  const steel = bundles.reduce((sum, tied) => sum + tied.mass - wrapping, 0);
  const masses: [keyof Plan['totals'], number][] = [
    ['stockMass', cutting.stock],
    ['placedMass', steel],
    ['keptMass', cutting.kept],
    ['scrapMass', cutting.scrap],
    ['kerfMass', cutting.kerf],
    ['squaringMass', cutting.squaring],
    ['spoiledMass', cutting.spoiled],
  ];
  for (const [field, mass] of masses) {
    const off = Math.abs(totals[field] - mass);
    if (!(off <= KG))
      tell('totals', `totals.${field}`, `${field} is told ${totals[field]} kg, it is ${mass.toFixed(3)}.`, off);
  }
  const parts = masses.slice(1).reduce((sum, [field]) => sum + totals[field], 0);
  if (!(Math.abs(parts - totals.stockMass) <= 4 * KG))
    tell(
      'mass-lost',
      'totals',
      `${figure(parts)} kg are told of ${totals.stockMass} kg cut up.`,
      Math.abs(parts - totals.stockMass),
    );
  const stops = new Set([...cutting.pieces.values()].map((piece) => piece.length)).size;
  const shared = cutting.cuts - totals.cuts;
  const cuts = shared >= 0 && shared <= cutting.sharedCuts ? totals.cuts : cutting.cuts;
  const counts: [keyof Plan['totals'], number][] = [
    ['bars', plan.bars.length],
    ['pieces', cutting.pieces.size],
    ['cuts', cuts],
    ['stops', stops],
    ['bundles', plan.bundles.length],
  ];
  for (const [field, count] of counts)
    if (totals[field] !== count)
      tell('totals', `totals.${field}`, `${field} is told ${totals[field]}, it is ${count}.`);
  const minutes =
    (cuts / job.saw.gang) * job.saw.minutesPerCut +
    stops * job.saw.minutesPerStop +
    plan.bundles.length * job.bundle.minutesPerBundle;
  if (!(Math.abs(totals.minutes - minutes) <= MINUTES))
    tell('totals', 'totals.minutes', `minutes is told ${totals.minutes}, it is ${figure(minutes)}.`);
  if (job.aims.stopsAtMost !== undefined && stops > job.aims.stopsAtMost)
    tell('over-stops', 'plan', `${stops} different lengths are cut; stopsAtMost is ${job.aims.stopsAtMost}.`);
  checkAims(job, plan, bundles, tell);
  checkBound(job, plan, worth(job, bundles, cutting.scrap, minutes), tell);
}

/** Steel placed, weighed by the rank of its void, less half the scrap, less labour: kg. */
function worth(job: Job, bundles: Tied[], scrap: number, minutes: number): number {
  let steel = 0;
  for (const { mass, space } of bundles) {
    const weight = Math.max(0.9, 1 - 0.01 * (space.stated.rank - 1));
    steel += weight * (mass - job.bundle.wrapping);
  }
  return steel - 0.5 * scrap - (job.aims.kgPerHour * minutes) / 60;
}

function checkAims(job: Job, plan: Plan, bundles: Tied[], tell: Tell): void {
  if (bundles.length === 0) return;
  const { ballast, centre: asked, spread } = job.aims;
  if (ballast !== undefined && passesByBundle(bundles, ballast)) {
    const text = `The plan passes the ballast asked for, ${ballast} kg, by a whole bundle.`;
    tell('over-ballast', 'plan', text, massOf(bundles) - ballast);
  }
  const centre = centreOf(bundles);
  checkCentre('centre', 'plan', plan.centre, centre, tell);
  const said = (code: string) => plan.cautions.some((caution) => caution.code === code);
  for (const axis of ['x', 'y', 'z'] as const) {
    const [from, to] = asked?.[axis] ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    const off = Math.max(from - centre[axis], centre[axis] - to);
    if (off > METRES && !said('centre-missed'))
      tell(
        'centre-untold',
        'plan',
        `The centre is ${off.toFixed(3)} m outside the ${axis} asked for, and no caution says so.`,
        off,
      );
  }
  const lcf = job.vessel?.lcf;
  if (spread === undefined || lcf === undefined) return;
  let second = 0;
  for (const tied of bundles) {
    const off = middleOf(tied).x - lcf;
    second += tied.mass * off * off;
  }
  const actual = Math.sqrt(second / massOf(bundles));
  if (actual > spread + METRES && !said('spread-missed'))
    tell(
      'spread-untold',
      'plan',
      `The spread is ${actual.toFixed(3)} m, ${spread} asked for, and no caution says so.`,
      actual - spread,
    );
}

function checkBound(job: Job, plan: Plan, counted: number, tell: Tell): void {
  const { value, valueAtMost, gap } = plan.bound;
  const tolerance = 0.02 + 0.5 * KG + (job.aims.kgPerHour * MINUTES) / 60;
  if (!(Math.abs(value - counted) <= tolerance))
    tell(
      'value',
      'bound.value',
      `The value is told ${value} kg, it is ${counted.toFixed(3)}.`,
      Math.abs(value - counted),
    );
  if (valueAtMost === null || gap === null) {
    if (valueAtMost !== gap) tell('bound', 'bound', 'One of bound and gap is told, and the other is not.');
    return;
  }
  if (value > valueAtMost + 0.011)
    tell(
      'bound',
      'bound',
      `The value ${value} kg is over what it can be at most, ${valueAtMost} kg.`,
      value - valueAtMost,
    );
  const off = Math.abs(gap * Math.abs(valueAtMost) - (valueAtMost - value));
  if (!(off <= 0.011 + 0.0001 * Math.abs(valueAtMost)))
    tell('bound', 'bound', `The gap is told ${gap}; value ${value} and bound ${valueAtMost} give another.`);
}
