/** Cutting with bars butted from pieces, where the job allows joints and they pay. */

import type { Filling } from './caps.ts';
import {
  type Cutting,
  type CuttingOptions,
  cutSteel,
  cutUses,
  type JointedLength,
  partOf,
  together,
} from './cutting.ts';
import { type Chosen, chooseSplits } from './jointChoice.ts';
import { dealJoints, jointRoom, type Rows } from './jointPlaces.ts';
import type { Use } from './master.ts';
import { barMass, type Problem } from './problem.ts';
import { usesOf } from './short.ts';

/** A bar left out is worth so many times its mass. */
const LEFT_OUT = 1.1;
/** A cutting of less effort is only tried; one in earnest is of so much at least where bars are jointed. */
const IN_EARNEST = 4;
const JOINTED = 10;
/** Scrap of one steel that costs less than this, kg, is not worth seeking joints for. */
const WORTH_SEEKING = 0.5;
/** Times that joints are given up for pieces that the pile does not yield. */
const REPAIRS = 3;

export interface JointCuttingOptions extends CuttingOptions {
  /** Stops at most; no limit when absent. */
  stopsAtMost?: number;
  /** Joints may make up for bars that the pile does not yield whole. */
  stretch: boolean;
}

/** Bundles of one steel and length, in the order in which they are stowed. */
export interface TiedAlike {
  steel: number;
  length: number;
  bundles: Rows[];
}

/** The bundles of the fillings by steel and length. */
export function tiedAlike(problem: Problem, fillings: Filling[]): TiedAlike[] {
  const found = new Map<string, TiedAlike>();
  for (const space of problem.spaces) {
    for (const { stack } of fillings[space.index]?.runs ?? []) {
      for (const { kind, lying } of stack.tiers) {
        const key = `${kind.steel}:${stack.length}`;
        let alike = found.get(key);
        if (!alike) {
          alike = { steel: kind.steel, length: stack.length, bundles: [] };
          found.set(key, alike);
        }
        alike.bundles.push(...lying.map(({ tie }) => tie));
      }
    }
  }
  return [...found.values()];
}

/** Cuts what the fillings use, bars jointed where that is worth more. Heuristic; what can not be cut is told. */
export function cutWithJoints(problem: Problem, fillings: Filling[], options: JointCuttingOptions): Cutting {
  return withJoints(problem, fillings, cutUses(problem, usesOf(fillings), options), options);
}

/** A cutting of what the fillings use, or where that is worth more another of some steels, with bars jointed. */
export function withJoints(
  problem: Problem,
  fillings: Filling[],
  cutting: Cutting,
  options: JointCuttingOptions,
): Cutting {
  if (!problem.job.bundle.joints) return cutting;
  const uses = usesOf(fillings);
  const stops = new Set(uses.map(({ length }) => length));
  const alike = tiedAlike(problem, fillings);
  return together(
    problem.steels.map(({ index }) => {
      const whole = partOf(cutting, index);
      const own = alike.filter(({ steel }) => steel === index);
      if (own.length === 0 || !mayPay(problem, whole, options)) return whole;
      const jointed = joint(problem, index, uses, own, whole, stops, options);
      for (const part of jointed.joints.flatMap(({ parts }) => parts)) stops.add(part);
      return jointed;
    }),
  );
}

/** Joints save scrap, or what is short; each costs a cut. A cutting that is only tried is not improved by them. */
function mayPay(problem: Problem, { bars, short, cost }: Cutting, { effort, stretch }: JointCuttingOptions): boolean {
  const { cut } = problem.labour;
  if (short.length > 0) return stretch;
  return effort >= IN_EARNEST && cost - bars.reduce((sum, bar) => sum + bar.cuts * cut, 0) > cut + WORTH_SEEKING;
}

/** The best cutting of one steel with joints; `whole` where none is better. */
function joint(
  problem: Problem,
  steel: number,
  uses: Use[],
  alike: TiedAlike[],
  whole: Cutting,
  stops: Set<number>,
  options: JointCuttingOptions,
): Cutting {
  const rules = problem.job.bundle.joints!;
  const wanted = uses.filter((use) => use.steel === steel);
  const room = new Map(
    alike.map(({ length, bundles }) => [length, bundles.reduce((sum, rows) => sum + jointRoom(rows, rules), 0)]),
  );
  const { engine, shouldStop } = options;
  const newStops = Math.max(0, (options.stopsAtMost ?? Number.POSITIVE_INFINITY) - stops.size);
  const chosen = chooseSplits(problem, steel, wanted, {
    engine,
    room,
    stops,
    newStops,
    patterns: whole.bars,
    shouldStop,
  });
  let best = whole;
  const tried = new Set<string>();
  for (const round of [Math.round, Math.floor]) {
    const joints = wholeJoints(steel, chosen, alike, round, problem);
    const key = joints.map(({ count }) => count).join();
    if (joints.length === 0 || tried.has(key) || best !== whole) continue;
    tried.add(key);
    const cutting = cutJointed(problem, steel, wanted, joints, options);
    if (cutting && lossOf(problem, cutting, stops) < lossOf(problem, best, stops) - 1e-6) best = cutting;
  }
  return best;
}

/** Whole numbers of jointed bars, as many as find a place. */
function wholeJoints(
  steel: number,
  chosen: Chosen,
  alike: TiedAlike[],
  round: (bars: number) => number,
  problem: Problem,
): JointedLength[] {
  const rules = problem.job.bundle.joints!;
  return alike.flatMap(({ length, bundles }) => {
    const bars = chosen
      .filter(({ split }) => split.length === length)
      .map(({ split, bars: share }) => ({ parts: split.parts, count: round(share - 1e-9) }))
      .filter(({ count }) => count > 0);
    const { left } = dealJoints(bundles, rules, bars);
    return bars
      .map(({ parts, count }) => ({
        steel,
        length,
        parts,
        count: count - (left.find((over) => over.parts === parts)?.count ?? 0),
      }))
      .filter(({ count }) => count > 0);
  });
}

/** Cuts whole bars and pieces of joints; joints whose pieces fall short are given up. Null where that goes on for too long. */
function cutJointed(
  problem: Problem,
  steel: number,
  wanted: Use[],
  joints: JointedLength[],
  options: CuttingOptions,
): Cutting | null {
  const effort = options.effort < IN_EARNEST ? options.effort : Math.max(options.effort, JOINTED);
  let own = joints;
  for (let i = 0; i < REPAIRS; i++) {
    const dear = new Set(own.flatMap(({ parts }) => parts));
    const cutting = cutSteel(problem, steel, withParts(wanted, own), { ...options, effort, dear });
    const lacking = cutting.short.map((use) => ({ ...use, bars: use.bars - wholeOf(wanted, own, use.length) }));
    const partsShort = lacking.filter(({ bars }) => bars > 0);
    if (partsShort.length === 0) {
      const kg = own.reduce(
        (sum, { length, parts, count }) =>
          sum + count * barMass(problem.steels[steel]!, length - parts.reduce((total, part) => total + part, 0)),
        0,
      );
      return { ...cutting, joints: own, cost: cutting.cost + kg };
    }
    own = giveUp(own, partsShort);
  }
  return null;
}

/** Bars of a length wanted whole. */
function wholeOf(wanted: Use[], joints: JointedLength[], length: number): number {
  const jointed = joints.filter((own) => own.length === length).reduce((sum, { count }) => sum + count, 0);
  const bars = wanted.filter((use) => use.length === length).reduce((sum, use) => sum + use.bars, 0);
  return bars - jointed;
}

/** What is to be cut: bars wanted less those jointed, and their pieces. */
function withParts(wanted: Use[], joints: JointedLength[]): Use[] {
  const bars = new Map(wanted.map((use) => [use.length, use.bars]));
  const add = (length: number, count: number) => bars.set(length, (bars.get(length) ?? 0) + count);
  for (const { length, parts, count } of joints) {
    add(length, -count);
    for (const part of parts) add(part, count);
  }
  const { steel } = wanted[0]!;
  return [...bars].map(([length, count]) => ({ steel, length, bars: count })).sort((p, q) => q.length - p.length);
}

/** Fewer joints, so that pieces that fall short are no longer asked for. */
function giveUp(joints: JointedLength[], short: Use[]): JointedLength[] {
  const left = joints.map((own) => ({ ...own }));
  for (const { length, bars } of short) {
    let lacking = bars;
    for (const own of left) {
      const each = own.parts.filter((part) => part === length).length;
      if (each === 0 || lacking <= 0) continue;
      const fewer = Math.min(own.count, Math.ceil(lacking / each));
      own.count -= fewer;
      lacking -= fewer * each;
    }
  }
  return left.filter(({ count }) => count > 0);
}

/** What a cutting loses: its cost, its stops beside those cut anyway, and what is left out. */
function lossOf(problem: Problem, { cost, short, joints }: Cutting, stops: Set<number>): number {
  const fresh = new Set(joints.flatMap(({ parts }) => parts).filter((part) => !stops.has(part)));
  const leftOut = short.reduce(
    (sum, { steel, length, bars }) => sum + bars * barMass(problem.steels[steel]!, length),
    0,
  );
  return cost + LEFT_OUT * leftOut + fresh.size * problem.labour.stop;
}
