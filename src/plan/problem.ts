/** The planning problem: a job put into the terms that the planner reckons in. Made once, never changed. */
import type { Job, Void } from '../job/job.ts';
import { barLengths, lotMassPerMetre, type Span, usableSpans } from '../job/lot.ts';
import { sectionKey } from '../job/section.ts';
import { heaviestBundle } from '../lift/limit.ts';
import { type LaidVoid, layVoid, vesselPoint } from '../stow/laid.ts';
import { type Steel, steelsOf } from '../stow/steel.ts';
import { type LabourRates, labourRates, rankWeight } from './value.ts';

/** Bars of one lot and one length: the unit of supply. */
export interface BarKind {
  index: number;
  lot: string;
  steel: number;
  length: number;
  spans: Span[];
  count: number;
  /** kg/m */
  perMetre: number;
}

/** A void to fill. */
export interface Space {
  index: number;
  stated: Void;
  /** The ways its bars may lie. */
  laid: LaidVoid[];
  /** Value of a kilogram of steel in it. */
  weight: number;
  /** The most that a bundle may weigh, kg: the lift limit, or less where heavy bundles are forbidden. */
  limit: number;
}

export interface Problem {
  job: Job;
  steels: Steel[];
  barKinds: BarKind[];
  spaces: Space[];
  labour: LabourRates;
  /** The least weight of any void: what a kilogram in place is worth at least. */
  leastWeight: number;
  /** Of any section, mass per metre of its lightest lot ÷ that of its heaviest. */
  leastShare: number;
  /** What a kilogram·metre past each aim costs, kg of value. */
  missPrices: MissPrices;
}

/** States `job` as a planning problem. */
export function problemOf(job: Job): Problem {
  const steels = steelsOf(job);
  const indexOf = new Map(steels.map((steel) => [steel.key, steel.index]));
  const barKinds: BarKind[] = [];
  for (const lot of job.pile) {
    const perMetre = lotMassPerMetre(lot, job.steel.density);
    const counts = new Map<number, number>();
    for (const length of barLengths(lot)) counts.set(length, (counts.get(length) ?? 0) + 1);
    for (const [length, count] of counts) {
      const steel = indexOf.get(sectionKey(lot.section))!;
      const spans = usableSpans(lot, length, job.saw);
      barKinds.push({ index: barKinds.length, lot: lot.lot, steel, length, spans, count, perMetre });
    }
  }
  const spaces = job.voids.map((stated, index) => {
    const limit = heaviestBundle(job, stated);
    return { index, stated, laid: layVoid({ ...stated, limit }), weight: rankWeight(stated.rank), limit };
  });
  const leastWeight = Math.min(...spaces.map((space) => space.weight));
  const leastShare = Math.min(...steels.map((steel) => steel.lightest / steel.heaviest));
  return {
    job,
    steels,
    barKinds,
    spaces,
    labour: labourRates(job),
    leastWeight,
    leastShare,
    missPrices: missPricesOf(job, spaces),
  };
}

/** Mass of a bar of `length` mm of the heaviest lot of a steel, kg. */
export function barMass(steel: Steel, length: number): number {
  return (steel.heaviest * length) / 1000;
}

/** Price of a kilogram·metre past an aim that some void can keep, and past one that none can. */
const MISS_PRICE = 50;
const HOPELESS_PRICE = 0.2;

/** Prices of missing the centre, axis by axis, and the spread. */
export interface MissPrices {
  x: number;
  y: number;
  z: number;
  spread: number;
}

/** An aim that no mixture of the voids' places reaches is not worth leaving them empty for. */
function missPricesOf(job: Job, spaces: Space[]): MissPrices {
  const corners = spaces.flatMap(({ laid }) =>
    laid.flatMap((way) =>
      [0, way.length].flatMap((along) =>
        [-way.width / 2, way.width / 2].flatMap((across) =>
          [0, way.height].map((up) => vesselPoint(way, along, across, up)),
        ),
      ),
    ),
  );
  const reaches = (axis: 'x' | 'y' | 'z') => {
    const [low, high] = job.aims.centre?.[axis] ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
    const places = corners.map((corner) => corner[axis]);
    return Math.min(...places) < high && Math.max(...places) > low ? MISS_PRICE : HOPELESS_PRICE;
  };
  const lcf = job.vessel?.lcf ?? 0;
  const { spread } = job.aims;
  const near = spread === undefined || corners.some((corner) => Math.abs(corner.x - lcf) < spread);
  return { x: reaches('x'), y: reaches('y'), z: reaches('z'), spread: near ? MISS_PRICE : HOPELESS_PRICE };
}
