/** What the page “Afloat, before a plan” shows: trial amounts in every void, and an effect wanted turned into aims. */
import { type AimsByPlace, aimsFor } from '../../src/balance/aims.ts';
import { rmsAcross, trialRoom, trialWeight, type Weight } from '../../src/balance/moments.ts';
import { questionsOf, questionsOfHer } from '../../src/balance/questions.ts';
import { targetsFor } from '../../src/balance/targets.ts';
import { type RollOfVoid, rollByVoid } from '../../src/balance/telling.ts';
import { tooMuch } from '../../src/balance/tooMuch.ts';
import type { Job } from '../../src/job/job.ts';
import type { LinearEngine } from '../../src/linear/model.ts';
import { addedContents } from '../../src/plan/contents.ts';
import { showField } from '../form/kinds.ts';
import { type AfloatView, showEffect } from './afloat.ts';
import { type Asked, readFigure, readListNow } from './askedFigures.ts';
import { type AimsPut, putAims } from './putAims.ts';
import { askedOf, effectOfAsked, readWanted, refusedOf, type TrimTo, type WantedName } from './wantedEffect.ts';

/** How she rolls, as the person says. */
export type RollSaid = '' | 'slow' | 'quick' | 'well';

export interface AfloatPage {
  amounts: { name: string; label: string; asked: Asked }[];
  /** Mass of the trial amounts together, kg. */
  total: number;
  /** More than she can be meant to take, in a sentence; '' for nothing to say. */
  tooMuch: string;
  afloat: AfloatView;
  rolls: (RollOfVoid & { helps: string })[] | null;
  said: RollSaid;
  advice: string;
  /** What she lists now: as typed, else as the job states it. */
  listNow: Asked;
  /** It is not what the job states. */
  listChanged: boolean;
  wanted: Record<WantedName, Asked>;
  upright: boolean;
  /** Her trim as it is, or both draughts alike, in place of a figure. */
  trimTo: TrimTo;
  /** Why nothing is made of what is typed. */
  refused: string[];
  /** Null where no effect was asked for, or it is refused. */
  aims: AimsByPlace | null;
  /** The aims can be had, so that they may go into the job. */
  possible: boolean;
  /** The same put among those of the job, and what of theirs it replaces; null where there are none. */
  put: AimsPut | null;
  /** An amount for each void that puts the centre there; null where none does, or no ballast is asked for. */
  targets: ReadonlyMap<string, number> | null;
  /** Voids with another target stated, and that target, kg. */
  otherTargets: { void: string; target: number }[];
}

/**
 * `typed` gives what was typed by name: `kg.0`, `kg.1` … for the voids, and the names of {@link Wanted}. `engine` shares the
 * ballast out over the voids.
 */
export function showAfloatPage(
  stated: Job,
  typed: (name: string) => string | undefined,
  engine: LinearEngine,
): AfloatPage {
  const listNow = readListNow(typed('listNow') ?? showField('list', stated.vessel?.list));
  const job = listed(stated, listNow);
  const figures = job.voids.map((space, n) =>
    readFigure(typed(`kg.${n}`) ?? String(space.target ?? ''), 'kg', { least: 0 }),
  );
  const amounts = job.voids.map((space, n) => ({
    name: `kg.${n}`,
    label: space.name === '' ? space.void : `${space.void}, ${space.name}`,
    asked: figures[n]!,
  }));
  const weights: Weight[] = job.voids.flatMap((space, n) => {
    const mass = figures[n]!.value ?? 0;
    return mass > 0 ? [trialWeight(space, mass, job.steel.density)] : [];
  });
  const wanted = readWanted(typed);
  const upright = typed('upright') === 'none';
  const trim = typed('trimTo');
  const trimTo: TrimTo = trim === 'kept' || trim === 'level' ? trim : '';
  const said = saidOf(typed('roll'));
  const asked = job.vessel ? askedOf(job, job.vessel, wanted, upright, trimTo) : null;
  const already = addedContents(job);
  const refused = job.vessel ? refusedOf(job.vessel, wanted, asked) : [];
  if (listNow.faulty) refused.push('What she lists now can not be read.');
  if (refused.length > 0) refused.push('Mend it, and it is said here what that asks for.');
  const aims = asked && job.vessel && refused.length === 0 ? aimsFor(job.vessel, asked, already, acrossOf(job)) : null;
  const total = weights.reduce((sum, weight) => sum + weight.mass, 0);
  const possible = aims !== null && aims.impossible.length === 0;
  const targets = possible ? targetsFor(job, aims, engine) : null;
  return {
    amounts,
    total,
    tooMuch: (job.vessel && tooMuch(job.vessel, total)?.text) ?? '',
    afloat: showEffect(job, [...weights, ...already], total > 0 ? questionsOf(job) : questionsOfHer(job)),
    rolls: rollByVoid(job, 50)?.map((roll) => ({ ...roll, helps: helpsWords(said, roll.way) })) ?? null,
    said,
    advice: ADVICE[said],
    listNow,
    listChanged: !listNow.faulty && listNow.value !== (stated.vessel?.list ?? null),
    wanted,
    upright,
    trimTo,
    refused,
    aims,
    possible,
    put: aims && asked && putAims(stated.aims, aims, effectOfAsked(asked)),
    targets,
    otherTargets: stated.voids.flatMap(({ void: name, target }) =>
      !targets || target === undefined || target === (targets.get(name) ?? 0) ? [] : [{ void: name, target }],
    ),
  };
}

/** The r.m.s. distance of all voids from the centreline, each as full as it may be, m. */
function acrossOf(job: Job): number {
  return rmsAcross(
    job.voids.map((place) => trialWeight(place, trialRoom(place, job.steel.density), job.steel.density)),
  );
}

/** The job with the list that is typed; what can not be read changes nothing. */
function listed(job: Job, { value, faulty }: Asked): Job {
  if (!job.vessel || faulty) return job;
  const { list: _, ...vessel } = job.vessel;
  return { ...job, vessel: value === null ? vessel : { ...vessel, list: value } };
}

function saidOf(text: string | undefined): RollSaid {
  return text === 'slow' || text === 'quick' || text === 'well' ? text : '';
}

const ADVICE: Record<RollSaid, string> = {
  '': 'Say how she rolls before anything is bought: low ballast helps where it is too slow, and makes it worse where it is too quick.',
  slow: 'Too slow and far: she has too little stiffness. Low ballast gives her more, as far as her freeboard and her structure carry it.',
  quick:
    'Too quick and jerky: she has too much stiffness already, and low ballast makes it worse. Weight higher, or out to the sides, makes the roll slower; without ballast it stays as it is. Time her roll first, and ask a naval architect before weight is raised.',
  well: 'Then keep it so: see below which voids change it least, and time her roll before and after.',
};

function helpsWords(said: RollSaid, way: RollOfVoid['way']): string {
  if (said === '' || way === 'no change') return '';
  if (said === 'well') return 'changes it';
  return (way === 'quicker') === (said === 'slow') ? 'helps' : 'makes it worse';
}
