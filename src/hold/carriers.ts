/**
 * What carries one load case: everything that was entered and can hold that way, each with its working. Unlike carriers
 * are never added up, they do not share a load as their strengths: the best one counts, straps of a kind together.
 */
import type { BarAcross, HoldDown, Side, Strap } from '../job/holdDown.ts';
import { bendingOf, forceAt } from './beam.ts';
import { proofLoad } from './bolts.ts';
import { demandOf, GRAVITY, type LoadCase } from './loads.ts';
import { directCapacity, directFriction, overCapacity, upliftCapacity } from './straps.ts';

/** Newtons that it carries in this case, and how that was worked out. */
export interface Carrier {
  what: string;
  carries: number;
  working: string[];
}

/** Steel in bars and bolts is worked to its yield or proof stress over this: a default to confirm. */
export const STEEL_FACTOR = 1.5;

/** `alongTheBars`: the load is along round bars, which nothing but a blocked end keeps from sliding out of a strap. */
export function carriersOf(hold: HoldDown, load: LoadCase, mass: number, alongTheBars: boolean): Carrier[] {
  if (load.direction === 'up') return upCarriers(hold, demandOf(load, mass));
  const side = load.direction;
  const carriers: Carrier[] = [];
  const blocked = hold.blocked[side];
  if (blocked) {
    const working = [`Stated to carry ${kN(blocked.carries * 1000)}.`];
    const what = side === 'down' ? `stands on ${blocked.by}` : `blocked by ${blocked.by}`;
    carriers.push({ what, carries: blocked.carries * 1000, working });
  }
  if (side === 'down') return carriers;
  carriers.push(...directCarriers(hold, side, mass));
  const over = hold.straps.filter((strap) => strap.kind === 'over');
  if (over.length > 0 && !alongTheBars) carriers.push(overCarrier(over, hold.friction, side, mass));
  return carriers;
}

type Over = Extract<Strap, { kind: 'over' }>;

function overCarrier(straps: Over[], friction: number, side: Side, mass: number): Carrier {
  const forward = side === 'forward';
  const pressed = straps.reduce((sum, strap) => sum + overCapacity(strap, friction, forward), 0);
  const weight = friction * mass * GRAVITY;
  return {
    what: count(straps, 'strap', 'over the top'),
    carries: pressed + weight,
    working: [
      ...straps.map(
        (strap) =>
          `${strap.count} × 2 × μ ${friction} × sin ${strap.angle}° × its tension ÷ ${forward ? 1.25 : 1.1}: ${kN(overCapacity(strap, friction, forward))}.`,
      ),
      `Friction of the weight itself, μ ${friction}: ${kN(weight)}.`,
    ],
  };
}

function directCarriers(hold: HoldDown, side: Side, mass: number): Carrier[] {
  const straps = hold.straps.filter((strap) => strap.kind === 'direct' && strap.against === side) as Extract<
    Strap,
    { kind: 'direct' }
  >[];
  if (straps.length === 0) return [];
  const carries = straps.reduce((sum, strap) => sum + directCapacity(strap, hold.friction), 0);
  const weight = directFriction(mass, hold.friction);
  return [
    {
      what: count(straps, 'direct strap'),
      carries: carries + weight,
      working: [
        ...straps.map(
          (strap) =>
            `${strap.count} × ${kN(strap.lashingCapacity * 1000)} × (cos ${strap.angle}° · cos ${strap.aside}° + 0.75 · μ ${hold.friction} · sin ${strap.angle}°): ${kN(directCapacity(strap, hold.friction))}.`,
        ),
        `Friction of the weight, μ ${hold.friction} × 0.75: ${kN(weight)}.`,
      ],
    },
  ];
}

function upCarriers(hold: HoldDown, demand: number): Carrier[] {
  const carriers = hold.bars.map((bar) => barCarrier(bar, demand));
  const over = hold.straps.filter((strap) => strap.kind === 'over');
  if (over.length > 0) {
    const carries = over.reduce((sum, strap) => sum + upliftCapacity(strap), 0);
    const working = over.map(
      (strap) =>
        `${strap.count} × 2 ends × ${kN(strap.lashingCapacity * 1000)} × sin ${strap.angle}°: ${kN(upliftCapacity(strap))}.`,
    );
    carriers.push({ what: count(over, 'strap', 'over the top'), carries, working });
  }
  return carriers;
}

/** Bars across carry what their bending allows or what their bolts hold, whichever is less. */
function barCarrier(bar: BarAcross, demand: number): Carrier {
  const allowed = bar.yield / STEEL_FACTOR;
  const bending = bar.count * forceAt(bar, allowed);
  const bolt = proofLoad(bar.bolts.size, bar.bolts.grade) / STEEL_FACTOR;
  const bolts = bar.count * bar.bolts.perBar * bolt;
  const { stress, deflection } = bendingOf(bar, demand / bar.count);
  const lie = bar.onEdge ? 'on edge' : 'flat';
  return {
    what: `${bar.count} × bar across ${bar.width} × ${bar.thickness} ${lie}, bolts ${bar.bolts.size} ${bar.bolts.grade}`,
    carries: Math.min(bending, bolts),
    working: [
      `Under this load ${stress.toFixed(0)} MPa in the bar (allowed ${allowed.toFixed(0)}: yield ${bar.yield} ÷ ${STEEL_FACTOR}), it bends ${deflection.toFixed(1)} mm; bars carry ${kN(bending)}.`,
      `${bar.count * bar.bolts.perBar} bolts, each ${kN(bolt)} (proof ÷ ${STEEL_FACTOR}): ${kN(bolts)}. What they go into (${bar.bolts.into}), its edges and the washers are usually weaker than the bolts and are not worked out here.`,
    ],
  };
}

function count(straps: { count: number }[], word: string, where = ''): string {
  const n = straps.reduce((sum, strap) => sum + strap.count, 0);
  return `${n} ${word}${n === 1 ? '' : 's'}${where === '' ? '' : ` ${where}`}`;
}

/** Newtons told in kN. */
export function kN(newtons: number): string {
  return `${(newtons / 1000).toFixed(2)} kN`;
}
