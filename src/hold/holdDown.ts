/**
 * Whether what was entered for a void carries its load cases. It never says that a stow is safe: it says which assumed
 * load is carried, by what, and how far it is used; a surveyor or a designer must approve.
 */
import type { HoldDown } from '../job/holdDown.ts';
import type { Job, Void } from '../job/job.ts';
import { rolls } from '../job/section.ts';
import type { WeighedMasses } from '../plan/massNow.ts';
import { heavierPlan } from '../plan/massTolerance.ts';
import type { Plan } from '../plan/plan.ts';
import { assumedOf, slidingAssumed } from './assumed.ts';
import { beamOver, type Carrier, carriersOf, type Held, kN, overOf } from './carriers.ts';
import { type Cover, coverAssumed, coversOf, listed, notCountedOf } from './cover.ts';
import { type Fitting, type MarkedHold, markHold, marksOf } from './fittings.ts';
import { lostWords } from './heavier.ts';
import { leastFor } from './least.ts';
import { leanOf } from './lever.ts';
import { demandOf, type LoadCase, loadCases } from './loads.ts';
import { type HeldRun, runsOf } from './runs.ts';
import { middleOfSpan, type TooShort, tooShort } from './spans.ts';
import { tensionOf, USUAL_TENSION, upliftCapacity } from './straps.ts';

/** One case worked out. Newtons; `used` is demand over what the best carrier carries, null where nothing holds that way. */
export interface HeldCase extends LoadCase {
  demand: number;
  carriers: Carrier[];
  best: Carrier | null;
  used: number | null;
  carried: boolean;
  /** What else holds this way and is not added to the best, told in full. */
  besides: string[];
  /** Why something entered against this load is not counted, in sentences. */
  notCounted: string[];
  /** The marks of what is not counted. */
  uncounted: string[];
  text: string;
  /** The least that would carry it, where it is not carried. */
  least: string[];
}

export interface HeldVoid {
  void: string;
  mass: number;
  cases: HeldCase[];
  /** True where every usual case, or a heavier one in its place, is carried. An empty void has nothing to hold. */
  held: boolean;
  /** Not held, and yet every lighter case is carried where one is stated, and every other one: the reason stated. */
  heldLighter: string | null;
  /** Why something that was entered is not counted, in sentences. */
  notCounted: string[];
  /** What it carries no longer, should bars that nobody has weighed be heavier than reckoned, in a sentence; null for nothing. */
  ifHeavier: string | null;
  /** On what its figures stand that nothing entered provides, in sentences. */
  cautions: string[];
  /** What to mind with what was entered, in sentences. */
  minds: string[];
  /** What was taken for granted, to be confirmed, in sentences. */
  assumed: string[];
  /** Which bars across and straps over the top hold which runs. */
  covers: readonly Cover[];
}

/**
 * Every void of the job, at the masses of `plan`. One with bundles and no hold-down entered is not held. `weighed` are the
 * bundles off the scale, kg, of which nothing is in doubt.
 */
export function holdDownOf(job: Job, plan: Plan, weighed: WeighedMasses = new Map()): HeldVoid[] {
  const most = heavierPlan(job, plan, weighed);
  return job.voids.map((place) => {
    const bundles = plan.bundles.filter((bundle) => bundle.void === place.void);
    const mass = massIn(plan, place.void);
    const heavier = { mass: massIn(most, place.void), runs: runsOf(most, place.void) };
    const rolling = bundles.some((bundle) => rolls(bundle.section));
    const laid = plan.voids.find((placed) => placed.void === place.void)?.axis ?? place.axis;
    const runs = runsOf(plan, place.void);
    const athwartships = laid === 'athwartships';
    return heldVoid(place, { mass, rolling, athwartships, hull: job.vessel?.hull, runs, heavier });
  });
}

function massIn({ bundles }: Pick<Plan, 'bundles'>, name: string): number {
  return bundles.reduce((sum, bundle) => (bundle.void === name ? sum + bundle.mass : sum), 0);
}

/**
 * What lies in a void: `rolling`, some of it is round; `athwartships`, the way its bars lie; `hull`, what she is made of;
 * `runs`, how it is divided, where a plan says so; `heavier`, the same with bars that nobody has weighed as heavy as they
 * may be.
 */
export interface Stow {
  mass: number;
  rolling: boolean;
  athwartships: boolean;
  hull?: string | undefined;
  runs?: readonly HeldRun[] | undefined;
  heavier?: { mass: number; runs: readonly HeldRun[] } | undefined;
}

export function heldVoid(place: Void, { heavier, ...stow }: Stow): HeldVoid {
  const held = heldAt(place, stow);
  if (!heavier || heavier.mass <= stow.mass || !held.cases.some(({ carried }) => carried)) return held;
  const then = heldAt(place, { ...stow, ...heavier });
  const lost = then.cases.filter((one, i) => !one.carried && held.cases[i]!.carried && (one.required || !held.held));
  return { ...held, ifHeavier: lostWords(lost, heavier.mass) };
}

function heldAt(place: Void, { mass, rolling, athwartships, hull, runs = [] }: Omit<Stow, 'heavier'>): HeldVoid {
  const { holdDown } = place;
  const none = {
    void: place.void,
    mass,
    cases: [],
    heldLighter: null,
    notCounted: [],
    assumed: [],
    covers: [],
    ifHeavier: null,
    cautions: [],
  };
  if (mass === 0) return { ...none, held: true, minds: [] };
  if (!holdDown) return { ...none, held: false, minds: [NOTHING_ENTERED] };
  const marked = markHold(holdDown);
  const short = tooShort(marked, place, athwartships);
  const known = runs.length > 0 ? runs : null;
  const strength = (one: Fitting) => (one.kind === 'bar' ? 1 : upliftCapacity({ ...overOf(marked, one), count: 1 }));
  const covers = coversOf(marked, known, ({ mark }) => !short.marks.has(mark), strength);
  const reaching = coversOf(marked, known, () => true, strength);
  const assumedAt = new Map(reaching.flatMap(({ assumed }) => [...assumed]));
  const middles = new Map(
    marked.bars.flatMap(({ fittings }) =>
      fittings.map(({ mark, at }) => [mark, middleOfSpan(place, at ?? assumedAt.get(mark) ?? 0)] as const),
    ),
  );
  const sides: Held['sides'] = athwartships ? ['aft', 'forward'] : ['port', 'starboard'];
  const held: Held = { marked, friction: holdDown.friction, covers, middles, sides, mass };
  const entered: Entered = { hold: holdDown, held, short, runs: known, reaching };
  const cases = loadCases(holdDown.loads).map((load) => {
    const lengthwise = load.direction === 'forward' || load.direction === 'aft';
    const sideways = load.direction !== 'up' && load.direction !== 'down';
    const alongTheBars = rolling && sideways && lengthwise !== athwartships;
    return heldCase(entered, load, alongTheBars);
  });
  const isHeld = cases.every((one) => one.carried || !one.required);
  return {
    void: place.void,
    mass,
    cases,
    held: isHeld,
    heldLighter: isHeld ? null : lighterReason(cases),
    notCounted: [...short.why, ...covers.flatMap(notCountedOf)],
    cautions: [...onEdgeWords(marked), ...bendsWords(cases), ...tightWords(marked)],
    minds: mindsOf(holdDown, rolling, hull),
    assumed: [
      ...coverAssumed(covers, known),
      ...slidingAssumed(holdDown, rolling, athwartships),
      ...assumedOf(holdDown, known?.length ?? 0),
    ],
    covers,
    ifHeavier: null,
  };
}

/** The words as they begin a sentence. */
export function sentenceOf(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** The reason stated, where each way is carried at the usual load or at the lighter one stated for it. */
function lighterReason(cases: HeldCase[]): string | null {
  const lighter = cases.filter((one) => !one.required);
  const carried = cases.every(
    (one) => one.carried || (one.required && lighter.some((each) => each.direction === one.direction && each.carried)),
  );
  return carried ? (lighter[0]?.reason ?? null) : null;
}

const NOTHING_ENTERED = 'Nothing is entered that holds it. Sole boards do not: they lift off with what stands on them.';

interface Entered {
  hold: HoldDown;
  held: Held;
  short: TooShort;
  runs: readonly HeldRun[] | null;
  /** What would hold which runs were every bar across long enough. */
  reaching: readonly Cover[];
}

/** How far a carrier is used, a share of what it carries, as it is told: never 100 % of one that does not carry the load. */
export function percentUsed(share: number): string {
  return `${share > 1 ? Math.max(101, Math.round(100 * share)) : Math.round(100 * share)} %`;
}

/** Bars across that do not bridge the void are not counted; the least that would carry it is told over its width. */
function heldCase(entered: Entered, load: LoadCase, alongTheBars: boolean): HeldCase {
  const { held, short } = entered;
  const { mass, covers } = held;
  const demand = demandOf(load, mass);
  const carriers = carriersOf(held, load, alongTheBars);
  const lacking = (kind: Cover['kind']) => covers.filter((one) => one.kind === kind).flatMap(notCountedOf);
  const marks = (kind: Cover['kind']) =>
    covers
      .filter((one) => one.kind === kind)
      .flatMap(({ lacking: why, idle, fittings }) => (why.length > 0 ? fittings.map(({ mark }) => mark) : idle));
  const notCounted =
    load.direction === 'up'
      ? [...short.why, ...lacking('bar'), ...lacking('over')]
      : load.direction === 'down' || alongTheBars
        ? []
        : lacking('over');
  const uncounted =
    notCounted.length === 0
      ? []
      : load.direction === 'up'
        ? [...short.marks, ...marks('bar'), ...marks('over')]
        : marks('over');
  const best = carriers.reduce<Carrier | null>((top, one) => (top && top.carries >= one.carries ? top : one), null);
  const used = best && best.carries > 0 ? demand / best.carries : null;
  const carried = used !== null && used <= 1;
  const how =
    best && used !== null
      ? `${best.what}, used to ${percentUsed(used)}`
      : notCounted.length > 0
        ? `nothing that is counted holds this way: ${listed(uncounted)} ${uncounted.length === 1 ? 'is' : 'are'} not`
        : 'nothing that was entered holds this way';
  const lighter = load.reason === null ? '' : ` (lighter than usual, because: ${load.reason})`;
  const text = `${sentenceOf(load.name)}${lighter}, ${kN(demand, 'up')}: ${carried ? 'carried' : 'NOT CARRIED'} (${how}).`;
  return {
    ...load,
    demand,
    carriers,
    best,
    used,
    carried,
    besides: carriers.filter((one) => one !== best).map(({ what, carries }) => `${what}, ${kN(carries, 'down')}`),
    notCounted,
    uncounted,
    text,
    least: carried ? [] : leastOf(entered, load, alongTheBars),
  };
}

/**
 * With every bar as long as the void is wide, and told for the one of its row that has most to hold. Of rows that leave a
 * run without anything over it no size would do.
 */
function leastOf({ hold, held, short, runs, reaching }: Entered, load: LoadCase, alongTheBars: boolean): string[] {
  const lacking = new Set(
    reaching.flatMap(({ lacking: why, fittings }) => (why.length > 0 ? fittings.map(({ letter }) => letter) : [])),
  );
  const shareOf = new Map(reaching.flatMap(({ shares }) => [...shares]));
  const rows = held.marked.bars.flatMap((entry, row) => {
    const { bar, letter, fittings } = entry;
    const share = Math.max(...fittings.map(({ mark }) => shareOf.get(mark) ?? 0));
    // One over no bundle has nothing to hold.
    if (lacking.has(letter) || share === 0) return [];
    const long = { ...bar, span: Math.max(bar.span, Math.ceil(short.widths[row]!)) };
    const each = reaching.flatMap((cover) =>
      cover.fittings
        .filter((one) => one.letter === letter)
        .map(({ mark }) => ({
          pressed: beamOver({ bar: long }, mark, cover).pressed,
          end: leanOf(long.span, held.middles.get(mark)!, mark, cover).share,
        })),
    );
    const pressed = Math.min(...each.map((one) => one.pressed));
    return [{ bar: long, share, pressed, end: Math.max(...each.map(({ end }) => end)) }];
  });
  const straps = held.marked.straps.flatMap(({ strap, letter }) => (lacking.has(letter) ? [] : [strap]));
  const isBare = rows.length === 0 && !straps.some(({ kind }) => kind === 'over');
  if (load.direction === 'up' && lacking.size > 0 && isBare) {
    return [...new Set(reaching.flatMap(({ wanted }) => wanted ?? []))];
  }
  const shares = rows.map(({ share }) => share);
  const pressed = rows.map((one) => one.pressed);
  const usable = {
    hold: { ...hold, bars: rows.map(({ bar }) => bar), straps },
    shares,
    pressed,
    ends: rows.map(({ end }) => end),
    runs,
    mass: held.mass,
  };
  return leastFor(usable, load, alongTheBars);
}

function mindsOf(hold: HoldDown, rolling: boolean, hull: string | undefined): string[] {
  const minds = [
    'Sole boards are no hold-down, and what stands on top is held by its own fastening, not by the ballast’s.',
    'Nothing is wedged tight between frames: rust swells.',
    'After the first day at sea: look at every strap, bolt, nut, edge and chock, and tighten.',
  ];
  if (rolling && hold.straps.some((strap) => strap.kind === 'over')) {
    minds.push('Straps over the top do not stop round bars from sliding lengthwise: block the ends.');
  }
  if (hold.straps.some((strap) => strap.kind === 'over')) {
    minds.push(
      'A strap over a level tier presses only its outer bundles: a batten across under it, proud in the middle, holds the inner ones, too.',
    );
  }
  const aluminium = /alumin/i.test(hull ?? '');
  const stainless = hold.bars.some((bar) => bar.bolts.grade.startsWith('A'));
  if (aluminium && hold.bars.length > 0) {
    minds.push('Steel bars and bolts are isolated from the aluminium by sleeves, washers and pads that hold no water.');
  } else if (stainless && hull === undefined) {
    minds.push('Stainless bolts are isolated from an aluminium structure by sleeves and washers.');
  }
  if (hold.straps.length > 0)
    minds.push('Webbing is kept off sharp ends and out of standing water, and renewed when chafed.');
  return minds;
}

/** Its bending is that of a bar kept upright: nothing entered says what keeps it so. */
function onEdgeWords({ bars }: MarkedHold): string[] {
  const edged = bars.flatMap(({ bar, fittings }) =>
    bar.onEdge && bar.width > bar.thickness ? [{ bar, fittings }] : [],
  );
  if (edged.length === 0) return [];
  const [first] = edged;
  const marks = listed(edged.map(({ fittings }) => marksOf(fittings)));
  const one = edged.length === 1 && first!.fittings.length === 1;
  return [
    `${marks} ${one ? 'stands' : 'stand'} on edge and ${one ? 'is' : 'are'} reckoned as kept upright. Falling over is not reckoned: keep ${one ? 'it' : 'each'} from it at both ends and where the stow presses on it (blocks on either side, a welded foot or angle, a batten notched over it), since laid flat ${one ? `it carries ${flatShare(first!.bar)} % of that` : 'it carries far less'}.`,
  ];
}

/** Straps over the top whose stated tension is more than what a tensioner is usually taken to leave. */
function tightWords({ straps }: MarkedHold): string[] {
  return straps.flatMap(({ letter, strap }) => {
    if (strap.kind !== 'over' || strap.tension === undefined) return [];
    const share = strap.tension / strap.lashingCapacity;
    if (share <= USUAL_TENSION + 1e-9) return [];
    return [
      `${letter} is reckoned with a tension of ${kN(tensionOf(strap), 'up')}, ${Math.ceil(100 * share - 1e-9)} % of its lashing capacity: more than the half that is usually taken. It has to be reached with the tensioner at hand, and to stay.`,
    ];
  });
}

/** The test that the loads are taken from lets what is held move no more than this, mm (33 CFR 183.420: 1 in). */
const MOVES_MOST = 25;

/** Strong enough is not stiff enough: of the bars that carry the usual loads upwards that which bends too far. */
function bendsWords(cases: readonly HeldCase[]): string[] {
  const bent = cases.flatMap(({ best, carried, required }) => (required && carried && best?.bends ? [best.bends] : []));
  const most = bent.reduce((top, one) => (one.by > top.by ? one : top), { mark: '', by: 0 });
  if (most.by <= MOVES_MOST) return [];
  return [
    `${most.mark} bends ${most.by.toFixed(0)} mm under the load, and what lies under it lifts as far: the test that these loads are taken from lets nothing move more than ${MOVES_MOST} mm. A stiffer bar, or more of them.`,
  ];
}

/** Of what a bar on edge carries by its bending, what it carries fallen flat: t/b, percent. */
function flatShare({ width, thickness }: HoldDown['bars'][number]): number {
  return Math.round((100 * thickness) / width);
}
