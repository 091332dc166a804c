/**
 * What a plan needs besides steel (for that see `shortages.ts`): quantities reckoned from the plan, each with the figures
 * it comes from. Lengths mm, areas m², masses kg. Spacings and allowances are kentledge's own assumptions and stand in `ALLOWANCES`.
 */
import type { Job } from '../job/job.ts';
import { type Section, steelArea } from '../job/section.ts';
import type { Plan, PlanBundle } from './plan.ts';
import { cutsOfPieces } from './stops.ts';

export const ALLOWANCES = {
  /** Greatest distance between notched battens under a run, mm. */
  battenEvery: 300,
  /** How wide along the bars a notched batten is, mm. */
  battenWidth: 40,
  /** Greatest distance between bands on a bundle, mm; never fewer than two. */
  bandEvery: 500,
  /** Overlap and knot of a band, mm. */
  bandLap: 60,
  /** Spare tags: one for so many. */
  spareTagEvery: 10,
} as const;

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
function outerPerimeter(section: Section): number {
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
