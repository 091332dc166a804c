/** Aims worked out under “Afloat” put among those that a job has: what they do not concern stays, and what they replace is told. */
import type { AimsByPlace } from '../../src/balance/aims.ts';
import type { Job, WantedEffect } from '../../src/job/job.ts';
import { AIM_FIELDS } from '../form/jobFields.ts';
import { showField } from '../form/kinds.ts';
import { parsePath, valueAt } from '../form/path.ts';

type Range = [number, number];
type PutAims = Pick<Job['aims'], 'ballast' | 'centre' | 'effect'>;

export interface AimsPut {
  /** What is to stand in the job. */
  aims: PutAims;
  /** Each aim stated before that becomes another, with both figures, in words. */
  replaced: string[];
  /** Each range stated before that stays, since it is within the one worked out. */
  kept: string[];
}

const AXES = ['x', 'y', 'z'] as const;
/** Parts of an effect that say the same of her in two ways: one of them asked for takes the place of both. */
const ONE_OR_OTHER: readonly (readonly (keyof WantedEffect)[])[] = [
  ['down', 'trim'],
  ['gm', 'period'],
];

/** `effect` is what was wanted, from which `worked` follows; null where only an amount was. */
export function putAims(stated: PutAims, worked: AimsByPlace, effect: WantedEffect | null): AimsPut {
  const found = rounded(worked);
  const isKept = (axis: (typeof AXES)[number]) => isWithin(stated.centre?.[axis], found.centre[axis]);
  const ranges = AXES.flatMap((axis) => {
    const range = isKept(axis) ? stated.centre?.[axis] : (found.centre[axis] ?? stated.centre?.[axis]);
    return range ? [[axis, range] as const] : [];
  });
  const ballast = found.ballast ?? stated.ballast;
  const wanted = joinEffects(stated.effect, effect);
  const aims: PutAims = {
    ...(ballast === undefined ? {} : { ballast }),
    ...(ranges.length === 0 ? {} : { centre: Object.fromEntries(ranges) }),
    ...(wanted === undefined ? {} : { effect: wanted }),
  };
  const kept = AIM_FIELDS.filter(({ path }) => AXES.some((axis) => path === `aims.centre.${axis}` && isKept(axis)));
  return {
    aims,
    replaced: replacedOf(stated, aims),
    kept: kept.map((field) => `${field.label}: ${shown(field, aims)}`),
  };
}

function joinEffects(stated: WantedEffect | undefined, effect: WantedEffect | null): WantedEffect | undefined {
  if (!stated || !effect) return effect ?? stated;
  const gone = ONE_OR_OTHER.filter((names) => names.some((name) => effect[name] !== undefined)).flat();
  const left = Object.entries(stated).filter(([name]) => !gone.includes(name as keyof WantedEffect));
  return { ...Object.fromEntries(left), ...effect };
}

function replacedOf(stated: PutAims, aims: PutAims): string[] {
  return AIM_FIELDS.flatMap((field) => {
    const [before, after] = [shown(field, stated), shown(field, { ...stated, ...aims })];
    if (before === '' || before === after) return [];
    return [`${field.label}: ${after === '' ? `nothing, where ${before} stands` : `${after} in place of ${before}`}`];
  });
}

/** An aim as its field shows it, with its unit; '' for none. */
function shown({ path, kind, unit, options }: (typeof AIM_FIELDS)[number], aims: PutAims): string {
  const text = showField(kind, valueAt({ aims }, parsePath(path) ?? []));
  if (text === '') return '';
  const word = options?.find(([value]) => value === text)?.[1] ?? text;
  return unit === undefined ? word : `${word} ${unit}`;
}

function isWithin(one: Range | undefined, other: Range | undefined): boolean {
  return one !== undefined && other !== undefined && one[0] >= other[0] && one[1] <= other[1];
}

/** Aims as a person would write them: whole kilograms, places to the millimetre, ranges rounded outward. */
function rounded({ ballast, centre }: AimsByPlace): Pick<AimsByPlace, 'ballast' | 'centre'> {
  const ranges = Object.entries(centre).map(([axis, [from, to]]) => [
    axis,
    [Math.floor(from * 1000) / 1000, Math.ceil(to * 1000) / 1000],
  ]);
  return {
    ...(ballast === undefined ? {} : { ballast: Math.round(ballast) }),
    centre: Object.fromEntries(ranges),
  };
}
