/** What the page “Readings taken afloat” shows: each reading typed, and the figure of her that follows from it, with its range. */

import { amount } from '../../src/balance/amount.ts';
import { smallGm } from '../../src/balance/float.ts';
import { hydrostaticsOf } from '../../src/balance/hydrostatics.ts';
import { known, type Range } from '../../src/balance/range.ts';
import {
  correctFromMarks,
  type Draughts,
  gmFromInclining,
  HOW_TO_READ,
  tangentOf,
  trimMomentFromShift,
} from '../../src/balance/readings.ts';
import { gmFromPeriod } from '../../src/balance/roll.ts';
import { slippedEnds } from '../../src/balance/slips.ts';
import type { Vessel } from '../../src/job/job.ts';
import { type Asked, readFigure } from './askedFigures.ts';

/** Name, label and unit of each figure, by the reading that it belongs to. */
const READINGS = {
  marks: [
    ['addedMass', 'Weight put aboard', 'kg'],
    ['addedAt', 'Forward of the after end', 'm'],
    ['markForward', 'Draught before, fore end', 'm'],
    ['markAft', 'Draught before, after end', 'm'],
    ['addedForward', 'Draught after, fore end', 'm'],
    ['addedAft', 'Draught after, after end', 'm'],
  ],
  shift: [
    ['shiftMass', 'Weight moved', 'kg'],
    ['shiftBy', 'So far forward', 'm'],
    ['shiftForwardBefore', 'Draught before, fore end', 'm'],
    ['shiftAftBefore', 'Draught before, after end', 'm'],
    ['shiftForward', 'Draught after, fore end', 'm'],
    ['shiftAft', 'Draught after, after end', 'm'],
  ],
  inclining: [
    ['inclineMass', 'Weight moved', 'kg'],
    ['inclineBy', 'So far across', 'm'],
    ['line', 'Length of the plumb line', 'mm'],
    ['moved', 'It moved by', 'mm'],
  ],
  roll: [
    ['rolls', 'Whole rolls timed', ''],
    ['seconds', 'They took', 's'],
  ],
} as const;

export type ReadingKind = keyof typeof READINGS;

export interface ReadingView {
  kind: ReadingKind;
  steps: readonly string[];
  fields: { name: string; label: string; unit: string; asked: Asked }[];
  /** What follows, in sentences; empty until everything is typed. */
  found: string[];
  doubts: string[];
}

export interface ReadingsPage {
  readings: ReadingView[];
  /** The figures of her that were found, as they go into the job; empty where none was. */
  vessel: Partial<Record<'kgPerCm' | 'kgmPerCm' | 'gm' | 'rollPeriod', number>>;
}

interface Answer {
  found: string[];
  doubts?: string[];
  vessel?: ReadingsPage['vessel'];
}

type Value = (name: string) => number | null;

/** `typed` gives what was typed by name; see {@link READINGS}. */
export function showReadingsPage(vessel: Vessel, typed: (name: string) => string | undefined): ReadingsPage {
  const usual: Record<string, number | undefined> = {
    markForward: vessel.draughtForward,
    markAft: vessel.draughtAft,
    shiftForwardBefore: vessel.draughtForward,
    shiftAftBefore: vessel.draughtAft,
  };
  const page: ReadingsPage = { readings: [], vessel: {} };
  for (const kind of Object.keys(READINGS) as ReadingKind[]) {
    const fields = READINGS[kind].map(([name, label, unit]) => ({
      name,
      label,
      unit,
      asked: readFigure(typed(name) ?? String(usual[name] ?? ''), unit),
    }));
    const values = new Map<string, number | null>(fields.map(({ name, asked }) => [name, asked.value]));
    const whole = fields.every(({ asked }) => asked.value !== null);
    const {
      found,
      doubts = [],
      vessel: figures = {},
    } = whole ? ANSWERS[kind](vessel, (name) => values.get(name) ?? null) : { found: [] };
    Object.assign(page.vessel, figures);
    page.readings.push({ kind, steps: STEPS[kind], fields, found, doubts });
  }
  return page;
}

const STEPS: Record<ReadingKind, readonly string[]> = {
  marks: HOW_TO_READ.marks.slice(0, 3),
  shift: [HOW_TO_READ.marks[0], HOW_TO_READ.marks[1], HOW_TO_READ.marks[3]],
  inclining: HOW_TO_READ.inclining,
  roll: HOW_TO_READ.roll,
};

const ANSWERS: Record<ReadingKind, (vessel: Vessel, value: Value) => Answer> = {
  marks: (vessel, value) => {
    const { lcf, waterlineLength } = hydrostaticsOf(vessel);
    if (!lcf || !waterlineLength) return { found: [], doubts: ['Her waterline length is needed for this.'] };
    const [before, after] = [draughts(value, 'markForward', 'markAft'), draughts(value, 'addedForward', 'addedAft')];
    const doubts = doubtsOf(before, after);
    if (doubts.length > 0) return { found: [], doubts };
    const [mass, at] = [value('addedMass') ?? 0, value('addedAt') ?? 0];
    const { kgPerCm, kgmPerCm } = correctFromMarks(mass, at, before, after, lcf.likely, waterlineLength.likely);
    if (!kgPerCm || !(mass > 0)) return { found: [], doubts: ['She went down too little to read: a heavier weight.'] };
    const found = [`It takes ${amount(kgPerCm, 0, 'kg')} to sink her 1 centimetre.`];
    if (kgmPerCm) found.push(`It takes ${amount(kgmPerCm, 0, 'kg·m')} to trim her 1 centimetre.`);
    const trims = kgmPerCm ? { kgmPerCm: Math.round(kgmPerCm.likely) } : {};
    return { found, vessel: { kgPerCm: Math.round(kgPerCm.likely), ...trims } };
  },
  shift: (_, value) => {
    const before = draughts(value, 'shiftForwardBefore', 'shiftAftBefore');
    const after = draughts(value, 'shiftForward', 'shiftAft');
    const doubts = doubtsOf(before, after);
    if (doubts.length > 0) return { found: [], doubts };
    const moment = trimMomentFromShift(value('shiftMass') ?? 0, value('shiftBy') ?? 0, before, after);
    if (!moment) {
      const why =
        'Her trim changed by less than 2 cm, or the other way: a heavier weight or a longer way; aft is minus.';
      return { found: [], doubts: [why] };
    }
    return {
      found: [`It takes ${amount(moment, 0, 'kg·m')} to trim her 1 centimetre.`],
      vessel: { kgmPerCm: Math.round(moment.likely) },
    };
  },
  inclining: (vessel, value) => {
    const { displacement } = hydrostaticsOf(vessel);
    if (!displacement) return { found: [], doubts: ['Her displacement is needed for this.'] };
    const angle = tangentOf(value('moved') ?? 0, value('line') ?? 0);
    const [mass, by] = [value('inclineMass') ?? 0, value('inclineBy') ?? 0];
    const doubts = [...signDoubts(mass, by), ...('why' in angle ? [angle.why] : [])];
    if ('why' in angle || doubts.length > 0) return { found: [], doubts };
    const gm = gmFromInclining(mass, by, displacement, angle.tangent);
    return gmAnswer(gm, 'Stiffness, GM, from the weight moved');
  },
  roll: (vessel, value) => {
    const [rolls, seconds] = [value('rolls') ?? 0, value('seconds') ?? 0];
    const period = seconds / rolls;
    if (!(rolls >= 1) || !(period >= 0.5 && period <= 30)) {
      const why =
        'One whole roll, there and back, takes half a second to half a minute: count whole rolls, and time them together.';
      return { found: [], doubts: [why] };
    }
    const found = [`One whole roll in ${period.toFixed(2)} s.`];
    const { beam } = hydrostaticsOf(vessel);
    if (beam) {
      const gm = gmFromPeriod(known(period), beam);
      found.push(
        `From that, roughly, GM ${amount(gm, 2, 'm')}: a weight moved across gives it better.`,
        ...littleOf(gm),
      );
    }
    return { found, vessel: { rollPeriod: Math.round(period * 100) / 100 } };
  },
};

/** A GM that small-angle formulas can use, or why not. */
function gmAnswer(gm: Range, what: string): Answer {
  if (!(gm.likely > 0) || !Number.isFinite(gm.likely) || gm.likely > 20) {
    return { found: [], doubts: ['That gives no GM that could be hers: weights in kg, ways in m, the line in mm.'] };
  }
  const found = [`${what}: ${amount(gm, 2, 'm')}.`];
  return { found: [...found, ...littleOf(gm)], vessel: { gm: Math.round(gm.likely * 1000) / 1000 } };
}

function littleOf(gm: Range): string[] {
  const little = smallGm(gm);
  return little ? [little] : [];
}

/** Whichever way it was moved: a GM has no side. */
function signDoubts(mass: number, by: number): string[] {
  const doubts: string[] = [];
  if (mass <= 0) doubts.push(`The weight moved is said to be ${mass} kg: write it in kg, over 0.`);
  if (by === 0) doubts.push('The weight is said to have been moved by 0 m: write how far across, in m.');
  if (by < 0)
    doubts.push(`The weight is said to have been moved by ${by} m: write ${-by}, without a sign, to either side.`);
  return doubts;
}

function draughts(value: Value, forward: string, aft: string): Draughts {
  return { forward: value(forward) ?? 0, aft: value(aft) ?? 0 };
}

function doubtsOf(before: Draughts, after: Draughts): string[] {
  return slippedEnds(before, after).length > 0
    ? ['Her draught changed by more than half a metre: draughts are in metres, read at the same marks both times.']
    : [];
}
