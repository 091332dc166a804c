/** The bundles, derived again from their pieces: rows, bars, joints, mass, limit and size. */
import type { Job, Lot } from '../../job/job.ts';
import { outerSize, rolls, sectionKey, turnsOnEdge } from '../../job/section.ts';
import { heaviestBundle } from '../../lift/limit.ts';
import type { Plan, PlanBundle } from '../plan.ts';
import type { CutPiece } from './bars.ts';
import { checkJoints } from './joints.ts';
import { DUST_KG, figure, type Tell } from './planFault.ts';
import type { LaidVoid } from './space.ts';

/** A bundle where it lies, measured again. Edges in mm, void coordinates; mass kg. */
export interface Tied {
  bundle: PlanBundle;
  space: LaidVoid;
  section: string;
  /** Steel and wrapping. */
  mass: number;
  along: [number, number];
  across: [number, number];
  up: [number, number];
  /** The stretch across over which its top carries another bundle. */
  top: [number, number];
}

/** Told masses are rounded to 0.01 kg. */
const ROUNDED = 0.0051;

/** Checks every bundle for itself, and gives those whose void is known, as listed. */
export function checkBundles(
  job: Job,
  plan: Plan,
  spaces: Map<string, LaidVoid>,
  pieces: Map<string, CutPiece>,
  tell: Tell,
): Tied[] {
  const lots = new Map<string, Lot[]>();
  for (const lot of job.pile) {
    const key = sectionKey(lot.section);
    lots.set(key, [...(lots.get(key) ?? []), lot]);
  }
  const heaviest = new Map(job.voids.map((space) => [space.void, heaviestBundle(job, space)]));
  const marks = new Set<string>();
  const tied: Tied[] = [];
  for (const bundle of plan.bundles) {
    const about = `bundle ${bundle.bundle}`;
    if (marks.has(bundle.bundle)) tell('bundle-twice', about, `${about} is listed twice.`);
    marks.add(bundle.bundle);
    const section = sectionKey(bundle.section);
    const own = lots.get(section);
    if (!own) tell('bundle-section', about, `No lot has the section of ${about}.`);
    checkRows(bundle, tell);
    if (bundle.slots.length > job.bundle.maxBars)
      tell('bundle-bars', about, `${about} has ${bundle.slots.length} bars, maxBars is ${job.bundle.maxBars}.`);
    const mass = checkSlots(job, bundle, section, pieces, tell);
    const bow = Math.max(0, ...(own ?? []).map((lot) => lot.bow));
    checkSize(job, bundle, bow, tell);
    const space = spaces.get(bundle.void);
    if (!space) {
      tell('bundle-void', about, `${about} lies in ${bundle.void}, and the job has no such void.`);
      continue;
    }
    const limit = space.stated.limit ?? job.bundle.limit;
    if (Math.abs(bundle.limit - limit) > 1e-6)
      tell('bundle-limit', about, `${about} says its limit is ${bundle.limit} kg; it is ${limit}.`);
    if (mass > limit + DUST_KG)
      tell('over-limit', about, `${about} is ${figure(mass, limit)} kg, the limit ${limit} kg.`, mass - limit);
    const most = heaviest.get(bundle.void)!;
    if (mass > most + DUST_KG && mass <= limit + DUST_KG)
      tell(
        'over-limit',
        about,
        `${about} is ${figure(mass, most)} kg; the guide that the job holds to leaves ${figure(most, mass)} kg.`,
        mass - most,
      );
    tied.push(measure(job, bundle, space, section, mass));
  }
  for (const { piece, tied: times } of pieces.values())
    if (times !== 1) {
      const name = `piece ${piece}`;
      if (times === 0) tell('piece-untied', name, `${name} is cut, and tied in no bundle.`);
      else tell('piece-tied-twice', name, `${name} is tied ${times} times.`);
    }
  return tied;
}

function checkRows(bundle: PlanBundle, tell: Tell): void {
  const about = `bundle ${bundle.bundle}`;
  const { columns, section } = bundle;
  const bars = columns.reduce((sum, count) => sum + count, 0);
  if (bundle.rows !== columns.length || columns.some((count) => count < 1) || bars !== bundle.slots.length)
    tell(
      'bundle-rows',
      about,
      `${about}: rows ${bundle.rows}, columns ${columns.join(', ')}, slots ${bundle.slots.length}.`,
    );
  if (bundle.onEdge && !turnsOnEdge(section)) tell('bundle-lie', about, `${about} can not lie on edge.`);
  if (bundle.arrangement === 'grid') {
    if (rolls(section) && columns.length > 1)
      tell('bundle-arrangement', about, `${about}: ${section.shape} bars tied square lean; one row only.`);
    const widest = Math.max(...columns);
    if (columns.slice(0, -1).some((count) => count !== widest))
      tell('bundle-arrangement', about, `${about}: only the top row may be short (${columns.join(', ')}).`);
    return;
  }
  if (!rolls(section)) tell('bundle-arrangement', about, `${about}: ${section.shape} bars do not nest.`);
  if (columns.some((count, i) => i > 0 && Math.abs(count - columns[i - 1]!) > 1))
    tell('bundle-arrangement', about, `${about}: rows next to each other differ by more than one bar.`);
}

/** Checks the pieces of a bundle and gives its mass, steel and wrapping, kg. */
function checkSlots(job: Job, bundle: PlanBundle, section: string, pieces: Map<string, CutPiece>, tell: Tell): number {
  const about = `bundle ${bundle.bundle}`;
  const { length } = bundle;
  if (!Number.isInteger(length)) tell('bundle-length', about, `${about} is ${length} mm long, not whole.`);
  let mass = job.bundle.wrapping;
  const lengths = bundle.slots.map((slot, i) => {
    const found: number[] = [];
    for (const name of slot) {
      const piece = pieces.get(name);
      if (!piece) {
        tell('piece-unknown', about, `${about} holds ${name}, and no bar yields it.`);
        continue;
      }
      piece.tied++;
      found.push(piece.length);
      mass += (piece.length * piece.perMetre) / 1000;
      if (piece.section !== section) tell('piece-section', about, `${about}: ${name} is of another section.`);
      if (piece.bundle !== bundle.bundle)
        tell('piece-bundle', `piece ${name}`, `${name} is cut for ${piece.bundle} and tied in ${bundle.bundle}.`);
    }
    const whole = found.reduce((sum, part) => sum + part, 0);
    const least = slot.length > 1 ? length - job.saw.tolerance : length;
    if (slot.length === 0) tell('bundle-rows', about, `${about}: bar ${i + 1} has no piece.`);
    else if (whole < least - 1e-6 || whole > length + 1e-6)
      tell(
        'bundle-length',
        about,
        `${about}: bar ${i + 1} is ${whole} mm long, the bundle ${length}.`,
        Math.abs(whole - length),
      );
    return found;
  });
  checkJoints(job, bundle, lengths, tell);
  if (!(Math.abs(bundle.mass - mass) <= ROUNDED))
    tell(
      'bundle-mass',
      about,
      `${about} says ${bundle.mass} kg and weighs ${mass.toFixed(3)} kg.`,
      Math.abs(bundle.mass - mass),
    );
  return mass;
}

/**
 * Size of a bundle with bars a across × b up, wrap w, end cover e, cut tolerance t, sag s = bow·(length/1000)²:
 * along = length + t + 2e; a grid is columns·a × rows·b, nested rows are widest·d (+ d/2 where two neighbouring rows
 * are equal) × d + (rows − 1)·d·√3/2; 2w + s on both. Told, also in a fault: rounded up to 0.5 mm.
 */
function checkSize(job: Job, bundle: PlanBundle, bow: number, tell: Tell): void {
  const about = `bundle ${bundle.bundle}`;
  const { section, columns, length, onEdge, size, at } = bundle;
  const bar = outerSize(section, onEdge);
  const sag = bow * (length / 1000) * (length / 1000);
  const round = 2 * job.bundle.wrap + sag;
  const widest = Math.max(...columns) * bar.across;
  const nested = bundle.arrangement === 'nested';
  const shifted = nested && columns.some((count, i) => i > 0 && count === columns[i - 1]) ? bar.across / 2 : 0;
  const high = nested ? bar.up * (1 + ((columns.length - 1) * Math.sqrt(3)) / 2) : columns.length * bar.up;
  const least = {
    along: length + job.saw.tolerance + 2 * job.bundle.endCover,
    across: widest + shifted + round,
    up: high + round,
  };
  for (const side of ['along', 'across', 'up'] as const) {
    const off = size[side] - least[side];
    if (!(off >= -1e-6 && off < 0.5 - 1e-10 && onHalf(size[side]))) {
      const right = Math.ceil(2 * (least[side] - 1e-6)) / 2;
      const by = Math.abs(size[side] - right);
      tell('bundle-size', about, `${about}: size.${side} is told ${size[side]} mm; it is ${right}.`, by);
    }
    if (!onHalf(at[side])) tell('bundle-place', about, `${about}: at.${side} is ${at[side]}, no multiple of 0.5 mm.`);
  }
  if (bundle.becket !== undefined && !(bundle.becket > 0))
    tell('becket', about, `${about}: a becket of ${bundle.becket} mm.`);
}

function onHalf(value: number): boolean {
  return Math.abs(2 * value - Math.round(2 * value)) < 1e-6;
}

function measure(job: Job, bundle: PlanBundle, space: LaidVoid, section: string, mass: number): Tied {
  const { at, size } = bundle;
  const edge = (side: 'along' | 'across' | 'up'): [number, number] => [at[side], at[side] + size[side]];
  const across = edge('across');
  return {
    bundle,
    space,
    section,
    mass,
    along: edge('along'),
    across,
    up: edge('up'),
    top: topOf(job, bundle, across),
  };
}

/** Where the top of a bundle carries: a short top row of a grid only where it has bars, a narrow nested one centred. */
function topOf(job: Job, bundle: PlanBundle, across: [number, number]): [number, number] {
  const widest = Math.max(...bundle.columns);
  const bars = bundle.columns.at(-1) ?? 0;
  const nested = bundle.arrangement === 'nested';
  if (bars >= widest - (nested ? 1 : 0)) return across;
  const width = bars * outerSize(bundle.section, bundle.onEdge).across + job.bundle.wrap;
  const from = nested ? across[0] + (across[1] - across[0] - width) / 2 : across[0];
  return [from, from + width];
}
