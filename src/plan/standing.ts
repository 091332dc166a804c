/** What stands of a plan once some of its bundles are in: whole voids, and whole runs of voids stowed in part. */
import type { Job, KeepOut, Void } from '../job/job.ts';
import { type LaidVoid, layVoid, vesselPoint } from '../stow/laid.ts';
import { countWeighed, massNow, type WeighedMasses } from './massNow.ts';
import type { Plan, PlanBundle } from './plan.ts';
import { markRanges } from './stops.ts';

export interface Point {
  x: number;
  y: number;
  z: number;
}

/** A run of which at least one bundle is in, or that is kept. */
export interface StandingRun {
  run: number;
  /** All of its bundles, also those still to go in; of a run that is not finished those that are in. */
  bundles: PlanBundle[];
  /** Those still to go in, all of a kept run; none where the run is complete, or is not finished. */
  lacking: PlanBundle[];
  /** Those that go in no more, where the run is not finished. */
  leftOut: PlanBundle[];
  /** It is finished because it is kept: its bundles are tied. */
  isKept: boolean;
}

/** What stands in a void. */
export interface Standing {
  void: string;
  runs: StandingRun[];
  bundles: PlanBundle[];
  /** kg, off the scale where that is known. */
  mass: number;
  /** m */
  centre: Point;
  /** All runs that the plan has in the void stand. */
  isWhole: boolean;
  massOf: (bundle: PlanBundle) => number;
}

const NONE: ReadonlySet<string> = new Set();

/**
 * What stands, void by void; voids in which nothing does are left out. `stowed` are the marks of what is in, `unfinished`
 * those of the voids whose begun runs are not finished. A run of which a bundle is in `kept` is finished in any case, also where
 * nothing of it is in yet.
 */
export function standingOf(
  job: Job,
  plan: Plan,
  stowed: ReadonlySet<string>,
  weighed: WeighedMasses,
  unfinished: ReadonlySet<string> = NONE,
  kept: ReadonlySet<string> = NONE,
): Standing[] {
  const massOf = (bundle: PlanBundle) => massNow(bundle, weighed);
  return job.voids.flatMap((stated) => {
    const own = plan.bundles.filter((bundle) => bundle.void === stated.void);
    const all = [...new Set(own.map(({ run }) => run))].sort((p, q) => p - q);
    const runs = all
      .map((run) => {
        const bundles = own.filter((bundle) => bundle.run === run);
        const lacking = bundles.filter(({ bundle }) => !stowed.has(bundle));
        const isKept = bundles.some(({ bundle }) => kept.has(bundle));
        if (isKept || !unfinished.has(stated.void)) return { run, bundles, lacking, leftOut: [], isKept };
        const isIn = bundles.filter((one) => !lacking.includes(one));
        return { run, bundles: isIn, lacking: [], leftOut: lacking, isKept };
      })
      .filter(({ bundles, lacking, isKept }) => isKept || lacking.length < bundles.length);
    if (runs.length === 0) return [];
    const bundles = runs.flatMap((run) => run.bundles);
    const isWhole = runs.length === all.length;
    // The plan's centre is that of its own masses.
    const isAsPlanned =
      isWhole && runs.every(({ leftOut }) => leftOut.length === 0) && countWeighed(bundles, weighed) === 0;
    const told = plan.voids.find((entry) => entry.void === stated.void)?.centre;
    return [
      {
        void: stated.void,
        runs,
        bundles,
        mass: bundles.reduce((sum, bundle) => sum + massOf(bundle), 0),
        centre: (isAsPlanned && told) || centreOf(laidAs(stated, plan), bundles, massOf),
        isWhole,
        massOf,
      },
    ];
  });
}

/**
 * A void of which some runs stand: their stretches are kept out of, with all that they weigh, and its caps are what is left
 * of them. One that may lie either way stays laid as it is. It has a name of its own, none of `taken`: else its new bundles
 * would bear the marks of those that lie beside them. What holds it down is not taken along: there it would be reckoned
 * as having the rest alone to hold.
 */
export function stretchesKept(
  stated: Void,
  plan: Plan,
  { runs, mass, massOf }: Standing,
  taken: ReadonlySet<string>,
  by: string,
): Void {
  const laid = laidAs(stated, plan);
  const left = (cap: number | undefined) => (cap === undefined ? undefined : toHundredth(Math.max(0, cap - mass)));
  const target = left(stated.target);
  // A target of nothing would still let one bundle in.
  const most = target === 0 ? 0 : left(stated.most);
  return {
    ...laid,
    void: restNameOf(stated.void, taken),
    holdDown: undefined,
    ...(target !== undefined && { target: Math.min(target, most ?? target) }),
    ...(most !== undefined && { most }),
    keepOut: [...laid.keepOut, ...runs.flatMap((run) => stretchOf(laid, run, massOf, by))],
  };
}

/** What is left over a run that is lower than this is kept out of by itself, mm. */
const LEAST_ABOVE = 1;

/**
 * The stretch that a run takes, over the whole breadth and height of its void, its gap to other runs with it: a stretch has
 * one run. First as high as its bars stand, so that chocks may stand against them: its middle is the centre of the run's mass,
 * for there its weight counts; so it reaches as far to either side of that as the farther side. Then what is above them.
 */
function stretchOf(
  laid: LaidVoid,
  { run, bundles, lacking, leftOut }: StandingRun,
  massOf: Standing['massOf'],
  by: string,
): KeepOut[] {
  const mass = bundles.reduce((sum, bundle) => sum + massOf(bundle), 0);
  const middle = middleOf(bundles, massOf);
  const about = (at: number, low: number, high: number): [number, number] => {
    const half = Math.max(at - low, high - at);
    return [toHundredth(at - half), toHundredth(at + half)];
  };
  const sides = (laid.stations ?? []).flatMap((station) => station.at.flatMap(({ from, to }) => [from, to]));
  const across = laid.stations ? [Math.min(...sides), Math.max(...sides)] : [-laid.width / 2, laid.width / 2];
  const from = Math.min(...bundles.map(({ at }) => at.along));
  const to = Math.max(...bundles.map(({ at, size }) => at.along + size.along));
  const top = Math.max(...bundles.map(({ at, size }) => at.up + size.up));
  const stands: KeepOut = {
    what: standsAs(`run ${run} of ${by}`, bundles, lacking, leftOut) + overHeight(laid.height, bundles),
    along: about(middle.along, from - laid.gap.runs, to + laid.gap.runs),
    across: about(middle.across, across[0]!, across[1]!),
    up: about(middle.up, 0, top),
    access: false,
    mass: toHundredth(mass),
    bears: true,
  };
  if (laid.height - stands.up[1] < LEAST_ABOVE) return [stands];
  const { along, across: breadth } = stands;
  return [
    stands,
    { what: `room above run ${run} of ${by}`, along, across: breadth, up: [stands.up[1], laid.height], access: false },
  ];
}

/**
 * What to say of bundles that stand higher than their void, mm, as it is stated now: somebody measured wrong, or in another
 * place. Empty where they do not.
 */
export function overHeight(height: number, bundles: readonly PlanBundle[]): string {
  const top = Math.max(...bundles.map(({ at, size }) => at.up + size.up));
  return top <= height ? '' : `, ${Math.ceil(top)} mm high where the void is stated as ${height}: measure again`;
}

/** The longest that the name of a void or a keep-out may be. */
const NAME_LONGEST = 200;
/** Room kept in it for what {@link overHeight} says. */
const HEIGHT_LONGEST = 70;

/** How the name of a void ends that is what was left of another. */
const REST = / rest( \d+)?$/;

/** `V3 rest`; of a void that is a rest itself, and where that is taken, the next number: `V3 rest 2`. */
export function restNameOf(name: string, taken: ReadonlySet<string>): string {
  const [end = '', number] = REST.exec(name) ?? [];
  const base = `${baseName(name)} rest`;
  // What lies beside it from the rests before bears the marks of those.
  let n = end === '' ? 1 : Number(number ?? 1) + 1;
  const named = () => (n === 1 ? base : `${base} ${n}`).slice(-NAME_LONGEST);
  while (taken.has(named())) n++;
  return named();
}

/** What a void was called before anything was left of it: `V3` of `V3 rest 2`. */
export function baseName(name: string): string {
  return name.replace(REST, '');
}

/** What a keep-out is called that is a run or all bundles (`lead`): whether it stands, what lacks of it, or what was left out. */
export function standsAs(
  lead: string,
  bundles: readonly PlanBundle[],
  lacking: readonly PlanBundle[],
  leftOut: readonly PlanBundle[],
): string {
  const lacks = lacking.length === bundles.length ? 'to be stowed:' : 'to be finished:';
  const [words, of] = leftOut.length > 0 ? ['stowed in part and left so, without', leftOut] : [lacks, lacking];
  if (of.length === 0) return `${lead}, stowed already`;
  const told = `${lead}, ${words} ${markRanges(of.map(({ bundle }) => bundle)).join(', ')}`;
  return told.length <= NAME_LONGEST - HEIGHT_LONGEST ? told : `${lead}, ${words} ${of.length} bundles`;
}

function centreOf(laid: LaidVoid, bundles: readonly PlanBundle[], massOf: Standing['massOf']): Point {
  const { along, across, up } = middleOf(bundles, massOf);
  return vesselPoint(laid, along, across, up);
}

/** The centre of the mass of bundles, mm in the frame of their void. */
function middleOf(bundles: readonly PlanBundle[], massOf: Standing['massOf']) {
  const mass = bundles.reduce((sum, bundle) => sum + massOf(bundle), 0);
  const mean = (side: 'along' | 'across' | 'up') =>
    bundles.reduce((sum, own) => sum + massOf(own) * (own.at[side] + own.size[side] / 2), 0) / mass;
  return { along: mean('along'), across: mean('across'), up: mean('up') };
}

function laidAs(stated: Void, plan: Plan): LaidVoid {
  const ways = layVoid(stated);
  const axis = plan.voids.find((entry) => entry.void === stated.void)?.axis;
  return ways.find((way) => way.axis === axis) ?? ways[0]!;
}

/** Masses to a hundredth of a kilogram, places to a hundredth of a millimetre. */
export function toHundredth(value: number): number {
  return Math.round(value * 100) / 100;
}
