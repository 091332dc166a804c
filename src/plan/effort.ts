/** How much work each effort is worth: counted in steps, so that the same effort gives the same plan. */
import { isPlain } from '../stow/laid.ts';
import type { Effort } from './plan.ts';
import type { PlanOptions } from './planner.ts';
import type { Problem } from './problem.ts';

/** Counted work of an effort. */
export interface Work {
  /** Passes over every whole-millimetre length, and in each the rounds in which all of them are priced. */
  passes: number;
  boundRounds: number;
  /** Rounds of pricing before the first plan. */
  firstRounds: number;
  /** Rounds of pricing before the first pass, and half as many after each. */
  rounds: number;
  /** Rounds of pricing after each step of a dive. */
  diveRounds: number;
  /** Counted work of the cutting of each steel, about milliseconds. */
  cutting: number;
  /** Whether prices are settled again once the lengths are known, and where voids are not divided again in rounds a second plan dived to. */
  again: boolean;
  /** Times that voids are divided again in each round of improving; 0 where there is no division at all, not even the one of the relaxation. */
  divisions: number;
  /** And divisions that are filled each time. */
  fills: number;
  /** Whether a plan is dived to before voids are divided again; else improving begins from the one made at once. */
  divesFirst: boolean;
  /** Whether that settles the runs of all voids at once: quicker, where they are divided again. */
  atOnce: boolean;
  /** Rounds of improving, rounded up; in each, times voids are opened, and runs, and runs with bars. */
  improvements: number;
  voidTries: number;
  /** Rounds of pricing when voids are planned again. */
  replanRounds: number;
  runTries: number;
  barTries: number;
  /** Whether divisions of ever fewer lengths are sought from the best, the tries for each number of lengths, and as many steps by which the best of them is bettered. */
  descends: boolean;
  descents: number;
  /** And so many of them are made plans of, until one is near the best. */
  fewestTries: number;
  /** Times that plans of fewer stops are improved (see `fewStops` in `search.ts`). */
  fewRounds: number;
  /** Whether those begin from the lengths that carry most in the best plan; else from those that hold most in the relaxation, which is better for small piles. */
  fewDives: boolean;
  /** Times that bars are made whole with caps let out, beside. */
  looserTries: number;
  /** And times runs with bars are opened in each dive. */
  firstBarTries: number;
  /** Lengths in each beside those of the plan. */
  replanLengths: number;
  /** Whether what one more would be worth is found out. */
  oneMore: boolean;
  /** The gap at which a pass stops. */
  tolerance: number;
}

const WORK: Record<Effort, Work> = {
  quick: {
    firstRounds: 12,
    passes: 1,
    boundRounds: 3,
    rounds: 24,
    diveRounds: 2,
    cutting: 5,
    again: true,
    divisions: 6,
    fills: 2,
    divesFirst: true,
    fewDives: false,
    atOnce: true,
    improvements: 1,
    voidTries: 0,
    replanRounds: 15,
    runTries: 6,
    barTries: 3,
    looserTries: 1,
    descends: true,
    descents: 2,
    fewestTries: 3,
    fewRounds: 0,
    firstBarTries: 0,
    replanLengths: 8,
    oneMore: false,
    tolerance: 2e-3,
  },
  steady: {
    firstRounds: 12,
    passes: 1,
    boundRounds: 3,
    rounds: 24,
    diveRounds: 2,
    cutting: 5,
    again: true,
    divisions: 5,
    fills: 2,
    divesFirst: true,
    fewDives: false,
    atOnce: true,
    improvements: 1,
    voidTries: 0,
    replanRounds: 25,
    runTries: 5,
    barTries: 5,
    looserTries: 1,
    descends: true,
    descents: 2,
    fewestTries: 3,
    fewRounds: 0,
    firstBarTries: 0,
    replanLengths: 8,
    oneMore: true,
    tolerance: 1e-3,
  },
  thorough: {
    firstRounds: 30,
    passes: 2,
    boundRounds: 16,
    rounds: 120,
    diveRounds: 10,
    cutting: 200,
    again: true,
    divisions: 40,
    fills: 6,
    divesFirst: true,
    fewDives: false,
    atOnce: true,
    improvements: 6,
    voidTries: 1,
    replanRounds: 30,
    runTries: 30,
    barTries: 40,
    looserTries: 4,
    descends: true,
    descents: 10,
    fewestTries: 12,
    fewRounds: 3,
    firstBarTries: 20,
    replanLengths: 12,
    oneMore: true,
    tolerance: 2e-4,
  },
};

/** A job of more voids than this is large: every step is dear, and a plan is better by less. */
const MANY_VOIDS = 20;

/**
 * Where voids are no plain boxes each step is dear: fewer are taken. A first plan whose runs were settled at once was up to
 * a tenth worse at the end.
 */
const FEWER = {
  firstRounds: 20,
  again: false,
  atOnce: false,
  improvements: 1,
  diveRounds: 2,
  looserTries: 0,
  fills: 1,
};
const SHAPED: Record<Effort, Partial<Work>> = {
  quick: { ...FEWER, divisions: 1, boundRounds: 1, rounds: 16, runTries: 6, barTries: 20, cutting: 20 },
  steady: { ...FEWER, divisions: 5, boundRounds: 1, rounds: 24, runTries: 6, barTries: 6, cutting: 20 },
  thorough: { atOnce: false, divisions: 20, fills: 2 },
};

/**
 * Large jobs are not improved, and what one more is worth is not reckoned, but for a thorough plan. At steady the division of
 * the relaxation is brought down to few lengths: of 30 to 60 voids four to six where the best plan has 16 to 20.
 */
const LARGE: Record<Effort, Partial<Work>> = {
  quick: {
    firstRounds: 30,
    boundRounds: 2,
    rounds: 36,
    diveRounds: 10,
    cutting: 60,
    firstBarTries: 10,
    looserTries: 0,
    divisions: 0,
    atOnce: false,
    improvements: 0,
  },
  steady: {
    firstRounds: 30,
    boundRounds: 6,
    rounds: 30,
    diveRounds: 12,
    cutting: 50,
    firstBarTries: 20,
    looserTries: 0,
    divisions: 1,
    descents: 1,
    atOnce: false,
    improvements: 0,
    oneMore: false,
  },
  thorough: {
    boundRounds: 16,
    rounds: 240,
    diveRounds: 50,
    divisions: 0,
    atOnce: false,
    improvements: 7,
    fewRounds: 0,
  },
};

/** A job of fewer bars than this is improved as many times more often, but not more than so often: each time takes less. */
const MANY_BARS = 80;
const MOST_OFTEN: Record<Effort, number> = { quick: 1, steady: 2, thorough: 4 };
/** And as many times more of those rounds, and of the divisions tried each time, but not more than so many times. */
const MOST_MORE = 2;

/** One of as many, planned steadily without a word of stops, is worked at less: each step takes longer, and who waits has the whole in seconds. */
const MANY: Partial<Work> = {
  boundRounds: 1,
  again: false,
  divisions: 1,
  runTries: 1,
  barTries: 3,
  looserTries: 0,
};

/** What the work for a job goes by; `shaped`: some of its voids are no plain boxes. */
export interface Size {
  voids: number;
  shaped: boolean;
  bars: number;
}

export function sizeOf({ spaces, barKinds }: Problem): Size {
  return {
    voids: spaces.length,
    shaped: spaces.some(({ laid }) => !laid.every(isPlain)),
    bars: barKinds.reduce((sum, kind) => sum + kind.count, 0),
  };
}

/** True where a job takes so much, in time and in memory, that it is planned once and not improved but thoroughly. */
export function isLarge({ voids }: Size): boolean {
  return voids > MANY_VOIDS;
}

/** True where a job takes so little that it may be planned twice. */
export function isQuick(size: Size): boolean {
  return !isLarge(size) && !size.shaped && size.bars < MANY_BARS;
}

/** The work of an effort for a job of some size; `stops`: those asked for, if any. */
export function workFor(effort: Effort, size: Size, stops: PlanOptions['stops']): Work {
  const { shaped, bars } = size;
  const work = shaped ? { ...WORK[effort], ...SHAPED[effort] } : WORK[effort];
  if (isLarge(size)) {
    const large = { ...work, ...LARGE[effort] };
    // The worthiest plan comes of no division there.
    return stops === 'free' ? { ...large, divisions: 0 } : large;
  }
  // Where no number is asked for, plans of few stops are worth their time.
  const chooses = typeof stops !== 'number';
  const often = Math.min(MOST_OFTEN[effort], Math.max(1, MANY_BARS / bars));
  const more = Math.min(MOST_MORE, often);
  return {
    ...work,
    boundRounds: Math.round(work.boundRounds * more),
    divisions: Math.round(work.divisions * more),
    improvements: Math.ceil(work.improvements * often),
    diveRounds: Math.round(work.diveRounds * often),
    barTries: Math.round(work.barTries * often),
    descends: effort === 'thorough' || bars < MANY_BARS || (effort === 'steady' && chooses),
    fewRounds: !shaped && bars < MANY_BARS ? Math.max(1, work.fewRounds) : work.fewRounds,
    fewDives: bars >= MANY_BARS,
    divesFirst: effort === 'thorough' || shaped || bars < MANY_BARS,
    // Of large piles a second division filled made plans no better.
    fills: effort === 'steady' && bars >= MANY_BARS ? 1 : work.fills,
    ...(effort === 'steady' && stops === undefined && bars >= MANY_BARS && !shaped ? MANY : {}),
  };
}

/** Work before the first plan. */
export const FIRST = { tolerance: 2e-2, diveRounds: 2 };

/** Steps down in stops at most. */
export const MOST_CHOICES = 12;

/** Aims are kept where that leaves this share of the value. */
export const WORTH_KEEPING = 0.5;
