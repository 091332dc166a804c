/**
 * What targets lack, and of that what buying steel would mend: steel of the pile that is uncut or kept comes first, and
 * where there is no room nothing bought would go in. Masses kg, lengths mm unless a name says otherwise.
 */
import type { Job, Lot, Void } from '../job/job.ts';
import { barLengths, barMark, lotMassPerMetre, usableSpans } from '../job/lot.ts';
import { sectionKey, sectionName } from '../job/section.ts';
import { lies, upSize } from '../stow/bundle.ts';
import { lacksRoom } from './binds.ts';
import { stillCarries } from './contents.ts';
import { whyShut } from './nothing.ts';
import type { Plan, PlanBundle } from './plan.ts';
import { problemOf } from './problem.ts';

/**
 * What keeps a target from being reached: too little steel; room; a void that takes no section of the pile (`shut`); the
 * ballast asked for, which is reached; the vessel, which may carry no more; or neither for certain, where steel is left
 * and whether it is room or worth that it lacks the plan does not tell.
 */
export type Lack = 'steel' | 'room' | 'shut' | 'ballast' | 'vessel' | 'room or worth';

/** What a void, or the whole job where `void` is null, is short of its target. */
export interface Shortage {
  void: string | null;
  short: number;
  lack: Lack;
  /** Steel of the pile that is left and could be cut for it, kg: with `steel` less than `short`. */
  left: number;
  /** What she may still carry where that is less than what is short: no more is bought, kg; else null. */
  spare: number | null;
  /** What is bought for the voids before it in the list and counts here too, kg; 0 for a void. */
  within: number;
  /** What would be bought: the section, kg/m, and m of it; 0 where buying does not help. */
  section: string;
  massPerMetre: number;
  metres: number;
}

/** Masses are to 0.01 kg: less than half of that is nothing. */
const NOTHING = 0.005;

/**
 * Every target that the plan is short of: voids in the order of the job, then the ballast as a whole, which counts what
 * is bought for voids. What one void takes of the steel that is left, or of what she may still carry, the next one can
 * not.
 */
export function shortages(job: Job, plan: Plan): Shortage[] {
  const problem = problemOf(job);
  const shut = new Set(problem.spaces.filter((space) => whyShut(problem, space)).map(({ stated }) => stated.void));
  const rest = restOfPile(job, plan);
  let spare = stillCarries(job, sumMass(plan.bundles));
  const overall = job.aims.ballast === undefined ? null : job.aims.ballast - sumMass(plan.bundles);
  const found: Shortage[] = [];
  for (const space of job.voids) {
    const bundles = plan.bundles.filter((bundle) => bundle.void === space.void);
    const short = (space.target ?? 0) - sumMass(bundles);
    if (short <= NOTHING) continue;
    const mine = rest.filter(({ lot }) => couldLieIn(job, space, lot));
    const left = mine.reduce((sum, { mass }) => sum + mass, 0);
    let lack: Lack = left >= short ? 'room or worth' : 'steel';
    if (shut.has(space.void)) lack = 'shut';
    else if (overall !== null && overall <= NOTHING) lack = 'ballast';
    else if (spare <= NOTHING) lack = 'vessel';
    else if (lacksRoom(plan, space.void)) lack = 'room';
    const lacking = { void: space.void, short, lack, left, spare: spare < short ? spare : null };
    found.push(shortageOf(job, bundles.length > 0 ? bundles : plan.bundles, lacking));
    if (lack !== 'steel' && lack !== 'room or worth') continue;
    take(mine, short);
    spare = Math.max(0, spare - short);
  }
  if (overall !== null && overall > NOTHING) {
    const open = job.voids.filter((each) => !shut.has(each.void) && takesMore(plan, each));
    found.push(overallShortage(job, plan, overall, open, found));
  }
  return found;
}

function overallShortage(job: Job, plan: Plan, short: number, open: Void[], before: Shortage[]): Shortage {
  const rest = restOfPile(job, plan).filter(({ lot }) => open.some((space) => couldLieIn(job, space, lot)));
  const left = rest.reduce((sum, { mass }) => sum + mass, 0);
  const spare = stillCarries(job, sumMass(plan.bundles));
  let lack: Lack = left >= short ? 'room or worth' : 'steel';
  if (spare <= NOTHING) lack = 'vessel';
  else if (open.length === 0) lack = 'room';
  const within = before.reduce((sum, { metres, massPerMetre }) => sum + metres * massPerMetre, 0);
  const lacking = { void: null, short, lack, left, spare: spare < short ? spare : null };
  return { ...shortageOf(job, plan.bundles, lacking), within };
}

/** False where a void has its target, may bear no further bundle, or has no room. */
function takesMore(plan: Plan, space: Void): boolean {
  const mass = sumMass(plan.bundles.filter((bundle) => bundle.void === space.void));
  const lightest = Math.min(...plan.bundles.map((bundle) => bundle.mass));
  const most = Math.min(space.target ?? Number.POSITIVE_INFINITY, (space.most ?? Number.POSITIVE_INFINITY) - lightest);
  return mass < most - NOTHING && !lacksRoom(plan, space.void);
}

interface Rest {
  lot: Lot;
  mass: number;
}

/** Steel that pieces could still be cut from, by lot: usable spans of bars that are not cut, and remainders kept. */
function restOfPile(job: Job, plan: Plan): Rest[] {
  const cut = new Map(plan.bars.map((bar) => [bar.bar, bar]));
  return job.pile.map((lot) => {
    const spans = barLengths(lot).flatMap((length, i) => {
      const bar = cut.get(barMark(lot, i + 1));
      return bar ? bar.remainders.filter(({ fate }) => fate === 'keep') : usableSpans(lot, length, job.saw);
    });
    const lengths = spans.map(({ from, to }) => to - from).filter((length) => length >= job.saw.shortestPiece);
    const metres = lengths.reduce((sum, length) => sum + length, 0) / 1000;
    return { lot, mass: metres * lotMassPerMetre(lot, job.steel.density) };
  });
}

/** True where the shortest piece of the lot is light enough for the void and low enough to lie in it. */
function couldLieIn(job: Job, space: Void, lot: Lot): boolean {
  const lightest = (job.saw.shortestPiece * lotMassPerMetre(lot, job.steel.density)) / 1000;
  const height = space.height - space.clear.top - space.dunnage;
  return (
    lightest <= (space.limit ?? job.bundle.limit) &&
    lies(lot.section).some((onEdge) => upSize(lot.section, onEdge, 1, job.bundle, 0) <= height)
  );
}

function take(rest: Rest[], mass: number): void {
  let wanted = mass;
  for (const each of rest) {
    const taken = Math.min(each.mass, wanted);
    each.mass -= taken;
    wanted -= taken;
  }
}

function sumMass(bundles: PlanBundle[]): number {
  return bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
}

/** In the section that carries most mass of `bundles`; where there is none, the heaviest of the pile. */
function shortageOf(
  job: Job,
  bundles: PlanBundle[],
  lacking: Pick<Shortage, 'void' | 'short' | 'lack' | 'left' | 'spare'>,
): Shortage {
  const bySection = new Map<string, number>();
  for (const bundle of bundles) {
    const key = sectionKey(bundle.section);
    bySection.set(key, (bySection.get(key) ?? 0) + bundle.mass);
  }
  const perMetre = (lot: Lot): number => lotMassPerMetre(lot, job.steel.density);
  const weight = (lot: Lot): number =>
    bySection.size > 0 ? (bySection.get(sectionKey(lot.section)) ?? 0) : perMetre(lot);
  const lot = job.pile.reduce((best, candidate) => (weight(candidate) > weight(best) ? candidate : best));
  const massPerMetre = perMetre(lot);
  const most = Math.min(lacking.short, lacking.spare ?? Number.POSITIVE_INFINITY);
  const bought = lacking.lack === 'steel' ? Math.max(0, most - lacking.left) : 0;
  return { ...lacking, within: 0, section: sectionName(lot.section), massPerMetre, metres: bought / massPerMetre };
}
