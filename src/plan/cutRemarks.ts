/**
 * What the first cuts measured tell beside the corrections: a bar shorter than its lot states, bars that a wider kerf leaves
 * short, a bundle over its lift limit, lots that a weighing leaves as they were. Lengths mm, masses kg, sentences metric.
 */
import type { Job, Lot } from '../job/job.ts';
import { lotMassPerMetre, lotSquaring } from '../job/lot.ts';
import { sectionKey, sectionName } from '../job/section.ts';
import { fixed, withoutDust } from '../units.ts';
import type { Corrections, FirstCuts } from './firstCuts.ts';
import type { Plan, PlanBar, PlanBundle } from './plan.ts';
import { markRanges, pieceLength, tightBars } from './stops.ts';

/** What is nearer than this is the same length, mm. */
const SAME = 0.05;
const COATINGS = { zinc: 'zinc coated', bare: 'bare', paint: 'painted', unknown: 'of unknown coating' } as const;

/**
 * A bar of the plan as it may have been measured: whole with its first end squared, or when longer pieces were off it.
 * `length` is what the job states of that; `needs` what the plan takes of it, from where it was measured to the end of its
 * last piece.
 */
interface Measurable {
  bar: PlanBar;
  lot: Lot;
  length: number;
  needs: number;
  /** Its pieces of the stop that was set. */
  pieces: number;
}

/**
 * What is told of the bar measured where it is shorter than stated, or has too little left for what is still to come of it.
 * Which bar it is nobody says: it is taken for that of the plan, of those that give pieces of the stop, whose length is nearest.
 * Shorter counts from more than the tolerance and one squaring, or one cut where none is stated, together.
 */
export function remarkOnBar(job: Job, plan: Plan, cuts: FirstCuts): string[] {
  const { bar, remained, ordered } = cuts;
  if (bar === null) return [];
  const { kerf, tolerance } = job.saw;
  const pieces = piecesOf(cuts);
  const nearest = nearestTo(bar, measurables(job, plan, ordered), pieces.length);
  const [first] = nearest;
  if (!first) return [];
  const shorter = first.length - bar;
  const explained = tolerance + Math.max(lotSquaring(first.lot, job.saw), kerf);
  const left = remained ?? bar - pieces.reduce((sum, length) => sum + length + kerf, 0);
  const wants = nearest.map((own) => {
    const cut = Math.min(pieces.length, own.pieces) * (ordered + kerf);
    return { mark: own.bar.bar, still: Math.max(0, own.needs - cut) };
  });
  const least = Math.min(...wants.map(({ still }) => still));
  const isShort = shorter > explained + SAME;
  if (!isShort && least <= left + tolerance + SAME) return [];
  const lots = [...new Set(nearest.map(({ lot }) => lot.lot))];
  const of = `${lots.length === 1 ? 'lot' : 'lots'} ${lots.join(', ')}`;
  const told: string[] = [];
  if (shorter > SAME) {
    told.push(
      `The bar measured has ${mm(bar)}, and by the job it should have ${mm(first.length)} (${of}): it is ${mm(shorter)} shorter.`,
      `Measure the other bars of ${of} before you cut them.`,
    );
  }
  return [[...told, stillNeeded(wants, left, shorter > SAME)].join(' ')];
}

/** The pieces that were cut from the bar; none where nobody says what remained of it or how many are its own, or they are longer. */
function piecesOf({ bar, remained, measured, fromBar }: FirstCuts): readonly number[] {
  if (remained === null && fromBar === null) return [];
  const own = measured.slice(0, fromBar ?? measured.length);
  return own.reduce((sum, length) => sum + length, 0) <= (bar ?? 0) ? own : [];
}

/** What the plan still needs of the bar, beside what is left of it. */
function stillNeeded(wants: readonly { mark: string; still: number }[], left: number, isNamed: boolean): string {
  const bar = isNamed ? 'it' : 'the bar measured';
  const stills = wants.map(({ still }) => still);
  const [least, most] = [Math.min(...stills), Math.max(...stills)];
  if (most <= SAME) return `The plan needs nothing more of ${bar}.`;
  const whose = `, which has ${mm(left)} left`;
  if (least > left + SAME)
    return `The plan still needs ${most > least + SAME ? 'at least ' : ''}${mm(least)} of ${bar}${whose}: ${mm(least - left)} too little. ${isNamed ? 'State its length in the job, and plan' : 'Plan'} what is left.`;
  if (most <= left + SAME)
    return `What the plan still needs of ${bar}, ${most > least + SAME ? 'at most ' : ''}${mm(most)}, comes out of the ${mm(left)} that are left.`;
  const fits = wants.filter(({ still }) => still <= left + SAME).map(({ mark }) => mark);
  return `The plan still needs up to ${mm(most)} of ${bar}${whose}: enough for ${markRanges(fits).join(', ')}, too little for others of these bars.`;
}

function measurables(job: Job, plan: Plan, ordered: number): Measurable[] {
  const lots = new Map(job.pile.map((lot) => [lot.lot, lot]));
  return plan.bars.flatMap((bar) => {
    const lot = lots.get(bar.lot);
    // The stops of the page are whole millimetres.
    const own = bar.pieces.filter((piece) => Math.round(pieceLength(piece)) === ordered);
    if (!lot || own.length === 0) return [];
    const end = Math.max(...bar.pieces.map(({ to }) => to));
    const starts = new Set([lotSquaring(lot, job.saw), Math.min(...own.map(({ from }) => from))]);
    return [...starts].map((start) => ({
      bar,
      lot,
      length: bar.length - start,
      needs: end - start,
      pieces: own.length,
    }));
  });
}

/** Those of the length nearest to that of the bar measured; where some of them give as many pieces, these alone. */
function nearestTo(bar: number, all: readonly Measurable[], pieces: number): Measurable[] {
  const off = Math.min(...all.map(({ length }) => Math.abs(length - bar)));
  const near = all.filter(({ length }) => Math.abs(Math.abs(length - bar) - off) < SAME);
  const enough = near.filter((own) => own.pieces >= pieces);
  return enough.length > 0 ? enough : near;
}

/** What a wider kerf than planned means for the bars of the plan; nothing where the saw takes no more than that. */
export function remarkOnKerf(job: Job, plan: Plan, kerf: number): string[] {
  const wider = withoutDust(kerf - job.saw.kerf);
  if (wider <= 0) return [];
  const than = `${kerf} mm a cut where the plan has ${job.saw.kerf} mm`;
  const tight = tightBars(job, plan, wider);
  if (tight.length === 0) return [`With ${than} all bars of the plan still give their pieces, within the tolerance.`];
  const last = tight.length === 1 ? 'its last piece' : 'their last pieces';
  return [
    `With ${than} ${markRanges(tight).join(', ')} would not give ${last} in full. Leave ${tight.length === 1 ? 'it' : 'them'} uncut, put the kerf into the job, and plan what is left.`,
  ];
}

/** What is told of the bundle weighed where it is over its lift limit: others too, by the same mass per metre. */
export function remarkOnBundle(job: Job, plan: Plan, bundle: PlanBundle, weighed: number, perMetre: number): string[] {
  const over = weighed - bundle.limit;
  if (over <= 1e-9) return [];
  const key = sectionKey(bundle.section);
  const metres = metresByBundle(plan);
  const others = plan.bundles.filter(
    (other) =>
      other.bundle !== bundle.bundle &&
      sectionKey(other.section) === key &&
      (metres.get(other.bundle) ?? 0) * perMetre + job.bundle.wrapping > other.limit + 1e-9,
  );
  const alike = others.filter((other) => other.length === bundle.length && other.rows === bundle.rows);
  const [rows, name] = [bundle.rows === 1 ? '1 row' : `${bundle.rows} rows`, sectionName(bundle.section)];
  const told = `${bundle.bundle} weighs ${kg(weighed)}: ${kg(over)} over the lift limit of void ${bundle.void}, ${kg(bundle.limit)}. Lift it by two, or make it lighter.`;
  if (others.length === 0) return [`${told} By the same mass per metre no other bundle of ${name} is over its limit.`];
  const [count, are] = others.length === 1 ? ['1 more bundle', 'is'] : [`${others.length} more bundles`, 'are'];
  const of = others.length === alike.length ? 'all' : `${alike.length}`;
  return [
    `${told} By the same mass per metre ${count} of ${name} ${are} likely over the limit too, ${of} of ${rows} at ${mm(bundle.length)} like this one. Planned again with that mass, bundles keep to their limits.`,
  ];
}

/** Metres of bar in each bundle. */
function metresByBundle(plan: Plan): Map<string, number> {
  const metres = new Map<string, number>();
  for (const { pieces } of plan.bars)
    for (const { bundle, from, to } of pieces) metres.set(bundle, (metres.get(bundle) ?? 0) + (to - from) / 1000);
  return metres;
}

/** What is told of lots of the section weighed that the job goes on reckoning with as it did, and why: those of another mass per metre. */
export function remarkOnLots(job: Job, bundle: PlanBundle, corrected: Corrections['massPerMetre']): string[] {
  const marks = new Set(corrected.map(({ lot }) => lot));
  const weighed = job.pile.filter(({ lot }) => marks.has(lot));
  const value = corrected[0]?.value;
  const key = sectionKey(bundle.section);
  const whys = new Map<string, string[]>();
  for (const lot of job.pile) {
    if (marks.has(lot.lot) || sectionKey(lot.section) !== key) continue;
    const planned = Math.round(lotMassPerMetre(lot, job.steel.density) * 1000) / 1000;
    if (planned === value) continue;
    const why = whyLeft(lot, weighed, planned);
    whys.set(why, [...(whys.get(why) ?? []), lot.lot]);
  }
  if (whys.size === 0) return [];
  const left = [...whys].map(([why, lots]) => `${lots.join(', ')} (${why})`).join('; ');
  return [`Of the same section stay as stated: lot ${left}. Weigh theirs as well.`];
}

/** Why what was weighed does not count for a lot of the same section. */
function whyLeft(lot: Lot, weighed: readonly Lot[], planned: number): string {
  if (lot.massPerMetre !== undefined) return `its own mass per metre is stated, ${planned} kg/m`;
  if (!weighed.some(({ coating }) => coating === lot.coating))
    return `${COATINGS[lot.coating]}, reckoned with ${planned} kg/m`;
  return `none of it in the bundle weighed, reckoned with ${planned} kg/m`;
}

function mm(length: number): string {
  return `${withoutDust(Math.round(length * 10) / 10)} mm`;
}

/** To ten grams, and what is less than that to a gram. */
function kg(mass: number): string {
  return `${Number(fixed(mass, mass < 0.01 ? 3 : 2))} kg`;
}
