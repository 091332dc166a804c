/**
 * Whether what was entered for a void carries its load cases. It never says that a stow is safe: it says which assumed
 * load is carried, by what, and how far it is used; a surveyor or a designer must approve.
 */
import type { HoldDown } from '../job/holdDown.ts';
import type { Job, Void } from '../job/job.ts';
import { rolls } from '../job/section.ts';
import type { Plan } from '../plan/plan.ts';
import { type Carrier, carriersOf } from './carriers.ts';
import { leastFor } from './least.ts';
import { demandOf, type LoadCase, loadCases } from './loads.ts';

/** One case worked out. Newtons; `used` is demand over what the best carrier carries, null where nothing holds that way. */
export interface HeldCase extends LoadCase {
  demand: number;
  carriers: Carrier[];
  best: Carrier | null;
  used: number | null;
  carried: boolean;
  text: string;
  /** The least that would carry it, where it is not carried. */
  least: string[];
}

export interface HeldVoid {
  void: string;
  mass: number;
  cases: HeldCase[];
  /** True where every case is carried by what was entered. An empty void has nothing to hold. */
  held: boolean;
  /** What to mind with what was entered, in sentences. */
  minds: string[];
}

/** Every void of the job. One with bundles and no hold-down entered is not held. */
export function holdDownOf(job: Job, plan: Plan): HeldVoid[] {
  return job.voids.map((place) => {
    const bundles = plan.bundles.filter((bundle) => bundle.void === place.void);
    const mass = bundles.reduce((sum, bundle) => sum + bundle.mass, 0);
    const rolling = bundles.some((bundle) => rolls(bundle.section));
    const laid = plan.voids.find((placed) => placed.void === place.void)?.axis ?? place.axis;
    return heldVoid(place, mass, rolling, laid === 'athwartships');
  });
}

/** `mass` kg in one void; `rolling`: some of it is round; `athwartships`: the way its bars lie. */
export function heldVoid(place: Void, mass: number, rolling: boolean, athwartships: boolean): HeldVoid {
  const { holdDown } = place;
  if (mass === 0) return { void: place.void, mass, cases: [], held: true, minds: [] };
  if (!holdDown) return { void: place.void, mass, cases: [], held: false, minds: [NOTHING_ENTERED] };
  const cases = loadCases(holdDown.loads).map((load) => {
    const lengthwise = load.direction === 'forward' || load.direction === 'aft';
    return heldCase(holdDown, load, mass, rolling && load.direction !== 'up' && lengthwise !== athwartships);
  });
  return {
    void: place.void,
    mass,
    cases,
    held: cases.every((one) => one.carried),
    minds: mindsOf(holdDown, rolling),
  };
}

const NOTHING_ENTERED = 'Nothing is entered that holds it. Sole boards do not: they lift off with what stands on them.';

function heldCase(hold: HoldDown, load: LoadCase, mass: number, alongTheBars: boolean): HeldCase {
  const demand = demandOf(load, mass);
  const carriers = carriersOf(hold, load, mass, alongTheBars);
  const best = carriers.reduce<Carrier | null>((top, one) => (top && top.carries >= one.carries ? top : one), null);
  const used = best && best.carries > 0 ? demand / best.carries : null;
  const carried = used !== null && used <= 1;
  const how =
    best && used !== null
      ? `${best.what}, used to ${Math.round(100 * used)} %`
      : 'nothing that was entered holds this way';
  const text = `${load.name}, ${(demand / 1000).toFixed(2)} kN: ${carried ? 'carried' : 'NOT CARRIED'} (${how}).`;
  return {
    ...load,
    demand,
    carriers,
    best,
    used,
    carried,
    text,
    least: carried ? [] : leastFor(hold, load, mass, alongTheBars),
  };
}

function mindsOf(hold: HoldDown, rolling: boolean): string[] {
  const minds = [
    'What stands on top is held by its own fastening, not by the ballast’s.',
    'Nothing is wedged tight between frames: rust swells.',
    'After the first day at sea: look at every strap, bolt, nut, edge and chock, and tighten.',
  ];
  if (rolling && hold.straps.some((strap) => strap.kind === 'over')) {
    minds.push('Straps over the top do not stop round bars from sliding lengthwise: block the ends.');
  }
  if (hold.bars.some((bar) => bar.bolts.grade.startsWith('A'))) {
    minds.push('Stainless bolts are isolated from an aluminium structure by sleeves and washers.');
  }
  if (hold.straps.length > 0)
    minds.push('Webbing is kept off sharp ends and out of standing water, and renewed when chafed.');
  const reason = hold.loads.reason;
  if (reason !== undefined) minds.push(`Lighter than the default load because: ${reason}`);
  return minds;
}
