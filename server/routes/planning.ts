/** A plan being worked out: its page, its events, and the button that ends it. */
import { type Response, Router } from 'express';
import { jobDigest } from '../../src/job/digest.ts';
import type { Context } from '../app.ts';
import type { Progress } from '../planning/planning.ts';
import { lastOf } from '../show/jobPage.ts';
import { type Words, wordsIn } from '../words.ts';
import { draftOf, formOf, jobIn, readBody, unitsOf } from './request.ts';

/** A comment is sent this often so that nothing on the way takes the silence for the end, ms. */
const HEARTBEAT = 15_000;

export function planningRoutes(context: Context): Router {
  const { store, planning } = context;
  const router = Router();

  router.get('/jobs/:job/planning', (request, response) => {
    const job = jobIn(context, request);
    const progress = planning.progress(job.id);
    const body = store.jobs.body(job.id);
    const last = lastOf(store.plannings.latest(job.id), body, jobDigest(draftOf(body)));
    if (!progress && last?.state === 'done' && last.plan !== null) {
      response.redirect(303, `/plans/${last.plan}`);
      return;
    }
    const already = progress !== null && request.query.already !== undefined;
    const told = progress && tellProgress(progress, wordsOf(context, job.id));
    response.render('planning', { job, progress, last, already, told, step: progress && tellStep(progress) });
  });

  router.post('/jobs/:job/stop', readBody, async (request, response) => {
    formOf(context, request);
    const job = jobIn(context, request);
    const ended = waitForEnd(context, job.id);
    if (planning.stop(job.id)) await ended;
    response.redirect(303, `/jobs/${job.id}/planning`);
  });

  router.get('/jobs/:job/progress', (request, response) => {
    const job = jobIn(context, request);
    response.set({ 'Content-Type': 'text/event-stream', 'Cache-Control': 'no-store' });
    response.flushHeaders();
    sendEvents(context, job.id, response);
  });

  return router;
}

/** Streams the progress until the planning ends or the reader leaves. */
function sendEvents(context: Context, job: number, response: Response): void {
  const { planning } = context;
  const words = wordsOf(context, job);
  const send = (progress: Progress | null): void => {
    const data = progress ? { ...progress, told: tellProgress(progress, words), phase: tellStep(progress) } : null;
    response.write(progress ? `event: step\ndata: ${JSON.stringify(data)}\n\n` : 'event: end\ndata: {}\n\n');
    if (!progress) response.end();
  };
  const leave = planning.listen(job, send);
  const beat = setInterval(() => response.write(': \n\n'), HEARTBEAT);
  response.on('close', () => {
    clearInterval(beat);
    leave();
  });
  send(planning.progress(job));
}

/** Resolves when no planning of the job is under way any more, or one is worked out that the disk does not take yet. */
function waitForEnd({ planning }: Context, job: number): Promise<void> {
  return new Promise((resolve) => {
    const leave = planning.listen(job, (progress) => {
      if (progress !== null && progress.state !== 'unkept') return;
      leave();
      resolve();
    });
  });
}

/**
 * What the planner is at, by its own name for it; a name that is not here is told as it is. How many tries it took says nothing
 * to a person: nobody knows how many more there will be.
 */
const STEPS = new Map([
  ['first plan', 'A first plan is being made.'],
  ['plan', 'The voids are being filled.'],
  ['lengths', 'Other lengths are being tried.'],
  ['better', 'Other ways of filling the voids are being tried.'],
  ['fewer stops', 'Fewer saw settings are being tried.'],
]);

function tellStep({ phase, step, value }: Progress): string {
  const isMade = phase === 'first plan' && value !== null;
  return step > 0 ? (isMade ? FIRST_MADE : (STEPS.get(phase) ?? phase)) : '';
}

/** Said until the next step begins. */
const FIRST_MADE = 'A first plan is made; what no plan can pass is being worked out.';

function wordsOf({ store }: Context, job: number): Words {
  return wordsIn(unitsOf(store.settings, job));
}

const UNKEPT =
  'It is worked out, and can not be written down yet: the disk of the machine where kentledge runs is full, may not be written to, or another program is using kentledge’s file. Make room there, or end that program, and leave kentledge running: it is written as soon as that goes.';

/** Progress in words: what a plan is worth so far, and what none can pass. */
function tellProgress({ state, ahead, value, bound }: Progress, { kilograms }: Words): string {
  if (state === 'queued' && ahead === 0) return 'Waiting: it is begun as soon as one of those under way has ended.';
  if (state === 'queued')
    return ahead === 1 ? 'Waiting: one plan is before this one.' : `Waiting: ${ahead} plans are before this one.`;
  if (state === 'unkept') return UNKEPT;
  if (value === null) return 'Looking at the pile and the voids.';
  const worth = `The best plan so far is worth ${kilograms(value)} after scrap and labour`;
  return bound === null ? `${worth}.` : `${worth}; no plan is worth more than ${kilograms(bound)}.`;
}
