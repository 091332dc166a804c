/** Why nothing is placed: void by void, what keeps bundles out and what to change. */
import { NO_LOAD_REMEDY } from '../lift/limit.ts';
import { acrossSize, alongSize, lies, longestIn, sagOf, upSize } from '../stow/bundle.ts';
import type { LaidVoid } from '../stow/laid.ts';
import { openingOf } from '../stow/opening.ts';
import { PAST, restOf } from '../stow/rest.ts';
import { ON_BOTTOM } from '../stow/runSpace.ts';
import { barMass, type Problem, type Space } from './problem.ts';

/** Why a void takes nothing, and what to change. */
export interface Empty {
  why: string;
  remedy: string;
}

/** The same of a void by its name. */
export interface Nothing extends Empty {
  void: string;
}

/** Of a void that others had the whole pile before. */
export const PILE_GONE: Empty = {
  why: 'no bar is left of the pile, and its steel is worth as much or more in the voids that have it',
  remedy: 'Find more steel, or ask for what should lie here: a target or a rank for it, or a centre under the aims.',
};

/** The reasons for every void, in the order of the job. */
export function whyNothing(problem: Problem): Nothing[] {
  return problem.spaces.map((space) => ({ void: space.stated.void, ...whyEmpty(problem, space) }));
}

/** Why one void takes nothing. */
export function whyEmpty(problem: Problem, space: Space): Empty {
  const shut = whyShut(problem, space);
  if (shut) return shut;
  const { saw } = problem.job;
  const least = Math.ceil(saw.shortestPiece);
  const longest = Math.max(0, ...problem.barKinds.flatMap((kind) => kind.spans.map(({ from, to }) => to - from)));
  if (longest < least) {
    return {
      why: `no bar of the pile has ${least} mm of usable steel in one stretch`,
      remedy: 'Look at the squaring and the spoiled spans of the lots, or allow shorter pieces (saw.shortestPiece).',
    };
  }
  const { centre, spread, ballast } = problem.job.aims;
  const aims: string[] = [];
  if (centre || spread !== undefined) aims.push('move the centre or the spread from what is asked for');
  if (ballast !== undefined) aims.push('pass the ballast asked for');
  return {
    why: `what would be placed is worth less than its scrap and its labour${aims.length > 0 ? `, or would ${aims.join(' or ')}` : ''}`,
    remedy: `Lower aims.kgPerHour,${aims.length > 0 ? ' allow more in the aims,' : ''} raise the target or most of the void, or look for bars that suit it better.`,
  };
}

/** Why a void would take nothing however much there were of the sections of the pile; null where it could take some. */
export function whyShut(problem: Problem, space: Space): Empty | null {
  const { job, steels } = problem;
  if (space.limit <= 0) return { why: 'the guide that the job holds to leaves no load', remedy: NO_LOAD_REMEDY };
  const least = Math.ceil(job.saw.shortestPiece);
  const room = Math.max(...space.laid.map((laid) => longestIn(laid.length - 2 * laid.clear.ends, job.saw, job.bundle)));
  if (room < least) {
    return {
      why: `the longest bundle that lies in it is ${Math.max(0, room)} mm, and the shortest piece is ${job.saw.shortestPiece} mm`,
      remedy: 'Measure its length again, lessen clear.ends, or allow shorter pieces (saw.shortestPiece).',
    };
  }
  const light = Math.min(...steels.map((steel) => barMass({ ...steel, heaviest: steel.lightest }, least)));
  if (light + job.bundle.wrapping > space.limit) {
    const weighs = `the lightest piece weighs ${light.toFixed(2)} kg`;
    return space.limit < (space.stated.limit ?? job.bundle.limit)
      ? {
          why: `${weighs}, over the ${space.limit} kg that the guide leaves, to which the job holds`,
          remedy: 'Come nearer, carry it another way, or allow shorter pieces (saw.shortestPiece).',
        }
      : {
          why: `${weighs}, over the lift limit of ${space.limit} kg`,
          remedy: 'Raise the lift limit if the person can lift more here, or allow shorter pieces (saw.shortestPiece).',
        };
  }
  /** Whether a bundle fits in that is, with as many rows as may be tied, over so many mm high. */
  const fitsOver = (low: number): boolean =>
    space.laid.some((laid) =>
      steels.some((steel) =>
        lies(steel.section).some((onEdge) => {
          const sag = sagOf(steel.bow, least);
          const up = (rows: number) => upSize(steel.section, onEdge, rows, job.bundle, sag);
          const across = acrossSize(steel.section, onEdge, 1, job.bundle, sag);
          return (
            up(1) <= laid.height - laid.clear.top - laid.dunnage &&
            up(job.bundle.maxBars) > low &&
            (laid.stations !== undefined || across <= laid.width - 2 * laid.clear.sides)
          );
        }),
      ),
    );
  if (!fitsOver(0)) {
    return {
      why: 'no section of the pile fits into its height and width once clearances, dunnage and wrap are off',
      remedy: 'Measure it again, or lessen clear.top, clear.sides, dunnage or bundle.wrap, or look for thinner bars.',
    };
  }
  if (!fitsOver(ON_BOTTOM)) {
    return {
      why: `its bundles would be no more than ${ON_BOTTOM} mm high, so that the second tier would lie on the bottom too`,
      remedy: 'Allow more bars in a bundle (bundle.maxBars), or wrap them (bundle.wrap).',
    };
  }
  if (!space.laid.some((laid) => passesAny(problem, laid, least))) {
    return {
      why: 'not even the shortest bundle of one row passes its opening',
      remedy:
        'Measure the opening again, say whether bundles may go in end first, or allow shorter pieces (saw.shortestPiece).',
    };
  }
  if (!space.laid.some((laid) => standsAnywhere(problem, laid, least, room))) {
    return {
      why: 'no bundle that lies in it rests on two of its bearers with its middle between them',
      remedy: 'State every floor, frame and batten that carries, or lay battens and state them as bearers.',
    };
  }
  return null;
}

/** True where the shortest bundle of one bar of some section passes the opening. */
function passesAny({ steels, job }: Problem, laid: LaidVoid, least: number): boolean {
  const along = alongSize(least, job.saw, job.bundle);
  return steels.some((steel) =>
    lies(steel.section).some((onEdge) => {
      const sag = sagOf(steel.bow, least);
      const up = upSize(steel.section, onEdge, 1, job.bundle, sag);
      return openingOf(laid, along, up, 0) >= acrossSize(steel.section, onEdge, 1, job.bundle, sag);
    }),
  );
}

/**
 * True where bundles of some length may stand somewhere along the void. Of the places where one may the farthest along is at
 * the end of the void, or where a bearer lies under an end, the middle or a quarter from an end of it.
 */
function standsAnywhere({ job }: Problem, laid: LaidVoid, least: number, most: number): boolean {
  if (!laid.bearers) return true;
  const { ends } = laid.clear;
  const places = laid.bearers.map((bearer) => bearer.along);
  for (let length = least; length <= most; length++) {
    const along = alongSize(length, job.saw, job.bundle);
    const last = laid.length - ends - along;
    const farthest = places.flatMap((at) => [0, 0.5, 1 - PAST, 1].map((share) => at - share * along));
    for (const from of [last, ...farthest])
      if (from >= ends && from <= last && restOf(laid, from, from + along).stands) return true;
  }
  return false;
}
