/**
 * What a plan needs besides the pile: quantities reckoned from the plan, each with the figures it comes from. Lengths mm,
 * areas m², masses kg. Spacings and allowances are kentledge's own assumptions and stand in `ALLOWANCES`.
 */
import type { Job } from '../job/job.ts';
import { lotMassPerMetre } from '../job/lot.ts';
import { type Section, sectionKey, sectionName, steelArea } from '../job/section.ts';
import type { Plan, PlanBundle } from './plan.ts';
import { cutsOfPieces } from './stops.ts';

export const ALLOWANCES = {
  /** Greatest distance between notched battens under a run, mm. */
  battenEvery: 300,
  /** Greatest distance between bands on a bundle, mm; never fewer than two. */
  bandEvery: 500,
  /** Overlap and knot of a band, mm. */
  bandLap: 60,
  /** Spare tags: one for so many. */
  spareTagEvery: 10,
} as const;

/** Steel still to buy for a void, or for the whole job where `void` is null. */
export interface Shortage {
  void: string | null;
  short: number;
  section: string;
  massPerMetre: number;
  metres: number;
}

/** Targets that the plan falls short of by at least the lightest bundle, in the section that would fill them. */
export function shortages(job: Job, plan: Plan): Shortage[] {
  const found: Shortage[] = [];
  for (const space of job.voids) {
    const bundles = plan.bundles.filter((bundle) => bundle.void === space.void);
    const short = (space.target ?? 0) - sumMass(bundles);
    if (short > 0.005) found.push(shortageOf(job, bundles.length > 0 ? bundles : plan.bundles, space.void, short));
  }
  const overall = (job.aims.ballast ?? 0) - sumMass(plan.bundles);
  if (overall > 0.005) found.push(shortageOf(job, plan.bundles, null, overall));
  return found;
}

function sumMass(bundles: PlanBundle[]): number {
  return bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
}

/** In the section that carries most mass of `bundles`; where there is none, the heaviest of the pile. */
function shortageOf(job: Job, bundles: PlanBundle[], space: string | null, short: number): Shortage {
  const bySection = new Map<string, number>();
  for (const bundle of bundles) {
    const key = sectionKey(bundle.section);
    bySection.set(key, (bySection.get(key) ?? 0) + bundle.mass);
  }
  const perMetre = (lot: Job['pile'][number]): number => lotMassPerMetre(lot, job.steel.density);
  const weight = (lot: Job['pile'][number]): number =>
    bySection.size > 0 ? (bySection.get(sectionKey(lot.section)) ?? 0) : perMetre(lot);
  const lot = job.pile.reduce((best, candidate) => (weight(candidate) > weight(best) ? candidate : best));
  const massPerMetre = perMetre(lot);
  return { void: space, short, section: sectionName(lot.section), massPerMetre, metres: short / massPerMetre };
}

/** Bands on a bundle: by its length, and one more at each joint of its bars. */
export function bandsOn({ length, slots }: Pick<PlanBundle, 'length' | 'slots'>): number {
  const joints = slots.reduce((sum, slot) => sum + slot.length - 1, 0);
  return Math.max(2, Math.ceil(length / ALLOWANCES.bandEvery) + (length > ALLOWANCES.bandEvery ? 1 : 0)) + joints;
}

export interface Tying {
  bands: number;
  bandMetres: number;
  cordMetres: number;
  endCaps: number;
  tags: number;
  spareTags: number;
}

/** Bands, cord, end caps and tags for every bundle. A band goes once round the bundle's outer size. */
export function tyingOf(job: Job, plan: Plan): Tying {
  const tying = { bands: 0, bandMetres: 0, cordMetres: 0, endCaps: 0, tags: plan.bundles.length, spareTags: 0 };
  for (const bundle of plan.bundles) {
    const bands = bandsOn(bundle);
    tying.bands += bands;
    tying.bandMetres += (bands * (2 * (bundle.size.across + bundle.size.up) + ALLOWANCES.bandLap)) / 1000;
    tying.cordMetres += (bundle.becket ?? 0) / 1000;
    if (job.bundle.endCover > 0) tying.endCaps += 2;
  }
  tying.spareTags = Math.ceil(plan.bundles.length / ALLOWANCES.spareTagEvery);
  return tying;
}

export interface Coating {
  /** Outer surface of all pieces, m². */
  surface: number;
  /** Both ends of every piece, m², and how many pieces. */
  ends: number;
  pieces: number;
  /** Steel sawn through, cm², in how many cuts. */
  cutArea: number;
  cuts: number;
}

/** Areas to coat and to saw. A section stated as `other` counts as its outer rectangle. */
export function coatingOf(job: Job, plan: Plan): Coating {
  const coating = { surface: 0, ends: 0, pieces: 0, cutArea: 0, cuts: 0 };
  const sections = new Map(job.pile.map((lot) => [lot.lot, lot.section]));
  for (const bar of plan.bars) {
    const section = sections.get(bar.lot);
    if (!section) continue;
    const area = steelArea(section) ?? outerArea(section);
    const cuts = cutsOfPieces(bar, job.saw.kerf).reduce((sum, count) => sum + count, 0);
    coating.cuts += cuts;
    coating.cutArea += (cuts * area) / 100;
    for (const piece of bar.pieces) {
      coating.pieces += 1;
      coating.surface += (outerPerimeter(section) * (piece.to - piece.from)) / 1e6;
      coating.ends += (2 * area) / 1e6;
    }
  }
  return coating;
}

function outerArea(section: Section): number {
  return section.shape === 'other' ? section.width * section.height : 0;
}

/** The outside of a section, mm round; the inside of tubes is not counted. */
export function outerPerimeter(section: Section): number {
  switch (section.shape) {
    case 'round':
    case 'tube':
      return Math.PI * section.diameter;
    case 'deformed':
      return Math.PI * section.nominal;
    case 'square':
      return 4 * section.side;
    case 'flat':
      return 2 * (section.width + section.thickness);
    case 'hexagon':
      return 6 * (section.acrossFlats / Math.sqrt(3));
    case 'angle':
      return 2 * (section.leg + (section.otherLeg ?? section.leg));
    case 'box':
    case 'other':
      return 2 * (section.width + section.height);
  }
}
