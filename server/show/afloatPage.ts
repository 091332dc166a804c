/** What the page “Afloat, before a plan” shows: trial amounts in every void, and an effect wanted turned into aims. */
import { type AimsByPlace, aimsFor, type Wanted } from '../../src/balance/aims.ts';
import { trialWeight, type Weight } from '../../src/balance/moments.ts';
import { questionsOf } from '../../src/balance/questions.ts';
import { targetsFor } from '../../src/balance/targets.ts';
import { type RollOfVoid, rollByVoid } from '../../src/balance/telling.ts';
import type { Job, Vessel, WantedEffect } from '../../src/job/job.ts';
import type { LinearEngine } from '../../src/linear/model.ts';
import { addedContents } from '../../src/plan/contents.ts';
import { type AfloatView, showEffect } from './afloat.ts';
import { type Asked, readFigure } from './askedFigures.ts';

/** How she rolls, as the person says. */
export type RollSaid = '' | 'slow' | 'quick' | 'well';

export type TrimTo = '' | 'kept' | 'level';

export interface AfloatPage {
  amounts: { name: string; label: string; text: string; faulty: boolean }[];
  /** Mass of the trial amounts together, kg. */
  total: number;
  afloat: AfloatView;
  rolls: (RollOfVoid & { helps: string })[] | null;
  said: RollSaid;
  advice: string;
  wanted: Record<WantedName, Asked>;
  upright: boolean;
  /** Her trim as it is, or both draughts alike, in place of a figure. */
  trimTo: TrimTo;
  /** Null where no effect was asked for. */
  aims: AimsByPlace | null;
  /** The same effect, to be kept with the aims. */
  effect: WantedEffect | null;
  /** An amount for each void that puts the centre there; null where none does, or no ballast is asked for. */
  targets: ReadonlyMap<string, number> | null;
}

const WANTED = ['forward', 'aft', 'markForward', 'markAft', 'trim', 'ballast', 'gm', 'period'] as const;
export type WantedName = (typeof WANTED)[number];

/**
 * `typed` gives what was typed by name: `kg.0`, `kg.1` … for the voids, and the names of {@link Wanted}. `engine` shares the
 * ballast out over the voids.
 */
export function showAfloatPage(
  job: Job,
  typed: (name: string) => string | undefined,
  engine: LinearEngine,
): AfloatPage {
  const figures = job.voids.map((space, n) => readFigure(typed(`kg.${n}`) ?? String(space.target ?? '')));
  const amounts = job.voids.map((space, n) => ({
    name: `kg.${n}`,
    label: space.name === '' ? space.void : `${space.void}, ${space.name}`,
    text: figures[n]!.text,
    faulty: figures[n]!.faulty || (figures[n]!.value ?? 0) < 0,
  }));
  const weights: Weight[] = job.voids.flatMap((space, n) => {
    const mass = figures[n]!.value ?? 0;
    return mass > 0 ? [trialWeight(space, mass, job.steel.density)] : [];
  });
  const wanted = Object.fromEntries(
    WANTED.map((name) => [name, readFigure(typed(name) ?? '')]),
  ) as AfloatPage['wanted'];
  const upright = typed('upright') === 'none';
  const trim = typed('trimTo');
  const trimTo: TrimTo = trim === 'kept' || trim === 'level' ? trim : '';
  const said = saidOf(typed('roll'));
  const asked = job.vessel ? askedOf(job, job.vessel, wanted, upright, trimTo) : null;
  const already = addedContents(job);
  const aims = asked && job.vessel ? aimsFor(job.vessel, asked, already) : null;
  const possible = aims !== null && aims.impossible.length === 0;
  return {
    amounts,
    total: weights.reduce((sum, weight) => sum + weight.mass, 0),
    afloat: showEffect(job, [...weights, ...already], questionsOf(job)),
    rolls: rollByVoid(job, 50)?.map((roll) => ({ ...roll, helps: helpsWords(said, roll.way) })) ?? null,
    said,
    advice: ADVICE[said],
    wanted,
    upright,
    trimTo,
    aims,
    effect: asked && effectOfAsked(asked),
    targets: possible ? targetsFor(job, aims, engine) : null,
  };
}

function saidOf(text: string | undefined): RollSaid {
  return text === 'slow' || text === 'quick' || text === 'well' ? text : '';
}

const ADVICE: Record<RollSaid, string> = {
  '': 'Say how she rolls before anything is bought: low ballast cures the one complaint and worsens the other.',
  slow: 'Too slow and far: she has too little stiffness. Low ballast gives her more, as far as her freeboard and her structure carry it.',
  quick:
    'Too quick and jerky: she has too much stiffness already, and low ballast makes it worse. Weight higher, or out to the sides, makes the roll slower; so does leaving it out. Time her roll first, and ask a naval architect before weight is raised.',
  well: 'Then keep it so: see below which voids change her roll least, and time it before and after.',
};

function helpsWords(said: RollSaid, way: RollOfVoid['way']): string {
  if (said === '' || way === 'no change') return '';
  if (said === 'well') return 'changes it';
  return (way === 'quicker') === (said === 'slow') ? 'helps' : 'makes it worse';
}

function effectOfAsked({ ballast: _, ...effect }: Wanted): WantedEffect | null {
  return Object.keys(effect).length === 0 ? null : effect;
}

/** What was asked for; null where nothing was. Marks and a level trim count from the draughts stated. */
function askedOf(
  job: Job,
  { draughtForward, draughtAft }: Vessel,
  wanted: AfloatPage['wanted'],
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
  const any = WANTED.some((name) => wanted[name].value !== null) || upright || trimTo !== '';
  return any ? asked : null;
}

function tenth(cm: number): number {
  return Math.round(cm * 10) / 10;
}

function optional<Name extends keyof Wanted>(name: Name, value: Wanted[Name] | undefined): Partial<Wanted> {
  return value === undefined ? {} : { [name]: value };
}
