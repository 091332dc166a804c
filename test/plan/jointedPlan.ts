/**
 * The best plans of one void with equal bundles, each one row of bars of which one is butted from two pieces: found by
 * trying every way of cutting every bar into bars and their two pieces. Value as in the plan format, kg.
 */
import type { Job, Void } from '../../src/job/job.ts';
import { barLengths, lotMassPerMetre, type Span, usableSpans } from '../../src/job/lot.ts';
import { outerSize, sectionKey } from '../../src/job/section.ts';

export interface Jointing {
  length: number;
  parts: [number, number];
}

const halfUp = (size: number): number => Math.ceil(size * 2 - 1e-9) / 2;

/** The greatest value of 1, 2, … bundles of each number of bars so jointed; 0 where none fits or pays. */
export function bestJointed(job: Job, place: Void, key: string, { length, parts }: Jointing): number {
  const lots = job.pile.filter((lot) => sectionKey(lot.section) === key);
  const { section } = lots[0]!;
  const { bundle, saw, aims } = job;
  const perMm = lotMassPerMetre(lots[0]!, job.steel.density) / 1000;
  const bow = Math.max(...lots.map((lot) => lot.bow));
  const along = halfUp(length + saw.tolerance + 2 * bundle.endCover);
  const runs = Math.floor((place.length - 2 * place.clear.ends + place.gap.runs + 1e-9) / (along + place.gap.runs));
  const around = 2 * bundle.wrap + bow * (length / 1000) ** 2;
  const bar = outerSize(section, false);
  const tiers = Math.floor((place.height - place.clear.top - place.dunnage + 1e-9) / halfUp(bar.up + around));
  const minute = aims.kgPerHour / 60;
  const stops = new Set([length, ...parts]).size;
  const cutting = costsOf(job, lots, perMm, length, parts);
  let best = 0;
  for (let bars = 3; bars <= bundle.maxBars; bars++) {
    if (bundle.joints!.share * bars < 1 - 1e-9) continue;
    const steel = ((bars - 1) * length + parts[0] + parts[1]) * perMm;
    if (steel + bundle.wrapping > (place.limit ?? bundle.limit) + 1e-9) break;
    const across = halfUp(bars * bar.across + around);
    const beside = Math.floor(
      (place.width - 2 * place.clear.sides + place.gap.across + 1e-9) / (across + place.gap.across),
    );
    for (let bundles = 1; bundles <= beside * tiers * runs; bundles++) {
      const cost = cutting.get(`${bundles * (bars - 1)},${bundles},${bundles}`);
      const mass = bundles * (steel + bundle.wrapping);
      if (
        cost === undefined ||
        mass > Math.min(place.most ?? Infinity, place.target ?? Infinity, aims.ballast ?? Infinity)
      )
        continue;
      const labour = minute * (bundles * bundle.minutesPerBundle + stops * saw.minutesPerStop);
      const weight = Math.max(0.9, 1 - 0.01 * (place.rank - 1));
      best = Math.max(best, weight * bundles * steel - cost - labour);
    }
  }
  return best;
}

/** The least that so many whole bars, first and second pieces cost in scrap and cuts, kg, each bar of the pile cut once at most. */
function costsOf(
  job: Job,
  lots: Job['pile'],
  perMm: number,
  length: number,
  parts: [number, number],
): Map<string, number> {
  let best = new Map<string, number>([['0,0,0', 0]]);
  for (const lot of lots) {
    for (const bar of barLengths(lot)) {
      const ways = waysOfBar(job, usableSpans(lot, bar, job.saw), bar, perMm, [length, ...parts]);
      const next = new Map(best);
      for (const [had, paid] of best) {
        for (const [more, cost] of ways) {
          const sum = had.split(',').map((count, i) => Number(count) + Number(more.split(',')[i]));
          const at = sum.join();
          if ((next.get(at) ?? Infinity) > paid + cost) next.set(at, paid + cost);
        }
      }
      best = next;
    }
  }
  return best;
}

function waysOfBar(job: Job, spans: Span[], bar: number, perMm: number, lengths: number[]): Map<string, number> {
  const { kerf, keepFrom } = job.saw;
  const cut = (job.aims.kgPerHour * job.saw.minutesPerCut) / 60 / job.saw.gang;
  let ways = new Map<string, number>([['0,0,0', 0]]);
  for (const { from, to } of spans) {
    const next = new Map<string, number>();
    const add = (counts: number[], at: number, end: number): void => {
      const rest = counts.some((count) => count > 0) ? Math.max(0, to - end - kerf) : to - from;
      const any = counts.reduce((sum, count) => sum + count, 0);
      const cuts = any === 0 ? 0 : any + (from > 0.01 ? 1 : 0) - (end >= bar - 0.01 ? 1 : 0);
      const cost = (rest < keepFrom ? 0.5 * rest * perMm : 0) + cuts * cut;
      for (const [had, paid] of ways) {
        const key = had
          .split(',')
          .map((count, i) => Number(count) + counts[i]!)
          .join();
        if ((next.get(key) ?? Infinity) > paid + cost) next.set(key, paid + cost);
      }
      for (let i = at; i < lengths.length; i++) {
        const begins = any === 0 ? from : end + kerf;
        if (begins + lengths[i]! <= to + 1e-9)
          add(
            counts.map((count, j) => count + (i === j ? 1 : 0)),
            i,
            begins + lengths[i]!,
          );
      }
    };
    add([0, 0, 0], 0, from);
    ways = next;
  }
  return ways;
}
