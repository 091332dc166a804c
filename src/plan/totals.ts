/** What a plan comes to: totals, the masses and centres of its voids, its value. */
import type { Job, Lot } from '../job/job.ts';
import { lotMassPerMetre, lotSquaring, usableSpans } from '../job/lot.ts';
import { steelArea } from '../job/section.ts';
import { envelope } from '../stow/envelope.ts';
import { type LaidVoid, layVoid, middlePoint } from '../stow/laid.ts';
import type { PlanBar, PlanBundle, PlanVoid, Totals } from './plan.ts';
import { rankWeight, SCRAP_RATE, workMinutes } from './value.ts';

/** The laid void of each bundle. */
export type LaidOf = Map<string, LaidVoid>;

/** Totals of bars and bundles, masses to 0.01 kg. */
export function totalsOf(job: Job, bars: PlanBar[], bundles: PlanBundle[]): Totals {
  const lots = new Map(job.pile.map((lot) => [lot.lot, lot]));
  const sum = { stock: 0, placed: 0, kept: 0, scrap: 0, kerf: 0, squaring: 0, spoiled: 0 };
  const lengths = new Set<number>();
  let cuts = 0;
  let pieces = 0;
  for (const bar of bars) {
    const lot = lots.get(bar.lot)!;
    const kg = (mm: number) => (mm * lotMassPerMetre(lot, job.steel.density)) / 1000;
    const spans = usableSpans(lot, bar.length, job.saw);
    const usable = spans.reduce((total, span) => total + span.to - span.from, 0);
    let used = 0;
    for (const { from, to } of bar.pieces) {
      const length = Math.round((to - from) * 10) / 10;
      used += length;
      sum.placed += kg(length);
      lengths.add(length);
      pieces++;
    }
    for (const { from, to, fate } of bar.remainders) {
      used += to - from;
      if (fate === 'keep') sum.kept += kg(to - from);
      else sum.scrap += kg(to - from);
    }
    cuts += cutsOfBar(bar, lot, job);
    const squaring = Math.min(bar.length, 2 * lotSquaring(lot, job.saw));
    sum.stock += kg(bar.length);
    sum.kerf += kg(usable - used);
    sum.squaring += kg(squaring);
    sum.spoiled += kg(bar.length - squaring - usable);
  }
  const stops = lengths.size;
  return {
    stockMass: cents(sum.stock),
    placedMass: cents(sum.placed),
    keptMass: cents(sum.kept),
    scrapMass: cents(sum.scrap),
    kerfMass: cents(sum.kerf),
    squaringMass: cents(sum.squaring),
    spoiledMass: cents(sum.spoiled),
    bars: bars.length,
    pieces,
    cuts,
    stops,
    bundles: bundles.length,
    minutes: Math.round(workMinutes(job, cuts, stops, bundles.length) * 100) / 100,
  };
}

/** Nearer than this to the end of its bar a piece ends with it, mm. */
const END = 0.01;

/** Mass of all bundles, steel with their bands: what targets and the ballast asked for count, kg to 0.01. */
export function bundleMassOf({ bundles }: { bundles: Pick<PlanBundle, 'mass'>[] }): number {
  return cents(bundles.reduce((sum, { mass }) => sum + mass, 0));
}

/** Cuts of one bar: each piece end that is not a bar end, two ends one kerf apart being one. */
function cutsOfBar(bar: PlanBar, lot: Lot, job: Job): number {
  let cuts = 0;
  for (const span of usableSpans(lot, bar.length, job.saw)) {
    const inside = bar.pieces.filter(({ from, to }) => from >= span.from - 0.05 && to <= span.to + 0.05);
    if (inside.length > 0 && span.from > END) cuts++;
    for (const { to } of inside) if (to < bar.length - END) cuts++;
  }
  return cuts;
}

function cents(mass: number): number {
  return Math.round(mass * 100) / 100 + 0;
}

/** Value of a plan by the formula of value.ts, from its pieces, unrounded. */
export function planValue(job: Job, bars: PlanBar[], bundles: PlanBundle[], totals: Totals): number {
  const ranks = new Map(job.voids.map((stated) => [stated.void, stated.rank]));
  const weights = new Map(bundles.map((bundle) => [bundle.bundle, rankWeight(ranks.get(bundle.void)!)]));
  const lots = new Map(job.pile.map((lot) => [lot.lot, lotMassPerMetre(lot, job.steel.density)]));
  let steel = 0;
  let scrap = 0;
  for (const { lot, pieces, remainders } of bars) {
    const kg = lots.get(lot)! / 1000;
    for (const { from, to, bundle } of pieces) steel += weights.get(bundle)! * (to - from) * kg;
    for (const { from, to, fate } of remainders) if (fate === 'scrap') scrap += (to - from) * kg;
  }
  const minutes = workMinutes(job, totals.cuts, totals.stops, totals.bundles);
  return steel - SCRAP_RATE * scrap - (job.aims.kgPerHour * minutes) / 60;
}

/** Centre of bundles by their masses before rounding, m; null where there are none. */
export function centreOf(
  bundles: PlanBundle[],
  laid: LaidOf,
  masses: Map<string, number>,
): { x: number; y: number; z: number } | null {
  let mass = 0;
  const centre = { x: 0, y: 0, z: 0 };
  for (const bundle of bundles) {
    const middle = middlePoint(laid.get(bundle.void)!, bundle);
    const own = masses.get(bundle.bundle)!;
    mass += own;
    centre.x += own * middle.x;
    centre.y += own * middle.y;
    centre.z += own * middle.z;
  }
  if (mass === 0) return null;
  const metres = (sum: number) => Math.round((sum / mass) * 10_000) / 10_000 + 0;
  return { x: metres(centre.x), y: metres(centre.y), z: metres(centre.z) };
}

/** Every void of the job as the plan fills it: its mass is what its bundles are told to weigh, as whoever adds up their tags finds. */
export function voidsOf(job: Job, bundles: PlanBundle[], laid: LaidOf, masses: Map<string, number>): PlanVoid[] {
  return job.voids.map((stated) => {
    const own = bundles.filter((bundle) => bundle.void === stated.void);
    const berth = laid.get(stated.void) ?? layVoid(stated)[0]!;
    return {
      void: stated.void,
      mass: bundleMassOf({ bundles: own }),
      bundles: own.length,
      fill: Math.round(1000 * Math.min(1, steelVolume(job, own) / stowable(berth))) / 1000 || 0,
      centre: centreOf(own, laid, masses),
      ...(stated.axis === 'either' ? { axis: berth.axis } : {}),
    };
  });
}

/** Volume of steel, mm³: by its area, or by its mass for a section that has none. */
function steelVolume(job: Job, bundles: PlanBundle[]): number {
  let volume = 0;
  for (const { section, length, slots, mass } of bundles) {
    const area = steelArea(section);
    volume += area === null ? ((mass - job.bundle.wrapping) / job.steel.density) * 1e9 : area * length * slots.length;
  }
  return volume;
}

/** Slices along and up of the sum over a void that is not a box. */
const SLICES = 40;

/** Volume in which bundles may lie, mm³: inside the clearances, above the raised bottom, outside keep-outs. */
export function stowable(laid: LaidVoid): number {
  const from = laid.clear.ends;
  const step = (laid.length - 2 * from) / SLICES;
  if (step <= 0) return Number.POSITIVE_INFINITY;
  let volume = 0;
  for (let i = 0; i < SLICES; i++) {
    const along = from + (i + 0.5) * step;
    const space = envelope(laid, along, along);
    const rise = (space.top - space.bottom) / SLICES;
    if (rise <= 0) continue;
    for (let j = 0; j < SLICES; j++) {
      const up = space.bottom + (j + 0.5) * rise;
      for (const interval of space.clear(up, up)) volume += (interval.to - interval.from) * rise * step;
    }
  }
  return volume > 0 ? volume : Number.POSITIVE_INFINITY;
}
