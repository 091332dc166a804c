/** An effect wanted as it is typed under “Afloat”: read, put together, and refused in words where it can not be meant. */
import type { Wanted } from '../../src/balance/aims.ts';
import { effectSchema, type Job, type Vessel, type WantedEffect } from '../../src/job/job.ts';
import { type Asked, type Bounds, readFigure, type Unit } from './askedFigures.ts';

export type TrimTo = '' | 'kept' | 'level';

interface WantedField {
  label: string;
  unit: Unit;
  help: string;
  bounds: Bounds;
}

/** Draughts change by no more than the job file holds, cm. */
const CHANGE: Bounds = { least: -500, most: 500 };
const DRAUGHT: Bounds = { least: -20, most: 20 };

export const WANTED_FIELDS = {
  forward: { label: 'Down at the fore end', unit: 'cm', help: 'give both ends, or neither', bounds: CHANGE },
  aft: { label: 'Down at the after end', unit: 'cm', help: '', bounds: CHANGE },
  markForward: {
    label: 'or her draught at the fore end',
    unit: 'm',
    help: 'counted from the draughts stated of her',
    bounds: DRAUGHT,
  },
  markAft: { label: 'and at the after end', unit: 'm', help: '', bounds: DRAUGHT },
  trim: {
    label: 'Change of trim by the head',
    unit: 'cm',
    help: 'in place of both ends; −2 is 2 cm by the stern, 0 leaves her trim',
    bounds: CHANGE,
  },
  ballast: { label: 'Ballast', unit: 'kg', help: 'where the ends are not given', bounds: { least: 0 } },
  gm: { label: 'GM', unit: 'm', help: '', bounds: { least: 0.01, most: 20 } },
  period: { label: 'or one whole roll', unit: 's', help: '', bounds: { least: 0.1, most: 60 } },
} as const satisfies Record<string, WantedField>;

export type WantedName = keyof typeof WANTED_FIELDS;

const NAMES = Object.keys(WANTED_FIELDS) as WantedName[];

export function readWanted(typed: (name: string) => string | undefined): Record<WantedName, Asked> {
  const read = NAMES.map((name) => {
    const { unit, bounds } = WANTED_FIELDS[name];
    return [name, readFigure(typed(name) ?? '', unit, bounds)] as const;
  });
  return Object.fromEntries(read) as Record<WantedName, Asked>;
}

/** What was asked for; null where nothing was. Marks and a level trim count from the draughts stated. */
export function askedOf(
  job: Job,
  { draughtForward, draughtAft }: Vessel,
  wanted: Record<WantedName, Asked>,
  upright: boolean,
  trimTo: TrimTo,
): Wanted | null {
  const value = (name: WantedName): number | undefined => wanted[name].value ?? undefined;
  const downTo = (mark: number | undefined, now: number | undefined): number | undefined =>
    mark === undefined || now === undefined ? undefined : tenth((mark - now) * 100);
  const forward = value('forward') ?? downTo(value('markForward'), draughtForward);
  const aft = value('aft') ?? downTo(value('markAft'), draughtAft);
  const level =
    draughtForward === undefined || draughtAft === undefined ? undefined : tenth((draughtAft - draughtForward) * 100);
  const trim = value('trim') ?? (trimTo === 'kept' ? 0 : trimTo === 'level' ? level : undefined);
  const asked: Wanted = {
    ...(forward !== undefined && aft !== undefined ? { down: { forward, aft } } : {}),
    ...optional('trim', trim),
    ...optional('ballast', value('ballast') ?? job.aims.ballast),
    ...(upright ? { upright } : {}),
    ...optional('gm', value('gm')),
    ...optional('period', value('period')),
  };
  const any = NAMES.some((name) => wanted[name].value !== null) || upright || trimTo !== '';
  return any ? asked : null;
}

/** Why nothing is made of what is typed, in sentences; none where it can be taken as it stands. */
export function refusedOf(vessel: Vessel, wanted: Record<WantedName, Asked>, asked: Wanted | null): string[] {
  const unread = NAMES.filter((name) => wanted[name].faulty);
  const refused = unread.map((name) => `“${WANTED_FIELDS[name].label}”: ${wanted[name].text.trim()} can not be meant.`);
  if (unread.length > 0) return refused;
  const typed = (name: WantedName): boolean => wanted[name].value !== null;
  const marks = (['markForward', 'markAft'] as const).filter(typed);
  const now = { markForward: vessel.draughtForward, markAft: vessel.draughtAft };
  if (marks.some((name) => now[name] === undefined))
    return ['Her draughts now are not stated: say how far down she should go instead, or state them.'];
  const ends = [typed('forward') || typed('markForward'), typed('aft') || typed('markAft')];
  if (ends[0] !== ends[1]) return ['One end alone does not say how she should float: give both ends, or neither.'];
  const effect = asked && effectOfAsked(asked);
  if (effect && !effectSchema.safeParse(effect).success)
    return ['That is more than 5 m from how she floats now: changes are in cm, draughts in m.'];
  return [];
}

/** The same effect, to be kept with the aims; null where nothing but an amount was asked for. */
export function effectOfAsked({ ballast: _, ...effect }: Wanted): WantedEffect | null {
  return Object.keys(effect).length === 0 ? null : effect;
}

function tenth(cm: number): number {
  return Math.round(cm * 10) / 10;
}

function optional<Name extends keyof Wanted>(name: Name, value: Wanted[Name] | undefined): Partial<Wanted> {
  return value === undefined ? {} : { [name]: value };
}
