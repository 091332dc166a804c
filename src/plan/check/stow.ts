/** The bundles of one void against each other: runs, tiers, gaps, what carries what, order. */
import type { Job } from '../../job/job.ts';
import type { PlanRun } from '../plan.ts';
import type { Tied } from './bundles.ts';
import { meeting } from './place.ts';
import { DUST, figure, type Tell } from './planFault.ts';
import { bottomAt, highestBottom, type LaidVoid } from './space.ts';

/** What rests on what, and starts together, may differ by this, mm. */
const WITHIN = 2;
/** The share of its plan area under which a bundle must be carried. */
const CARRIED = 0.6;
/** Told heights of packing are rounded to whole mm at most. */
const PACKING = 0.51;

/** Checks all bundles of one void, and what the plan tells of its runs. */
export function checkStow(job: Job, space: LaidVoid, bundles: Tied[], told: PlanRun[], tell: Tell): void {
  const runs = new Map<number, Tied[]>();
  for (const tied of bundles) {
    const own = runs.get(tied.bundle.run);
    if (own) own.push(tied);
    else runs.set(tied.bundle.run, [tied]);
  }
  checkOrders(space, bundles, tell);
  const numbers = [...runs.keys()].sort((p, q) => p - q);
  if (numbers.some((number, i) => number !== i + 1))
    tell('run-number', `void ${space.void}`, `The runs of ${space.void} are numbered ${numbers.join(', ')}.`);
  let before: { run: number; from: number; to: number } | undefined;
  for (const run of numbers) {
    const own = runs.get(run)!;
    const from = Math.min(...own.map((tied) => tied.along[0]));
    const to = Math.max(...own.map((tied) => tied.along[1]));
    const about = `run ${run} of ${space.void}`;
    if (before) {
      const apart = from - before.to;
      const short = space.stated.gap.runs - apart;
      if (from < before.from) tell('run-number', about, `${about} lies before run ${before.run}.`);
      else if (short > DUST) tell('gap-runs', about, `${about} is ${figure(apart)} mm from run ${before.run}.`, short);
      if (apart < -DUST) checkOverlaps(runs.get(before.run)!, own, tell);
    }
    before = { run, from, to };
    checkRun(job, space, about, own, tell);
    checkTold(
      space,
      about,
      told.filter((entry) => entry.run === run),
      [from, to],
      tell,
    );
  }
  for (const { run } of told)
    if (!runs.has(run))
      tell(
        'run-told',
        `run ${run} of ${space.void}`,
        `The plan tells of run ${run} of ${space.void}, which has no bundles.`,
      );
}

function checkOrders(space: LaidVoid, bundles: Tied[], tell: Tell): void {
  const orders = new Set(
    bundles.map((tied) => tied.bundle.order).filter((order) => order >= 1 && order <= bundles.length),
  );
  if (orders.size !== bundles.length)
    tell('order', `void ${space.void}`, `The orders in ${space.void} are not 1 to ${bundles.length}, each once.`);
}

function checkOverlaps(some: Tied[], others: Tied[], tell: Tell): void {
  for (const p of some)
    for (const q of others) {
      const by = Math.min(meeting(p.along, q.along), meeting(p.across, q.across), meeting(p.up, q.up));
      if (by > DUST) tellOverlap(p, q, by, tell);
    }
}

function tellOverlap(p: Tied, q: Tied, by: number, tell: Tell): void {
  tell('overlap', `bundle ${p.bundle.bundle}`, `Bundles ${p.bundle.bundle} and ${q.bundle.bundle} overlap.`, by);
}

function checkTold(space: LaidVoid, about: string, told: PlanRun[], [from, to]: [number, number], tell: Tell): void {
  const [only] = told;
  if (!only || told.length !== 1) {
    tell('run-told', about, `${about} is told ${told.length} times.`);
    return;
  }
  if (!(Math.abs(only.from - from) <= 0.5 + DUST && Math.abs(only.to - to) <= 0.5 + DUST))
    tell('run-told', about, `${about} is told ${only.from} … ${only.to}; it is ${from} … ${to}.`);
  const raised = highestBottom(space, from, to) + space.stated.dunnage;
  for (const [end, place] of [from, to].entries()) {
    const height = raised - bottomAt(space, place);
    const off = Math.abs(only.packing[end]! - height);
    if (!(off <= PACKING))
      tell('packing', about, `${about}: packing ${only.packing[end]} mm, it is ${figure(height)}.`, off);
  }
}

function checkRun(job: Job, space: LaidVoid, about: string, own: Tied[], tell: Tell): void {
  const starts = own.map((tied) => tied.along[0]);
  const apart = Math.max(...starts) - Math.min(...starts);
  if (apart > WITHIN + DUST)
    tell('run-start', about, `Bundles of ${about} start ${figure(apart)} mm apart.`, apart - WITHIN);
  const lengths = own.map((tied) => tied.bundle.size.along);
  const differ = Math.max(...lengths) - Math.min(...lengths);
  if (differ > 2 * job.saw.tolerance + DUST)
    tell(
      'run-length',
      about,
      `Bundles of ${about} differ by ${figure(differ)} mm in length.`,
      differ - 2 * job.saw.tolerance,
    );
  checkTiers(about, own, tell);
  checkNeighbours(space, own, tell);
  const from = Math.min(...starts);
  const to = Math.max(...own.map((tied) => tied.along[1]));
  const raised = highestBottom(space, from, to) + space.stated.dunnage;
  const byTop = [...own].sort((p, q) => p.up[1] - q.up[1]);
  for (const tied of own) checkCarried(tied, raised, byTop, tell);
}

/** A tier is bundles of one section, one row count and one lie, at one height. */
function checkTiers(about: string, own: Tied[], tell: Tell): void {
  const first = new Map<number, Tied>();
  for (const tied of own) {
    const { bundle } = tied;
    const other = first.get(bundle.tier);
    if (!other) {
      first.set(bundle.tier, tied);
      continue;
    }
    const alike =
      tied.section === other.section &&
      bundle.rows === other.bundle.rows &&
      bundle.onEdge === other.bundle.onEdge &&
      Math.abs(tied.up[0] - other.up[0]) <= DUST;
    if (alike) continue;
    const text = `Tier ${bundle.tier} of ${about} holds ${bundle.bundle} and ${other.bundle.bundle}, which are not alike.`;
    tell('tier-mixed', `bundle ${bundle.bundle}`, text);
  }
}

/** Overlaps, and the finger room between bundles side by side, whatever their tier: the last must still go down. */
function checkNeighbours(space: LaidVoid, own: Tied[], tell: Tell): void {
  const gap = space.stated.gap.across;
  const byAcross = [...own].sort((p, q) => p.across[0] - q.across[0]);
  const open: Tied[] = [];
  for (const tied of byAcross) {
    for (let i = open.length - 1; i >= 0; i--) {
      const other = open[i]!;
      const apart = tied.across[0] - other.across[1];
      if (apart >= gap - DUST) {
        open[i] = open[open.length - 1]!;
        open.pop();
        continue;
      }
      const beside = Math.min(meeting(tied.along, other.along), meeting(tied.up, other.up));
      if (beside <= DUST) continue;
      const into = meeting(tied.across, other.across);
      if (into > DUST) tellOverlap(tied, other, Math.min(beside, into), tell);
      else {
        const pair = `Bundles ${other.bundle.bundle} and ${tied.bundle.bundle}`;
        tell(
          'gap-across',
          `bundle ${tied.bundle.bundle}`,
          `${pair} are ${figure(apart)} mm apart, gap ${gap}.`,
          gap - apart,
        );
      }
    }
    open.push(tied);
  }
}

function checkCarried(tied: Tied, raised: number, byTop: Tied[], tell: Tell): void {
  const { bundle, along, across, up } = tied;
  const about = `bundle ${bundle.bundle}`;
  if (up[0] < raised - DUST) {
    tell('below-bottom', about, `${about} lies ${figure(raised - up[0])} mm under the raised bottom.`, raised - up[0]);
    return;
  }
  if (up[0] <= raised + WITHIN + DUST) {
    if (bundle.tier !== 1) tell('tier-number', about, `${about} is on the bottom, and told tier ${bundle.tier}.`);
    return;
  }
  if (bundle.tier === 1)
    tell(
      'tier-number',
      about,
      `${about} is told tier 1, ${figure(up[0] - raised)} mm over the bottom.`,
      up[0] - raised,
    );
  let area = 0;
  let from = Number.POSITIVE_INFINITY;
  let to = Number.NEGATIVE_INFINITY;
  for (let i = firstAtLeast(byTop, up[0] - WITHIN - DUST); i < byTop.length; i++) {
    const under = byTop[i]!;
    if (under.up[1] > up[0] + WITHIN + DUST) break;
    const wide = meeting(across, under.top);
    const long = meeting(along, under.along);
    if (wide <= 0 || long <= 0 || under === tied) continue;
    area += wide * long;
    from = Math.min(from, Math.max(across[0], under.top[0]));
    to = Math.max(to, Math.min(across[1], under.top[1]));
    if (under.bundle.order >= bundle.order)
      tell('order', about, `${about} goes in before ${under.bundle.bundle} beneath it.`);
    if (under.bundle.tier >= bundle.tier)
      tell('tier-number', about, `${about} of tier ${bundle.tier} rests on tier ${under.bundle.tier}.`);
  }
  const share = area / (bundle.size.along * bundle.size.across);
  const middle = (across[0] + across[1]) / 2;
  if (share < CARRIED - 1e-6) tell('not-carried', about, `Only ${Math.floor(100 * share)} % of ${about} is carried.`);
  else if (middle < from - DUST || middle > to + DUST)
    tell(
      'overhang',
      about,
      `The middle of ${about} lies beyond the edges that carry it.`,
      Math.max(from - middle, middle - to),
    );
}

/** The first bundle whose top is at least this high. */
function firstAtLeast(byTop: Tied[], top: number): number {
  let low = 0;
  let high = byTop.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (byTop[middle]!.up[1] < top) low = middle + 1;
    else high = middle;
  }
  return low;
}
