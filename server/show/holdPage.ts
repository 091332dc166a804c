/** What the page “What holds it down” shows of one void: what is entered, the loads it must carry, and the least that would. */

import { byScale } from '../../src/balance/byScale.ts';
import { laidVoid } from '../../src/drawing/laid.ts';
import type { Fault } from '../../src/fault.ts';
import { kN } from '../../src/hold/carriers.ts';
import { markHold } from '../../src/hold/fittings.ts';
import { type HeldVoid, heldVoid, type Stow } from '../../src/hold/holdDown.ts';
import { runsOf } from '../../src/hold/runs.ts';
import type { HoldDown } from '../../src/job/holdDown.ts';
import { voidSchema } from '../../src/job/job.ts';
import { rolls, type Section } from '../../src/job/section.ts';
import type { WeighedMasses } from '../../src/plan/massNow.ts';
import { heavierPlan, MASS_SPREAD } from '../../src/plan/massTolerance.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { slideLines } from '../../src/plan/slides.ts';
import { printOther, type Towards, type Units } from '../../src/units.ts';
import type { Draft, Posted } from '../form/apply.ts';
import type { DraftRead } from '../form/draftRead.ts';
import { echoOf } from '../form/echo.ts';
import { isRecord, listAt, parsePath, valueAt } from '../form/path.ts';
import { type FieldView, type RowsView, showVoidGroup } from '../form/show.ts';
import { tellIn } from '../otherUnits.ts';
import { FITTED_WORDS } from '../paper/fittedWords.ts';
import { HOLD_WORDS as W } from '../paper/holdWords.ts';
import { type Asked, readFigure } from './askedFigures.ts';
import { drawHold, type HoldDrawing, isAsPlanned, type Planned } from './holdDrawing.ts';
import { linkVoids, nameOf, type VoidLink } from './voidList.ts';

export interface HoldCaseView {
  name: string;
  reason: string | null;
  load: string;
  by: string;
  /** What else holds this way and is not added. */
  besides: string;
  carries: string;
  /** In words and figures. */
  used: string;
  carried: boolean;
  working: string[];
  least: string[];
}

export interface HoldPage {
  index: number;
  title: string;
  voids: VoidLink[];
  fields: FieldView[];
  rows: RowsView[];
  /** The letter of each row on the drawing, by the row's path. */
  letters: Record<string, string>;
  mass: Asked;
  /** Where the mass comes from that stands there before one is typed. */
  massFrom: string;
  /** That less is reckoned with than lies or is wanted there; '' where it is not. */
  lighter: string;
  /** The mass as it was typed; null where it is the one to begin with. */
  ownMass: string | null;
  held: HeldVoid | null;
  /** True where every usual load is carried and nothing that was typed is faulted. */
  carried: boolean;
  /** What is to be mended before any of it counts. */
  mend: Fault[];
  cases: HoldCaseView[];
  /** Bundles that nothing entered here keeps from sliding, over the run beside them or along, a sentence each. */
  over: string[];
  /** Where what is entered lies; null where nothing is, or where it can not be read. */
  drawing: HoldDrawing | null;
  fittedWords: typeof FITTED_WORDS;
  /** The plan made last holds no stow of this void as it is now. */
  unplanned: boolean;
}

/** Null where the job has no such void. `draft` is the job with what was `typed` put in, `read` what was read of it, `planned` the plan made last. */
export function showHoldPage(
  draft: Draft,
  index: number,
  typed: Posted,
  planned: Planned | null,
  read: DraftRead,
  units: Units,
): HoldPage | null {
  const stated = listAt(draft, ['voids'])[index];
  if (!isRecord(stated)) return null;
  const own = `voids[${index}]`;
  const tell = (words: string): string => tellIn(units, words);
  const force = (newtons: number, towards: Towards): string =>
    units === 'metric'
      ? kN(newtons, towards)
      : `${printOther(newtons / 1000, 'kN', towards)} (${kN(newtons, towards)})`;
  const group = showVoidGroup(draft, index, 'holdDown.friction', read, units);
  // How a text was read stands under its field: 500 daN as 5 kN.
  const echoed = (field: FieldView): FieldView => {
    const text = typed.get(field.name);
    if (text === undefined) return field;
    return { ...field, echo: echoOf(field, valueAt(draft, parsePath(field.name) ?? []), text, units) };
  };
  const fields = (group?.fields ?? []).map(echoed);
  const rows = (group?.rows ?? []).map((list) => ({
    ...list,
    rows: list.rows.map((row) => ({ ...row, fields: row.fields.map(echoed) })),
  }));
  const space = voidSchema.safeParse(stated).data;
  // By the scale where bundles were weighed, as on the sheets.
  const plan = planned && byScale(planned.job, planned.plan, planned.weighed);
  const usual = usualMass(stated, plan, planned?.weighed);
  const stowed = space && planned && isAsPlanned(space, planned) ? plan : null;
  const runs = stowed && space ? runsOf(stowed, space.void) : [];
  const text = typed.get('mass') ?? usual.text;
  const mass = readMass(text);
  // Of a mass that somebody typed nobody knows whether it was weighed.
  const heavier =
    text === usual.text && mass.value !== null && !usual.from.startsWith(LYING)
      ? heavierStow(draft, stated, mass.value, planned, stowed)
      : undefined;
  const held =
    space && mass.value !== null
      ? heldVoid(space, { mass: mass.value, ...lieOf(draft, stated, plan), hull: hullOf(draft), runs, heavier })
      : null;
  const shown = [...fields, ...rows.flatMap((list) => list.rows.flatMap((row) => row.fields))];
  const mend = [...shown, ...rows, ...rows.flatMap((list) => list.rows)].flatMap((one) => one.faults);
  return {
    index,
    title: nameOf(stated),
    voids: linkVoids(draft, index),
    fields,
    rows,
    letters: space?.holdDown ? lettersOf(space.holdDown, own) : {},
    mass,
    massFrom: tell(usual.from),
    lighter: isLess(mass, usual)
      ? tell(`Reckoned for the ${mass.value} kg typed, less than this void is to hold (${usual.from}).`)
      : '',
    ownMass: text === usual.text ? null : text,
    held,
    carried: held?.held === true && mend.length === 0,
    mend,
    drawing: space ? drawHold(space, held, stowed, units) : null,
    fittedWords: FITTED_WORDS,
    unplanned: runs.length === 0,
    over: stowed && space ? slideLines(laidVoid(space, stowed), stowed) : [],
    cases: (held?.cases ?? []).map((one) => ({
      name: one.name,
      reason: one.reason,
      load: force(one.demand, 'up'),
      by: tell(one.best?.what ?? (one.notCounted.length > 0 ? W.nothingCounted(one.uncounted.join(', ')) : W.nothing)),
      besides: one.besides.length > 0 ? tell(W.besides(one.besides)) : '',
      carries: one.best ? force(one.best.carries, 'down') : '–',
      used: one.used === null ? W.notCarried : W.used(one.used),
      carried: one.carried,
      working: (one.best?.working ?? []).map(tell),
      least: one.least.map(tell),
    })),
  };
}

/** Every field of the form, but for the mass. */
export function holdFieldsOf({ fields, rows }: HoldPage): FieldView[] {
  return [...fields, ...rows.flatMap((list) => list.rows.flatMap((row) => row.fields))];
}

function lettersOf(hold: HoldDown, own: string): Record<string, string> {
  const { bars, straps } = markHold(hold);
  return Object.fromEntries([
    ...bars.map(({ letter }, i) => [`${own}.holdDown.bars[${i}]`, letter]),
    ...straps.map(({ letter }, i) => [`${own}.holdDown.straps[${i}]`, letter]),
  ]);
}

/** True of a mass under the one to begin with, where that is more than what is allowed there. */
function isLess({ value }: Asked, usual: { text: string; from: string }): boolean {
  return value !== null && usual.text !== '' && value < Number(usual.text) && !usual.from.startsWith(ALLOWED);
}

/** A mass of nothing is none to hold. */
function readMass(text: string): Asked {
  const asked = readFigure(text, 'kg');
  if (asked.value === null || asked.value > 0) return asked;
  const fault = 'That is no mass to hold.';
  return { ...asked, value: null, faulty: true, fault, remedy: 'Write what lies there in kg, more than 0.' };
}

/** The same stow with bars that nobody has weighed as heavy as they may be: by the last plan, else by the lots of the pile. */
function heavierStow(
  draft: Draft,
  typed: Record<string, unknown>,
  mass: number,
  planned: Planned | null,
  stowed: Plan | null,
): Stow['heavier'] {
  const plan =
    planned && heavierPlan(planned.job, byScale(planned.job, planned.plan, planned.weighed), planned.weighed);
  const own = plan?.bundles.filter((bundle) => bundle.void === typed.void) ?? [];
  if (plan && own.length > 0) {
    const sum = own.reduce((all, bundle) => all + bundle.mass, 0);
    return { mass: sum, runs: stowed ? runsOf(plan, String(typed.void)) : [] };
  }
  const doubtful = listAt(draft, ['pile']).some((lot) => valueAt(lot, ['massPerMetre']) === undefined);
  return doubtful ? { mass: mass * (1 + MASS_SPREAD.reckoned), runs: [] } : undefined;
}

/** A mass to begin with, and where it comes from. */
function told(mass: number, from: string): { text: string; from: string } {
  return { text: String(mass), from: `${from}: ${mass} kg` };
}

/** What lies in the void already, kg. */
function besideIn(typed: Record<string, unknown>): number {
  const masses = listAt(typed, ['keepOut']).map((keepOut) => Number(valueAt(keepOut, ['mass']) ?? 0));
  const lying = masses.filter((mass) => mass > 0).reduce((sum, mass) => sum + mass, 0);
  return Math.round(lying * 10) / 10;
}

const LYING = 'what lies there already';
const ALLOWED = 'the most allowed here';

function usualMass(
  typed: Record<string, unknown>,
  plan: Plan | null,
  weighed: WeighedMasses | undefined,
): { text: string; from: string } {
  const own = plan?.bundles.filter((bundle) => bundle.void === typed.void) ?? [];
  const mass = own.reduce((sum, bundle) => sum + bundle.mass, 0);
  if (mass > 0) {
    const count = own.filter(({ bundle }) => weighed?.has(bundle)).length;
    const from =
      count === 0
        ? 'as last planned'
        : count === own.length
          ? 'by the scale'
          : `by the scale for ${count} of ${own.length} bundles, the rest as last planned`;
    const planned = told(Math.round(mass * 10) / 10, from);
    const beside = besideIn(typed);
    return beside > 0
      ? { ...planned, from: `${planned.from}, without the ${beside} kg that lie there already` }
      : planned;
  }
  for (const [field, from] of [
    ['target', 'as wanted here'],
    ['most', ALLOWED],
  ] as const) {
    const asked = typed[field];
    if (typeof asked === 'number' && asked > 0) return told(asked, from);
  }
  // A void that takes nothing more still has to hold what lies in it, as one that was stowed by the plan before.
  const lying = besideIn(typed);
  if (lying > 0) return told(lying, LYING);
  return { text: '', from: 'not planned yet: type what you expect' };
}

/** Which way the bars lie, and whether some are round: as last planned, else by the void and any lot of the pile. */
function lieOf(
  draft: Draft,
  typed: Record<string, unknown>,
  plan: Plan | null,
): { rolling: boolean; athwartships: boolean } {
  const bundles = plan?.bundles.filter((bundle) => bundle.void === typed.void) ?? [];
  const axis = plan?.voids.find((space) => space.void === typed.void)?.axis ?? typed.axis;
  // Bars that may lie either way: a bar across then has to bridge the longer side, until a plan says which.
  const longer = axis === 'either' && Number(typed.length) > Number(typed.width);
  const shapes = listAt(draft, ['pile']).map((lot) => valueAt(lot, ['section', 'shape']));
  const round = shapes.some((shape) => typeof shape === 'string' && rolls({ shape } as Section));
  return {
    rolling: bundles.length > 0 ? bundles.some((bundle) => rolls(bundle.section)) : round,
    athwartships: axis === 'athwartships' || longer,
  };
}

function hullOf(draft: Draft): string | undefined {
  const hull = valueAt(draft, ['vessel', 'hull']);
  return typeof hull === 'string' ? hull : undefined;
}
