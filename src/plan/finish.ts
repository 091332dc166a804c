/** From layouts to a whole plan: cut, what falls short taken out, assembled, summed up, cautioned, checked. */
import { Defect } from '../fault.ts';
import type { Job } from '../job/job.ts';
import type { LinearEngine } from '../linear/model.ts';
import type { LaidVoid } from '../stow/laid.ts';
import { VERSION } from '../version.ts';
import { assemble } from './assemble.ts';
import { isUsedUp } from './binds.ts';
import { type Filling, keepEveryCap } from './caps.ts';
import { cautionsOf } from './cautions.ts';
import { checkPlan } from './check.ts';
import type { Cutting } from './cutting.ts';
import { cutWithJoints, withJoints } from './jointCutting.ts';
import { missOf } from './misses.ts';
import { PILE_GONE, whyEmpty, whyShut } from './nothing.ts';
import { numberInOrder } from './order.ts';
import type { Effort, Plan } from './plan.ts';
import { PLAN_FORMAT } from './planFormat.ts';
import type { PlanOptions } from './planner.ts';
import { barMass, type Problem } from './problem.ts';
import { withShares } from './share.ts';
import { takeShort } from './short.ts';
import { centreOf, planValue, totalsOf, voidsOf } from './totals.ts';

/** What a plan file says of how it was made. */
export interface Making {
  engine: LinearEngine;
  version: string;
  jobDigest: string;
  effort: Effort;
  seed: number;
  /** Counted work of the cutting of each steel. */
  cuttingEffort: number;
  /** Cuttings kept through a search. */
  known?: Map<string, Cutting>;
  /** Stops at most: pieces of joints make no more than that. No limit when absent. */
  stopsAtMost?: number;
  shouldStop?: () => boolean;
}

/** The making of the plans of a search. */
export function makingOf(
  engine: LinearEngine,
  { jobDigest, effort = 'steady', seed = 1 }: PlanOptions,
  cuttingEffort: number,
  stopsAtMost: number,
  shouldStop: () => boolean,
): Making {
  return {
    engine,
    version: VERSION,
    jobDigest,
    effort,
    seed,
    cuttingEffort,
    known: new Map(),
    stopsAtMost,
    shouldStop,
  };
}

/** How often what falls short is taken out and the rest cut anew. */
const TRIES = 12;

/**
 * Cuts the fillings; what the pile can not yield is taken out of them. Changes `fillings`. Where joints are allowed and the
 * pile is short, both is tried: joints that stretch the pile, and joints only for what is left once the short is taken out.
 */
export function cutFillings(problem: Problem, fillings: Filling[], making: Making): Cutting {
  const before = [...fillings];
  const { cutting, short } = cutAll(problem, fillings, making, true);
  if (!short || !problem.job.bundle.joints) return cutting;
  const late = cutAll(problem, before, making, false);
  if (worthOf(problem, before, late.cutting) <= worthOf(problem, fillings, cutting)) return cutting;
  fillings.splice(0, fillings.length, ...before);
  return late.cutting;
}

/** The cutting of fillings that the pile yields, or where that is worth more one with bars jointed. */
export function jointFillings(problem: Problem, fillings: Filling[], cutting: Cutting, making: Making): Cutting {
  return withJoints(problem, fillings, cutting, optionsOf(making, false));
}

function optionsOf({ engine, cuttingEffort: effort, known, stopsAtMost, shouldStop }: Making, stretch: boolean) {
  return { engine, effort, known, stopsAtMost, stretch, shouldStop };
}

/** Cuts and takes out what falls short until nothing does. `stretch`: joints may make up for what falls short. */
function cutAll(
  problem: Problem,
  fillings: Filling[],
  making: Making,
  stretch: boolean,
): { cutting: Cutting; short: boolean } {
  const options = optionsOf(making, stretch);
  for (let i = 0; i < TRIES; i++) {
    const cutting = cutWithJoints(problem, fillings, options);
    if (cutting.short.length === 0) return { cutting, short: i > 0 };
    takeShort(problem, fillings, cutting.short);
    keepEveryCap(problem, fillings, (space) => space.weight);
  }
  throw new Defect('what falls short could not be taken out');
}

/** The plan of fillings and their cutting, checked; null where nothing is placed. A plan that is faulted is a Defect. */
export function makePlan(problem: Problem, fillings: Filling[], cutting: Cutting, making: Making): Plan | null {
  const { job } = problem;
  const assembled = assemble(problem, fillings, cutting);
  if (assembled.bundles.length === 0) return null;
  const laid = new Map<string, LaidVoid>();
  for (const space of problem.spaces) laid.set(space.stated.void, fillings[space.index]?.laid ?? space.laid[0]!);
  const { bars, bundles: numbered, masses } = numberInOrder(assembled, laid);
  const voids = voidsOf(job, numbered, laid, masses);
  const bundles = withShares({ bundles: numbered, voids }, job.aims.fixedShare);
  const totals = totalsOf(job, bars, bundles);
  const plan: Plan = {
    format: PLAN_FORMAT,
    job: job.name,
    jobDigest: making.jobDigest,
    engine: making.version,
    effort: making.effort,
    seed: making.seed,
    bars,
    bundles,
    runs: assembled.runs,
    voids,
    totals,
    bound: { value: Math.round(planValue(job, bars, bundles, totals) * 100) / 100, valueAtMost: null, gap: null },
    centre: centreOf(bundles, laid, masses),
    cautions: [],
  };
  const whyShort = (name: string): string | undefined => {
    const space = problem.spaces.find(({ stated }) => stated.void === name);
    if (!space || fillings[space.index] !== null) return undefined;
    const { why, remedy } = whyShut(problem, space) ?? (isUsedUp(job, plan) ? PILE_GONE : whyEmpty(problem, space));
    return `It takes nothing: ${why}. ${remedy}`;
  };
  plan.cautions = cautionsOf(job, plan, whyShort, masses);
  const faults = checkPlan(judgedBy(job, totals.stops), plan, making.jobDigest);
  if (faults.length > 0)
    throw new Defect(
      `the checker faults the plan: ${faults
        .slice(0, 5)
        .map((fault) => fault.text)
        .join(' ')}`,
    );
  return plan;
}

/** About what fillings so cut are worth, misses of the aims paid for, without making the plan. */
export function worthOf(problem: Problem, fillings: Filling[], cutting: Cutting): number {
  const stops = new Set(cutting.joints.flatMap(({ parts }) => parts));
  let worth = -cutting.cost - missOf(problem, fillings);
  for (const space of problem.spaces) {
    for (const { stack } of fillings[space.index]?.runs ?? []) {
      stops.add(stack.length);
      worth -= stack.bundles * problem.labour.bundle;
      stack.bars.forEach((bars, steel) => {
        worth += space.weight * bars * barMass(problem.steels[steel]!, stack.length);
      });
    }
  }
  return worth - stops.size * problem.labour.stop;
}

/** The job without its limit on stops where a plan on the way to fewer stops still passes it; such a plan is never given. */
function judgedBy(job: Job, stops: number): Job {
  const { stopsAtMost } = job.aims;
  if (stopsAtMost === undefined || stops <= stopsAtMost) return job;
  return { ...job, aims: { ...job.aims, stopsAtMost: undefined } };
}
