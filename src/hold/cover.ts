/**
 * Which bars across and straps work together, and what of the stow's weight each of them then has to hold. Those whose
 * places the job states share it by their levers, whatever they are; of the others a row of bars works by itself and straps
 * work together, reckoned as spread over the runs as well as can be. Without a plan no runs are known: all share alike.
 */
import type { Fitting, MarkedHold } from './fittings.ts';
import { evenPlaces, type HeldRun, holdShares, holdsMiddle, middleOf, overlapOf, spreadOver } from './runs.ts';

export interface Cover {
  kind: Fitting['kind'];
  fittings: Fitting[];
  /** Of the whole stow's weight, what one has to hold, by mark. */
  shares: Map<string, number>;
  /** The marks of those over each run; empty where no runs are known. */
  over: { run: HeldRun; marks: string[] }[];
  /** Where places are not stated: where the working takes them to lie, by mark. */
  assumed: Map<string, number>;
  /** Why it does not hold every run, a sentence for each. Then none of it counts. */
  lacking: string[];
  /** What more would have to be over which run, a sentence; null where it holds every run. */
  wanted: string | null;
  /** Those at stated places that lie over no bundle. */
  idle: string[];
}

type Strength = (fitting: Fitting) => number;

/**
 * `counted` leaves out what can not count anyway, such as a bar too short. `strength` says by what unlike straps without
 * places share: straps together carry what all of them carry.
 */
export function coversOf(
  marked: MarkedHold,
  runs: readonly HeldRun[] | null,
  counted: (fitting: Fitting) => boolean,
  strength: Strength,
): Cover[] {
  const bars = marked.bars.map(({ fittings }) => fittings.filter(counted));
  const straps = marked.straps.flatMap(({ fittings }) => fittings);
  const placed = (one: Fitting) => one.at !== null && runs !== null;
  return [
    bars.flat().filter(placed),
    ...bars.map((row) => row.filter((one) => !placed(one))),
    straps.filter(placed),
    straps.filter((one) => !placed(one)),
  ]
    .filter((fittings) => fittings.length > 0)
    .map((fittings) => {
      if (!runs) return evenCover(fittings, strength);
      return placed(fittings[0]!) ? placedCover(fittings, runs) : spreadCover(fittings, runs, strength);
    });
}

/** Nothing of it is over any run. */
function bareCover(fittings: Fitting[]): Cover {
  const [shares, assumed] = [new Map<string, number>(), new Map<string, number>()];
  return { kind: fittings[0]!.kind, fittings, shares, over: [], assumed, lacking: [], wanted: null, idle: [] };
}

function evenCover(fittings: Fitting[], strength: Strength): Cover {
  const all = fittings.reduce((sum, one) => sum + strength(one), 0);
  return { ...bareCover(fittings), shares: new Map(fittings.map((one) => [one.mark, strength(one) / all])) };
}

function placedCover(fittings: Fitting[], runs: readonly HeldRun[]): Cover {
  const total = runs.reduce((sum, { mass }) => sum + mass, 0);
  const shares = new Map(fittings.map(({ mark }) => [mark, 0]));
  const lacking: string[] = [];
  const bare: HeldRun[] = [];
  const over = runs.map((run) => {
    const lying = fittings
      .flatMap((one) => {
        const overlap = overlapOf({ at: one.at!, half: one.half }, run);
        return overlap ? [{ mark: one.mark, overlap, middle: (overlap[0] + overlap[1]) / 2 }] : [];
      })
      .sort((p, q) => p.middle - q.middle);
    const marks = lying.map(({ mark }) => mark);
    if (
      !holdsMiddle(
        run,
        lying.map(({ overlap }) => overlap),
      )
    ) {
      lacking.push(lackingWords(run, marks, fittings[0]!.kind, !lying.some((one) => one.middle > middleOf(run))));
      bare.push(run);
    }
    const levers = holdShares(
      run,
      lying.map(({ middle }) => middle),
    );
    lying.forEach(({ mark }, i) => {
      shares.set(mark, shares.get(mark)! + (levers[i]! * run.mass) / total);
    });
    return { run, marks };
  });
  const idle = fittings.flatMap(({ mark }) => (over.some(({ marks }) => marks.includes(mark)) ? [] : [mark]));
  return { ...bareCover(fittings), shares, over, lacking, wanted: wantedWords(bare, fittings[0]!.kind), idle };
}

function wantedWords(bare: readonly HeldRun[], kind: Fitting['kind']): string | null {
  if (bare.length === 0) return null;
  const places = bare.map((run) => `run ${run.run} (at ${halves(middleOf(run))} mm along)`);
  const what = kind === 'bar' ? 'A bar across' : 'A strap';
  return `${what} on each side of the middle of ${listed(places)}, or one over ${bare.length > 1 ? 'each such' : 'that'} middle.`;
}

/** To half a millimetre, where the middle of a run may lie. */
function halves(mm: number): number {
  return Math.round(2 * mm) / 2;
}

/** Where one more has to lie: with its middle past that of the run, on the side where none reaches it. */
function lackingWords(run: HeldRun, marks: string[], kind: Fitting['kind'], before: boolean): string {
  const what = kind === 'bar' ? 'bar across' : 'strap';
  const where = `Run ${run.run}, ${Math.round(run.from)} to ${Math.round(run.to)} mm along,`;
  const middle = halves(middleOf(run));
  if (marks.length === 0)
    return `${where} has no ${what} over it: put one over its middle, at ${middle} mm, or two with that between them.`;
  const [from, to] = before ? [middle, Math.round(run.to)] : [Math.round(run.from), middle];
  return `${where} has only ${listed(marks)} over it, and its middle, at ${middle} mm, lies ${before ? 'past' : 'before'} ${marks.length === 1 ? 'that' : 'all of them'}: its other end would lift. Put one more ${what} between ${from} and ${to} mm, so that they lie on both sides of that middle.`;
}

function spreadCover(fittings: Fitting[], runs: readonly HeldRun[], strength: Strength): Cover {
  const total = runs.reduce((sum, { mass }) => sum + mass, 0);
  const numbers = spreadOver(runs, fittings.length);
  const cover = bareCover(fittings);
  if (!numbers) {
    const [one, more] =
      cover.kind === 'bar' ? ['bar across', 'bars across'] : ['strap over the top', 'straps over the top'];
    const words = `${fittings.length} ${fittings.length === 1 ? one : more} for ${runs.length} runs: what lies over one run holds no other. Each run wants one over its middle at least, or two with its middle between them; one that lies over the ends of two runs counts for both where its place is stated.`;
    const wanted = `At least ${runs.length} ${more}, one over the middle of each run.`;
    return { ...cover, lacking: [words], wanted };
  }
  let next = 0;
  const over = runs.map((run, i) => {
    const here = fittings.slice(next, next + numbers[i]!);
    next += numbers[i]!;
    const places = evenPlaces(run, here.length);
    const levers = holdShares(run, places);
    const all = here.reduce((sum, one) => sum + strength(one), 0);
    here.forEach((one, n) => {
      cover.shares.set(one.mark, (run.mass / total) * (strength(one) / all) * here.length * levers[n]!);
      cover.assumed.set(one.mark, places[n]!);
    });
    return { run, marks: here.map(({ mark }) => mark) };
  });
  return { ...cover, over };
}

/** Why some of what was entered, or all of it, holds nothing, in sentences. */
export function notCountedOf({ lacking, idle, fittings, kind }: Cover): string[] {
  const which = listed(fittings.map(({ mark }) => mark));
  const way = kind === 'bar' ? '' : ' over the top';
  const [be, what] =
    fittings.length === 1 ? ['is', kind === 'bar' ? 'bar' : 'strap'] : ['are', `${kind === 'bar' ? 'bar' : 'strap'}s`];
  const idleWords = fittings
    .filter(({ mark }) => idle.includes(mark))
    .map(
      ({ mark, at }) => `${mark}, at ${at} mm along, lies over no bundle of this plan: what it holds is not counted.`,
    );
  if (lacking.length === 0) return idleWords;
  return [`The ${what} ${which}${way} ${be} not counted. ${lacking.join(' ')}`, ...idleWords];
}

/** `A, B and C`. */
export function listed(marks: readonly string[]): string {
  return marks.length < 2 ? marks.join('') : `${marks.slice(0, -1).join(', ')} and ${marks.at(-1)}`;
}

/** What the working takes for granted of where bars and straps lie, in sentences. */
export function coverAssumed(covers: readonly Cover[], runs: readonly HeldRun[] | null): string[] {
  const assumed: string[] = [];
  for (const cover of covers) {
    if (cover.assumed.size === 0) continue;
    const where = cover.over.map(({ run, marks }) => `${marks.join(', ')} over run ${run.run}`).join('; ');
    assumed.push(
      `Where along the void ${cover.fittings.length === 1 ? `${cover.fittings[0]!.mark} lies` : 'these lie'} is not stated. The working takes them as spread evenly over each run: ${where}. Whoever fits them settles it, and then their places are entered.`,
    );
  }
  // One or two evenly over a run have the same to hold by any rule.
  if (covers.some(({ over, assumed: taken }) => over.some(({ marks }) => taken.size === 0 || marks.length > 2))) {
    assumed.push(
      `What lies over a run shares its weight by their levers, the run being stiff and its weight even over its length; an inner one of several counts a quarter more. It only presses: a run’s middle has to lie between the outermost edges of what lies over it, a strap at its place alone. Past the outermost place all is on that one; its twisting is not reckoned.`,
    );
  }
  for (const [kind, what] of [
    ['bar', 'Bars across'],
    ['over', 'Straps over the top'],
  ] as const) {
    const those = covers.filter((cover) => cover.kind === kind && cover.fittings.length > 0);
    const [some, rest] = [
      those.filter((cover) => cover.fittings[0]!.at !== null),
      those.filter((cover) => cover.fittings[0]!.at === null),
    ];
    if (some.length > 0 && rest.length > 0)
      assumed.push(
        `${what} with stated places and those without are reckoned apart, never together: state the places of all.`,
      );
  }
  if (runs === null && covers.length > 0) {
    assumed.push(
      'No plan of this void is at hand, so that its runs are not known: bars and straps are taken to share the load alike. What lies over one run holds no other: look again when it is planned.',
    );
  }
  return assumed;
}
