/**
 * The best plan of one void, one section and one length: equal grid bundles in equal tiers and runs, cut exactly. Found by
 * trying every whole millimetre, so that it is a plan of the job whatever else is; value as in the plan format, kg.
 */
import type { Job, Void } from '../../src/job/job.ts';
import { barLengths, lotMassPerMetre, type Span, usableSpans } from '../../src/job/lot.ts';
import { outerSize, rolls, type Section, sectionKey } from '../../src/job/section.ts';

export interface OneLengthPlan {
  void: string;
  section: Section;
  length: number;
  bundles: number;
  bars: number;
  value: number;
  /** Steel in place, kg. */
  placed: number;
  /** Middles of the runs, mm along, each with its share of the bundles. */
  runs: { middle: number; bundles: number }[];
}

const halfUp = (size: number): number => Math.ceil(size * 2 - 1e-9) / 2;

/** The best of all such plans; null where none is worth anything. Void boxes only; the lengths tried are `step` mm apart. */
export function bestOfOneLength(job: Job, step = 1): OneLengthPlan | null {
  let best: OneLengthPlan | null = null;
  for (const place of job.voids) {
    const sections = new Map(job.pile.map((lot) => [sectionKey(lot.section), lot.section]));
    for (const [key, section] of sections) {
      const room = place.length - 2 * place.clear.ends - job.saw.tolerance - 2 * job.bundle.endCover;
      for (let length = Math.floor(room); length >= job.saw.shortestPiece; length -= step) {
        const plan = bestAt(job, place, section, key, length);
        if (plan && plan.value > (best?.value ?? 0)) best = plan;
      }
    }
  }
  return best;
}

function bestAt(job: Job, place: Void, section: Section, key: string, length: number): OneLengthPlan | null {
  const { bundle, saw, aims } = job;
  const lots = job.pile.filter((lot) => sectionKey(lot.section) === key);
  const heaviest = Math.max(...lots.map((lot) => lotMassPerMetre(lot, job.steel.density)));
  const bow = Math.max(...lots.map((lot) => lot.bow));
  const perBar = (heaviest * length) / 1000;
  const most = Math.min(bundle.maxBars, Math.floor(((place.limit ?? bundle.limit) - bundle.wrapping) / perBar + 1e-9));
  if (most < 1) return null;
  const gains = gainsOf(job, place, key, length);
  const along = halfUp(length + saw.tolerance + 2 * bundle.endCover);
  const runs = Math.floor((place.length - 2 * place.clear.ends + place.gap.runs + 1e-9) / (along + place.gap.runs));
  const around = 2 * bundle.wrap + bow * (length / 1000) ** 2;
  const width = place.width - 2 * place.clear.sides;
  const height = place.height - place.clear.top - place.dunnage;
  const cap = Math.min(place.target ?? Infinity, place.most ?? Infinity, aims.ballast ?? Infinity);
  let best: OneLengthPlan | null = null;
  for (const onEdge of [false, true]) {
    const bar = outerSize(section, onEdge);
    for (let rows = 1; rows <= (rolls(section) ? 1 : most); rows++) {
      const tiers = Math.floor((height + 1e-9) / halfUp(rows * bar.up + around));
      for (let columns = 1; columns * rows <= most; columns++) {
        const across = halfUp(columns * bar.across + around);
        const beside = Math.floor((width + place.gap.across + 1e-9) / (across + place.gap.across));
        const each = rows * columns;
        for (let bundles = 1; bundles <= beside * tiers * runs; bundles++) {
          const gain = gains[bundles * each];
          if (gain === undefined) break;
          if (bundles * (each * perBar + bundle.wrapping) > cap) break;
          const minutes = saw.minutesPerStop + bundles * bundle.minutesPerBundle;
          const value = gain.value - (aims.kgPerHour * minutes) / 60;
          if (value > (best?.value ?? 0)) {
            const places = Array.from({ length: runs }, (_, run) => ({
              middle: place.clear.ends + run * (along + place.gap.runs) + along / 2,
              bundles: Math.max(0, Math.min(beside * tiers, bundles - run * beside * tiers)),
            }));
            const plan = { void: place.void, section, length, bundles, bars: bundles * each };
            best = { ...plan, value, placed: gain.placed, runs: places.filter((run) => run.bundles > 0) };
          }
        }
      }
    }
  }
  return best;
}

export interface Gain {
  /** Rank-weighted steel less scrap and cuts, kg. */
  value: number;
  placed: number;
}

/** What 0, 1, 2, … pieces of a length are worth at best, every bar used once at most; as far as the pile yields them. */
export function gainsOf(job: Job, place: Void, key: string, length: number): Gain[] {
  const weight = Math.max(0.9, 1 - 0.01 * (place.rank - 1));
  const cut = (job.aims.kgPerHour * job.saw.minutesPerCut) / 60 / job.saw.gang;
  let best: Gain[] = [{ value: 0, placed: 0 }];
  for (const lot of job.pile) {
    if (sectionKey(lot.section) !== key) continue;
    const kgPerMm = lotMassPerMetre(lot, job.steel.density) / 1000;
    for (const bar of barLengths(lot)) {
      const costs = costsOf(usableSpans(lot, bar, job.saw), bar, length, job, kgPerMm, cut);
      const next = [...best];
      for (let had = 0; had < best.length; had++) {
        for (let more = 1; more < costs.length; more++) {
          const steel = more * length * kgPerMm;
          const value = best[had]!.value + weight * steel - costs[more]!;
          const known = next[had + more];
          if (!known || value > known.value) next[had + more] = { value, placed: best[had]!.placed + steel };
        }
      }
      best = next;
    }
  }
  return best;
}

/** What scrap and cuts cost at least, kg, where a bar yields 0, 1, 2, … pieces. */
function costsOf(spans: Span[], bar: number, length: number, job: Job, kgPerMm: number, cut: number): number[] {
  const { kerf, keepFrom } = job.saw;
  let costs = [0];
  for (const { from, to } of spans) {
    const size = to - from;
    const next: number[] = [];
    for (let n = 0; n * length + (n - 1) * kerf <= size + 1e-9; n++) {
      const rest = size - n * (length + kerf);
      const cuts = n === 0 ? 0 : n + (from > 0.01 ? 1 : 0) - (from + n * (length + kerf) - kerf >= bar - 0.01 ? 1 : 0);
      const cost = (rest > 0 && rest < keepFrom ? 0.5 * rest * kgPerMm : 0) + cuts * cut;
      costs.forEach((before, had) => {
        next[had + n] = Math.min(next[had + n] ?? Number.POSITIVE_INFINITY, before + cost);
      });
    }
    costs = next;
  }
  return costs;
}
