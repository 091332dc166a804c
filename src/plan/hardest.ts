/** The bundle to try before the rest is cut: the one that passes its opening, or its void, with least to spare. */
import type { Job, Opening, Void } from '../job/job.ts';
import { heaviestBundle } from '../lift/limit.ts';
import { type LaidVoid, layVoid } from '../stow/laid.ts';
import { hasRoomUnder } from '../stow/opening.ts';
import type { Plan, PlanBundle } from './plan.ts';

export interface Hardest {
  bundle: PlanBundle;
  space: Void;
  opening: Opening | null;
  /** How it goes through the opening; null where there is none. */
  way: 'flat' | 'endFirst' | null;
  /** Share of the opening, or without one of the void's free length, that it takes up; 1 is no room to spare. */
  tightness: number;
  /** Its mass over its limit. */
  heaviness: number;
}

/** The tightest through an opening; where no filled void has one, the fullest in length and limit taken together. */
export function hardestBundle(job: Job, plan: Plan): Hardest | null {
  const voids = new Map(job.voids.map((space) => [space.void, space]));
  let hardest: Hardest | null = null;
  for (const bundle of plan.bundles) {
    const space = voids.get(bundle.void);
    if (!space) continue;
    const ways = layVoid(space);
    const axis = plan.voids.find((entry) => entry.void === space.void)?.axis;
    const candidate = judge(
      bundle,
      space,
      heaviestBundle(job, space),
      ways.find((way) => way.axis === axis) ?? ways[0]!,
    );
    if (!hardest || rank(candidate) > rank(hardest)) hardest = candidate;
  }
  return hardest;
}

/** Openings first; then tightness and heaviness alike. */
function rank(candidate: Hardest): number {
  return (candidate.opening ? 10 : 0) + candidate.tightness + 0.5 * candidate.heaviness;
}

function judge(bundle: PlanBundle, space: Void, limit: number, laid: LaidVoid): Hardest {
  const heaviness = bundle.mass / limit;
  const passage = easiest(bundle, laid);
  if (passage)
    return { bundle, space, opening: passage.opening, way: passage.way, tightness: passage.share, heaviness };
  const tightness = bundle.size.along / Math.max(1, laid.length - 2 * laid.clear.ends);
  return { bundle, space, opening: null, way: null, tightness, heaviness };
}

/** How a bundle passes an opening of its void: flat where it can, else end first; null where no opening is stated. */
export function wayIn(bundle: PlanBundle, laid: LaidVoid): 'flat' | 'endFirst' | null {
  return easiest(bundle, laid)?.way ?? null;
}

interface Passage {
  opening: Opening;
  way: 'flat' | 'endFirst';
  /** Share of the opening that the bundle takes up. */
  share: number;
}

/** The opening that a bundle passes with most to spare, and how; flat goes before end first where it passes at all. */
function easiest(bundle: PlanBundle, laid: LaidVoid): Passage | null {
  const openings = laid.opening ? [laid.opening, ...(laid.otherOpenings ?? [])] : [];
  const ways = openings.flatMap((opening): Passage[] => {
    const { flat, endFirst } = sharesOf(bundle, laid, opening);
    return [
      { opening, way: 'flat', share: flat },
      { opening, way: 'endFirst', share: endFirst },
    ];
  });
  const flat = ways.filter(({ way, share }) => way === 'flat' && share <= 1);
  const best = flat.length > 0 ? flat : ways;
  return best.reduce<Passage | null>((p, q) => (p && p.share <= q.share ? p : q), null);
}

/** Shares of the opening taken up by a bundle lying flat and going in end first; infinite where that is not allowed. */
function sharesOf(bundle: PlanBundle, laid: LaidVoid, opening: Opening): { flat: number; endFirst: number } {
  const { along, across, up } = bundle.size;
  const flat = Math.max(along / opening.along, across / opening.across);
  if (!opening.endFirst || !hasRoomUnder(opening, laid, along, up, laid.height - bundle.at.up))
    return { flat, endFirst: Number.POSITIVE_INFINITY };
  // The slot under a hatch edge at the flattest angle: D·L/h + T·√((L/h)² − 1), or D alone where the bundle stands upright.
  const ratio = along / (laid.height - bundle.at.up);
  const slot = ratio <= 1 ? up : up * ratio + opening.deck * Math.sqrt(ratio * ratio - 1);
  return { flat, endFirst: Math.max(slot / opening.along, across / opening.across) };
}
