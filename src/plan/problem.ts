/** The planning problem: a job put into the terms that the planner reckons in. */
import type { Job, Void } from '../job/job.ts';
import { barLengths, lotMassPerMetre, type Span, usableSpans } from '../job/lot.ts';
import { sectionKey } from '../job/section.ts';
import { heaviestBundle } from '../lift/limit.ts';
import { asBox, type LaidVoid, layVoid, onHalves, vesselPoint } from '../stow/laid.ts';
import { type Steel, steelsOf } from '../stow/steel.ts';
import { TableRoom } from './fillTable.ts';
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
  /** The ways its bars may lie, on half millimetres. */
  laid: LaidVoid[];
  /** Value of a kilogram of steel in it. */
  weight: number;
  /** The most that a bundle may weigh, kg: the lift limit, or less where heavy bundles are forbidden. */
  limit: number;
  /** No bundle there is heavier, whatever the limit: so many bars, as long as fit. */
  heaviest: number;
}

export interface Problem {
  job: Job;
  steels: Steel[];
  barKinds: BarKind[];
  spaces: Space[];
  labour: LabourRates;
  /** What a kilogram·metre past each aim costs, kg of value. */
  missPrices: MissPrices;
  /** Asked many times a second by whatever takes long: tells that it goes on, and throws `Stopped` where it is not to. */
  poll: () => void;
  /** Where the bars of one steel are priced. */
  table: TableRoom;
}

/** States `job` as a planning problem. */
export function problemOf(job: Job): Problem {
  const steels = steelsOf(job);
  const indexOf = new Map(steels.map((steel) => [`${steel.key} ${steel.heaviest}`, steel.index]));
  const barKinds: BarKind[] = [];
  for (const lot of job.pile) {
    const perMetre = lotMassPerMetre(lot, job.steel.density);
    const counts = new Map<number, number>();
    for (const length of barLengths(lot)) counts.set(length, (counts.get(length) ?? 0) + 1);
    for (const [length, count] of counts) {
      const steel = indexOf.get(`${sectionKey(lot.section)} ${perMetre}`)!;
      const spans = usableSpans(lot, length, job.saw);
      barKinds.push({ index: barKinds.length, lot: lot.lot, steel, length, spans, count, perMetre });
    }
  }
  const spaces = job.voids.map((stated, index) => {
    const limit = heaviestBundle(job, stated);
    const room = Math.max(stated.length, stated.axis === 'either' ? stated.width : 0);
    const perMetre = Math.max(...steels.map((steel) => steel.heaviest));
    // A bundle that is heavier than all that the void may carry never lies there.
    const bears = Math.min(limit, stated.most ?? limit);
    const heaviest = Math.min(bears, (job.bundle.maxBars * perMetre * room) / 1000 + job.bundle.wrapping);
    return {
      index,
      stated,
      laid: layVoid({ ...stated, limit: bears })
        .map(asBox)
        .map(onHalves),
      weight: rankWeight(stated.rank),
      limit,
      heaviest,
    };
  });
  return {
    job,
    steels,
    barKinds,
    spaces,
    labour: labourRates(job),
    missPrices: KEPT,
    poll: () => undefined,
    table: new TableRoom(),
  };
}

/** Mass of a bar of `length` mm of a steel, kg. */
export function barMass(steel: Steel, length: number): number {
  return (steel.heaviest * length) / 1000;
}

/** Prices of missing the centre, axis by axis, and the spread: kg of value for a kilogram·metre (spread: kg·m²) past it. */
export interface MissPrices {
  x: number;
  y: number;
  z: number;
  spread: number;
}

/** Aims are kept where that is possible at all. */
export const KEPT: MissPrices = { x: 50, y: 50, z: 50, spread: 50 };
/** Aims that would leave everything ashore are missed. */
export const FORGOTTEN: MissPrices = { x: 0, y: 0, z: 0, spread: 0 };
/** Of the value of a kilogram, what leaning towards an aim may cost where it is furthest away. */
const LEAN = 0.2;

/** Prices for aims that would leave most of the steel ashore if they were kept: they are only leant towards. */
export function leantPrices(problem: Problem): MissPrices {
  const { centre, spread } = problem.job.aims;
  const lcf = problem.job.vessel?.lcf ?? 0;
  const middles = problem.spaces.flatMap(({ laid }) =>
    laid.map((way) => vesselPoint(way, way.length / 2, 0, way.height / 2)),
  );
  const price = (misses: number[]) => Math.min(KEPT.x, LEAN / Math.max(1e-3, ...misses));
  const outside = (axis: 'x' | 'y' | 'z') => {
    const range = centre?.[axis];
    return range ? middles.map((middle) => Math.max(middle[axis] - range[1], range[0] - middle[axis])) : [];
  };
  return {
    x: price(outside('x')),
    y: price(outside('y')),
    z: price(outside('z')),
    spread: price(spread === undefined ? [] : middles.map(({ x }) => (x - lcf) * (x - lcf) - spread * spread)),
  };
}
