/**
 * The value of the best plan of one bundle of one bar, by trying: where it is above nought, a planner that says that
 * nothing is worth placing is wrong. Box voids only.
 */
import type { Job, Lot, Void } from '../../src/job/job.ts';
import { barLengths, lotMassPerMetre, lotSquaring, type Span, usableSpans } from '../../src/job/lot.ts';
import { outerSize } from '../../src/job/section.ts';

/** Kilograms, as in the plan format; null where no such bundle fits anywhere. */
export function bestOfOneBar(job: Job): number | null {
  let best: number | null = null;
  for (const place of job.voids) {
    for (const lot of job.pile) {
      for (const length of new Set(barLengths(lot))) {
        for (const span of usableSpans(lot, length, job.saw)) {
          for (const piece of pieceLengths(job, place, lot, span)) {
            const value = worthOf(job, place, lot, length, span, piece);
            if (value !== null && (best === null || value > best)) best = value;
          }
        }
      }
    }
  }
  return best;
}

/** The longest that the span, the void and the lift limit allow, and those that leave a remainder long enough to keep. */
function pieceLengths(job: Job, place: Void, lot: Lot, span: Span): number[] {
  const perMetre = lotMassPerMetre(lot, job.steel.density);
  const limit = (place.limit ?? job.bundle.limit) - job.bundle.wrapping;
  const room = place.length - 2 * place.clear.ends - job.saw.tolerance - 2 * job.bundle.endCover;
  const longest = Math.floor(Math.min(span.to - span.from, room, (limit / perMetre) * 1000));
  const keeping = Math.floor(span.to - span.from - job.saw.kerf - job.saw.keepFrom);
  return [longest, Math.min(longest, keeping)].filter((piece) => piece >= job.saw.shortestPiece);
}

function worthOf(job: Job, place: Void, lot: Lot, length: number, span: Span, piece: number): number | null {
  const { saw, bundle, aims } = job;
  const perMetre = lotMassPerMetre(lot, job.steel.density);
  const steel = (piece * perMetre) / 1000;
  const mass = steel + bundle.wrapping;
  if (!fits(job, place, lot, piece) || mass > (place.most ?? Number.POSITIVE_INFINITY)) return null;
  if (place.target === 0 || aims.ballast === 0) return null;
  const rest = (one: Span): number => {
    const left = one === span ? Math.max(0, one.to - one.from - piece - saw.kerf) : one.to - one.from;
    return left < saw.keepFrom ? left : 0;
  };
  const spans = usableSpans(lot, length, saw).map((one) => (one.from === span.from ? span : one));
  const scrap = (spans.reduce((sum, one) => sum + rest(one), 0) * perMetre) / 1000;
  const cuts = (span.from > 0 || lotSquaring(lot, saw) > 0 ? 1 : 0) + (span.from + piece < length ? 1 : 0);
  const minutes = (cuts / saw.gang) * saw.minutesPerCut + saw.minutesPerStop + bundle.minutesPerBundle;
  const rank = Math.max(0.9, 1 - 0.01 * (place.rank - 1));
  return rank * steel - 0.5 * scrap - (aims.kgPerHour * minutes) / 60;
}

function fits(job: Job, place: Void, lot: Lot, piece: number): boolean {
  const bow = Math.max(
    ...job.pile.filter((one) => JSON.stringify(one.section) === JSON.stringify(lot.section)).map((one) => one.bow),
  );
  const over = 2 * job.bundle.wrap + bow * (piece / 1000) ** 2;
  const width = place.width - 2 * place.clear.sides;
  const height = place.height - place.clear.top - place.dunnage;
  // Sizes are rounded up to half a millimetre: half a millimetre less room is on the safe side.
  return [false, true].some((onEdge) => {
    const { across, up } = outerSize(lot.section, onEdge);
    return across + over <= width - 0.5 && up + over <= height - 0.5;
  });
}
