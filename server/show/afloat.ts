/** What a plan does to the vessel, and what holds it down, as its page tells it. */
import { effectOf } from '../../src/balance/float.ts';
import { marginsOf } from '../../src/balance/limits.ts';
import { missLines } from '../../src/balance/miss.ts';
import { centreOf, trialWeight, type Weight, weightsAboard } from '../../src/balance/moments.ts';
import { questionsOf } from '../../src/balance/questions.ts';
import { sentenceOf } from '../../src/balance/telling.ts';
import { tooMuch } from '../../src/balance/tooMuch.ts';
import { unplacedLines } from '../../src/balance/unplaced.ts';
import { againstUpright, STEERS_NOTHING } from '../../src/balance/upright.ts';
import { afloatScene } from '../../src/drawing/afloat.ts';
import { AFLOAT_WORDS } from '../../src/drawing/afloatWords.ts';
import { listedScene } from '../../src/drawing/listed.ts';
import { svgOf } from '../../src/drawing/svg.ts';
import { type HeldVoid, holdDownOf } from '../../src/hold/holdDown.ts';
import type { Job } from '../../src/job/job.ts';
import { addedContents } from '../../src/plan/contents.ts';
import type { WeighedMasses } from '../../src/plan/massNow.ts';
import type { Plan } from '../../src/plan/plan.ts';
import type { Words } from '../words.ts';

export interface AfloatView {
  /** What she does, in a sentence; null where nothing is stated of her. */
  sentence: string | null;
  /** Drawn with its figures in the units of the job. */
  picture: ((tell: Words['tell']) => string) | null;
  /** What she lists before and after; null where no list is stated of her, or it can not be told. */
  listPicture: string | null;
  /** What the lines of the two stand for. */
  legends: { floats: string; lists: string };
  limits: { text: string; holds: boolean }[];
  unanswered: string[];
  assumed: string[];
  /** What has to be asked before ballast is put in at all. */
  questions: string[];
  /** What is reckoned from places that nobody stated. */
  unplaced: string[];
  /** How near the plan comes to the effect wanted of it; none where none was stated, or there is no plan. */
  missed: string[];
}

export function showAfloat(job: Job, plan: Plan): AfloatView {
  return {
    ...showEffect(job, weightsAboard(job, plan), questionsOf(job, plan)),
    missed: missLines(job, plan),
    unplaced: unplacedLines(job, plan),
  };
}

/** The same of any weights, planned or only thought of. */
export function showEffect(job: Job, weights: readonly Weight[], questions: string[]): AfloatView {
  const legends = { floats: asSentence(AFLOAT_WORDS.notToScale), lists: asSentence(AFLOAT_WORDS.listNotToScale) };
  const none = {
    legends,
    picture: null,
    listPicture: null,
    limits: [],
    unanswered: [],
    assumed: [],
    missed: [],
    unplaced: unplacedLines(job),
  };
  if (!job.vessel) return { ...none, sentence: null, questions };
  const effect = effectOf(job.vessel, weights);
  const { margins, unanswered } = marginsOf(job.vessel, effect);
  const { marks } = effect;
  const { draughtForward, draughtAft } = job.vessel;
  const picture =
    marks.kind === 'answer'
      ? (tell: Words['tell']) =>
          svgOf(
            afloatScene(
              { forward: marks.forward.likely, aft: marks.aft.likely, draughtForward, draughtAft },
              { width: 140, height: 42, toldBelow: true, tell },
            ),
            { id: 'afloat' },
          )
      : null;
  const { stability } = effect;
  const listPicture =
    stability.kind === 'answer' && stability.listBefore !== null
      ? svgOf(
          listedScene(
            { before: stability.listBefore, after: stability.list.likely },
            { width: 140, height: 36, toldBelow: true },
          ),
          {
            id: 'listed',
          },
        )
      : null;
  return {
    ...none,
    listPicture,
    sentence: sentenceOf(effect),
    picture,
    limits: margins,
    unanswered,
    assumed: effect.assumed,
    questions,
  };
}

function asSentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/**
 * What is to be said before a plan is asked for: limits that the ballast aimed at would pass, and what is asked back. The
 * ballast is the aim's, else the targets' sum; along it is taken at the middle of the centre aimed at, else at the centre
 * of flotation; across and up where the targets, or else the voids, are.
 */
export function showBefore(job: Job): string[] {
  const { vessel, aims, steel } = job;
  if (!vessel) return [];
  const weights = job.voids.map((space) => trialWeight(space, space.target ?? 0, steel.density));
  const mass = aims.ballast ?? weights.reduce((sum, weight) => sum + weight.mass, 0);
  const spread = mass > 0 ? (centreOf(weights) ?? centreOf(weights.map((weight) => ({ ...weight, mass: 1 })))) : null;
  const asked = [...unplacedLines(job), ...questionsOf(job)];
  if (!spread) return aims.effect?.upright && !aims.centre?.y ? [STEERS_NOTHING, ...asked] : asked;
  const middle = (range: [number, number] | undefined, usual: number) => (range ? (range[0] + range[1]) / 2 : usual);
  const { x, y, z } = aims.centre ?? {};
  const whole = { mass, x: middle(x, vessel.lcf ?? spread.x), y: middle(y, spread.y), z: middle(z, spread.z) };
  const effect = effectOf(vessel, [whole, ...addedContents(job)]);
  const { margins } = marginsOf(vessel, effect);
  const passed = margins.filter((margin) => !margin.holds).map((margin) => margin.text);
  const against = againstUpright(job, [whole], effect);
  const much = tooMuch(vessel, mass);
  return [
    ...(much ? [much.text] : []),
    ...passed.map((text) => `With ${Math.round(mass)} kg of ballast: ${text}`),
    ...(against ? [against] : []),
    ...asked,
  ];
}

/** The hold-down of every void that carries something, by void; `held` says that all of them are. */
export function showHeld(
  job: Job,
  plan: Plan,
  weighed?: WeighedMasses,
): { held: boolean; voids: Map<string, HeldVoid> } {
  const voids = holdDownOf(job, plan, weighed).filter((space) => space.mass > 0);
  return { held: voids.every((space) => space.held), voids: new Map(voids.map((space) => [space.void, space])) };
}
