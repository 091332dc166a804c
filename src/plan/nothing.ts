/** Why nothing is placed: void by void, what keeps bundles out and what to change. */

import { acrossSize, lies, longestIn, sagOf, upSize } from '../stow/bundle.ts';
import { barMass, type Problem, type Space } from './problem.ts';

/** Why a void takes nothing. */
export interface Nothing {
  void: string;
  why: string;
  remedy: string;
}

/** The reasons for every void, in the order of the job. */
export function whyNothing(problem: Problem): Nothing[] {
  return problem.spaces.map((space) => ({ void: space.stated.void, ...whyEmpty(problem, space) }));
}

/** Why one void takes nothing. */
export function whyEmpty(problem: Problem, space: Space): { why: string; remedy: string } {
  const { job, steels, barKinds } = problem;
  const least = Math.ceil(job.saw.shortestPiece);
  const room = Math.max(...space.laid.map((laid) => longestIn(laid.length - 2 * laid.clear.ends, job.saw, job.bundle)));
  if (room < least) {
    return {
      why: `the longest bundle that lies in it is ${Math.max(0, room)} mm, and the shortest piece is ${job.saw.shortestPiece} mm`,
      remedy: 'Measure its length again, lessen clear.ends, or allow shorter pieces (saw.shortestPiece).',
    };
  }
  const longest = Math.max(0, ...barKinds.flatMap((kind) => kind.spans.map(({ from, to }) => to - from)));
  if (longest < least) {
    return {
      why: `no bar of the pile has ${least} mm of usable steel in one stretch`,
      remedy: 'Look at the squaring and the spoiled spans of the lots, or allow shorter pieces (saw.shortestPiece).',
    };
  }
  const light = Math.min(...steels.map((steel) => barMass({ ...steel, heaviest: steel.lightest }, least)));
  if (light + job.bundle.wrapping > space.limit) {
    return {
      why: `the lightest piece weighs ${light.toFixed(2)} kg, over the lift limit of ${space.limit} kg`,
      remedy: 'Raise the lift limit if the person can lift more here, or allow shorter pieces (saw.shortestPiece).',
    };
  }
  const fits = space.laid.some((laid) =>
    steels.some((steel) =>
      lies(steel.section).some((onEdge) => {
        const sag = sagOf(steel.bow, least);
        const up = upSize(steel.section, onEdge, 1, job.bundle, sag);
        const across = acrossSize(steel.section, onEdge, 1, job.bundle, sag);
        return (
          up <= laid.height - laid.clear.top - laid.dunnage &&
          (laid.stations !== undefined || across <= laid.width - 2 * laid.clear.sides)
        );
      }),
    ),
  );
  if (!fits) {
    return {
      why: 'no section of the pile fits into its height and width once clearances, dunnage and wrap are off',
      remedy: 'Measure it again, or lessen clear.top, clear.sides, dunnage or bundle.wrap, or look for thinner bars.',
    };
  }
  return {
    why: 'what would be placed is worth less than its scrap and its labour',
    remedy: 'Lower aims.kgPerHour, raise the target or most of the void, or look for bars that suit it better.',
  };
}
