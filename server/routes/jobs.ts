/** All jobs: the list, a new one, the demonstration, one brought in, and what is done with a job as a whole. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Response, Router } from 'express';
import { JOB_FORMAT } from '../../src/job/job.ts';
import type { Context } from '../app.ts';
import type { Draft } from '../form/apply.ts';
import { packageFolder } from '../place.ts';
import { Problem } from '../problem.ts';
import { inHerBy } from '../show/inHer.ts';
import { wordsIn } from '../words.ts';
import { draftOf, formOf, jobIn, nameOf, numberIn, readBody, setUnits, unitsOf } from './request.ts';

export function jobsRoutes(context: Context): Router {
  const { store, planning, clock } = context;
  const router = Router();
  const now = (): string => clock().toISOString();
  const see = (response: Response, job: number): void => response.redirect(303, `/jobs/${job}`);

  router.get('/', (_request, response) => {
    const jobs = store.jobs.all().map((job) => {
      const plans = store.plans.ofJob(job.id);
      const words = wordsIn(unitsOf(store.settings, job.id));
      const inHer = inHerBy(store, job.id);
      return {
        ...job,
        words,
        inHer,
        latest: plans[0],
        plans: plans.length,
        underWay: planning.progress(job.id) !== null,
      };
    });
    response.render('jobs', {
      jobs: jobs.filter((job) => job.deletedAt === null && job.archivedAt === null),
      archived: jobs.filter((job) => job.deletedAt === null && job.archivedAt !== null),
      deleted: jobs.filter((job) => job.deletedAt !== null),
    });
  });

  router.post('/jobs', readBody, (request, response) => {
    const form = formOf(context, request);
    const name = nameOf({ name: form.get('name')?.trim() || 'New job' });
    see(response, addDraft(context, { format: JOB_FORMAT, name, pile: [], voids: [{ void: 'V1' }] }));
  });

  router.post('/jobs/demonstration', readBody, (request, response) => {
    formOf(context, request);
    see(response, addDraft(context, demonstration()));
  });

  router.post('/jobs/:job/copy', readBody, (request, response) => {
    formOf(context, request);
    const { id } = jobIn(context, request);
    const draft = draftOf(store.jobs.body(id));
    const copy = addDraft(context, { ...draft, name: `${nameOf(draft)} (copy)`.slice(0, 200) });
    setUnits(store.settings, copy, unitsOf(store.settings, id));
    // What stands by the plan before stands beside the copy, too.
    const rest = store.rests.ofJob(id);
    if (rest) store.rests.add(copy, rest.plan, rest.stands, rest.moves);
    see(response, copy);
  });

  router.post('/jobs/:job/archive', readBody, (request, response) => {
    formOf(context, request);
    store.jobs.setArchived(jobIn(context, request).id, now());
    response.redirect(303, '/');
  });

  router.post('/jobs/:job/unarchive', readBody, (request, response) => {
    formOf(context, request);
    store.jobs.setArchived(jobIn(context, request).id, null);
    response.redirect(303, '/');
  });

  router.post('/jobs/:job/delete', readBody, (request, response) => {
    const form = formOf(context, request);
    const { id } = jobIn(context, request);
    if (inHerBy(store, id).length > 0 && form.get('do') !== 'all the same') {
      response.redirect(303, `/jobs/${id}?goes=1#more`);
      return;
    }
    planning.stop(id);
    store.jobs.setDeleted(id, now());
    response.redirect(303, '/#deleted');
  });

  router.post('/jobs/:job/restore', readBody, (request, response) => {
    formOf(context, request);
    const job = store.jobs.find(numberIn(request, 'job', 'no-such-job'));
    if (!job) throw new Problem('no-such-job');
    store.jobs.setDeleted(job.id, null);
    see(response, job.id);
  });

  return router;
}

/** Keeps a new job; its number. */
export function addDraft({ store, clock }: Pick<Context, 'store' | 'clock'>, draft: Draft): number {
  return store.jobs.add(nameOf(draft), JSON.stringify(draft), clock().toISOString());
}

/** The job that shows what kentledge does: our own invented vessel. */
export function demonstration(): Draft {
  return draftOf(readFileSync(join(packageFolder(), 'fixtures', 'bogbean.json'), 'utf8'));
}
