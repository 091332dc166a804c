/** What a plan does to the vessel, and what holds it down, as its page tells it. */
import { effectOf } from '../../src/balance/float.ts';
import { marginsOf } from '../../src/balance/limits.ts';
import { type Weight, weightsByVoid } from '../../src/balance/moments.ts';
import { questionsOf } from '../../src/balance/questions.ts';
import { sentenceOf } from '../../src/balance/telling.ts';
import { afloatScene } from '../../src/drawing/afloat.ts';
import { svgOf } from '../../src/drawing/svg.ts';
import { type HeldVoid, holdDownOf } from '../../src/hold/holdDown.ts';
import type { Job } from '../../src/job/job.ts';
import type { Plan } from '../../src/plan/plan.ts';

export interface AfloatView {
  /** What she does, in a sentence; null where nothing is stated of her. */
  sentence: string | null;
  picture: string | null;
  limits: { text: string; holds: boolean }[];
  unanswered: string[];
  assumed: string[];
  /** What has to be asked before ballast is put in at all. */
  questions: string[];
}

export function showAfloat(job: Job, plan: Plan): AfloatView {
  return showEffect(job, [...weightsByVoid(job, plan).values()].flat(), questionsOf(job, plan));
}

/** The same of any weights, planned or only thought of. */
export function showEffect(job: Job, weights: readonly Weight[], questions: string[]): AfloatView {
  if (!job.vessel) return { sentence: null, picture: null, limits: [], unanswered: [], assumed: [], questions };
  const effect = effectOf(job.vessel, weights);
  const { margins, unanswered } = marginsOf(job.vessel, effect);
  const { marks } = effect;
  const picture =
    marks.kind === 'answer'
      ? svgOf(afloatScene({ forward: marks.forward.likely, aft: marks.aft.likely }, { width: 140, height: 46 }), {
          id: 'afloat',
        })
      : null;
  return { sentence: sentenceOf(effect), picture, limits: margins, unanswered, assumed: effect.assumed, questions };
}

/** The hold-down of every void that carries something, by void; `held` says that all of them are. */
export function showHeld(job: Job, plan: Plan): { held: boolean; voids: Map<string, HeldVoid> } {
  const voids = holdDownOf(job, plan).filter((space) => space.mass > 0);
  return { held: voids.every((space) => space.held), voids: new Map(voids.map((space) => [space.void, space])) };
}
