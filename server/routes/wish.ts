/** What a job's page wishes of its next plan: kept with every save, so that it stands chosen when the page comes back. */
import type { Draft, Posted } from '../form/apply.ts';
import { valueAt } from '../form/path.ts';
import type { Wish } from '../store/plannings.ts';
import type { Store } from '../store/store.ts';

/** Before anything was chosen. */
const FIRST_WISH: Wish = { effort: 'steady', seed: 1, stops: null };

/** What was last chosen for a job; before that is kept, what its last plan was asked for with. */
export function keptWish({ settings, plannings }: Pick<Store, 'settings' | 'plannings'>, job: number): Wish {
  const kept = settings.get(nameOf(job));
  return kept === null ? (plannings.latest(job)?.wish ?? FIRST_WISH) : (JSON.parse(kept) as Wish);
}

export function keepWish({ settings }: Pick<Store, 'settings'>, job: number, wish: Wish): void {
  settings.set(nameOf(job), JSON.stringify(wish));
}

/**
 * What a form wishes, typed over `base` and read as `draft`; `kept` where it says nothing. A number of stops that was only
 * left standing gives way to “Stops at most” of the aims where that was typed anew.
 */
export function wishOf(form: Posted, kept: Wish, base: Draft, draft: Draft): Wish {
  const effort = form.get('wish.effort');
  return {
    effort: effort === 'quick' || effort === 'steady' || effort === 'thorough' ? effort : kept.effort,
    seed: 1,
    stops: isPassed(form, kept, base, draft) ? null : stopsIn(form, kept),
  };
}

/** What the page says beside its choice of stops where the aims have a number of their own; null where they have none. */
export function tellStopsAim({ stops }: Pick<Wish, 'stops'>, draft: Draft): string | null {
  const aim = stopsAim(draft);
  if (typeof aim !== 'number') return null;
  if (typeof stops !== 'number' || stops === aim) return `“Stops at most” under Aims says ${aim}: no more in any case.`;
  return `“Stops at most” under Aims says ${aim}, and ${stops} is chosen here: the fewer counts.`;
}

/** The same while a form is being typed; also where what was chosen last gives way. */
export function tellStopsTyped(form: Posted, kept: Wish, base: Draft, draft: Draft): string | null {
  if (isPassed(form, kept, base, draft))
    return `“Stops at most” under Aims was typed anew: it counts, and no longer ${kept.stops} as chosen last.`;
  return tellStopsAim({ stops: stopsIn(form, kept) }, draft);
}

function isPassed(form: Posted, kept: Wish, base: Draft, draft: Draft): boolean {
  const stops = stopsIn(form, kept);
  return typeof stops === 'number' && stops === kept.stops && stopsAim(base) !== stopsAim(draft);
}

function stopsIn(form: Posted, kept: Wish): Wish['stops'] {
  const typed = form.get('wish.stops');
  return typed === undefined ? kept.stops : readStops(typed);
}

function readStops(typed: string): Wish['stops'] {
  if (typed === 'free') return 'free';
  return /^[1-9]\d{0,3}$/.test(typed) ? Number(typed) : null;
}

function stopsAim(draft: Draft): unknown {
  return valueAt(draft, ['aims', 'stopsAtMost']);
}

function nameOf(job: number): string {
  return `wish of job ${job}`;
}
