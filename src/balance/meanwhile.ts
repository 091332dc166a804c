/** How she floats while some bundles of a plan are out of her: what a card for breaking out warns of. */
import type { Job } from '../job/job.ts';
import type { Plan, PlanBundle } from '../plan/plan.ts';
import { amount } from './amount.ts';
import { effectOf, marksOf, rollingOf } from './float.ts';
import { hydrostaticsOf } from './hydrostatics.ts';
import { sumMoments, weightsAboard } from './moments.ts';
import { mapRange, type Range } from './range.ts';
import { listWords } from './telling.ts';

/**
 * In a sentence, against how she floats with the whole plan in her; empty where nothing of it can be told. The marks
 * follow the moments alone; list and GM are those with what is left in her, of which GM is less the lower lies what is out.
 */
export function meanwhile(job: Job, plan: Plan, out: readonly PlanBundle[]): string {
  const { vessel } = job;
  if (!vessel || out.length === 0) return '';
  const gone = new Set(out.map(({ bundle }) => bundle));
  const aboard = weightsAboard(job, plan);
  const staying = weightsAboard(job, { ...plan, bundles: plan.bundles.filter(({ bundle }) => !gone.has(bundle)) });
  const [all, left] = [sumMoments(aboard), sumMoments(staying)];
  const hydro = hydrostaticsOf(vessel);
  const marks = marksOf(hydro, {
    mass: left.mass - all.mass,
    alongMoment: left.alongMoment - all.alongMoment,
    acrossMoment: left.acrossMoment - all.acrossMoment,
    heightMoment: left.heightMoment - all.heightMoment,
  });
  const [before, after] = [effectOf(vessel, aboard).stability, effectOf(vessel, staying).stability];
  const parts: string[] = [];
  if (marks.kind === 'answer') parts.push(`${moved(marks.forward)} forward, ${moved(marks.aft)} aft`);
  if (after.kind === 'answer') {
    parts.push(listWords(after.list));
    const now = amount(after.gm, 2, 'm');
    const was = before.kind === 'answer' ? amount(before.gm, 2, 'm') : null;
    parts.push(`GM ${now}${was === null ? '' : was === now ? ' as before' : ` instead of ${was}`}`);
  }
  // Figures that were never stated are asked for elsewhere; a list or a GM beyond the formulas is a warning.
  const warns = after.kind === 'none' && hydro.beam !== null && rollingOf(vessel) !== null;
  const told = parts.length > 0 ? `While they are out: ${parts.join(', ')}.` : '';
  return [told, ...(warns ? [`${after.why} ${after.remedy}`] : [])].filter((words) => words !== '').join(' ');
}

function moved(cm: Range): string {
  if (cm.likely < 0)
    return `up ${amount(
      mapRange(cm, (value) => -value),
      1,
      'cm',
    )}`;
  return `down ${amount(cm, 1, 'cm')}`;
}
