/** What the page “What one person may lift” shows: the lift into one void as typed, drawn, and what follows from it. */
import { personScene } from '../../src/drawing/person.ts';
import { svgOf } from '../../src/drawing/svg.ts';
import { JOB_FORMAT, type Job, jobSchema } from '../../src/job/job.ts';
import type { Lift, LiftGuide, Multipliers } from '../../src/lift/equation.ts';
import { type Suggestion, suggestLimit } from '../../src/lift/limit.ts';
import { LAST_LEG, liftOf } from '../../src/lift/route.ts';
import { REFERENCE_MASSES, zoneGuide, zonePassed, zoneRows } from '../../src/lift/zones.ts';
import type { Units } from '../../src/units.ts';
import type { Draft } from '../form/apply.ts';
import type { DraftRead } from '../form/draftRead.ts';
import { isRecord, listAt } from '../form/path.ts';
import { type FieldView, showVoidGroup } from '../form/show.ts';
import { tellIn } from '../otherUnits.ts';
import { linkVoids, nameOf, type VoidLink } from './voidList.ts';

export interface LiftTerm {
  name: string;
  start: string;
  end: string;
}

export interface LiftPage {
  /** Of the void in the job, from 0. */
  index: number;
  title: string;
  voids: VoidLink[];
  fields: FieldView[];
  picture: string | null;
  suggestion: Suggestion | null;
  legs: { leg: string; kg: number | null; applies: boolean; tested: number | undefined; why: string[] }[];
  terms: LiftTerm[];
  /** kg at the start and the end by the equation, and by the zones; null where nothing is stated, or nothing is told. */
  ends: { start: number; end: number } | null;
  zone: number | null;
  zones: {
    zone: string;
    close: { women: number; men: number };
    armsLength: { women: number; men: number };
    passed: boolean;
  }[];
  confirmed: boolean;
  person: 'women' | 'men';
  masses: typeof REFERENCE_MASSES;
  referenceMass: number | null;
  limit: number | null;
  follows: boolean;
}

const PICTURE = { width: 120, height: 92 };
const SMALL = { width: 100, height: 62 };

/** Null where the job has no such void. `draft` is the job with what was typed put in. */
export function showLiftPage(draft: Draft, index: number, read: DraftRead, units: Units): LiftPage | null {
  const typed = listAt(draft, ['voids'])[index];
  if (!isRecord(typed)) return null;
  const fields = showVoidGroup(draft, index, 'handling.reach', read, units)?.fields ?? [];
  const job = jobOfVoid(draft, index);
  const space = job?.voids[0];
  const lift = job && space?.handling ? liftOf(job, space.handling) : null;
  const suggestion = job && space ? suggestLimit(job, space) : null;
  const last = suggestion?.route.legs.find(({ leg }) => leg === LAST_LEG)?.guide ?? null;
  const zones = job?.lift?.zones;
  return {
    index,
    title: nameOf(typed),
    voids: linkVoids(draft, index),
    fields,
    picture: space && lift ? svgOf(personScene(space, lift, { ...PICTURE, units }), { id: 'person' }) : null,
    suggestion,
    legs: (suggestion?.route.legs ?? []).map(({ leg, guide, tested }) => ({
      leg,
      kg: guide?.guide ?? null,
      applies: guide?.applies ?? false,
      tested,
      why: guide?.cautions.map((caution) => tellIn(units, caution.text)) ?? [],
    })),
    terms: last && lift ? termsOf(last) : [],
    ends: last && { start: last.begin.rwl, end: last.finish.rwl },
    zone: lift && zoneGuide(zones, lift),
    zones: zonesOf(zones, lift),
    confirmed: zones?.confirmed ?? false,
    person: zones?.person ?? 'women',
    masses: REFERENCE_MASSES,
    referenceMass: job?.lift?.referenceMass ?? null,
    limit: space ? (space.limit ?? job?.bundle.limit ?? null) : null,
    follows: space?.limitByGuide ?? false,
  };
}

/** The small drawing of the lift into a void, for the job page; null where reach, start or end is not stated. */
export function drawLifter(draft: unknown, index: number, units: Units): string | null {
  const job = jobOfVoid(draft, index);
  const space = job?.voids[0];
  const lift = job && space?.handling ? liftOf(job, space.handling) : null;
  return space && lift ? svgOf(personScene(space, lift, { ...SMALL, units }), { id: `lifter-${index}` }) : null;
}

/** Nothing of the job but this void and what is said of lifting, with the pile that a job has to have. */
function jobOfVoid(draft: unknown, index: number): Job | null {
  if (!isRecord(draft)) return null;
  const pile = [{ lot: 'A', section: { shape: 'round', diameter: 20 }, length: 1000 }];
  const rest = { format: JOB_FORMAT, name: 'a void', pile, voids: [listAt(draft, ['voids'])[index]] };
  const whole = { ...rest, lift: draft.lift, bundle: draft.bundle ?? {} };
  return jobSchema.safeParse(whole).data ?? jobSchema.safeParse(rest).data ?? null;
}

const TERMS: Record<keyof Multipliers, string> = {
  reach: 'reach',
  height: 'height of the hands',
  travel: 'way up or down',
  twist: 'twist',
  pace: 'pace and spell',
  grip: 'grip',
};

function termsOf({ begin, finish }: LiftGuide): LiftTerm[] {
  return (Object.keys(TERMS) as (keyof Multipliers)[]).map((name) => ({
    name: TERMS[name],
    start: begin.multipliers[name].toFixed(2),
    end: finish.multipliers[name].toFixed(2),
  }));
}

function zonesOf(zones: Parameters<typeof zoneRows>[0], lift: Lift | null): LiftPage['zones'] {
  const rows = zoneRows(zones);
  // From head to floor, as one stands.
  return rows
    .map(({ zone, close, armsLength }, n) => ({
      zone,
      close,
      armsLength,
      passed: lift !== null && zonePassed(rows, n, lift.start, lift.end),
    }))
    .reverse();
}
