/**
 * Whether a plan is told as secured. The planner knows nothing of hold-downs and says NOT SECURED of every plan; here that
 * caution is made exact from what was entered, before the plan is shown, kept or written.
 */
import type { Job } from '../job/job.ts';
import { aboutVoids, tell } from '../plan/cautionList.ts';
import { contentsOf } from '../plan/contents.ts';
import type { WeighedMasses } from '../plan/massNow.ts';
import { openEndCautions } from '../plan/openEnds.ts';
import { overRunCautions } from '../plan/overRuns.ts';
import type { Caution, Plan } from '../plan/plan.ts';
import { type HeldVoid, holdDownOf } from './holdDown.ts';

/** The codes of what is made exact here. */
const OWN: ReadonlySet<string> = new Set([
  'not-secured',
  'held-on-paper',
  'hold-if-heavier',
  'slides-over',
  'slides-along',
]);

/**
 * The plan with its caution about securing in place of the planner's: `not-secured` names the voids in which some assumed
 * load is not carried, `held-on-paper` stands where all are carried everywhere, and
 * `hold-if-heavier` of each void held that bars heavier than reckoned would take past what holds it, and `slides-over` of each
 * with bundles that nothing keeps from sliding over the run beside them, `slides-along` of each with an end of a run that
 * no chock keeps. `weighed` are bundles off the scale, kg. A plan
 * without bundles has none.
 */
export function withSecuring(job: Job, plan: Plan, weighed?: WeighedMasses): Plan {
  const rest = plan.cautions.filter(({ code }) => !OWN.has(code));
  const filled = holdDownOf(job, plan, weighed).filter((space) => space.mass > 0);
  const caution = securingOf(job, filled);
  const ifHeavier = filled.flatMap((space) =>
    space.held && space.ifHeavier !== null ? [tell('hold-if-heavier', `void ${space.void}`, space.ifHeavier)] : [],
  );
  return {
    ...plan,
    cautions: [
      ...(caution ? [caution] : []),
      ...ifHeavier,
      ...overRunCautions(plan.bundles),
      ...openEndCautions(job, plan),
      ...rest,
    ],
  };
}

function securingOf(job: Job, filled: readonly HeldVoid[]): Caution | null {
  if (filled.length === 0) return null;
  const open = filled.filter((space) => !space.held);
  const held = filled.filter((space) => space.held).map((space) => space.void);
  const notCounted = contentsNotCounted(job);
  const carried = `${held.length > 0 ? ` Carried on paper in ${held.join(', ')}.` : ''}${notCounted === '' ? '' : ` ${notCounted}`}`;
  if (open.length === 0) return tell('held-on-paper', 'the whole plan', `Every assumed load is carried.${carried}`);
  const [nothing, short] = [
    open.filter((space) => space.cases.length === 0),
    open.filter((space) => space.cases.length > 0),
  ];
  const parts = [
    ...(nothing.length > 0 ? [`No hold-down is worked out for ${names(nothing)}.`] : []),
    ...(short.length > 0 ? [`What is entered does not carry every assumed load in ${names(short)}.`] : []),
    ...short.flatMap((space) => space.notCounted.map((words) => `${space.void}: ${words}`)),
  ];
  return tell('not-secured', aboutVoids(open.map((space) => space.void)), `${parts.join(' ')}${carried}`);
}

/** What lies in the voids already is in no load case: whoever reads that all is carried must be told. Empty for nothing. */
export function contentsNotCounted(job: Job): string {
  const voids = [...new Set(contentsOf(job).map((content) => content.void))];
  return voids.length > 0
    ? `What lies in ${voids.join(', ')} already is not counted here: it has to be held, too.`
    : '';
}

function names(voids: { void: string }[]): string {
  return voids.map((space) => space.void).join(', ');
}
