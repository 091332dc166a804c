/** What the page “Afloat, before a plan” shows: trial amounts in every void, and an effect wanted turned into aims. */
import { type AimsByPlace, aimsFor, type Wanted } from '../../src/balance/aims.ts';
import { trialWeight, type Weight } from '../../src/balance/moments.ts';
import { questionsOf } from '../../src/balance/questions.ts';
import { type RollOfVoid, rollByVoid } from '../../src/balance/telling.ts';
import type { Job } from '../../src/job/job.ts';
import { type AfloatView, showEffect } from './afloat.ts';
import { type Asked, readFigure } from './askedFigures.ts';

export interface AfloatPage {
  amounts: { name: string; label: string; text: string; faulty: boolean }[];
  /** Mass of the trial amounts together, kg. */
  total: number;
  afloat: AfloatView;
  rolls: RollOfVoid[] | null;
  wanted: Record<WantedName, Asked>;
  upright: boolean;
  /** Null where no effect was asked for. */
  aims: AimsByPlace | null;
}

const WANTED = ['forward', 'aft', 'trim', 'ballast', 'gm', 'period'] as const;
export type WantedName = (typeof WANTED)[number];

/** `typed` gives what was typed by name: `kg.0`, `kg.1` … for the voids, and the names of {@link Wanted}. */
export function showAfloatPage(job: Job, typed: (name: string) => string | undefined): AfloatPage {
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
  return {
    amounts,
    total: weights.reduce((sum, weight) => sum + weight.mass, 0),
    afloat: showEffect(job, weights, questionsOf(job)),
    rolls: rollByVoid(job, 50),
    wanted,
    upright,
    aims: job.vessel ? aimsOf(job, wanted, upright) : null,
  };
}

function aimsOf(job: Job, wanted: AfloatPage['wanted'], upright: boolean): AimsByPlace | null {
  const value = (name: WantedName): number | undefined => wanted[name].value ?? undefined;
  const [forward, aft] = [value('forward'), value('aft')];
  const asked: Wanted = {
    ...(forward !== undefined && aft !== undefined ? { down: { forward, aft } } : {}),
    ...optional('trim', value('trim')),
    ...optional('ballast', value('ballast') ?? job.aims.ballast),
    ...(upright ? { upright } : {}),
    ...optional('gm', value('gm')),
    ...optional('period', value('period')),
  };
  const any = WANTED.some((name) => wanted[name].value !== null) || upright;
  return any && job.vessel ? aimsFor(job.vessel, asked) : null;
}

function optional<Name extends keyof Wanted>(name: Name, value: Wanted[Name] | undefined): Partial<Wanted> {
  return value === undefined ? {} : { [name]: value };
}
