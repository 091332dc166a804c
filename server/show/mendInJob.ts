/** What a page beside a job tells where the job has faults, which that page needs to have none: each with a link to its field. */
import type { Context } from '../app.ts';
import { readDraft } from '../form/draftRead.ts';
import { showForm, WHOLE } from '../form/show.ts';
import { type Wanted, wantedOf } from '../form/wanted.ts';
import { draftOf, unitsOf } from '../routes/request.ts';
import { pageOfRow } from './jobPage.ts';

/** Links lead to the page of the job that shows the field. */
export function mendInJob({ store }: Pick<Context, 'store'>, job: number): Wanted[] {
  const draft = draftOf(store.jobs.body(job));
  const form = showForm(draft, readDraft(draft), { ...WHOLE, blanks: 0, units: unitsOf(store.settings, job) });
  const queryOf = pageOfRow({ firstLot: 0, firstVoid: 0 });
  return wantedOf(form, (path) => `/jobs/${job}${queryOf(path)}`);
}
